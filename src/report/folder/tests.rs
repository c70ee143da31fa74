use super::*;
use crate::batch::Totals;
use crate::report::run_record::{CLAIMS, RECORD, RunRecord};
use tempfile::TempDir;

/// A whole small output under a name, by a run of a number.
fn write(out: &Path, run: u32, text: &str) -> Result<(), Problem> {
    let folder = OutputFolder::begin(out, run)?;
    fill(&folder, text)?;
    folder.swap_in()
}

fn fill(folder: &OutputFolder, text: &str) -> Result<(), Problem> {
    folder.folder(CLAIMS)?;
    let files = vec![folder.put("claims/A-1.html", text.as_bytes())?, folder.put("claims.csv", b"claim\n")?];
    let record = RunRecord::new(&[], &[], None, &Totals::default());
    folder.put(RECORD, &record.to_json(&files, &std::collections::BTreeMap::new()).unwrap()).map(|_| ())
}

fn document(out: &Path) -> String {
    fs::read_to_string(out.join("claims/A-1.html")).unwrap()
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn code<T>(result: Result<T, Problem>) -> &'static str {
    result.err().map_or("none", |problem| problem.code.id)
}

#[test]
fn a_second_run_takes_the_place_of_the_first_and_leaves_nothing_beside_it() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("storm-assessed");
    write(&out, 1, "first").unwrap();
    write(&out, 2, "second").unwrap();
    assert_eq!(document(&out), "second");
    assert_eq!(names(dir.path()), ["storm-assessed"]);
    assert_eq!(names(&out), ["claims", "claims.csv", "run.json"]);
}

#[test]
fn missing_folders_above_the_output_are_made_and_an_empty_folder_is_filled() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("a/b/out");
    fs::create_dir_all(&out).unwrap();
    write(&out, 1, "x").unwrap();
    write(&dir.path().join("c/d/out"), 1, "x").unwrap();
    assert_eq!(document(&out), document(&dir.path().join("c/d/out")));
}

#[test]
fn a_run_that_fails_leaves_the_earlier_output_as_it_was() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    let folder = OutputFolder::begin(&out, 2).unwrap();
    fill(&folder, "half").unwrap();
    assert_eq!(document(&out), "first", "while it is written");
    drop(folder);
    assert_eq!(document(&out), "first");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn a_folder_with_somebody_elses_files_is_refused_untouched() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("photos");
    fs::create_dir(&out).unwrap();
    fs::write(out.join("car.jpg"), "x").unwrap();
    let refused = OutputFolder::begin(&out, 1).unwrap_err();
    assert_eq!(refused.code.id, "output-folder-not-ours");
    assert!(refused.message.contains("car.jpg"), "{}", refused.message);
    assert_eq!(names(&out), ["car.jpg"]);
    assert_eq!(names(dir.path()), ["photos"]);
}

#[test]
fn a_file_or_folder_added_to_an_earlier_output_is_refused_untouched() {
    for added in ["letter.txt", "claims/notes.html", "empty/"] {
        let dir = TempDir::new().unwrap();
        let out = dir.path().join("out");
        write(&out, 1, "first").unwrap();
        if let Some(folder) = added.strip_suffix('/') {
            fs::create_dir(out.join(folder)).unwrap();
        } else {
            fs::write(out.join(added), "mine").unwrap();
        }
        let refused = write(&out, 2, "second").unwrap_err();
        assert_eq!(refused.code.id, "output-folder-not-ours", "{added}");
        assert!(refused.message.contains(added), "{}", refused.message);
        assert_eq!(document(&out), "first");
    }
}

#[test]
fn a_file_of_an_earlier_output_that_was_changed_is_refused_untouched() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    fs::write(out.join("claims/A-1.html"), "fIrst").unwrap();
    assert_eq!(code(write(&out, 2, "second")), "output-file-changed");
    assert_eq!(document(&out), "fIrst");
}

#[test]
fn a_workbook_that_is_open_in_a_spreadsheet_program_has_to_be_closed_first() {
    for lock in [".~lock.claims.csv#", "~$claims.csv"] {
        let dir = TempDir::new().unwrap();
        let out = dir.path().join("out");
        write(&out, 1, "first").unwrap();
        fs::write(out.join(lock), "").unwrap();
        let refused = write(&out, 2, "second").unwrap_err();
        assert_eq!(refused.code.id, "output-file-open");
        assert!(refused.message.contains("/claims.csv is open"), "{}", refused.message);
        assert_eq!(document(&out), "first");
    }
}

#[test]
fn what_a_file_manager_leaves_in_a_folder_is_no_obstacle() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    fs::write(out.join("claims/.DS_Store"), "").unwrap();
    fs::write(out.join("Thumbs.db"), "").unwrap();
    write(&out, 2, "second").unwrap();
    assert_eq!(document(&out), "second");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn a_file_of_an_earlier_output_that_was_deleted_is_no_obstacle() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    fs::remove_file(out.join("claims.csv")).unwrap();
    write(&out, 2, "second").unwrap();
    assert_eq!(document(&out), "second");
}

#[test]
fn a_record_that_names_files_elsewhere_is_not_believed() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    fs::create_dir(&out).unwrap();
    fs::write(dir.path().join("mine.txt"), "mine").unwrap();
    let record = r#"{"tool":"stipple","files":[{"path":"../mine.txt","bytes":4,"sha256":""}]}"#;
    fs::write(out.join(RECORD), record).unwrap();
    assert_eq!(code(OutputFolder::begin(&out, 1)), "output-folder-not-ours");
    assert!(dir.path().join("mine.txt").exists());
}

#[test]
fn a_file_in_the_place_of_the_folder_is_refused() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    fs::write(&out, "x").unwrap();
    assert_eq!(code(OutputFolder::begin(&out, 1)), "output-is-a-file");
}

#[test]
fn a_place_that_cannot_be_written_says_what_to_do() {
    let dir = TempDir::new().unwrap();
    fs::write(dir.path().join("file"), "x").unwrap();
    let refused = OutputFolder::begin(&dir.path().join("file/out"), 1).unwrap_err();
    assert_eq!(refused.code.id, "output-not-written");
    assert!(refused.help.unwrap().contains("--out"));
}

#[test]
fn a_full_disk_a_missing_right_and_an_open_file_each_say_what_to_do() {
    for (kind, wanted) in [
        (io::ErrorKind::StorageFull, "free some space"),
        (io::ErrorKind::PermissionDenied, "close it"),
        (io::ErrorKind::ResourceBusy, "close the program"),
    ] {
        let problem = output::not_written("out", &io::Error::from(kind));
        assert!(problem.help.as_ref().unwrap().contains(wanted), "{problem:?}");
    }
}

#[test]
fn two_runs_do_not_write_one_output_at_once() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    let first = OutputFolder::begin(&out, 1).unwrap();
    assert_eq!(code(OutputFolder::begin(&out, 2)), "output-folder-busy");
    fill(&first, "first").unwrap();
    first.swap_in().unwrap();
    assert_eq!(document(&out), "first");
}

#[test]
fn runs_that_begin_at_one_moment_never_both_write_and_never_lose_the_output() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    for round in 0..20 {
        let begun = std::thread::scope(|scope| {
            let runs: Vec<_> = (0..3)
                .map(|run| {
                    scope.spawn({
                        let out = &out;
                        move || OutputFolder::begin(out, 10 * round + run + 2)
                    })
                })
                .collect();
            runs.into_iter().filter_map(|run| run.join().unwrap().ok()).collect::<Vec<_>>()
        });
        assert!(begun.len() <= 1, "round {round}");
        assert_eq!(document(&out), "first");
    }
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn what_a_killed_run_left_is_removed_by_the_next() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    let left = dir.path().join(".out.writing-77");
    fs::create_dir_all(left.join("claims")).unwrap();
    fs::write(left.join(LOCK), "").unwrap();
    fs::write(left.join("claims/half.html"), "<").unwrap();
    fs::create_dir(dir.path().join(".out.writing-78")).unwrap();
    write(&out, 2, "second").unwrap();
    assert_eq!(document(&out), "second");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn a_run_killed_between_its_renames_is_mended_by_the_next() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    fs::rename(&out, dir.path().join(".out.earlier-77")).unwrap();
    let folder = OutputFolder::begin(&out, 2).unwrap();
    assert_eq!(document(&out), "first", "the earlier output is back before anything is written");
    drop(folder);
    fs::rename(&out, dir.path().join(".out.earlier-78")).unwrap();
    write(&out, 3, "second").unwrap();
    assert_eq!(document(&out), "second");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn a_run_killed_while_it_removed_the_earlier_output_is_mended_by_the_next() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    write(&out, 1, "first").unwrap();
    fs::rename(&out, dir.path().join(".out.earlier-77")).unwrap();
    let earlier = dir.path().join(".out.earlier-77");
    fs::remove_file(earlier.join("claims.csv")).unwrap();
    // The new output was in its place already.
    let other = dir.path().join("other");
    write(&other, 2, "second").unwrap();
    fs::rename(&other, &out).unwrap();
    write(&out, 3, "third").unwrap();
    assert_eq!(document(&out), "third");
    assert_eq!(names(dir.path()), ["out"]);
}

#[test]
fn folders_beside_the_output_that_only_look_like_leftovers_stay() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    for name in [".out.writing-9", ".out.earlier-9", ".out.earlier-x", ".out.writing-1b"] {
        fs::create_dir(dir.path().join(name)).unwrap();
        fs::write(dir.path().join(name).join("mine.txt"), "mine").unwrap();
    }
    write(&out, 1, "first").unwrap();
    assert_eq!(
        names(dir.path()),
        [".out.earlier-9", ".out.earlier-x", ".out.writing-1b", ".out.writing-9", "out"]
    );
}

#[cfg(unix)]
#[test]
fn an_output_behind_a_link_is_replaced_where_it_really_stands() {
    let dir = TempDir::new().unwrap();
    let (real, link) = (dir.path().join("real"), dir.path().join("link"));
    write(&real, 1, "first").unwrap();
    std::os::unix::fs::symlink(&real, &link).unwrap();
    write(&link, 2, "second").unwrap();
    assert_eq!(document(&real), "second");
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
}

#[cfg(unix)]
#[test]
fn a_link_put_into_an_earlier_output_is_not_followed() {
    let dir = TempDir::new().unwrap();
    let (out, elsewhere) = (dir.path().join("out"), dir.path().join("elsewhere"));
    write(&out, 1, "first").unwrap();
    fs::create_dir(&elsewhere).unwrap();
    fs::write(elsewhere.join("mine.txt"), "mine").unwrap();
    std::os::unix::fs::symlink(&elsewhere, out.join("more")).unwrap();
    assert_eq!(code(write(&out, 2, "second")), "output-folder-not-ours");
    assert!(elsewhere.join("mine.txt").exists());
}

//! The plan of the invented storm in the invented workshop, from end to end.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

/// Runs `plan` on these paths into a folder.
pub fn plan(paths: &[&str], date: Option<&str>, out: &Path) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stipple"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).env("NO_COLOR", "1").arg("plan").args(paths);
    command.args(date.map(|date| ["--date", date]).into_iter().flatten());
    command.arg("--out").arg(out).output().unwrap()
}

const DEMO: [&str; 2] = ["demo_claims", "tests/demo_workshop"];

fn text(folder: &Path, file: &str) -> String {
    fs::read_to_string(folder.join(file)).unwrap()
}

#[test]
fn the_invented_storm_is_planned_as_written_down() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("planned");
    let ran = plan(&DEMO, Some("2025-07-07"), &out);
    assert_eq!(ran.status.code(), Some(0), "{}", String::from_utf8_lossy(&ran.stderr));
    let screen = String::from_utf8(ran.stdout).unwrap().replace(out.to_str().unwrap(), "OUT");
    insta::with_settings!({ snapshot_path => "goldens", prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("screen", screen);
        insta::assert_snapshot!("plan", text(&out, "plan.csv"));
        insta::assert_snapshot!("parts", text(&out, "parts.csv"));
    });
}

#[test]
fn everything_that_is_written_says_that_it_is_no_promise() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("planned");
    let ran = plan(&DEMO, Some("2025-07-07"), &out);
    assert!(String::from_utf8_lossy(&ran.stdout).contains("This is a plan, not a promise."));
    let mut names: Vec<String> =
        fs::read_dir(&out).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort_unstable();
    assert_eq!(names, ["parts.csv", "plan.csv", "plan.html", "plan.xlsx", "run.json"]);
    for name in names.iter().filter(|name| *name != "plan.xlsx") {
        assert!(text(&out, name).contains("a plan, not a promise"), "{name}");
    }
    for row in text(&out, "plan.csv").lines().skip(1).chain(text(&out, "parts.csv").lines().skip(1)) {
        assert!(row.ends_with("\"a plan, not a promise\""), "{row}");
    }
}

#[test]
fn the_same_files_give_the_same_bytes_and_an_earlier_plan_is_replaced() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("planned");
    let all = || {
        assert_eq!(plan(&DEMO, Some("2025-07-07"), &out).status.code(), Some(0));
        let mut files: Vec<(String, Vec<u8>)> = fs::read_dir(&out)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .map(|path| (path.display().to_string(), fs::read(path).unwrap()))
            .collect();
        files.sort_unstable();
        files
    };
    assert!(all() == all());
    fs::write(out.join("letter.txt"), "mine").unwrap();
    let ran = plan(&DEMO, Some("2025-07-07"), &out);
    assert_eq!(ran.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("output-folder-not-ours"));
}

#[test]
fn cars_of_one_lot_follow_one_another_and_every_claim_is_planned_or_has_its_reason() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("planned");
    plan(&DEMO, Some("2025-07-07"), &out);
    let page = text(&out, "plan.html");
    let rows: Vec<&str> = page.lines().filter(|line| line.starts_with("<tr id=\"car")).collect();
    let of_lot: Vec<usize> =
        (0..rows.len()).filter(|number| rows[*number].contains("Brackmoor Motors, front yard")).collect();
    assert_eq!(of_lot.len(), 3);
    assert_eq!(of_lot[2] - of_lot[0], 2, "{of_lot:?}");
    for (claim, why) in [
        ("VM-25-0411", "the owner takes money in place of the repair"),
        ("VM-25-0413", "a person has to decide something on it first"),
        ("VM-25-0415", "total loss"),
        ("HR-3306", "total loss"),
    ] {
        let row = page.lines().find(|line| line.contains(&format!("<bdi>{claim}</bdi></th>"))).unwrap();
        assert!(row.contains(why), "{row}");
    }
    assert_eq!(rows.len() + 4, 13);
}

#[test]
fn tables_of_a_workshop_change_nothing_for_other_commands() {
    let check = |paths: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_stipple"));
        let ran = command.current_dir(env!("CARGO_MANIFEST_DIR")).arg("check").args(paths).output().unwrap();
        let text = String::from_utf8(ran.stdout).unwrap();
        // Only how many files and sheets were read differs, and that each folder has a page that is no spreadsheet.
        let differs = |line: &&str| line.starts_with("Read") || line.contains("files-left-out");
        (ran.status.code(), text.lines().filter(|line| !differs(line)).map(str::to_owned).collect::<Vec<_>>())
    };
    assert_eq!(check(&["demo_claims", "tests/demo_workshop"]), check(&["demo_claims"]));
}

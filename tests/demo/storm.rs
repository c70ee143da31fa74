//! What each stage makes of the invented storm, exactly and readably, and what follows when one price is taken away. Also
//! sheets that somebody wrote who had seen only the README.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

fn stipple(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_stipple"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(args)
        .output()
        .unwrap()
}

/// Assesses what stands at a path into a folder of this name; the folder that was written, and the exit code.
fn assessed(path: &str, dir: &TempDir, name: &str) -> (PathBuf, i32) {
    let out = dir.path().join(name);
    let ran = stipple(&["assess", path, "--out", out.to_str().unwrap(), "--write", "claims,panels,lines"]);
    (out, ran.status.code().unwrap())
}

fn text(folder: &Path, file: &str) -> String {
    fs::read_to_string(folder.join(file)).unwrap()
}

/// The value of a column in the row whose first cells are these.
fn cell(csv: &str, key: &[&str], column: &str) -> String {
    let mut rows = csv::Reader::from_reader(csv.as_bytes());
    let at = rows.headers().unwrap().iter().position(|heading| heading == column).unwrap();
    let found = rows.records().map(Result::unwrap).find(|row| key.iter().zip(row).all(|(a, b)| *a == b));
    found.unwrap_or_else(|| panic!("no row {key:?}"))[at].to_owned()
}

#[test]
fn every_stage_of_the_invented_storm_comes_out_as_written_down() {
    insta::with_settings!({ snapshot_path => "goldens", prepend_module_to_snapshot => false, omit_expression => true }, {
        for (name, path) in [
            ("schedule-veldergate", "demo_claims/schedules/veldergate_mutual.xlsx"),
            ("schedule-hobbin", "demo_claims/schedules/hobbin_and_rusk"),
            ("schedule-house", "demo_claims/schedules/house_prices.xlsx"),
        ] {
            let shown = stipple(&["schedule", "show", path]);
            assert_eq!(shown.status.code(), Some(0), "{path}");
            insta::assert_snapshot!(name, String::from_utf8(shown.stdout).unwrap());
        }
        let dir = TempDir::new().unwrap();
        let (out, code) = assessed("demo_claims", &dir, "out");
        assert_eq!(code, 0);
        for file in ["claims.csv", "panels.csv", "lines.csv"] {
            insta::assert_snapshot!(file, text(&out, file));
        }
        let explained = stipple(&["explain", "demo_claims", "--claim", "VM-25-0412", "--panel", "bonnet"]);
        insta::assert_snapshot!("explain-bonnet", String::from_utf8(explained.stdout).unwrap());
    });
}

#[test]
fn without_a_quoted_price_the_typical_one_steps_in_and_is_said_to_be_typical() {
    let dir = TempDir::new().unwrap();
    let (as_written, _) = assessed("demo_claims", &dir, "out");
    let hood = ["VM-25-0412", "hood"];
    assert_eq!(cell(&text(&as_written, "panels.csv"), &hood, "method"), "replace");

    let copy = dir.path().join("storm");
    copy_folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_claims"), &copy);
    let parts = copy.join("storm/parts.csv");
    let without =
        fs::read_to_string(&parts).unwrap().replace("VM-25-0412;hood;;438,60;", "VM-25-0412;hood;;;");
    fs::write(&parts, without).unwrap();
    // The schedule's typical price steps in, and the document says that it is typical.
    let (typical, _) = assessed(copy.to_str().unwrap(), &dir, "after");
    let panels = text(&typical, "panels.csv");
    assert_eq!(cell(&panels, &hood, "typical prices"), "yes");
    assert_ne!(
        cell(&panels, &hood, "replace"),
        cell(&text(&as_written, "panels.csv"), &hood, "replace"),
        "the typical price is another one"
    );
}

#[test]
fn where_nobody_knows_a_price_that_way_neither_wins_nor_loses() {
    let dir = TempDir::new().unwrap();
    let copy = dir.path().join("storm");
    copy_folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_claims"), &copy);
    let sliding_door = ["HR-3303", "left sliding door"];
    let (before, _) = assessed(copy.to_str().unwrap(), &dir, "before");
    assert_eq!(cell(&text(&before, "panels.csv"), &sliding_door, "method"), "replace");

    let typical = copy.join("schedules/hobbin_and_rusk/typical_prices.csv");
    let without = fs::read_to_string(&typical).unwrap().replace("sliding door,,655.00,", "sliding door,,,");
    fs::write(&typical, without).unwrap();
    let (after, code) = assessed(copy.to_str().unwrap(), &dir, "after");
    assert_eq!(code, 0);
    let panels = text(&after, "panels.csv");
    assert_eq!(cell(&panels, &sliding_door, "replace"), "", "not priced");
    assert_ne!(cell(&panels, &sliding_door, "method"), "replace");
    assert_ne!(cell(&panels, &sliding_door, "amount"), "", "another way decides and is priced");
}

#[test]
fn sheets_by_somebody_who_had_seen_only_the_readme_read_unchanged() {
    let dir = TempDir::new().unwrap();
    let (out, code) = assessed("tests/demo/first_sheets", &dir, "out");
    assert_eq!(code, 0, "{}", text(&out, "exceptions.csv"));
    let claims = text(&out, "claims.csv");
    let gross = |claim: &str| cell(&claims, &[claim], "gross");
    assert_eq!(
        ["TV-101", "TV-102", "TV-103", "TV-104", "TV-105"].map(gross),
        ["802.80", "326.40", "440.40", "644.40", "172.80"]
    );
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap) {
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy_folder(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

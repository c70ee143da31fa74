//! Long text files, whose claims are read some at a time: what is said of them is what is said of the same rows held
//! whole.

use super::fixture::{rates, storm};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

const CARS: usize = 402;

/// The second person keeps numbers of their own for every third car, which its registration then joins.
fn batch(folder: &Path) {
    fs::create_dir(folder).unwrap();
    let is_renamed = |car: usize| car.is_multiple_of(3);
    let mut counts = storm(CARS, &[("Ilka Sund", "own"), ("Per Marrow", "own")]);
    let mut vehicles = "claim,registration,insurer,make,model,body type,date of loss,remark\n".to_owned();
    let remark = "seen under a board of stripes from two sides and photographed; ".repeat(8);
    for car in 1..=CARS {
        for key in ["EX", "SX"].into_iter().take(1 + usize::from(is_renamed(car))) {
            writeln!(
                vehicles,
                "{key}-{car:03},ZZ {car:03},Hobbin & Rusk,Example,One,saloon,2025-06-{:02},{remark}",
                1 + car % 28
            )
            .unwrap();
        }
        if is_renamed(car) {
            counts = counts.replace(&format!("EX-{car:03},Per"), &format!("SX-{car:03},Per"));
        }
    }
    // One cell that cannot be read, in a claim that is then left out.
    counts.push_str("EX-007,Per Marrow,own,roof rail,left,many,0,0\n");
    for (name, text) in [("counts.csv", counts), ("vehicles.csv", vehicles)] {
        // Longer than what is held: 256 KiB, see the page of reading.
        fs::write(folder.join(name), &text).unwrap();
        assert!(text.len() > 256 << 10, "{name}: {}", text.len());
    }
}

/// What the program prints, and what it writes by name.
fn run(command: &[&str], folder: &Path, out: Option<&Path>) -> (String, Vec<(String, Vec<u8>)>) {
    let mut program = Command::new(env!("CARGO_BIN_EXE_stipple"));
    program.args(command).arg(folder).arg("--schedule").arg(rates());
    let mut written = Vec::new();
    if let Some(out) = out {
        program.arg("--out").arg(out);
    }
    let ran = program.output().unwrap();
    for name in ["pairs.csv", "panels.csv", "money.csv", "statistics.csv", "to_agree.csv", "letter.html"] {
        if let Some(out) = out {
            written.push((name.to_owned(), fs::read(out.join(name)).unwrap()));
        }
    }
    (String::from_utf8(ran.stdout).unwrap() + &String::from_utf8(ran.stderr).unwrap(), written)
}

#[test]
fn claims_of_long_files_are_compared_as_if_they_were_held() {
    let dir = tempfile::tempdir().unwrap();
    let (long, held) = (dir.path().join("a/batch"), dir.path().join("b/batch"));
    for folder in [&long, &held] {
        fs::create_dir_all(folder.parent().unwrap()).unwrap();
        batch(folder);
    }
    // A word of one's own holds for all files, so that every one of them is held.
    fs::write(held.join("words.csv"), "word,meaning\nquux,hood\n").unwrap();
    let compared = |folder: &Path| run(&["compare"], folder, Some(&folder.parent().unwrap().join("out")));
    let ((told, files), (expected, of_held)) = (compared(&long), compared(&held));
    let cars = format!("{} cars of {}", CARS - 1, CARS + CARS / 3);
    assert!(told.contains(&cars), "{told}");
    let place = |text: &str, of: &Path| text.replace(of.parent().unwrap().to_str().unwrap(), "");
    let without_sources = |text: String| -> Vec<String> {
        text.lines().filter(|line| !line.contains("words.csv")).map(str::to_owned).collect()
    };
    assert_eq!(without_sources(place(&told, &long)), without_sources(place(&expected, &held)));
    for ((name, ours), (_, theirs)) in files.iter().zip(&of_held) {
        assert!(ours == theirs, "{name} differs");
    }
    assert!(String::from_utf8_lossy(&files[0].1).contains("registration"));
    let sampled = |folder: &Path| run(&["sample", "--seed", "hail"], folder, None);
    assert_eq!(sampled(&long).0, sampled(&held).0);
}

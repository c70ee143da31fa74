//! Counts that no schedule prices: compared by themselves, exactly where bands allow, as an interval where they do not,
//! and said on the first page.

use super::fixture::{rates, vehicles};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// Two people's bands share the edges 0, 20 and 40 alone. Summed by hand: below 20 mm 10 against 11, above 2 against 5 on
/// the hood; 4 against 4 and 0 against 1 on the roof.
const MINE: &str = "claim,assessor,panel,0-10 mm,11-20 mm,21-40 mm\nEX-001,Ilka Sund,hood,7,3,2\n\
                    EX-001,Ilka Sund,roof,4,0,0\n";
const THEIRS: &str = "claim,assessor,role,panel,0-20 mm,20-30 mm,30-40 mm\nEX-001,Per Marrow,second,hood,11,1,4\n\
                      EX-001,Per Marrow,second,roof,4,1,0\n";
/// A column of 10-40 mm lies over two edges of the demonstration's schedule (17 and 29 mm).
const COARSE: &str = "claim,assessor,role,panel,0-10 mm,10-40 mm\nEX-001,Per Marrow,second,hood,11,5\n";
const PLAIN: &str = "claim,assessor,panel,0-17 mm,17-29 mm,29-46 mm\nEX-001,Ilka Sund,hood,12,3,1\n";

fn compared(folder: &Path, files: &[(&str, &str)], has_rates: bool) -> Output {
    let input = folder.join("in");
    fs::create_dir(&input).unwrap();
    for (name, text) in files {
        fs::write(input.join(name), text).unwrap();
    }
    let mut program = Command::new(env!("CARGO_BIN_EXE_stipple"));
    program.arg("compare").arg(input).arg("--out").arg(folder.join("out"));
    if has_rates {
        program.arg("--schedule").arg(rates());
    }
    program.output().unwrap()
}

#[test]
fn without_a_schedule_counts_are_compared_in_the_bands_that_both_have() {
    let dir = tempfile::tempdir().unwrap();
    let ran = compared(dir.path(), &[("mine.csv", MINE), ("theirs.csv", THEIRS)], false);
    let told = String::from_utf8_lossy(&ran.stdout);
    // Nobody gave a table of vehicles, either, which is asked for and takes nothing from the counts.
    assert_eq!(ran.status.code(), Some(1), "{told}{}", String::from_utf8_lossy(&ran.stderr));
    assert!(told.contains("no schedule prices them"), "{told}");
    let rows = fs::read_to_string(dir.path().join("out/counts_alone.csv")).unwrap();
    let of_hood: Vec<&str> = rows.lines().filter(|row| row.contains(",hood,")).collect();
    assert_eq!(
        of_hood,
        [
            "EX-001,hood,Ilka Sund,Per Marrow,,12,12,16,16,-4,-4",
            "EX-001,hood,Ilka Sund,Per Marrow,0-20 mm,10,10,11,11,-1,-1",
            "EX-001,hood,Ilka Sund,Per Marrow,20-40 mm,2,2,5,5,-3,-3",
        ]
    );
    let page = fs::read_to_string(dir.path().join("out/comparison.html")).unwrap();
    for said in ["Bands of rates, decisions and money are left out", "EX-001: hood (−4 dents)", "20-40 mm"]
    {
        assert!(page.contains(said), "{said}");
    }
    assert!(!page.contains("NaN"));
    let letter = fs::read_to_string(dir.path().join("out/letter.html")).unwrap();
    assert!(letter.contains("dents alone are compared") && letter.contains("We suggest"), "{letter}");
    assert!(!letter.contains("rated by the same schedule"));
    let agree = fs::read_to_string(dir.path().join("out/to_agree.html")).unwrap();
    assert!(agree.contains("Nothing is priced") && !agree.contains("are the same on every panel"));
    let data: serde_json::Value =
        serde_json::from_str(&fs::read_to_string(dir.path().join("out/comparison.json")).unwrap()).unwrap();
    assert_eq!(data["by_counts"]["bands"][1]["lowest_difference"], -4);
    assert_eq!(data["overall"]["panels"], 2);
}

#[test]
fn a_column_over_an_edge_of_the_schedule_is_an_interval_and_no_number() {
    let dir = tempfile::tempdir().unwrap();
    let files = [("vehicles.csv", &*vehicles(1)), ("mine.csv", PLAIN), ("theirs.csv", COARSE)];
    let ran = compared(dir.path(), &files, true);
    let told = String::from_utf8_lossy(&ran.stdout);
    // That the schedule cannot price it is still to be mended.
    assert_eq!(ran.status.code(), Some(1), "{told}{}", String::from_utf8_lossy(&ran.stderr));
    let rows = fs::read_to_string(dir.path().join("out/counts_alone.csv")).unwrap();
    let rows: Vec<&str> = rows.lines().skip(1).collect();
    assert_eq!(
        rows,
        [
            "EX-001,hood,Ilka Sund,Per Marrow,,16,16,16,16,0,0",
            "EX-001,hood,Ilka Sund,Per Marrow,0-17 mm,12,12,11,16,-4,1",
            "EX-001,hood,Ilka Sund,Per Marrow,17-29 mm,3,3,0,5,-2,3",
            "EX-001,hood,Ilka Sund,Per Marrow,29-46 mm,1,1,0,5,-4,1",
            "EX-001,hood,Ilka Sund,Per Marrow,over 46 mm,0,0,0,0,0,0",
        ]
    );
    let page = fs::read_to_string(dir.path().join("out/comparison.html")).unwrap();
    for said in ["compared by counts alone", "−4 to +1", "the lowest and the highest difference"] {
        assert!(page.contains(said), "{said}");
    }
}

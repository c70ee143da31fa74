//! Slips in the layout of a table: what stands outside its columns and rows is never dropped quietly.

use crate::{Run, panel, tally};

#[test]
fn numbers_below_a_blank_heading_are_asked_about_once_in_each_claim_that_has_one() {
    let run = Run::counts(
        "claim,panel,0-10 mm,,21-30 mm\nA-1,hood,8,,\nA-2,roof,3,4,5\nA-2,hood,1,2,\nA-3,roof,3,,\n",
    );
    assert_eq!(run.of_claim("A-2"), ["column-unheaded counts.csv D3"]);
    let question = &run.intake("A-2").problems[0];
    assert!(question.message.contains("column D"), "{}", question.message);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_claim("A-3"), Vec::<String>::new());
    assert_eq!(run.of_files(), Vec::<String>::new(), "asked about, so no unread text");
    let numbered = Run::counts(",claim,panel,0-10 mm\n1,A-1,hood,8\n2,A-2,roof,3\n");
    assert_eq!(numbered.of_claim("A-1"), Vec::<String>::new(), "a column that numbers the rows");
    assert_eq!(numbered.of_files(), ["text-unread counts.csv A2"]);
}

#[test]
fn a_row_that_stands_in_one_cell_takes_the_claim_out_that_it_names() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\nA-2;roof;3\n\"X-9,roof,3\"\nA-3,roof,3\n");
    assert_eq!(
        run.of_claim("A-2"),
        ["row-run-together counts.csv A3"]
    );
    assert_eq!(run.of_files(), ["row-run-together counts.csv A4"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let below = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\n\nCounted, checked, 14\n");
    assert_eq!(below.of_files(), ["text-unread counts.csv A4"], "a note below the table stays one");
}

#[test]
fn a_key_fills_down_only_over_rows_that_stand_together() {
    for between in [",,", "total,,9", "second car,,", ",,\n,,"] {
        let run = Run::counts(&format!(
            "claim,panel,0-10 mm\nA-1,hood,8\n,roof,1\n{between}\n,decklid,2\n,left fender,2\n"
        ));
        let row = 5 + between.matches('\n').count();
        assert_eq!(
            run.of_claim("A-1"),
            [format!("key-parted counts.csv row {row}"), format!("key-parted counts.csv row {}", row + 1)],
            "{between}"
        );
        assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(8))]);
        assert_eq!(run.claim("A-1").inspections[0].panels.len(), 2, "{between}");
    }
    let own = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\n\nA-2,roof,1\n,hood,2\n");
    assert_eq!(own.of_claim("A-2"), Vec::<String>::new());
}

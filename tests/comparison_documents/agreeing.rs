//! The sheet to agree on, filled in, comes back as a count with the role agreed.

use super::fixture::{COUNTS, Case, receive, vehicles};
use calamine::{Data, Reader, Xlsx, open_workbook};
use std::path::{Path, PathBuf};
use stipple::assess::{Assessment, Silent, assess, choose_schedule};
use stipple::claim::{PanelKind, Role};
use stipple::problem::Severity;
use stipple::report::comparison::adjudication;
use stipple::report::folder::OutputFolder;
use stipple::report::workbook::to_agree;

/// The own count and a second one; they differ on hood and roof.
const ROWS: &str = "EX-001,Ilka Sund,own,hood,,30,4,0\nEX-001,Ilka Sund,own,roof,,12,2,0\nEX-001,Ilka Sund,own,fender,left,3,0,0\n\
                    EX-001,Per Marrow,second,hood,,61,4,0\nEX-001,Per Marrow,second,roof,,40,2,0\n\
                    EX-001,Per Marrow,second,fender,left,3,0,0\n";

/// Writes the sheet of a case, and returns its cells.
fn sheet(case: &Case, dir: &Path) -> Vec<Vec<Data>> {
    let folder = OutputFolder::begin(&dir.join("out"), 1).unwrap();
    let tables = adjudication::tables(&case.compared());
    assert!(to_agree::write(&case.compared(), &tables, &folder, "to_agree.xlsx").unwrap().is_some());
    let mut book: Xlsx<_> = open_workbook(folder.path().join("to_agree.xlsx")).unwrap();
    book.worksheet_range("To agree").unwrap().rows().map(<[Data]>::to_vec).collect()
}

/// The same sheet with these dents filled in on the row of a panel.
fn filled(cells: &[Vec<Data>], panel: &str, dents: &[(&str, f64)], to: &Path) {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    let headings = cells.iter().find(|row| row.contains(&Data::String("panel".to_owned()))).unwrap();
    for (row, values) in (0..).zip(cells) {
        let is_panel = values.contains(&Data::String(panel.to_owned()));
        for (column, value) in (0..).zip(values) {
            let heading = headings[usize::from(column)].to_string();
            let agreed = dents.iter().find(|(size, _)| is_panel && *size == heading);
            if let Some((_, agreed)) = agreed {
                sheet.write_number(row, column, *agreed).unwrap();
            } else if *value != Data::Empty {
                sheet.write_string(row, column, value.to_string()).unwrap();
            }
        }
    }
    book.save(to).unwrap();
}

fn assessed(paths: &[PathBuf]) -> (Assessment, super::fixture::Batch) {
    let batch = receive(paths);
    let claim = &batch.intakes[0].claim;
    let schedule = choose_schedule(claim, &batch.schedules, None).unwrap();
    let assessment = assess(claim, &batch.schedules[schedule], schedule, None, &mut Silent).unwrap();
    (assessment, batch)
}

#[test]
fn a_filled_in_sheet_is_read_as_an_agreed_count_and_what_is_left_blank_changes_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let counts = format!("{COUNTS}{ROWS}");
    let cells = sheet(&Case::of(&vehicles(1), &counts), dir.path());
    let panels: Vec<String> = cells.iter().skip(3).map(|row| row[2].to_string()).collect();
    assert_eq!(panels, ["hood", "roof"], "only what differs stands on the sheet");
    let paths = ["vehicles.csv", "counts.csv", "agreed.xlsx"].map(|name| dir.path().join(name));
    std::fs::write(&paths[0], vehicles(1)).unwrap();
    std::fs::write(&paths[1], counts).unwrap();
    filled(&cells, "hood", &[("0-17 mm", 45.0), ("17-29 mm", 4.0), ("29-46 mm", 0.0)], &paths[2]);
    let (assessment, batch) = assessed(&paths);
    let problems = batch.problems.iter().chain(&batch.intakes[0].problems);
    // What stands beside to help people is known, and read past on purpose.
    for problem in problems {
        assert!(problem.severity() < Severity::Warning, "{}", problem.message);
    }
    let inspections = &batch.intakes[0].claim.inspections;
    let of = |kind: PanelKind| assessment.panels.iter().find(|panel| panel.panel.kind == kind).unwrap();
    assert_eq!(of(PanelKind::Hood).dents, 49);
    assert_eq!(inspections[of(PanelKind::Hood).inspection].role(), Role::Agreed);
    assert_eq!(of(PanelKind::Roof).dents, 14, "left blank");
    assert_eq!(inspections[of(PanelKind::Roof).inspection].role(), Role::Own);
    assert_eq!(of(PanelKind::Fender).dents, 3);
}

/// Codes of what is said of a claim whose agreed rows stand in two files, the second with this many small dents.
fn agreed_in_two_files(small: u32) -> (Vec<&'static str>, Option<u32>) {
    let dir = tempfile::tempdir().unwrap();
    let paths = ["vehicles.csv", "counts.csv", "agreed.csv", "again.csv"].map(|name| dir.path().join(name));
    let agreed = |small: u32| format!("{COUNTS}EX-001,,agreed,hood,,{small},4,0\nEX-001,,agreed,roof,,,,\n");
    std::fs::write(&paths[0], vehicles(1)).unwrap();
    std::fs::write(&paths[1], format!("{COUNTS}{ROWS}")).unwrap();
    std::fs::write(&paths[2], agreed(45)).unwrap();
    std::fs::write(&paths[3], agreed(small)).unwrap();
    let batch = receive(&paths);
    let intake = &batch.intakes[0];
    let codes = intake.problems.iter().map(|problem| problem.code.id).collect();
    let is_hood = |panel: &&stipple::assess::PanelAssessment| panel.panel.kind == PanelKind::Hood;
    let dents = (!intake.is_stopped())
        .then(|| assessed(&paths).0.panels.iter().find(is_hood).map(|hood| hood.dents))
        .flatten();
    (codes, dents)
}

#[test]
fn agreed_rows_in_two_files_are_taken_once_where_they_are_alike_and_stop_the_claim_where_not() {
    assert_eq!(agreed_in_two_files(45), (vec!["agreed-twice"], Some(49)));
    assert_eq!(agreed_in_two_files(46), (vec!["panel-twice"], None));
}

#[test]
fn an_empty_sheet_changes_no_amount() {
    let dir = tempfile::tempdir().unwrap();
    let counts = format!("{COUNTS}{ROWS}");
    let cells = sheet(&Case::of(&vehicles(1), &counts), dir.path());
    let paths = ["vehicles.csv", "counts.csv", "agreed.xlsx"].map(|name| dir.path().join(name));
    std::fs::write(&paths[0], vehicles(1)).unwrap();
    std::fs::write(&paths[1], counts).unwrap();
    let before = assessed(&paths[..2]).0.totals;
    filled(&cells, "hood", &[], &paths[2]);
    let after = assessed(&paths).0.totals;
    assert_eq!((before.net, before.gross), (after.net, after.gross));
}

#[test]
fn nothing_to_agree_on_writes_no_sheet() {
    let dir = tempfile::tempdir().unwrap();
    let folder = OutputFolder::begin(&dir.path().join("out"), 1).unwrap();
    let case = super::fixture::equal();
    let tables = adjudication::tables(&case.compared());
    assert!(to_agree::write(&case.compared(), &tables, &folder, "to_agree.xlsx").unwrap().is_none());
}

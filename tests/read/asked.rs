//! What only people know: asked, answered, and done as they said.

use crate::{Run, VEHICLES, panel, tally, write};
use rust_xlsxwriter::{Workbook, Worksheet};
use stipple::read::{arrange, forms, gather, questions};
use stipple::table::recognise;
use tempfile::tempdir;

fn fill(sheet: &mut Worksheet, rows: &[&[&str]]) {
    for (row, cells) in (0..).zip(rows) {
        for (column, text) in (0..).zip(*cells) {
            sheet.write_string(row, column, *text).unwrap();
        }
    }
}

/// A workbook whose sheet hides a row, with a hidden sheet beside it, and a column map.
fn with_hidden_parts(map: &str) -> Run {
    let mut book = Workbook::new();
    let shown = book.add_worksheet();
    fill(shown, &[&["claim", "panel", "0-10 mm"], &["A-1", "roof", "4"], &["A-1", "hood", "5"]]);
    shown.set_row_hidden(2).unwrap();
    let hidden = book.add_worksheet();
    fill(hidden, &[&["claim", "panel", "0-10 mm"], &["A-1", "LF door", "9"]]);
    hidden.set_hidden(true);
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", &book.save_to_buffer().unwrap());
    write(folder.path(), "map.csv", map.as_bytes());
    write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    Run::of(&[folder.path().to_owned()])
}

fn panels(run: &Run) -> Vec<String> {
    run.claim("A-1").inspections[0].panels.iter().map(|panel| panel.panel.to_string()).collect()
}

#[test]
fn hidden_parts_are_read_where_somebody_asked_for_them() {
    let run = with_hidden_parts("word,means\nnothing,0\n");
    assert_eq!(panels(&run), ["roof"]);
    assert_eq!(run.of_files()[..2], ["part-hidden counts.xlsx Sheet1!A3", "sheet-hidden counts.xlsx Sheet2"]);
    let run = with_hidden_parts("word,means\nhidden,read\n");
    assert_eq!(panels(&run).len(), 3);
    assert_eq!(
        run.of_files()[..2],
        ["hidden-answered counts.xlsx Sheet1", "hidden-answered counts.xlsx Sheet2"]
    );
    let run = with_hidden_parts(
        "word,means,sheet,file\nhidden,read,Sheet1,counts.xlsx\nhidden,left out,Sheet2,counts.xlsx\n",
    );
    assert_eq!(panels(&run), ["hood", "roof"]);
}

/// Questions with their answers: what they are about, and what each answer changes.
pub fn asked(run: &Run) -> Vec<String> {
    let arranged = arrange(&run.opened.sheets, &run.opened.sources, forms());
    let tables: Vec<_> = arranged.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    let (intakes, problems) = gather(&tables, &run.opened.sources);
    let of_claims = intakes.iter().flat_map(|intake| &intake.problems);
    let all = arranged.problems.iter().chain(&problems).chain(of_claims);
    questions(all, &intakes, &tables, (&run.opened.sheets, &run.opened.sources), &[], |_| true)
        .into_iter()
        .map(|question| {
            let answers: Vec<String> =
                question.choices.iter().map(|(answer, effect)| format!("{answer}: {effect}")).collect();
            let about = question.word.or(question.heading).unwrap_or_default();
            format!("{about} -> {}", answers.join("; "))
        })
        .collect()
}

#[test]
fn hidden_parts_are_asked_about_with_the_dents_that_stand_in_them() {
    assert_eq!(
        asked(&with_hidden_parts("word,means\nnothing,0\n")),
        [
            "hidden -> left out: 5 dents stay out, as now; read: 5 dents more are read",
            "hidden -> left out: 9 dents stay out, as now; read: 9 dents more are read",
        ]
    );
}

#[test]
fn a_panel_counted_twice_is_asked_about_once_with_the_dents_of_each_row() {
    let counts = "claim,panel,0-10 mm,11-20 mm\nA-1,hood,12,3\nA-1,roof,1,1\nA-1,hood,14,2\n";
    let run = Run::texts(&[("counts.csv", counts), ("vehicles.csv", VEHICLES)]);
    assert_eq!(
        asked(&run),
        [
            "rows 2, 4 -> row 2: its 15 dents count, the others nowhere; row 4: its 16 dents count, the others nowhere"
        ]
    );
    let map = "word,means,file\n\"rows 2, 4\",row 2,counts.csv\n";
    let run = Run::texts(&[("counts.csv", counts), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(12)), ("11-20 mm", Some(3))]);
}

#[test]
fn columns_without_a_heading_are_asked_about_by_their_letters() {
    let run = Run::texts(&[("counts.csv", "claim,panel,0-10 mm,\nA-1,hood,12,3\n"), ("v.csv", VEHICLES)]);
    assert_eq!(asked(&run), ["column D -> left out: 3 dents not counted"]);
}

#[test]
fn near_and_off_offer_both_sides() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,n/s fender,12\n");
    let offered = asked(&run);
    assert!(offered[0].starts_with("n/s fender -> left fender: "), "{offered:?}");
    assert!(offered[0].contains("; right fender: "), "{offered:?}");
}

#[test]
fn work_among_counts_is_asked_about() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,roof,R&I\n");
    assert_eq!(run.of_claim("A-1"), ["work-in-counts counts.csv C2"]);
    let run = Run::counts("claim,panel,0-10 mm,R&R\nA-1,roof,4,x\n");
    assert_eq!(run.of_claim("A-1"), ["work-in-counts counts.csv D1"]);
}

#[test]
fn a_label_beside_a_table_is_named() {
    let run = Run::counts("claim,panel,0-10 mm,,,\nA-1,roof,4,,Insurer:,Alder Mutual\n");
    assert!(run.of_files().contains(&"label-beside counts.csv E2".to_owned()), "{:?}", run.of_files());
}

#[test]
fn a_sheet_name_that_may_be_a_time_is_no_registration_quietly() {
    let of = |name: &str, above: &[&str]| {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        sheet.set_name(name).unwrap();
        fill(sheet, &[above, &["panel", "0-10 mm"], &["roof", "4"]]);
        let folder = tempdir().unwrap();
        write(folder.path(), "a.xlsx", &book.save_to_buffer().unwrap());
        let run = Run::of(&[folder.path().to_owned()]);
        run.intakes[0].problems.iter().any(|problem| problem.code.id == "sheet-name-open")
    };
    assert!(of("Q1 26", &[]));
    assert!(!of("AB12 CDE", &[]));
    assert!(!of("Q1 26", &["Make:", "Larch"]), "something else says that it is a car");
}

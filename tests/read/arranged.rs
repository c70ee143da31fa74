//! Sheets that have to be put upright, parted, or asked about before they are tables.

use crate::{Run, VEHICLES, panel, said, tally, write};
use rust_xlsxwriter::Workbook;
use stipple::claim::{KeyKind, Role};
use stipple::read::{arrange, forms, gather, open, questions, understood};
use stipple::table::recognise;
use tempfile::tempdir;

/// A workbook of one form per sheet: names of sheets, and the lines of each, cells parted by `|`.
fn workbook(sheets: &[(&str, &str)]) -> Vec<u8> {
    let mut book = Workbook::new();
    for (name, text) in sheets {
        let sheet = book.add_worksheet();
        sheet.set_name(*name).unwrap();
        for (row, line) in (0..).zip(text.lines()) {
            for (column, cell) in (0..).zip(line.split('|').map(str::trim)) {
                match cell.parse::<u32>() {
                    Ok(number) => sheet.write_number(row, column, number).unwrap(),
                    Err(_) => sheet.write_string(row, column, cell).unwrap(),
                };
            }
        }
    }
    book.save_to_buffer().unwrap()
}

const COUNTS: &str = "Make: | Larch | Owner: | Ann Sample\nAssessor: | Ben Example\n\nPanel | 0-10 mm | 11-20 mm\nBonnet | 12 | 3\nRoof | 30 | 8\nTotal | 42 | 11";

#[test]
fn a_workbook_of_forms_is_a_car_for_each_sheet_by_the_sheets_name() {
    let folder = tempdir().unwrap();
    let book = workbook(&[("AB 12 CDE", COUNTS), ("XY15 ZZT", COUNTS), ("Notes", "Call the owner")]);
    write(folder.path(), "day one.xlsx", &book);
    write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[folder.path().to_owned()]);
    // The first is a registration of the table of vehicles, the second can be nothing else.
    let listed = run.claim("A-1");
    assert_eq!(listed.key.kind, KeyKind::ClaimNumber);
    assert_eq!(tally(panel(listed, "hood")), [("0-10 mm", Some(12)), ("11-20 mm", Some(3))]);
    let other = run.claim("XY15 ZZT");
    assert_eq!(other.key.kind, KeyKind::Registration);
    assert_eq!(other.parties.owner.as_ref().unwrap().value, "Ann Sample");
    assert_eq!(other.inspections[0].assessor.as_ref().unwrap().value, "Ben Example");
    assert!(run.of_files().contains(&"sheet-as-registration day one.xlsx XY15 ZZT".to_owned()));
    assert!(run.of_files().contains(&"nothing-recognised day one.xlsx Notes".to_owned()));
}

#[test]
fn a_sheet_whose_name_may_be_anything_stays_a_job_by_itself() {
    let folder = tempdir().unwrap();
    write(folder.path(), "cars.xlsx", &workbook(&[("Sheet1", COUNTS), ("June 2026", COUNTS)]));
    let run = Run::of(&[folder.path().to_owned()]);
    assert!(run.intakes.iter().all(|intake| intake.claim.key.kind == KeyKind::Sheet));
    assert_eq!(run.intakes.len(), 2);
}

#[test]
fn hidden_rows_and_columns_are_told_and_not_read() {
    let folder = tempdir().unwrap();
    let text =
        "claim,panel,0-10 mm,11-20 mm,21-30 mm\nA-1,hood,12,3,9\nA-1,roof,30,8,9\nA-1,LF door,99,99,9\n";
    write(folder.path(), "counts.csv", text.as_bytes());
    let mut opened = open(&[folder.path().to_owned()]);
    opened.sheets[0].hidden_rows.insert(4);
    opened.sheets[0].hidden_columns.insert(5);
    let arranged = arrange(&opened.sheets, &opened.sources, forms());
    let told: Vec<String> = arranged.problems.iter().map(|problem| said(problem, &opened.sources)).collect();
    assert_eq!(told, ["part-hidden counts.csv E1"]);
    assert_eq!(arranged.problems[0].message, "1 hidden row and 1 hidden column with 8 cells were not read");
    let tables: Vec<_> = arranged.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    let (intakes, _) = gather(&tables, &opened.sources);
    let panels = &intakes[0].claim.inspections[0].panels;
    assert_eq!(panels.len(), 2);
    assert_eq!(tally(&panels[0]), [("0-10 mm", Some(12)), ("11-20 mm", Some(3))]);
}

#[test]
fn a_turned_table_gives_the_model_of_the_upright_one() {
    let upright = Run::counts("claim,panel,0-10 mm,11-20 mm\nA-1,hood,12,3\nA-1,roof,,8\n");
    let turned = Run::counts("claim: A-1\n,hood,roof\n0-10 mm,12,\n11-20 mm,3,8\n");
    for name in ["hood", "roof"] {
        assert_eq!(tally(panel(upright.claim("A-1"), name)), tally(panel(turned.claim("A-1"), name)));
    }
    assert_eq!(turned.of_files(), ["layout-read counts.csv row 2"]);
    let place = panel(turned.claim("A-1"), "roof").tally[0].place;
    assert_eq!(
        turned.opened.sources.short(place).rsplit('/').next(),
        Some("counts.csv C3"),
        "a blank cell, too"
    );
}

#[test]
fn counts_of_several_people_in_one_table_are_never_added() {
    let run = Run::counts("claim,panel,Ann,,Ben,\n,,0-10 mm,11-20 mm,0-10 mm,11-20 mm\nA-1,hood,12,3,14,4\n");
    let inspections = &run.claim("A-1").inspections;
    assert_eq!(inspections.len(), 2);
    assert!(inspections.iter().all(|inspection| inspection.role() == Role::Own));
    assert_eq!(tally(&inspections[1].panels[0]), [("0-10 mm", Some(14)), ("11-20 mm", Some(4))]);
}

#[test]
fn a_total_below_groups_of_columns_is_held_against_its_own_group() {
    let run = Run::counts(
        "claim,panel,Ann,,Ben,\n,,0-10 mm,11-20 mm,0-10 mm,11-20 mm\nA-1,hood,12,3,14,4\nA-1,roof,1,1,1,1\nTotal,,13,4,15,6\n",
    );
    assert_eq!(run.of_claim("A-1"), ["total-disagrees counts.csv F5"]);
}

#[test]
fn what_cannot_be_known_is_a_question_and_never_a_number() {
    let run = Run::counts("claim,panel,side,0-10 mm\nA-1,fender,both,4\nA-1,LF,,3\n");
    assert_eq!(run.of_claim("A-1"), ["side-both counts.csv C2", "panel-corner counts.csv B3"]);
    let run = Run::counts("claim,panel,0-10 mm,oversize\nA-1,roof,1,55\n");
    assert_eq!(run.of_claim("A-1"), ["oversize-open counts.csv D1"]);
    let run = Run::counts("claim,panel,0-10 mm,oversize\nA-1,roof,1,0\n");
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let run = Run::counts("Sides as seen from the front\nclaim,panel,0-10 mm\nA-1,LF door,4\n");
    assert_eq!(run.of_claim("A-1"), ["side-view counts.csv A1"]);
    let run = Run::counts("panel,0-10 mm,11-20 mm\nhood,90.00,120.00\nroof,120.00,160.00\n");
    assert_eq!(run.of_files(), ["price-list counts.csv row 1"]);
}

#[test]
fn a_map_that_cannot_be_understood_is_told_row_by_row() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm,bay\nA-1,hood,12,4\n"),
        ("map.csv", "heading,means\nbay,materiel\nboy,left out\n,roof\n"),
        ("vehicles.csv", VEHICLES),
    ]);
    assert_eq!(run.of_claim("A-1"), ["column-open counts.csv D1"]);
    assert_eq!(
        run.of_files()[..3],
        ["map-meaning-unknown map.csv B2", "map-row-open map.csv B4", "map-row-unused map.csv B3"]
    );
}

#[test]
fn an_answer_holds_for_sheets_of_its_shape_alone() {
    let counts = "claim,panel,0-10 mm,bay\nA-1,hood,12,4\n";
    let other = "claim,panel,bay,0-10 mm\nA-2,hood,4,12\n";
    let map = "heading,means,beside\nbay,left out,claim | panel | 0-10 mm | bay\n";
    let run =
        Run::texts(&[("a.csv", counts), ("b.csv", other), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_claim("A-2"), ["column-open b.csv C1"]);
}

#[test]
fn questions_are_asked_once_and_say_what_each_answer_changes() {
    let text = "claim,panel,0-10 mm,11-20 mm,bay\nA-1,hood,12,-,4\nA-1,roof,-,-,4\nA-1,door,1,2,4\n";
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.csv", text.as_bytes());
    let opened = open(&[folder.path().to_owned()]);
    let arranged = arrange(&opened.sheets, &opened.sources, forms());
    let tables: Vec<_> = arranged.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    let (intakes, _) = gather(&tables, &opened.sources);
    let problems = intakes.iter().flat_map(|intake| &intake.problems);
    let asked = questions(problems, &intakes, &tables, (&opened.sheets, &opened.sources), &[], |_| true);
    let shown: Vec<String> = asked
        .iter()
        .map(|question| {
            let text = |text: &Option<String>| text.clone().unwrap_or_default();
            format!("{}/{} x{}", text(&question.heading), text(&question.word), question.cells)
        })
        .collect();
    assert_eq!(shown, ["bay/ x3", "11-20 mm/- x2", "0-10 mm/- x1", "panel/door x1"]);
    assert_eq!(asked[0].choices[0], ("left out".to_owned(), "12 dents not counted".to_owned()));
    let (tables, unread) = understood(&tables, &opened.sheets);
    assert_eq!((tables[0].form, tables[0].data, unread.len()), ("wide counts", 3, 0));
    assert_eq!(tables[0].columns[4].means, None);
}

//! Claim workbooks, read back by another library: the stored results are the assessment's, and nothing that a person wrote
//! becomes a formula.

use super::escaping::poison;
use super::fixture::{self, Case, every_case, imprint};
use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use std::collections::BTreeMap;
use std::io::Cursor;
use stipple::claim::Method;
use stipple::report::words::Words;
use stipple::report::workbook::claim::draw;

type Cells = BTreeMap<(String, u32, u32), Data>;

/// The cells of a case's workbook that hold something, and its formulas.
fn cells(case: &Case) -> (Cells, BTreeMap<(String, u32, u32), String>) {
    let bytes = draw(&case.subject(), &imprint(Words::english())).unwrap();
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    let (mut values, mut formulas) = (BTreeMap::new(), BTreeMap::new());
    for sheet in book.sheet_names() {
        let range = book.worksheet_range(&sheet).unwrap();
        let (row, column) = range.start().unwrap();
        let at = |(down, along): (usize, usize), (row, column): (u32, u32)| {
            (sheet.clone(), row + u32::try_from(down).unwrap(), column + u32::try_from(along).unwrap())
        };
        for (down, along, value) in range.used_cells() {
            values.insert(at((down, along), (row, column)), value.clone());
        }
        let range = book.worksheet_formula(&sheet).unwrap();
        if let Some(start) = range.start() {
            for (down, along, formula) in range.used_cells() {
                formulas.insert(at((down, along), start), formula.clone());
            }
        }
    }
    (values, formulas)
}

fn text(cells: &Cells, sheet: &str) -> String {
    let of_sheet = cells.iter().filter(|((of, _, _), _)| of == sheet);
    of_sheet.map(|(_, value)| value.to_string()).collect::<Vec<_>>().join("\n")
}

/// The amount in the row of a label on the first sheet.
fn total(cells: &Cells, label: &str) -> f64 {
    let is_it =
        |(_, value): &(&(String, u32, u32), &Data)| matches!(value, Data::String(text) if text == label);
    let ((sheet, row, _), _) = cells.iter().find(is_it).unwrap();
    match cells[&(sheet.clone(), *row, 4)] {
        Data::Float(amount) => amount,
        ref other => panic!("{label}: {other}"),
    }
}

#[test]
fn the_stored_results_are_those_of_the_assessment_and_every_formula_has_one() {
    for (name, case) in every_case() {
        let (values, formulas) = cells(&case);
        let assessed = &case.assessment;
        for (label, amount) in [("Net", assessed.totals.net), ("Gross", assessed.totals.gross)] {
            assert_eq!(
                total(&values, label).to_string(),
                amount.to_decimal().normalize().to_string(),
                "{name} {label}"
            );
        }
        for cell in formulas.keys() {
            assert!(values.contains_key(cell), "{name}: {cell:?} has no result");
        }
        let in_lines = |cell: &&(String, u32, u32)| cell.0 == "Claim" && cell.1 >= 8 && cell.2 == 4;
        assert!(
            formulas.keys().filter(in_lines).count() >= assessed.lines().count(),
            "{name}: lines are formulas"
        );
    }
}

#[test]
fn a_workbook_begins_with_counts_as_they_were_assessed_and_asks_for_a_new_assessment_by_formula() {
    let (values, formulas) = cells(&fixture::storm());
    assert_eq!(
        values[&("Claim".to_owned(), 4, 0)],
        Data::String("Counts are as they were assessed.".to_owned())
    );
    let asks = &formulas[&("Claim".to_owned(), 4, 0)];
    assert!(asks.contains("Counts!B4>0") && asks.contains("Decision to be reassessed"), "{asks}");
    assert_eq!(values[&("Counts".to_owned(), 3, 1)], Data::Float(0.0));
}

#[test]
fn methods_and_limits_are_values_and_an_overrule_is_named() {
    let case = fixture::storm();
    let (values, formulas) = cells(&case);
    assert!(!formulas.keys().any(|(sheet, _, _)| sheet == "Decisions"));
    let decisions = text(&values, "Decisions").to_lowercase();
    for panel in case.assessment.panels.iter().filter(|panel| panel.method == Method::Replace) {
        assert!(decisions.contains(&panel.panel.to_string().to_lowercase()), "{}", panel.panel);
    }
    let overruled = case.assessment.panels.iter().filter(|panel| panel.overruled.is_some()).count();
    assert!(overruled > 0);
    assert_eq!(text(&values, "Counts").matches("(overruled)").count(), overruled);
}

#[test]
fn hostile_texts_change_no_formula_and_no_sheet_and_stay_within_a_cell() {
    let (_, plain) = cells(&fixture::storm());
    let hostile: [fn(usize) -> String; 7] = [
        |index| format!("<script>alert({index})</script>\"'&amp;"),
        |index| format!("=1+{index}+cmd|' /c calc'!A1"),
        |index| format!("../../{index}/con\\C:"),
        |index| format!("\u{202e}{index}\u{2066}x\u{2069}\u{2069}"),
        |index| format!("\u{0}{index}\u{1b}[31m\u{7f}\u{fffe}"),
        |index| format!("\u{1f697}\u{1f327}\u{fe0f}{index}"),
        |index| format!("{index}{}", "x".repeat(10_000)),
    ];
    for make in hostile {
        let mut case = fixture::storm();
        let texts = poison(&mut case, make);
        let (values, formulas) = cells(&case);
        assert_eq!(formulas, plain, "{}", &texts[0][..20.min(texts[0].len())].escape_debug());
        for (cell, value) in &values {
            let text = value.to_string();
            assert!(text.encode_utf16().count() <= 32_767, "{cell:?}");
            assert!(!text.contains(['\u{202e}', '\u{2066}', '\u{0}', '\u{1b}']), "{cell:?}: {text:?}");
        }
    }
}

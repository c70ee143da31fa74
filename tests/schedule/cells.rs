//! Cells that cannot be used by themselves: every one is told with its place, all at once.

use crate::support::{Tables, read, sheet};
use stipple::problem::Place;
use stipple::quantity::DecimalMark;
use stipple::read::Opened;
use stipple::table::{Cell, CellFault, Value};

fn page() -> Tables {
    Tables::of_the_page()
}

/// The page's tables with one cell replaced by a value that only a workbook can hold.
fn with_value(table: &str, row: u32, column: u16, value: Value) -> Opened {
    let tables = page();
    let mut opened = tables.opened();
    let index = tables.0.iter().position(|(name, _)| name == table).unwrap();
    let sheet = &mut opened.sheets[index];
    let cells = &mut sheet.rows.iter_mut().find(|found| found.number == row).unwrap().cells;
    let place = Place::cell(sheet.source, row, column);
    let cell = Cell { place, column, value, spread: false };
    match cells.binary_search_by_key(&column, |cell| cell.column) {
        Ok(index) => cells[index] = cell,
        Err(index) => cells.insert(index, cell),
    }
    opened
}

#[test]
fn a_needed_cell_that_is_blank_is_told_with_its_column() {
    page()
        .with("sizes", "medium,14 mm,27 mm", "medium,,27 mm")
        .read()
        .says(&["schedule-cell-missing | sizes.csv B3 | a row of the size bands has nothing under from"]);
    page()
        .with("flat", "5-13,104", ",104")
        .read()
        .says(&["schedule-cell-missing | flat.csv A6 | a row of the rate grid has nothing under count band"]);
    page()
        .with("factors", "depth,sharp,4", "depth,,4")
        .read()
        .says(&["schedule-cell-missing | factors.csv row 5 | a row of the factors has nothing under is"]);
}

#[test]
fn numbers_that_are_none_are_told_and_quoted() {
    let outcome = page().with("flat", "133", "133 EUR").read();
    outcome.says(&["schedule-cell-unreadable | flat.csv C6 | medium cannot be read: it is not a number"]);
    assert_eq!(outcome.problems[0].written.as_deref(), Some("133 EUR"));
    assert_eq!(outcome.help(), "Leave the cell empty where nothing is agreed");
    let outcome = page().with("counts", "5,13", "5,13.5").read();
    outcome.says(&[
        "schedule-cell-unreadable | counts.csv C3 | to dents cannot be read: it is not a whole number",
    ]);
    assert_eq!(outcome.help(), "Write a plain number such as 12.50, without words or signs");
    page()
        .with("counts", "5,13", "5,1e3")
        .read()
        .says(&["schedule-cell-unreadable | counts.csv C3 | to dents cannot be read: it is not a number"]);
    page().with("labour", "96", "9999999999999999999999999999999999").read().says(&[
        "schedule-cell-unreadable | labour.csv B2 | per hour cannot be read: it has more digits than can be kept exactly",
    ]);
}

#[test]
fn dates_and_lengths_that_are_none_are_told_with_an_example() {
    let outcome = page().with("terms", "2026-12-31", "2026-11-31").read();
    outcome
        .says(&["schedule-cell-unreadable | terms.csv B8 | valid to cannot be read: there is no such day"]);
    assert_eq!(outcome.help(), "Write the day as 2026-05-01");
    let outcome =
        page().with("marks", "over,up to", "over,up to mm").with("marks", "45 mm,70 mm", "45 mm,wide").read();
    outcome.says(&["schedule-cell-unreadable | marks.csv D2 | up to is no length: it is not a number"]);
    assert_eq!(outcome.help(), "Write a length such as 12 mm or 1/2 in");
    page()
        .with("marks", "70 mm,110 mm", "70 mm,-110 mm")
        .read()
        .says(&["schedule-cell-unreadable | marks.csv D3 | up to is no length: it is below zero"]);
}

#[test]
fn what_a_spreadsheet_made_of_a_name_is_not_guessed_back() {
    let day = stipple::quantity::parse_date("2026-05-13").unwrap();
    let outcome = read(with_value("counts", 3, 1, Value::Date(day)));
    assert!(
        outcome
            .lines()
            .contains(&"schedule-cell-unreadable | counts.csv A3 | count band is a date".to_owned())
    );
    assert!(outcome.problems[0].help.as_deref().unwrap().contains("format the cell as text"));
    let outcome = read(with_value("sizes", 3, 2, Value::Date(day)));
    outcome.says(&["schedule-cell-unreadable | sizes.csv B3 | from is a date"]);
    // An edition may well be a date.
    let outcome = read(with_value("terms", 3, 2, Value::Date(day)));
    assert_eq!(outcome.stands().terms.edition.value, "2026-05-13");
}

#[test]
fn spreadsheet_errors_and_missing_results_are_no_blanks() {
    for fault in [CellFault::Error("#REF!".to_owned()), CellFault::NoStoredValue, CellFault::NotFinite] {
        let outcome = read(with_value("flat", 6, 3, Value::Fault(fault.clone())));
        assert_eq!(
            outcome.lines(),
            ["schedule-cell-unreadable | flat.csv C6 | the cell for medium holds no value"]
        );
        let outcome = read(with_value("terms", 14, 2, Value::Fault(fault.clone())));
        assert_eq!(outcome.lines().len(), 1, "{}", outcome.text());
        let outcome = read(with_value("panels", 2, 7, Value::Fault(fault)));
        assert_eq!(
            outcome.lines(),
            ["schedule-cell-unreadable | panels.csv G2 | the cell for cap holds no value"]
        );
    }
    assert_eq!(
        read(with_value("flat", 6, 3, Value::Bool(true))).lines(),
        ["schedule-cell-unreadable | flat.csv C6 | medium cannot be read: it is not a number",]
    );
}

#[test]
fn values_that_cannot_be_meant_are_told() {
    for (table, from, to, line) in [
        ("flat", "133", "-133", "flat.csv C6 | amount is not possible: it is below zero"),
        ("flat", "133", "99999999999", "flat.csv C6 | amount is not possible: it is too large"),
        ("side", "1.6,", "20000,", "side.csv D6 | hours is not possible: it is too large"),
        (
            "taxes",
            "labour,20",
            "labour,200",
            "taxes.csv B2 | percent is not possible: it has to lie between 0 and 100",
        ),
        (
            "terms",
            "discount,4",
            "discount,-4",
            "terms.csv B14 | discount is not possible: it has to lie between 0 and 100",
        ),
        (
            "limits",
            "replacing,75",
            "replacing,0",
            "limits.csv C8 | beyond is not possible: a share has to be above zero",
        ),
        (
            "panels",
            "1.4,45",
            "0,45",
            "panels.csv E2 | area is not possible: a panel's area is above nothing and at most 100 square metres",
        ),
    ] {
        let line = format!("schedule-out-of-range | {line}");
        page().with(table, from, to).read().says(&[&line]);
    }
    page().plus("terms", "round total to,0").read().says(&[
        "schedule-out-of-range | terms.csv B21 | round total to is not possible: a step has to be above zero",
    ]);
}

#[test]
fn values_finer_than_their_quantity_are_told_and_not_rounded() {
    for (table, from, to, line, help) in [
        ("flat", "133", "133.005", "flat.csv C6 | amount is too fine", "2 decimals in EUR"),
        ("labour", "96", "96.1234567", "labour.csv B2 | per hour is too fine", "6 decimals"),
        (
            "side",
            "1.6,",
            "0.33333,",
            "side.csv D6 | hours is too fine",
            "hours that are whole seconds, such as 0.25",
        ),
        (
            "taxes",
            "labour,20",
            "labour,20.1234567",
            "taxes.csv B2 | percent is too fine",
            "six decimals of a percent",
        ),
        ("panels", "1.4,45", "1.4000001,45", "panels.csv E2 | area is too fine", "whole square millimetres"),
    ] {
        let outcome = page().with(table, from, to).read();
        outcome.says(&[&format!("schedule-too-precise | {line}")]);
        assert_eq!(outcome.help(), format!("The finest that can be kept: {help}"));
    }
    // A currency without a minor unit has no cents at all.
    let outcome = page().with("terms", "EUR", "JPY").read();
    assert!(outcome.lines().contains(&"schedule-too-precise | marks.csv E4 | amount is too fine".to_owned()));
    assert!(outcome.text().contains("The finest that can be kept: whole JPY"));
}

#[test]
fn a_length_needs_a_unit_in_its_cell_or_heading() {
    let outcome = page().with("sizes", "small,0,14 mm", "small,0,14").read();
    outcome.says(&["schedule-unit-missing | sizes.csv C2 | to has no unit"]);
    assert_eq!(outcome.help(), "Write the unit into the cell (12 mm, 1/2 in) or into the heading (to mm)");
    page()
        .with("limits", "crease,180 mm", "crease,180")
        .read()
        .says(&["schedule-unit-missing | limits.csv C7 | beyond has no unit"]);
    page()
        .with("limits", "crease,180 mm", "crease,180")
        .with("limits", "beyond", "beyond mm")
        .read()
        .says(&[]);
    let inches = page()
        .instead("sizes", "size band,from (in),to (in)\nsmall,0,1/2\nmedium,1/2,1\nlarge,1,45 mm")
        .read();
    let tops: Vec<String> = inches.stands().sizes.iter().map(|band| band.high.to_string()).collect();
    assert_eq!(tops, ["12.7 mm", "25.4 mm", "45 mm"]);
}

#[test]
fn units_in_headings_have_to_agree_with_the_terms() {
    page()
        .with("panels", "area m2,floor", "area m2,floor USD")
        .read()
        .says(&["schedule-unit-clash | panels.csv F1 | the heading floor says USD, the terms say EUR"]);
    page()
        .with("typical", "fitting,", "fitting min,")
        .read()
        .says(&["schedule-unit-clash | typical.csv D1 | the heading fitting says min, the terms say tenths"]);
    page()
        .with("panels", "floor", "floor mm")
        .read()
        .says(&["schedule-unit-clash | panels.csv F1 | floor is not written in mm"]);
    let agreed = page().with("panels", "floor", "floor (EUR)").with("typical", "fitting,", "fitting h,");
    agreed.read().says(&[]);
    let area = page()
        .with("panels", "area m2", "area cm2")
        .with("panels", "1.4,", "14000,")
        .with("panels", "1.9,", "19000,");
    assert_eq!(area.read().stands().panels, page().read().stands().panels);
}

#[test]
fn a_percentage_below_one_is_asked_about() {
    let outcome = page().with("limits", "replacing,75", "replacing,0.75").read();
    outcome.says(&[
        "schedule-percent-as-fraction | limits.csv C8 | beyond is read as 0.75 %, less than one percent",
    ]);
    assert_eq!(outcome.help(), "If 75 % is meant, write 75");
}

#[test]
fn decimal_commas_are_read_where_the_file_has_them() {
    let tables = page();
    let mut opened = tables.opened();
    let index = tables.0.iter().position(|(name, _)| name == "labour").unwrap();
    let text = "labour;per hour\npaintless;96\nremove and refit;72,50\nconventional;78\nrefinish;84,x";
    opened.sheets[index] = sheet(opened.sheets[index].source, text, DecimalMark::Comma);
    let outcome = read(opened);
    outcome.says(&["schedule-cell-unreadable | labour.csv B5 | per hour cannot be read: it is not a number"]);
    assert_eq!(outcome.help(), "Write a plain number such as 12,50, without words or signs");
}

//! The same schedule in other shapes: as a workbook, on one sheet, as long rows or as grids, with merged cells.

use crate::support::{Outcome, Tables, input_file, read, sheet};
use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};
use std::fmt::Write as _;
use std::io::Cursor;
use stipple::problem::{Place, Source, SourceId, SourceKind};
use stipple::quantity::{DecimalMark, parse_date, parse_decimal};
use stipple::read::Opened;
use stipple::schedule::Schedule;
use stipple::table::{Cell, Merge, Row, Sheet, Value};

fn page() -> Tables {
    Tables::of_the_page()
}

/// A schedule without anything that says where it was written.
fn meaning(outcome: &Outcome) -> String {
    let mut schedule: Schedule = outcome.stands().clone();
    schedule.files.clear();
    schedule.digest.clear();
    let text = format!("{schedule:#?}");
    let mut parts = text.split("Place {");
    let mut out = parts.next().unwrap().to_owned();
    for part in parts {
        out.push_str(part.split_once('}').unwrap().1);
    }
    out
}

/// A workbook with a sheet per table, its cells numbers, dates and texts as a person would have typed them.
fn workbook(tables: &Tables) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let day = Format::new().set_num_format("yyyy-mm-dd");
    for (name, text) in &tables.0 {
        let worksheet = workbook.add_worksheet().set_name(name).unwrap();
        for row in &sheet(SourceId(0), text, DecimalMark::Point).rows {
            for cell in &row.cells {
                let (row, column, text) = (row.number - 1, cell.column - 1, cell.text());
                if let Ok(date) = parse_date(&text) {
                    let (year, month) = (date.year().unsigned_abs(), date.month().unsigned_abs());
                    let date = ExcelDateTime::from_ymd(year, month, date.day().unsigned_abs()).unwrap();
                    worksheet.write_with_format(row, column, &date, &day).unwrap();
                } else if let Ok(number) = text.parse::<f64>() {
                    worksheet.write(row, column, number).unwrap();
                } else {
                    worksheet.write(row, column, &text).unwrap();
                }
            }
        }
    }
    workbook.save_to_buffer().unwrap()
}

/// Reads a workbook's cells into sheets, as plainly as can be.
fn opened(bytes: &[u8]) -> Opened {
    let mut workbook: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    let mut opened = Opened::default();
    for name in workbook.sheet_names() {
        let source = Source { file: "example.xlsx".to_owned(), sheet: name.clone(), kind: SourceKind::Sheet };
        let source = opened.sources.add(source);
        let range = workbook.worksheet_range(&name).unwrap();
        let (first_row, first_column) = range.start().unwrap();
        let rows = range.rows().enumerate().map(|(index, cells)| {
            let number = first_row + u32::try_from(index).unwrap() + 1;
            let cells = cells.iter().enumerate().filter_map(|(index, data)| {
                let column = u16::try_from(first_column).unwrap() + u16::try_from(index).unwrap() + 1;
                Some(Cell {
                    place: Place::cell(source, number, column),
                    column,
                    value: value(data)?,
                    spread: false,
                })
            });
            Row { number, cells: cells.collect() }
        });
        let rows = rows.filter(|row| !row.cells.is_empty()).collect();
        opened.sheets.push(Sheet::new(source, rows, Vec::new(), DecimalMark::Point));
    }
    opened.files.push(input_file("example.xlsx", bytes));
    opened
}

fn value(data: &Data) -> Option<Value> {
    match data {
        Data::Empty => None,
        Data::String(text) => Some(Value::Text(text.clone())),
        Data::Float(number) => {
            Some(Value::Number(parse_decimal(&number.to_string(), DecimalMark::Point).unwrap()))
        }
        Data::DateTime(day) => {
            let (year, month, day, ..) = day.to_ymd_hms_milli();
            Some(Value::Date(parse_date(&format!("{year:04}-{month:02}-{day:02}")).unwrap()))
        }
        other => panic!("{other:?} is not in the example"),
    }
}

#[test]
fn a_workbook_and_a_folder_of_the_same_tables_are_the_same_schedule() {
    let folder = page().read();
    let bytes = workbook(&page());
    let workbook = read(opened(&bytes));
    workbook.says(&[]);
    assert_eq!(meaning(&workbook), meaning(&folder));
    let cell = |outcome: &Outcome| outcome.sources.short(outcome.stands().mark_rates[0].place);
    assert_eq!(
        (cell(&folder), cell(&workbook)),
        ("example/marks.csv E2".to_owned(), "example.xlsx marks!E2".to_owned())
    );
    assert_eq!(workbook.stands().files, [input_file("example.xlsx", &bytes)]);
    assert_ne!(workbook.stands().digest, folder.stands().digest);
}

#[test]
fn problems_of_a_workbook_name_sheet_and_cell() {
    let broken = page().with("flat", "133", "-133").with("sizes", "medium,14 mm", "medium,14");
    let outcome = read(opened(&workbook(&broken)));
    outcome.says(&[
        "schedule-unit-missing | example.xlsx sizes!B3 | from has no unit",
        "schedule-out-of-range | example.xlsx flat!C6 | amount is not possible: it is below zero",
    ]);
}

#[test]
fn all_tables_on_one_sheet_with_titles_between_are_the_same_schedule() {
    let mut one = String::from("Example schedule\n\n");
    for (name, text) in &page().0 {
        write!(one, "Table of {name}\n{text}\n\n\n").unwrap();
    }
    let outcome = Tables(vec![("all".to_owned(), one.clone())]).read();
    outcome.says(&[]);
    assert_eq!(meaning(&outcome), meaning(&page().read()));
    // Also where no blank row stands before the captions of the grid.
    let tight = one.replace("\n\n\nTable of flat\nFlat panels,,,\n", "\n");
    let outcome = Tables(vec![("all".to_owned(), tight)]).read();
    assert_eq!(meaning(&outcome), meaning(&page().read()));
}

#[test]
fn long_rows_and_a_grid_of_the_same_rates_are_the_same_grid() {
    let long = page().instead(
        "flat",
        "count band,size band,rated as,amount EUR\n\
         1-4,small,flat,58\n1-4,medium,flat,71\n1-4,large,flat,92\n\
         5-13,small,flat,104\n5-13,medium,flat,133\n5-13,large,flat,170\n\
         14-40,small,flat,186\n14-40,medium,flat,241\n14-40,large,flat,320",
    );
    let grids = page().instead(
        "side",
        "rated as,side\ngives,hours per panel\ncount band,small,medium,large\n\
         1-4,0.6,0.8,1.1\n5-13,1.2,1.6,\n14-40,2.1,2.9,\n\n\
         rated as,side\ngives,hours per dent\ncount band,large\n5-13,0.4\n14-40,0.4",
    );
    let (page, long, grids) = (page().read(), long.read(), grids.read());
    long.says(&[]);
    grids.says(&[]);
    assert_eq!(meaning(&long), meaning(&page));
    assert_eq!(meaning(&grids), meaning(&page));
    let cell = |outcome: &Outcome| {
        outcome.sources.short(outcome.stands().grid.get(stipple::schedule::GroupId(1), 2, 2).unwrap().place)
    };
    assert_eq!(
        (cell(&page), cell(&grids)),
        ("example/side.csv D10".to_owned(), "example/side.csv B12".to_owned())
    );
}

#[test]
fn headings_in_any_order_and_case_under_a_title_are_the_same() {
    let turned = page()
        .instead("labour", "Rates of labour\n\nPER HOUR (EUR),Labor\n96,Paintless\n72.50,Remove & refit\n78,conventional\n84,refinish")
        .instead("taxes", "Per cent,Remark,Tax on\n20 %,as agreed,Labour\n20,,Parts\n20.0,,Paint-material");
    let turned = turned.with("labour", "Remove & refit", "Remove and refit").read();
    turned.says(&[]);
    assert_eq!(meaning(&turned), meaning(&page().read()));
}

#[test]
fn a_name_merged_over_several_rows_holds_for_each() {
    let mut tables = page();
    let side = tables.0.iter_mut().find(|(name, _)| name == "side").unwrap();
    side.1 = side.1.replacen("side,", "SIDE,", 1).replace("\nside,", "\n,").replace("SIDE,", "side,");
    let mut opened = tables.opened();
    let index = tables.0.iter().position(|(name, _)| name == "side").unwrap();
    let Sheet { source, rows, mark, .. } = opened.sheets[index].clone();
    let merge = Merge { first_row: 2, last_row: 10, first_column: 1, last_column: 1 };
    opened.sheets[index] = Sheet::new(source, rows, vec![merge], mark);
    assert_eq!(meaning(&read(opened)), meaning(&page().read()));
}

//! How the process that reads old workbooks tells what it found: a line for each sheet, merge and cell, tabs between
//! fields, and a line that says that it is complete. What is cut off or says anything else is no answer.

use super::{Fault, MOST_COLUMNS, MOST_ROWS, RawSheet, in_order};
use crate::problem::{Place, SourceId};
use crate::quantity::{DecimalMark, parse_date, parse_decimal};
use crate::table::{Cell, CellFault, Merge, Row, Value};
use std::fmt::Write as _;
use std::io::{BufRead, Read as _};

const END: &str = "end";
/// Bytes of one line: a cell's text has at most 32 767 letters.
const MOST_LINE: u64 = 1 << 20;

pub(super) fn sheet(out: &mut String, name: &str, is_hidden: bool) {
    let _ = write!(out, "sheet\t{}\t", if is_hidden { "hidden" } else { "shown" });
    push(out, name);
    out.push('\n');
}

pub(super) fn merge(out: &mut String, merge: Merge) {
    let Merge { first_row, last_row, first_column, last_column } = merge;
    let _ = writeln!(out, "merge\t{first_row}\t{last_row}\t{first_column}\t{last_column}");
}

pub(super) fn cell(out: &mut String, row: u32, column: u16, value: &Value) {
    let _ = write!(out, "cell\t{row}\t{column}\t");
    match value {
        Value::Text(text) => {
            out.push_str("text\t");
            push(out, text);
        }
        Value::Number(number) => {
            let _ = write!(out, "number\t{number}");
        }
        Value::Money(money) => {
            let _ = write!(out, "number\t{}", money.0);
        }
        Value::Date(date) => {
            let _ = write!(out, "date\t{date}");
        }
        Value::Bool(value) => {
            let _ = write!(out, "bool\t{value}");
        }
        Value::Fault(CellFault::Error(shown)) => {
            out.push_str("error\t");
            push(out, shown);
        }
        Value::Fault(CellFault::NoStoredValue) => out.push_str("unstored\t"),
        Value::Fault(CellFault::NotFinite) => out.push_str("infinite\t"),
    }
    out.push('\n');
}

pub(super) fn end(out: &mut String) {
    out.push_str(END);
    out.push('\n');
}

pub(super) fn refusal(out: &mut String, why: &str) {
    out.push_str("refused\t");
    push(out, why);
    out.push('\n');
}

fn push(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            '\t' => out.push_str("\\t"),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            c => out.push(c),
        }
    }
}

fn pulled(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut chars = text.chars();
    while let Some(c) = chars.next() {
        match (c, c == '\\') {
            (_, true) => out.push(match chars.next() {
                Some('t') => '\t',
                Some('n') => '\n',
                Some('r') => '\r',
                _ => '\\',
            }),
            (c, false) => out.push(c),
        }
    }
    out
}

/// Reads an answer to its end; `None` where it has none. At most `budget` cells are taken.
pub(super) fn read(
    mut answer: impl BufRead,
    mut budget: usize,
    mut source: impl FnMut(&str) -> SourceId,
) -> Option<Result<Vec<RawSheet>, Fault>> {
    let mut sheets: Vec<RawSheet> = Vec::new();
    let mut line = String::new();
    loop {
        line.clear();
        (&mut answer).take(MOST_LINE).read_line(&mut line).ok()?;
        let mut fields = line.strip_suffix('\n')?.split('\t');
        match (fields.next()?, sheets.last_mut()) {
            (END, _) => break,
            ("refused", _) => return Some(Err(Fault::damaged(pulled(fields.next()?)))),
            ("sheet", _) => {
                let is_hidden = fields.next()? == "hidden";
                let name = pulled(fields.next()?);
                sheets.push(RawSheet::new(name.clone(), source(&name), is_hidden));
            }
            ("merge", Some(sheet)) => sheet.merges.push(merge_of(&mut fields)?),
            ("cell", Some(sheet)) => {
                let row = fields.next()?.parse().ok().filter(|row| (1..=MOST_ROWS).contains(row))?;
                let column = fields.next()?.parse().ok().filter(|at| (1..=MOST_COLUMNS).contains(at))?;
                let place = Place::cell(sheet.source, row, column);
                let Some(left) = budget.checked_sub(1) else {
                    let fault = Fault::too_large("more cells than a workbook of its size can mean");
                    return Some(Err(fault.at(place)));
                };
                budget = left;
                let cell = Cell { place, column, value: value(&mut fields)?, spread: false };
                match sheet.rows.last_mut() {
                    Some(last) if last.number == row => last.cells.push(cell),
                    _ => sheet.rows.push(Row { number: row, cells: vec![cell] }),
                }
            }
            _ => return None,
        }
    }
    for sheet in &mut sheets {
        match in_order(std::mem::take(&mut sheet.rows)) {
            Ok(rows) => sheet.rows = rows,
            Err(fault) => return Some(Err(fault)),
        }
    }
    Some(Ok(sheets))
}

fn merge_of<'t>(fields: &mut impl Iterator<Item = &'t str>) -> Option<Merge> {
    let (first_row, last_row) = (fields.next()?.parse().ok()?, fields.next()?.parse().ok()?);
    let (first_column, last_column) = (fields.next()?.parse().ok()?, fields.next()?.parse().ok()?);
    let is_inside = (1..=MOST_ROWS).contains(&first_row)
        && (first_row..=MOST_ROWS).contains(&last_row)
        && (1..=last_column).contains(&first_column)
        && last_column <= MOST_COLUMNS;
    is_inside.then_some(Merge { first_row, last_row, first_column, last_column })
}

fn value<'t>(fields: &mut impl Iterator<Item = &'t str>) -> Option<Value> {
    let (kind, text) = (fields.next()?, fields.next()?);
    Some(match kind {
        "text" => Value::Text(pulled(text)),
        "number" => Value::Number(parse_decimal(text, DecimalMark::Point).ok()?),
        "date" => Value::Date(parse_date(text).ok()?),
        "bool" => Value::Bool(text == "true"),
        "error" => Value::Fault(CellFault::Error(pulled(text))),
        "unstored" => Value::Fault(CellFault::NoStoredValue),
        "infinite" => Value::Fault(CellFault::NotFinite),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Date, Decimal};

    fn told(values: &[Value]) -> String {
        let mut out = String::new();
        sheet(&mut out, "a\tb\\n", false);
        merge(&mut out, Merge { first_row: 1, last_row: 2, first_column: 3, last_column: 4 });
        for (row, value) in (1_u32..).zip(values) {
            cell(&mut out, row, 2, value);
        }
        out
    }

    fn understood(text: &str, budget: usize) -> Option<Result<Vec<RawSheet>, Fault>> {
        read(text.as_bytes(), budget, |_| SourceId(0))
    }

    #[test]
    fn what_is_told_is_understood_to_the_letter() {
        let values = [
            Value::Text("two\nlines\tand \\ more".into()),
            Value::Number(Decimal::new(-125, 2)),
            Value::Date(Date::new(2026, 6, 14).unwrap()),
            Value::Bool(true),
            Value::Fault(CellFault::Error("#REF!".into())),
            Value::Fault(CellFault::NoStoredValue),
            Value::Fault(CellFault::NotFinite),
        ];
        let mut text = told(&values);
        end(&mut text);
        let sheets = understood(&text, 100).unwrap().unwrap();
        assert_eq!(sheets[0].name, "a\tb\\n");
        assert_eq!(sheets[0].merges.len(), 1);
        let read: Vec<&Value> = sheets[0].rows.iter().map(|row| &row.cells[0].value).collect();
        assert_eq!(read, values.iter().collect::<Vec<_>>());
        assert!(matches!(understood(&text, 3), Some(Err(_))), "more cells than the budget");
    }

    #[test]
    fn an_answer_without_end_is_none() {
        let text = told(&[Value::Bool(true)]);
        for cut in 0..=text.len() {
            assert!(understood(&text[..cut], 100).is_none(), "{cut}");
        }
        assert!(understood("cell\t1\t1\tbool\ttrue\nend\n", 9).is_none(), "a cell of no sheet");
        assert!(understood("sheet\tshown\ta\ncell\t0\t1\tbool\ttrue\nend\n", 9).is_none());
    }
}

//! One cell of counts.

use super::cells::{is_open, why_no_value};
use crate::claim::Counted;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue, catalogue::asked, catalogue::counts as say};
use crate::quantity::{NumberFault, Strokes, parse_count, parse_strokes};
use crate::table::{Cell, Table, Value};
use std::collections::BTreeSet;

/// More dents of one size on one panel are taken for a slip.
const MOST: u32 = 2000;

/// Cells of a sheet that hold a value for several: first cells of merged rectangles, by row and column.
pub(super) fn merged_cells(table: &Table<'_>) -> BTreeSet<(u32, u16)> {
    table.sheet.merges.iter().map(|merge| (merge.first_row, merge.first_column)).collect()
}

/// What a cell of counts says. Anything but a whole number is a problem and stays open: it must not become a number
/// quietly, nor a blank.
pub(super) fn read(table: &Table<'_>, merged: &BTreeSet<(u32, u16)>, cell: &Cell) -> Result<u32, Problem> {
    let place = cell.place;
    // Nearly every count is a few digits.
    if let Value::Text(text) = &cell.value
        && !cell.spread
        && merged.is_empty()
        && let Some(count) = few_digits(text)
        && count <= MOST
    {
        return Ok(count);
    }
    let text = cell.text();
    if cell.spread || merged.contains(&(place.row, place.column)) {
        return Err(say::merged(place, &text));
    }
    let number = match &cell.value {
        Value::Number(number) => *number,
        Value::Fault(_) => return Err(say::cell_fault(place, &text)),
        Value::Date(_) => return Err(say::count_is_date(place, &text)),
        Value::Bool(_) | Value::Money(_) => return Err(say::not_a_number(place, &text)),
        Value::Text(_) if is_open(table, cell, &text) => return Err(say::both_ways(place, &text)),
        Value::Text(_) if let Some(strokes) = parse_strokes(&text) => match strokes {
            Strokes::Exactly(count) => count.into(),
            Strokes::Open { written, crossed } => {
                return Err(catalogue::tally::strokes(place, &text, written, crossed));
            }
        },
        Value::Text(_) => {
            cell.number(table.sheet.mark_of(cell).0).map_err(|_| no_number(table, cell, &text))?
        }
    };
    match parse_count(number) {
        Ok(count) if count <= MOST => Ok(count),
        Ok(_) | Err(NumberFault::TooLarge) => Err(say::absurd(place, &text, MOST)),
        Err(NumberFault::Negative) => Err(say::negative(place, &text)),
        Err(NumberFault::Fractional) => Err(say::fractional(place, &text)),
        Err(NumberFault::NotANumber | NumberFault::TooPrecise) => Err(say::not_a_number(place, &text)),
    }
}

/// A text of one to six digits as a number.
fn few_digits(text: &str) -> Option<u32> {
    let is_short = !text.is_empty() && text.len() <= 6 && text.bytes().all(|byte| byte.is_ascii_digit());
    is_short.then(|| text.bytes().fold(0, |number, byte| number * 10 + u32::from(byte - b'0')))
}

/// What the model keeps of it.
pub(super) fn counted(read: Result<u32, Problem>, problems: &mut Vec<Problem>) -> Counted {
    match read {
        Ok(count) => Counted::Counted(count),
        Err(problem) => {
            problems.push(problem);
            Counted::Open
        }
    }
}

/// A text that is no number: an estimate, a word that may mean none, or something else.
fn no_number(table: &Table<'_>, cell: &Cell, text: &str) -> Problem {
    const WORDS: [&str; 31] = [
        "",
        "none",
        "no",
        "nil",
        "n a",
        "na",
        "not inspected",
        "not counted",
        "unknown",
        "x",
        "xx",
        "ok",
        "o k",
        "yes",
        "y",
        "see remark",
        "see note",
        "tbc",
        "kein",
        "keine",
        "keiner",
        "nein",
        "aucun",
        "aucune",
        "non",
        "ninguno",
        "ninguna",
        "nada",
        "nessuno",
        "nessuna",
        "nulla",
    ];
    const ABOUT: [&str; 17] = [
        "about",
        "approx",
        "approximately",
        "ca",
        "circa",
        "around",
        "over",
        "more than",
        "up to",
        "some",
        "min",
        "max",
        "etwa",
        "rund",
        "env",
        "environ",
        "aprox",
    ];
    let has_digit = text.contains(|c: char| c.is_ascii_digit());
    let name = folded(text);
    let says_about = ABOUT.iter().any(|word| name.starts_with(word) || name.ends_with(word));
    let has_sign = text.contains([
        '+', '~', '\u{2248}', '<', '>', '?', '-', '/', '\u{2013}', '\u{2014}', '\u{2264}', '\u{2265}',
    ]);
    if let Some(problem) = why_no_value(table, cell, text) {
        problem
    } else if is_work(text) {
        asked::work_in_counts(cell.place, text)
    } else if has_digit && (has_sign || says_about || name.contains(" to ") || name.contains(" or ")) {
        say::estimate(cell.place, text)
    } else if WORDS.contains(&name.as_str()) || (!has_digit && says_about) {
        say::word(cell.place, text)
    } else {
        say::not_a_number(cell.place, text)
    }
}

/// Whether a text is work on a part: taken off and put back, or replaced.
pub(super) fn is_work(text: &str) -> bool {
    const WORDS: [&str; 14] = [
        "r i",
        "r and i",
        "r r",
        "r and r",
        "ri",
        "remove and refit",
        "remove and install",
        "remove and reinstall",
        "remove and replace",
        "refit",
        "replace",
        "replaced",
        "strip and fit",
        "strip fit",
    ];
    WORDS.contains(&folded(text).as_str())
}

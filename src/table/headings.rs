//! One row as headings of a form.

use super::{Cell, Column, Form, HeadedColumn, Row, Value};
use crate::claim::words::folded;
use crate::quantity::{DecimalMark, parse_decimal};
use std::collections::BTreeSet;

/// Bytes of the longest text that is looked at as a heading; a longer one is a remark. Headings are tried against every
/// word of every form, and cut in every way, so that a page of text in a cell must not get that far.
pub const LONGEST_HEADING: usize = 400;

/// The words that some form cannot be recognised without: a row that holds none of them is no heading. Looking for them
/// is much cheaper than trying every form on every row.
#[derive(Debug)]
pub struct Starters<'f> {
    words: BTreeSet<&'f str>,
    longest: usize,
}

impl<'f> Starters<'f> {
    /// The words of these forms.
    pub fn new(forms: &[&'f Form]) -> Self {
        let columns = forms.iter().flat_map(|form| {
            form.columns.iter().filter(|column| column.needed || form.one_of.contains(&column.id))
        });
        let words: BTreeSet<&str> = columns
            .flat_map(|column| column.words.iter().copied().chain(std::iter::once(column.id)))
            .collect();
        // Room for a unit after the word.
        let longest = words.iter().map(|word| word.len()).max().unwrap_or(0) + 24;
        Self { words, longest }
    }

    /// Whether the row holds one of them.
    pub fn may_head(&self, row: &Row) -> bool {
        row.cells.iter().any(|cell| match &cell.value {
            Value::Text(text) if text.len() <= self.longest && text.starts_with(char::is_alphabetic) => {
                let name = folded(text);
                self.words.contains(name.as_str())
                    || split_unit(text).is_some_and(|(name, _)| self.words.contains(folded(name).as_str()))
            }
            _ => false,
        })
    }
}

/// How many columns the form knows.
pub(super) fn known_count(columns: &[HeadedColumn]) -> usize {
    columns.iter().filter(|column| column.id.is_some() || column.in_family).count()
}

/// The cells of a row as headings of a form, or `None` when the row is no heading of it. A form without needed columns
/// is recognised by any of several everyday words ("owner"), which stand in title blocks, too: most of the row has to
/// be headings that it knows.
pub(super) fn heading_row(cells: &[Cell], form: &'static Form) -> Option<Vec<HeadedColumn>> {
    let columns = columns_of(cells, form)?;
    let is_known = form.columns.iter().any(|column| column.needed) || is_mostly_known(&columns);
    (is_known && missing(&columns, form).is_empty()).then_some(columns)
}

fn is_mostly_known(columns: &[HeadedColumn]) -> bool {
    known_count(columns) * 2 > columns.len()
}

/// Whether a row that may be a heading is no row of data of the table above: those hold a word or two of some heading,
/// and numbers.
pub(super) fn is_sure_heading(columns: &[HeadedColumn]) -> bool {
    let is_number = |column: &HeadedColumn| {
        [DecimalMark::Point, DecimalMark::Comma]
            .iter()
            .any(|mark| parse_decimal(&column.heading, *mark).is_ok())
    };
    is_mostly_known(columns) && !columns.iter().any(is_number)
}

/// The cells of a row as headings, known to the form or not. `None` when a cell cannot be a heading.
pub(super) fn columns_of(cells: &[Cell], form: &'static Form) -> Option<Vec<HeadedColumn>> {
    let mut columns: Vec<HeadedColumn> = Vec::with_capacity(cells.len());
    for cell in cells {
        let heading = match &cell.value {
            Value::Text(text) => text.clone(),
            // Bands are sometimes headed by a bare number or by what a spreadsheet made of "3-5".
            Value::Number(_) | Value::Date(_) => cell.text(),
            Value::Money(_) | Value::Bool(_) | Value::Fault(_) => return None,
        };
        let (named, unit) = known_column(&heading, form).map_or((None, None), |(id, unit)| (Some(id), unit));
        let is_taken = named.is_some_and(|id| columns.iter().any(|column| column.id == Some(id)));
        let in_family = named.is_none() && form.family.is_some_and(|is_member| is_member(&heading));
        columns.push(HeadedColumn {
            column: cell.column,
            heading,
            place: cell.place,
            id: if is_taken { None } else { named },
            in_family,
            unit,
            repeats: if is_taken { named } else { None },
        });
    }
    Some(columns)
}

/// What the form needs and the headings lack, in words.
pub(super) fn missing(columns: &[HeadedColumn], form: &'static Form) -> Vec<String> {
    let has = |id: &str| columns.iter().any(|column| column.id == Some(id));
    let needed = form.columns.iter().filter(|column| column.needed && !has(column.id));
    let mut lacking: Vec<String> = needed.map(|column| format!("`{}`", column.id)).collect();
    if !form.one_of.is_empty() && !form.one_of.iter().any(|id| has(id)) {
        let names: Vec<String> = form.one_of.iter().map(|id| format!("`{id}`")).collect();
        lacking.push(names.join(" or "));
    }
    if form.family.is_some() && !columns.iter().any(|column| column.in_family) {
        lacking.push("a column per size".to_owned());
    }
    lacking
}

/// The form's column that a heading names, and the unit it ends in.
fn known_column(heading: &str, form: &'static Form) -> Option<(&'static str, Option<String>)> {
    named_among(heading, form.columns)
}

/// The column of a list that a heading names, and the unit it ends in.
pub fn named_among(heading: &str, columns: &[Column]) -> Option<(&'static str, Option<String>)> {
    if heading.len() > LONGEST_HEADING {
        return None;
    }
    let named = |text: &str| columns.iter().find(|column| column.goes_by(text)).map(|column| column.id);
    if let Some(id) = named(&folded(heading)) {
        return Some((id, None));
    }
    let (name, unit) = split_unit(heading)?;
    named(&folded(name)).map(|id| (id, Some(unit.to_owned())))
}

/// `from mm`, `area (m2)`, `price [EUR]`, `length in mm`, `share %`, `length_mm`: the name, and the unit at its end.
fn split_unit(heading: &str) -> Option<(&str, &str)> {
    const UNITS: [&str; 24] = [
        "mm", "cm", "in", "inch", "inches", "\"", "m2", "m\u{b2}", "sq m", "cm2", "cm\u{b2}", "sq in", "%",
        "h", "hr", "hrs", "hours", "min", "minutes", "wu", "dents", "$", "\u{20ac}", "\u{a3}",
    ];
    let trimmed = heading.trim().trim_end_matches([')', ']']).trim_end();
    let start = trimmed.rfind([' ', '(', '[', ',', '_'])?;
    let unit = trimmed[start + 1..].trim();
    let is_currency = unit.len() == 3 && unit.bytes().all(|b| b.is_ascii_uppercase());
    let is_unit = is_currency || UNITS.contains(&unit.to_lowercase().as_str());
    let name = trimmed[..start].trim_end_matches([' ', '(', '[', ',', '_']);
    is_unit.then(|| (name.strip_suffix(" in").unwrap_or(name), unit))
}

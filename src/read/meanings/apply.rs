//! Meanings put in the place of headings and words.

use super::Meanings;
use super::entry::{Entry, Means, as_written, compared, is_whose};
use crate::problem::{Sources, column_letters};
use crate::quantity::{DecimalMark, parse_decimal};
use crate::read::panels::each_side;
use crate::table::{Cell, Row, Sheet, Value};
use std::collections::{BTreeMap, BTreeSet};

impl Meanings {
    /// The sheet with other rows, of which the blank ones are left away; `None` where no entry was used for it.
    fn applied(&mut self, sheet: &Sheet, mut rows: Vec<Row>, used: Vec<usize>) -> Option<Sheet> {
        if used.is_empty() {
            return None;
        }
        self.used.extend(used);
        rows.retain(|row| !row.cells.is_empty());
        Some(Sheet { rows, ..sheet.clone() })
    }

    /// The sheet with every heading that was spoken of as what it means; `None` where there is none.
    pub(in crate::read) fn with_headings(&mut self, sheet: &Sheet, sources: &Sources) -> Option<Sheet> {
        let holding = self.holding(sheet, sources);
        let entries: Vec<(usize, &Entry)> =
            holding.into_iter().filter(|(_, entry)| entry.word.is_none() && entry.part.is_none()).collect();
        let mut used = Vec::new();
        let mut rows = Vec::new();
        // Columns that are left out, until another heading stands in them.
        let mut left_out: BTreeSet<u16> = BTreeSet::new();
        let mut added = Vec::new();
        for row in &sheet.rows {
            let is_heading = may_head(row, &entries);
            let mut cells = Vec::with_capacity(row.cells.len());
            for (number, column, means) in unheaded(row, &entries) {
                used.push(number);
                match means {
                    Means::Value(value) => added.push(Cell {
                        place: sheet.place(row.number, column),
                        column,
                        value: value.clone(),
                        spread: false,
                    }),
                    Means::Nothing | Means::Role(_) | Means::EachSide => {
                        left_out.insert(column);
                    }
                }
            }
            for cell in &row.cells {
                let entry = entry_of(cell, &entries).filter(|_| is_heading);
                if is_heading && entry.is_none() && matches!(cell.value, Value::Text(_)) {
                    left_out.remove(&cell.column);
                }
                let Some((number, entry)) = entry else {
                    if !left_out.contains(&cell.column) {
                        cells.push(cell.clone());
                    }
                    continue;
                };
                used.push(number);
                match &entry.means.value {
                    Means::Value(value) => cells.push(Cell { value: value.clone(), ..cell.clone() }),
                    Means::Nothing | Means::Role(_) | Means::EachSide => {
                        left_out.insert(cell.column);
                    }
                }
            }
            cells.append(&mut added);
            cells.sort_by_key(|cell| cell.column);
            rows.push(Row { number: row.number, cells });
        }
        self.applied(sheet, rows, used)
    }

    /// The sheet with every word that was spoken of as what it means; `None` where there is none. Which entries hold
    /// follows from the sheet as it was written.
    pub(in crate::read) fn with_words(
        &mut self,
        sheet: &Sheet,
        written: &Sheet,
        sources: &Sources,
    ) -> Option<Sheet> {
        let holding = self.holding(written, sources);
        let entries: Vec<(usize, &Entry)> =
            holding.into_iter().filter(|(_, entry)| entry.word.is_some()).collect();
        if entries.is_empty() {
            return None;
        }
        let mut used = Vec::new();
        let mut rows: Vec<Row> = Vec::new();
        // What stands above each column, as far as it is a text.
        let mut headings: BTreeMap<u16, [String; 2]> = BTreeMap::new();
        let mut role_column = None;
        // The column of what left rows out, and the last of them: rows right below that leave it blank belong to it.
        let mut left_out: Option<(u16, u32)> = None;
        for row in &sheet.rows {
            let mut role = None;
            let mut leaves_out = left_out
                .filter(|(column, last)| last + 1 == row.number && row.cell(*column).is_none())
                .map(|(column, _)| column);
            let mut sides = None;
            let mut cells = Vec::with_capacity(row.cells.len());
            for cell in &row.cells {
                let text = compared(&cell.text());
                let spoken = entries.iter().find(|(_, entry)| {
                    entry.word.as_ref() == Some(&text)
                        && entry.heading.as_ref().is_none_or(|wanted| {
                            headings.get(&cell.column).is_some_and(|heading| heading.contains(wanted))
                        })
                });
                let Some((number, entry)) = spoken else {
                    cells.push(cell.clone());
                    continue;
                };
                used.push(*number);
                match &entry.means.value {
                    Means::Value(value) => cells.push(Cell { value: value.clone(), ..cell.clone() }),
                    Means::Role(is) => {
                        role = Some((*is, entry.means.place));
                        cells.push(cell.clone());
                    }
                    Means::Nothing => {
                        // Without a person or a pass the rest of the row would be somebody else's.
                        if entry.heading.as_deref().is_some_and(is_whose) {
                            leaves_out = Some(cell.column);
                        }
                    }
                    Means::EachSide => {
                        sides = each_side(&cell.text()).map(|names| (cells.len(), names));
                        cells.push(cell.clone());
                    }
                }
            }
            left_out = leaves_out.map(|column| (column, row.number));
            if left_out.is_some() {
                continue;
            }
            for cell in &row.cells {
                let text = compared(&cell.text());
                let names = [text.clone(), as_written(written, cell.place).unwrap_or(text)];
                let is_spoken_of =
                    |name: &String| entries.iter().any(|(_, entry)| entry.heading.as_ref() == Some(name));
                if !names.iter().any(is_spoken_of) {
                    continue;
                }
                headings.insert(cell.column, names);
                let whose = entries.iter().find(|(_, entry)| matches!(entry.means.value, Means::Role(_)));
                if let (true, Some((_, entry))) = (is_whose(&compared(&cell.text())), whose) {
                    let column = *role_column.get_or_insert_with(|| free_column(sheet));
                    let value = Value::Text("role".to_owned());
                    cells.push(Cell { place: entry.means.place, column, value, spread: false });
                }
            }
            if let (Some((role, place)), Some(column)) = (role, role_column) {
                cells.push(Cell { place, column, value: Value::Text(role.to_string()), spread: false });
            }
            if let Some((at, names)) = sides {
                for name in names {
                    let mut cells = cells.clone();
                    cells[at].value = Value::Text(name);
                    rows.push(Row { number: row.number, cells });
                }
                continue;
            }
            rows.push(Row { number: row.number, cells });
        }
        self.applied(sheet, rows, used)
    }
}

/// A column right of everything.
fn free_column(sheet: &Sheet) -> u16 {
    let last = sheet.rows.iter().filter_map(|row| row.cells.last()).map(|cell| cell.column).max();
    last.unwrap_or(0).saturating_add(1)
}

fn entry_of<'e>(cell: &Cell, entries: &[(usize, &'e Entry)]) -> Option<(usize, &'e Entry)> {
    let text = compared(&cell.text());
    entries.iter().find(|(_, entry)| entry.heading.as_ref() == Some(&text)).copied()
}

/// What was said of columns without a heading (`column D`) in the very row of headings that it was said of.
fn unheaded<'e>(row: &Row, entries: &[(usize, &'e Entry)]) -> Vec<(usize, u16, &'e Means)> {
    let of = |(number, entry): &(usize, &'e Entry)| {
        let letters = entry.heading.as_ref()?.strip_prefix("column ")?;
        let column =
            (1..=MOST_LETTERED).find(|column| column_letters(*column).eq_ignore_ascii_case(letters))?;
        let is_row = entry.is_of_row(row) && row.cell(column).is_none();
        is_row.then_some((*number, column, &entry.means.value))
    };
    entries.iter().filter_map(of).collect()
}

/// Columns up to `ZZ` may be named by their letters.
const MOST_LETTERED: u16 = 702;

/// Whether a row with a heading that was spoken of is a row of headings: its other cells are no numbers.
fn may_head(row: &Row, entries: &[(usize, &Entry)]) -> bool {
    let is_number = |cell: &Cell| match &cell.value {
        Value::Number(_) | Value::Money(_) => true,
        Value::Text(text) => parse_decimal(text, DecimalMark::Point).is_ok(),
        Value::Date(_) | Value::Bool(_) | Value::Fault(_) => false,
    };
    row.cells.len() > 1
        && row.cells.iter().any(|cell| entry_of(cell, entries).is_some())
        && row.cells.iter().all(|cell| !is_number(cell) || entry_of(cell, entries).is_some())
}

//! What was said of parts of a sheet: whether hidden ones are read, and which of several rows holds.

use super::Meanings;
use super::entry::{Entry, Part};
use crate::claim::words::panel::readings;
use crate::problem::Sources;
use crate::table::{Cell, Row, Sheet, Value};
use std::collections::BTreeSet;

impl Meanings {
    /// Whether somebody asked for the hidden parts of a sheet; `None` where nothing was said.
    pub(in crate::read) fn hidden(&mut self, sheet: &Sheet, sources: &Sources) -> Option<bool> {
        let hides = sheet.is_hidden || !sheet.hidden_rows.is_empty() || !sheet.hidden_columns.is_empty();
        let said = |entry: &Entry| match entry.part {
            Some(Part::Hidden(is_read)) if hides => Some(is_read),
            _ => None,
        };
        let (number, is_read) = self
            .holding(sheet, sources)
            .into_iter()
            .find_map(|(number, entry)| Some((number, said(entry)?)))?;
        self.used.insert(number);
        Some(is_read)
    }

    /// The sheet without the counts of rows that do not hold. What stands left of them stays, since rows below may take
    /// it over; `None` where there are no such rows.
    pub(in crate::read) fn without_rows(&mut self, sheet: &Sheet, sources: &Sources) -> Option<Sheet> {
        let mut dropped: BTreeSet<u32> = BTreeSet::new();
        let mut used = Vec::new();
        for (number, entry) in self.holding(sheet, sources) {
            let Some(Part::Rows(rows)) = &entry.part else { continue };
            if rows.iter().any(|row| sheet.rows.iter().any(|found| found.number == *row)) {
                used.push(number);
                dropped.extend(rows);
            }
        }
        if used.is_empty() {
            return None;
        }
        self.used.extend(used);
        let rows = sheet.rows.iter().map(|row| match panel(row) {
            Some(at) if dropped.contains(&row.number) => {
                Row { number: row.number, cells: row.cells[..=at].to_vec() }
            }
            _ => row.clone(),
        });
        Some(Sheet { rows: rows.collect(), ..sheet.clone() })
    }
}

/// The cell of a row that names a panel.
fn panel(row: &Row) -> Option<usize> {
    let names = |cell: &Cell| matches!(&cell.value, Value::Text(text) if !matches!(readings(text), Ok(found) if found.is_empty()));
    row.cells.iter().position(names)
}

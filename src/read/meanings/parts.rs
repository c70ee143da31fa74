//! What was said of parts of a sheet: whether hidden ones are read, which of several rows holds, and how numbers and
//! dates are written.

use super::Meanings;
use super::entry::{Entry, Part, as_written, compared};
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

    /// Whether somebody said of a sheet that it is left out.
    pub(in crate::read) fn leaves_out(&mut self, sheet: &Sheet, sources: &Sources) -> bool {
        let said =
            |entry: &Entry| if let Some(Part::Sheet(is_read)) = entry.part { Some(is_read) } else { None };
        let mut holding = self.holding(sheet, sources).into_iter();
        let found = holding.find_map(|(number, entry)| Some((number, said(entry)?)));
        self.used.extend(found.map(|(number, _)| number));
        found.is_some_and(|(_, is_read)| !is_read)
    }

    /// The sheet without the counts of rows that do not hold. What stands left of them stays, since rows below may take
    /// it over; `None` where there are no such rows.
    pub(in crate::read) fn without_rows(&mut self, sheet: &Sheet, sources: &Sources) -> Option<Sheet> {
        let mut dropped: BTreeSet<u32> = BTreeSet::new();
        let mut used = Vec::new();
        for (number, entry) in self.holding(sheet, sources) {
            let Some(Part::Rows(rows)) = &entry.part else { continue };
            if rows.iter().any(|row| sheet.row(*row).is_some()) {
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

impl Meanings {
    /// The sheet with the decimal mark, the order of dates and the view of its sides that were said of it or its columns; `None` where
    /// nothing was. A heading is found as it was written and as it reads by now.
    pub(in crate::read) fn with_conventions(
        &mut self,
        sheet: &Sheet,
        written: &Sheet,
        sources: &Sources,
    ) -> Option<Sheet> {
        let holding = self.holding(written, sources);
        let is_convention =
            |entry: &Entry| matches!(entry.part, Some(Part::Mark(_) | Part::Dates(_) | Part::Sides(_)));
        let entries: Vec<(usize, &Entry)> =
            holding.into_iter().filter(|(_, entry)| is_convention(entry)).collect();
        let mut said = (!entries.is_empty()).then(|| sheet.clone())?;
        let mut used = Vec::new();
        for (number, entry) in entries {
            let columns: Option<BTreeSet<u16>> = entry.heading.as_ref().map(|heading| {
                let cells = sheet.rows.iter().flat_map(|row| &row.cells);
                let heads = |cell: &&Cell| {
                    compared(&cell.text()) == *heading
                        || as_written(written, cell.place).as_ref() == Some(heading)
                };
                cells.filter(heads).map(|cell| cell.place.column).collect()
            });
            if columns.as_ref().is_none_or(|columns| !columns.is_empty()) {
                used.push(number);
            }
            match (&entry.part, columns) {
                (Some(Part::Mark(mark)), Some(columns)) => {
                    said.column_marks.extend(columns.into_iter().map(|column| (column, *mark)));
                }
                (Some(Part::Mark(mark)), None) => {
                    (said.mark, said.proof) = (*mark, Some(entry.means.place));
                }
                (Some(Part::Dates(order)), Some(columns)) => {
                    said.date_orders.extend(columns.into_iter().map(|column| (column, *order)));
                }
                (Some(Part::Dates(order)), None) => said.date_order = Some(*order),
                (Some(Part::Sides(seen)), _) => said.seen = Some(*seen),
                (Some(Part::Hidden(_) | Part::Rows(_) | Part::Sheet(_)) | None, _) => {}
            }
        }
        self.used.extend(used);
        Some(said)
    }
}

/// The cell of a row that names a panel.
fn panel(row: &Row) -> Option<usize> {
    let names = |cell: &Cell| matches!(&cell.value, Value::Text(text) if !matches!(readings(text), Ok(found) if found.is_empty()));
    row.cells.iter().position(names)
}

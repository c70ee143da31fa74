//! Rows that are put together anew, each with the place it was written in.

use crate::problem::Place;
use crate::table::{Cell, Moved, Row, Sheet, Value};

/// The rows of a new sheet, from top to bottom.
pub(super) struct NewRows<'a> {
    of: &'a Sheet,
    rows: Vec<Row>,
    moved: Moved,
    last: u32,
}

impl<'a> NewRows<'a> {
    /// Begins with the first rows of a sheet, as they stand.
    pub(super) fn after(sheet: &'a Sheet, rows: usize) -> Self {
        let mut new = Self { of: sheet, rows: Vec::new(), moved: Moved::default(), last: 0 };
        sheet.rows[..rows].iter().for_each(|row| new.keep(row, 0));
        new
    }

    /// How many rows there are.
    pub(super) fn len(&self) -> usize {
        self.rows.len()
    }

    /// A row as it stands, never nearer to the row above than it was to the row of the given number.
    pub(super) fn keep(&mut self, row: &Row, above: u32) {
        self.last += row.number.saturating_sub(above).max(1);
        let number = self.last;
        let place = self.of.row_place(row.number);
        for cell in &row.cells {
            self.moved.cells.insert((number, cell.column), self.of.place(row.number, cell.column));
        }
        self.moved.rows.insert(number, place);
        self.rows.push(Row { number, cells: row.cells.clone() });
    }

    /// Leaves so many rows blank.
    pub(super) fn leave(&mut self, blank: u32) {
        self.last += blank;
    }

    /// A new row, written at the given place, of cells by column; a blank one gives its place alone.
    pub(super) fn push(&mut self, place: Place, cells: impl IntoIterator<Item = (u16, Option<Cell>, Place)>) {
        self.last += 1;
        let number = self.last;
        self.moved.rows.insert(number, place);
        let mut row = Row { number, cells: Vec::new() };
        for (column, cell, place) in cells {
            self.moved.cells.insert((number, column), place);
            row.cells.extend(cell.map(|cell| Cell { column, ..cell }));
        }
        if !row.cells.is_empty() {
            self.rows.push(row);
        }
    }

    /// The sheet of these rows.
    pub(super) fn finish(self) -> Sheet {
        Sheet { rows: self.rows, moved: Some(self.moved), ..bare(self.of) }
    }
}

/// What is the same for every part of a sheet.
pub(super) fn bare(sheet: &Sheet) -> Sheet {
    Sheet {
        source: sheet.source,
        rows: Vec::new(),
        merges: sheet.merges.clone(),
        mark: sheet.mark,
        proof: sheet.proof,
        column_marks: sheet.column_marks.clone(),
        date_order: sheet.date_order,
        date_orders: sheet.date_orders.clone(),
        seen: sheet.seen,
        hidden_rows: sheet.hidden_rows.clone(),
        hidden_columns: sheet.hidden_columns.clone(),
        is_hidden: sheet.is_hidden,
        moved: sheet.moved.clone(),
    }
}

/// A cell that says what another cell means here.
pub(super) fn said(text: &str, place: Place) -> Cell {
    Cell { place, column: 0, value: Value::Text(text.to_owned()), spread: false }
}

//! What stands above a table instead of in it: `Claim no: | A-1`, as on a form for one car.

use super::columns::{INSPECTION, KEYS};
use super::draft::Stamp;
use super::tables::{Ours, has_key_column};
use crate::claim::Located;
use crate::claim::words::folded;
use crate::problem::{Place, Problem, catalogue};
use crate::quantity::parse_date;
use crate::table::{Cell, Column, Row, Table, Value};

/// The facts above one table.
#[derive(Debug, Default)]
pub(super) struct FormHeader {
    /// Cells of claim, job, registration and VIN.
    pub(super) keys: [Option<Cell>; 4],
    assessor: Option<Cell>,
    date: Option<Cell>,
    /// The cells that say them, labels included.
    used: Vec<Place>,
}

/// What a label names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Label {
    Key(usize),
    Assessor,
    Date,
}

impl FormHeader {
    /// The facts above a table that has no column for a key of its own, if a key is among them. Two different values of
    /// one fact are none.
    pub(super) fn of(ours: Ours<'_, '_>) -> Self {
        let table = ours.table;
        if has_key_column(table) || !ours.kind.takes_over() {
            return Self::default();
        }
        let mut found: Vec<(Label, Cell, Place)> = Vec::new();
        for row in table.above.iter().filter(|row| !is_heading(table, row)) {
            found.extend(row.cells.iter().filter_map(in_one_cell));
            found.extend(row.cells.windows(2).filter_map(|pair| in_two_cells(&pair[0], &pair[1])));
        }
        let mut header = Self::default();
        for (label, value, place) in &found {
            let is_doubtful =
                found.iter().any(|(other, cell, _)| other == label && cell.text() != value.text());
            if is_doubtful {
                continue;
            }
            let slot = match label {
                Label::Key(index) => &mut header.keys[*index],
                Label::Assessor => &mut header.assessor,
                Label::Date => &mut header.date,
            };
            *slot = slot.take().or(Some(value.clone()));
            header.used.extend([*place, value.place]);
        }
        if header.has_key() { header } else { Self::default() }
    }

    pub(super) fn has_key(&self) -> bool {
        self.keys.iter().any(Option::is_some)
    }

    /// Whether a row above the table says nothing else.
    pub(super) fn uses(&self, row: &Row) -> bool {
        row.cells.iter().all(|cell| self.used.contains(&cell.place))
    }

    /// Whose inspection the table is, as far as it is written above it.
    pub(super) fn stamp(&self) -> (Stamp, Option<Problem>) {
        let assessor = self.assessor.as_ref().map(|cell| Located::new(cell.text(), cell.place));
        let mut stamp = Stamp { assessor, ..Stamp::default() };
        let Some(cell) = &self.date else { return (stamp, None) };
        let date = match &cell.value {
            Value::Date(date) => Ok(*date),
            _ => parse_date(&cell.text()),
        };
        match date {
            Ok(date) => stamp.date = Some(Located::new(date, cell.place)),
            Err(fault) => {
                return (stamp, Some(catalogue::claim::date_fault(cell.place, &cell.text(), fault)));
            }
        }
        (stamp, None)
    }
}

fn is_heading(table: &Table<'_>, row: &Row) -> bool {
    table.columns.iter().any(|column| column.place.row == row.number)
}

fn in_two_cells(label: &Cell, value: &Cell) -> Option<(Label, Cell, Place)> {
    let Value::Text(text) = &label.value else { return None };
    let label_is = named(&folded(text))?;
    let is_value =
        !matches!(value.value, Value::Fault(_) | Value::Bool(_)) && named(&folded(&value.text())).is_none();
    is_value.then(|| (label_is, value.clone(), label.place))
}

/// `Claim no: A-1`, or `Claim no A-1`: without a colon the label has to be of two words, and the value of one that holds
/// a digit, so that titles stay titles.
fn in_one_cell(cell: &Cell) -> Option<(Label, Cell, Place)> {
    let Value::Text(text) = &cell.value else { return None };
    let (label, value) = if let Some((label, value)) = text.split_once(':') {
        (named(&folded(label))?, value.trim())
    } else {
        let (label, value) = text.rsplit_once(' ')?;
        let is_number = value.contains(|c: char| c.is_ascii_digit()) && label.trim().contains(' ');
        (named(&folded(label)).filter(|_| is_number)?, value)
    };
    let value = (!value.is_empty()).then(|| Cell { value: Value::Text(value.to_owned()), ..cell.clone() })?;
    Some((label, value, cell.place))
}

fn named(folded: &str) -> Option<Label> {
    let is = |column: &Column| column.id == folded || column.words.contains(&folded);
    let [assessor, date, ..] = &INSPECTION;
    if is(assessor) {
        Some(Label::Assessor)
    } else if is(date) {
        Some(Label::Date)
    } else {
        KEYS.iter().position(is).map(Label::Key)
    }
}

//! What stands above a table instead of in it: `Claim no: | A-1`, as on a form for one car.

use super::columns::{FACTS, INSPECTION, KEYS};
use super::draft::Stamp;
use super::tables::{self, Ours, has_key_column};
use crate::claim::Located;
use crate::claim::words::folded;
use crate::problem::{Place, Problem, catalogue};
use crate::quantity::parse_date_in;
use crate::table::{Cell, Column, HeadedColumn, Row, Sheet, Table, Value, named_among};

/// The facts above one table.
#[derive(Debug, Default)]
pub(super) struct FormHeader {
    /// Cells of claim, job, registration and VIN.
    pub(super) keys: [Option<Cell>; 4],
    assessor: Option<Cell>,
    date: Option<Cell>,
    /// What is said of the car, its owner and insurer: as columns with one row, numbered by its first cell.
    facts: Option<(Vec<HeadedColumn>, Row)>,
    /// The cells that say them, labels included.
    used: Vec<Place>,
}

/// What a label names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Label {
    Key(usize),
    Assessor,
    Date,
    /// By its place among the facts.
    Fact(usize),
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
        let mut facts: Vec<(HeadedColumn, Cell)> = Vec::new();
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
                Label::Fact(index) => {
                    let id = FACTS[*index].id;
                    if !facts.iter().any(|(column, _)| column.id == Some(id)) {
                        facts.push(fact(table, id, *place, value, facts.len()));
                    }
                    header.used.extend([*place, value.place]);
                    continue;
                }
            };
            *slot = slot.take().or(Some(value.clone()));
            header.used.extend([*place, value.place]);
        }
        // Several keys beside each other are facts, too.
        let keys = || found.iter().filter(|(label, ..)| matches!(label, Label::Key(_)));
        let is_several = keys().any(|(label, ..)| keys().any(|(other, ..)| other != label));
        let with_keys = is_several || !facts.is_empty();
        for (label, value, place) in found.iter().filter(|_| with_keys) {
            let Label::Key(index) = label else { continue };
            let id = KEYS[*index].id;
            if header.keys[*index].is_some() && !facts.iter().any(|(column, _)| column.id == Some(id)) {
                facts.push(fact(table, id, *place, value, facts.len()));
            }
        }
        let (columns, cells): (Vec<_>, Vec<_>) = facts.into_iter().unzip();
        let number = cells.first().map(|cell: &Cell| cell.place.row);
        header.facts = number.map(|number| (columns, Row { number, cells }));
        if header.has_key() || header.facts.is_some() { header } else { Self::default() }
    }

    pub(super) fn has_key(&self) -> bool {
        self.keys.iter().any(Option::is_some)
    }

    /// What is said of the car above a table, as a table of vehicles with one row.
    pub(super) fn facts<'h, 's>(&'h self, table: &Table<'s>) -> Option<(Table<'s>, &'h Row)> {
        let (columns, row) = self.facts.as_ref()?;
        let facts = Table {
            sheet: table.sheet,
            form: tables::FORMS[0],
            heading_row: row.number,
            columns: columns.clone(),
            rows: &[],
            above: &[],
        };
        Some((facts, row))
    }

    /// Whether a row above the table says nothing else.
    pub(super) fn uses(&self, row: &Row) -> bool {
        row.cells.iter().all(|cell| self.used.contains(&cell.place))
    }

    /// Whose inspection the table is, as far as it is written above it.
    pub(super) fn stamp(&self, sheet: &Sheet) -> (Stamp, Option<Problem>) {
        let assessor = self.assessor.as_ref().map(|cell| Located::new(cell.text(), cell.place));
        let mut stamp = Stamp { assessor, ..Stamp::default() };
        let Some(cell) = &self.date else { return (stamp, None) };
        let date = match &cell.value {
            Value::Date(date) => Ok(*date),
            _ => parse_date_in(&cell.text(), sheet.date_order_of(cell)),
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

/// A fact as a column of its own, with the unit that its label ends in, and its only cell.
fn fact(
    table: &Table<'_>,
    id: &'static str,
    label: Place,
    value: &Cell,
    before: usize,
) -> (HeadedColumn, Cell) {
    let column = u16::try_from(before + 1).unwrap_or(u16::MAX);
    let above = table.above.iter().flat_map(|row| &row.cells).find(|cell| cell.place == label);
    let heading = above.map(Cell::text).unwrap_or_default();
    let unit = named_among(heading.trim_end_matches([':', ' ']), &FACTS).and_then(|(_, unit)| unit);
    let headed =
        HeadedColumn { column, heading, place: label, id: Some(id), in_family: false, unit, repeats: None };
    (headed, Cell { column, ..value.clone() })
}

fn is_heading(table: &Table<'_>, row: &Row) -> bool {
    table.columns.iter().any(|column| column.place.row == row.number)
}

fn in_two_cells(label: &Cell, value: &Cell) -> Option<(Label, Cell, Place)> {
    let Value::Text(text) = &label.value else { return None };
    let label_is = named(text.trim_end_matches([':', ' ', '.']))?;
    let is_value = !matches!(value.value, Value::Fault(_) | Value::Bool(_)) && named(&value.text()).is_none();
    is_value.then(|| (label_is, value.clone(), label.place))
}

/// `Claim no: A-1`, or `Claim no A-1`: without a colon the label has to be of two words, and the value of one that holds
/// a digit, so that titles stay titles.
fn in_one_cell(cell: &Cell) -> Option<(Label, Cell, Place)> {
    let Value::Text(text) = &cell.value else { return None };
    let (label, value) = if let Some((label, value)) = text.split_once(':') {
        (named(label)?, value.trim())
    } else {
        let (label, value) = text.rsplit_once(' ')?;
        let is_number = value.contains(|c: char| c.is_ascii_digit()) && label.trim().contains(' ');
        (named(label).filter(|_| is_number)?, value)
    };
    let value = (!value.is_empty()).then(|| Cell { value: Value::Text(value.to_owned()), ..cell.clone() })?;
    Some((label, value, cell.place))
}

/// Whether a text is a label of a form.
pub(super) fn is_label(text: &str) -> bool {
    named(text.trim_end_matches([':', ' ', '.'])).is_some()
}

fn named(label: &str) -> Option<Label> {
    let name = folded(label);
    let is = |column: &Column| column.id == name || column.words.contains(&name.as_str());
    let [assessor, date, ..] = &INSPECTION;
    if is(assessor) {
        Some(Label::Assessor)
    } else if is(date) {
        Some(Label::Date)
    } else if let Some(key) = KEYS.iter().position(is) {
        Some(Label::Key(key))
    } else {
        let (id, _) = named_among(label, &FACTS)?;
        FACTS.iter().position(|fact| fact.id == id).map(Label::Fact)
    }
}

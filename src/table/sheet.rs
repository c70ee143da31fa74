use super::mark::{column_marks, date_orders};
use crate::problem::{Place, SourceId};
use crate::quantity::{Date, DateOrder, Decimal, DecimalMark, NumberFault, parse_decimal};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

/// What a cell holds. Blank cells are not kept at all.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Text, trimmed, not empty.
    Text(String),
    /// A number from a workbook, exact as the workbook shows it.
    Number(Decimal),
    /// A number that its workbook shows with a currency, and that currency's code; its sign where it may be of several
    /// (`$`).
    Money(Box<(Decimal, String)>),
    /// A calendar day from a workbook.
    Date(Date),
    /// True or false.
    Bool(bool),
    /// Something that is neither blank nor a value.
    Fault(CellFault),
}

/// A cell that holds something which must not be taken for blank or zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CellFault {
    /// An error of the spreadsheet program, as it shows it (`#REF!`).
    Error(String),
    /// A formula whose result was never stored.
    NoStoredValue,
    /// A number that is none (NaN, infinite, beyond 28 digits).
    NotFinite,
}

/// A cell that is not blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Where it was written. For a cell covered by a merge that is the merge's first cell.
    pub place: Place,
    /// The column it stands in, from 1.
    pub column: u16,
    /// What it holds.
    pub value: Value,
    /// Whether its value is spread over rows by a merge and this is not the first of them: a name holds for all of
    /// them, a count does not.
    pub spread: bool,
}

impl Cell {
    /// The same as [`Self::text`], without a copy where it is text already.
    pub fn written(&self) -> Cow<'_, str> {
        match &self.value {
            Value::Text(text) => Cow::Borrowed(text),
            _ => Cow::Owned(self.text()),
        }
    }

    /// The cell as text: as written for text, plain decimal for numbers, ISO for dates.
    pub fn text(&self) -> String {
        match &self.value {
            Value::Text(text) => text.clone(),
            Value::Number(number) => number.normalize().to_string(),
            Value::Money(money) => format!("{} {}", money.0.normalize(), money.1),
            Value::Date(date) => date.to_string(),
            Value::Bool(true) => "true".to_owned(),
            Value::Bool(false) => "false".to_owned(),
            Value::Fault(CellFault::Error(shown)) => shown.clone(),
            Value::Fault(CellFault::NoStoredValue) => "(formula without a stored value)".to_owned(),
            Value::Fault(CellFault::NotFinite) => "(not a finite number)".to_owned(),
        }
    }

    /// The cell as a number; text is read with the given decimal mark.
    pub fn number(&self, mark: DecimalMark) -> Result<Decimal, NumberFault> {
        match &self.value {
            Value::Number(number) => Ok(*number),
            Value::Money(money) => Ok(money.0),
            Value::Text(text) => parse_decimal(text, mark),
            Value::Date(_) | Value::Bool(_) | Value::Fault(_) => Err(NumberFault::NotANumber),
        }
    }
}

/// A row with at least one cell that is not blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its number in the sheet or its first line in the text file, from 1.
    pub number: u32,
    /// Its cells by column.
    pub cells: Vec<Cell>,
}

impl Row {
    /// The cell of a column, if it is not blank.
    pub fn cell(&self, column: u16) -> Option<&Cell> {
        self.cells.binary_search_by_key(&column, |cell| cell.column).ok().map(|index| &self.cells[index])
    }
}

/// A rectangle of merged cells, first and last inclusive, from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Merge {
    /// First row.
    pub first_row: u32,
    /// Last row.
    pub last_row: u32,
    /// First column.
    pub first_column: u16,
    /// Last column.
    pub last_column: u16,
}

/// From where left and right are seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// As seated, facing forward.
    Seated,
    /// As seen by somebody who stands in front of the car and faces it.
    FromTheFront,
}

/// One sheet of a workbook, or one text file.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Which source it is.
    pub source: SourceId,
    /// Its rows that are not blank, in order.
    pub rows: Vec<Row>,
    /// Its merged cells, already applied downwards to `rows`.
    pub merges: Vec<Merge>,
    /// The decimal mark of numbers written as text; settled when the file was read.
    pub mark: DecimalMark,
    /// The cell that proves the mark. Without a proof, a number that reads differently under the other mark
    /// ([`crate::quantity::could_be_both`]) has to be asked about.
    pub proof: Option<Place>,
    /// Where cells of the sheet prove both marks: the marks of the columns that prove one, as they were written.
    pub column_marks: BTreeMap<u16, DecimalMark>,
    /// Which part of a date stands first, where somebody said so of the whole sheet.
    pub date_order: Option<DateOrder>,
    /// The same of columns, as they were written: where one of their dates proves it, or somebody said so.
    pub date_orders: BTreeMap<u16, DateOrder>,
    /// From where left and right are seen, where somebody said so.
    pub seen: Option<Seen>,
    /// Rows that the file hides. Their cells stand in `rows` like all others.
    pub hidden_rows: BTreeSet<u32>,
    /// Columns that the file hides, likewise.
    pub hidden_columns: BTreeSet<u16>,
    /// Whether the file hides the whole sheet.
    pub is_hidden: bool,
    /// Where its rows and cells were written, where they were put together from another arrangement.
    pub moved: Option<Moved>,
}

/// Where the rows and cells of a rearranged sheet were written.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Moved {
    /// The row, or the column, that became a row of the sheet.
    pub rows: BTreeMap<u32, Place>,
    /// Cells that do not stand in their own column of that row; blank ones, too.
    pub cells: BTreeMap<(u32, u16), Place>,
}

impl Sheet {
    /// A sheet of rows; merges are applied downwards, so that a name merged over several rows holds for each.
    pub fn new(source: SourceId, mut rows: Vec<Row>, merges: Vec<Merge>, mark: DecimalMark) -> Self {
        for merge in &merges {
            spread_down(&mut rows, *merge);
        }
        Self {
            source,
            rows,
            merges,
            mark,
            proof: None,
            column_marks: BTreeMap::new(),
            date_order: None,
            date_orders: BTreeMap::new(),
            seen: None,
            hidden_rows: BTreeSet::new(),
            hidden_columns: BTreeSet::new(),
            is_hidden: false,
            moved: None,
        }
    }

    /// The row of a number; none where it is blank.
    pub fn row(&self, number: u32) -> Option<&Row> {
        let index = self.rows.binary_search_by_key(&number, |row| row.number).ok()?;
        self.rows.get(index)
    }

    /// Where a cell was written, blank or not.
    pub fn place(&self, row: u32, column: u16) -> Place {
        let written = |moved: &Moved| {
            let cell = moved.cells.get(&(row, column)).copied();
            cell.or_else(|| {
                let whole = moved.rows.get(&row)?;
                Some(if whole.row > 0 { Place { column, ..*whole } } else { *whole })
            })
        };
        self.moved.as_ref().and_then(written).unwrap_or(Place::cell(self.source, row, column))
    }

    /// Where a row was written: a row, or a column of a sheet that was turned.
    pub fn row_place(&self, row: u32) -> Place {
        let written = self.moved.as_ref().and_then(|moved| moved.rows.get(&row));
        written.copied().unwrap_or(Place::row(self.source, row))
    }

    /// The sheet with the cell that proves its decimal mark, and what its columns prove.
    #[must_use]
    pub fn proved_by(mut self, proof: Option<Place>) -> Self {
        self.proof = proof;
        self.column_marks = if proof.is_some() { BTreeMap::new() } else { column_marks(&self.rows) };
        self.date_orders = date_orders(&self.rows);
        self
    }

    /// The decimal mark of the number in a cell, and whether it is proved: by the sheet, or by the column that it was
    /// written in where another column proves otherwise.
    pub fn mark_of(&self, cell: &Cell) -> (DecimalMark, bool) {
        match self.column_marks.get(&cell.place.column) {
            Some(mark) => (*mark, true),
            None => (self.mark, self.proof.is_some()),
        }
    }

    /// Which part stands first in the date of a cell, as far as its column proves it or somebody said so.
    pub fn date_order_of(&self, cell: &Cell) -> Option<DateOrder> {
        self.date_orders.get(&cell.place.column).copied().or(self.date_order)
    }
}

/// Repeats a merge's first cell in the rows below it. Rows that are otherwise blank stay out: nothing stands there.
fn spread_down(rows: &mut [Row], merge: Merge) {
    let Ok(first) = rows.binary_search_by_key(&merge.first_row, |row| row.number) else { return };
    let Some(anchor) = rows[first].cell(merge.first_column).cloned() else { return };
    let below = rows.partition_point(|row| row.number <= merge.first_row);
    for row in rows[below..].iter_mut().take_while(|row| row.number <= merge.last_row) {
        if let Err(index) = row.cells.binary_search_by_key(&merge.first_column, |cell| cell.column) {
            row.cells.insert(index, Cell { spread: true, ..anchor.clone() });
        }
    }
}

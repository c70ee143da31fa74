//! Typed values of a row's cells, each with its place; what cannot be read is a problem at its cell.

use super::own_words::OwnWords;
use super::sizes::unit_of_titles;
use crate::claim::words::{Named, find, named};
use crate::claim::{Located, Place};
use crate::problem::{Problem, catalogue};
use crate::quantity::{
    Date, Decimal, DecimalMark, Length, LengthUnit, NumberFault, Percent, could_be_both, parse_date_in,
    parse_decimal,
};
use crate::table::{Cell, LengthFault, Row, Table, Value, parse_length};

named! {
    /// A yes or no as people write it.
    pub enum Answer {
        Yes = "yes",
        No = "no",
    }
}

/// A row of a table, read cell by cell; collects what is wrong.
pub(super) struct Cells<'a, 's> {
    pub(super) table: &'a Table<'s>,
    pub(super) row: &'s Row,
    /// Words of one's own.
    pub(super) own: &'a OwnWords,
    pub(super) problems: Vec<Problem>,
}

impl<'a, 's> Cells<'a, 's> {
    pub(super) fn new(table: &'a Table<'s>, row: &'s Row, own: &'a OwnWords) -> Self {
        Self { table, row, own, problems: Vec::new() }
    }

    /// The row as a place.
    pub(super) fn place(&self) -> Place {
        self.table.sheet.row_place(self.row.number)
    }

    /// The cell of a column, unless it is blank; one that holds an error is told and counts as blank.
    pub(super) fn cell(&mut self, id: &str) -> Option<&'s Cell> {
        let cell = self.row.cell(self.table.column(id)?.column)?;
        if matches!(cell.value, Value::Fault(_)) {
            self.problems.push(catalogue::counts::cell_fault(cell.place, &cell.text()));
            return None;
        }
        Some(cell)
    }

    /// Whether a column of the row holds anything.
    pub(super) fn has(&self, id: &str) -> bool {
        self.table.cell(self.row, id).is_some()
    }

    /// Free text.
    pub(super) fn text(&mut self, id: &str) -> Option<Located<String>> {
        self.cell(id).map(|cell| Located::new(cell.text(), cell.place))
    }

    /// One of a set of words. A lone dash is a blank here: there is no number that it could stand for.
    pub(super) fn word<T: Named>(&mut self, id: &str) -> Option<Located<T>> {
        let cell = self.cell(id)?;
        if let Value::Text(text) = &cell.value
            && let Some(value) = T::ALL.iter().find(|value| value.name() == text)
        {
            return Some(Located::new(*value, cell.place));
        }
        let text = cell.text();
        if matches!(text.as_str(), "-" | "\u{2013}" | "\u{2014}") {
            return None;
        }
        if let Some(value) = find::<T>(&text).or_else(|| self.own.find(&text)) {
            return Some(Located::new(value, cell.place));
        }
        let all: Vec<&str> = T::ALL.iter().map(|value| value.name()).collect();
        let near = self.own.suggest::<T>(&text);
        self.problems.push(catalogue::claim::word_unknown(cell.place, id, &text, &near, &all));
        None
    }

    /// Yes or no.
    pub(super) fn answer(&mut self, id: &str) -> Option<Located<bool>> {
        let cell = self.table.cell(self.row, id)?;
        if let Value::Bool(value) = cell.value {
            return Some(Located::new(value, cell.place));
        }
        self.word::<Answer>(id).map(|answer| Located::new(answer.value == Answer::Yes, answer.place))
    }

    /// A day.
    pub(super) fn date(&mut self, id: &str) -> Option<Located<Date>> {
        let cell = self.cell(id)?;
        if let Value::Date(date) = cell.value {
            return Some(Located::new(date, cell.place));
        }
        let text = cell.text();
        match parse_date_in(&text, self.table.sheet.date_order_of(cell)) {
            Ok(date) => return Some(Located::new(date, cell.place)),
            Err(fault) => self.problems.push(catalogue::claim::date_fault(cell.place, &text, fault)),
        }
        None
    }

    /// A length in its own unit or that of its heading.
    pub(super) fn length(&mut self, id: &str) -> Option<Located<Length>> {
        let heading = self.table.column(id)?;
        let unit = heading.unit.as_deref().and_then(LengthUnit::from_word);
        let unit = unit.or_else(|| unit_of_titles(self.table.above));
        let cell = self.cell(id)?;
        let text = cell.text();
        if self.reads_both_ways(cell, &text) {
            return None;
        }
        let (mark, _) = self.table.sheet.mark_of(cell);
        let problem = match parse_length(&text, unit, mark) {
            Ok(length) if length > Length::ZERO => return Some(Located::new(length, cell.place)),
            Ok(_) => catalogue::counts::length_unreadable(cell.place, &text, "it is zero"),
            Err(LengthFault::NoUnit) => catalogue::counts::length_without_unit(cell.place, &text),
            Err(_) if parse_length(&text, unit, other(mark)).is_ok() => {
                catalogue::counts::other_mark(cell.place, &text, mark)
            }
            Err(fault) => catalogue::counts::length_unreadable(cell.place, &text, &fault.to_string()),
        };
        self.problems.push(problem);
        None
    }

    /// Asks about the unit of a length that cannot be meant: a dent or crown beyond half a metre, any other mark beyond two
    /// metres, or one below a millimetre.
    pub(super) fn ask_about_unit(&mut self, id: &str, length: Option<Located<Length>>, is_round: bool) {
        const MILLIMETRE: i64 = 1_000_000;
        let most = if is_round { 500 * MILLIMETRE } else { 2000 * MILLIMETRE };
        let (Some(length), Some(column)) = (length, self.table.column(id)) else { return };
        let nanometres = length.value.nanometres();
        // A length that was settled from another column is told there.
        let Some(cell) = self.row.cell(column.column).filter(|cell| cell.place == length.place) else {
            return;
        };
        if (MILLIMETRE..=most).contains(&nanometres) {
            return;
        }
        let (mark, _) = self.table.sheet.mark_of(cell);
        let has_unit = parse_length(&cell.text(), None, mark).is_ok();
        let heading = (!has_unit).then_some(column.place);
        self.problems.push(catalogue::tally::length_absurd(cell.place, nanometres < MILLIMETRE, heading));
    }

    /// A percentage from 0 to 100; the sign may stand in the cell. A bare number up to one is asked about: it may
    /// be a fraction of one, and not of a hundred.
    pub(super) fn percent(&mut self, id: &str) -> Option<Located<Percent>> {
        let cell = self.cell(id)?;
        let text = cell.text();
        let in_range = |percent: &Percent| (Percent::default()..=Percent::HUNDRED).contains(percent);
        let number = text.trim_end_matches('%').trim_end();
        let percent = self.number(id, cell, number, "a percentage from 0 to 100", |number| {
            Percent::from_decimal(number).ok().filter(in_range)
        })?;
        let has_sign = number.len() < text.len();
        if !has_sign && (1..=Percent::MICRO).contains(&percent.value.micro()) {
            self.problems.push(catalogue::claim::percent_as_fraction(cell.place, id, &text));
            return None;
        }
        Some(percent)
    }

    /// A year of four digits.
    pub(super) fn year(&mut self, id: &str) -> Option<Located<u16>> {
        let cell = self.cell(id)?;
        self.number(id, cell, &cell.text(), "a year of four digits", |number| {
            u16::try_from(whole(number)?).ok().filter(|year| (1886..=2100).contains(year))
        })
    }

    /// A number of a pass, from 1.
    pub(super) fn ordinal(&mut self, id: &str) -> Option<Located<u32>> {
        let cell = self.cell(id)?;
        self.number(id, cell, &cell.text(), "a whole number from 1", |number| {
            u32::try_from(whole(number)?).ok().filter(|pass| (1..=99).contains(pass))
        })
    }

    /// A number of equal marks.
    pub(super) fn marks(&mut self) -> Option<usize> {
        let cell = self.cell("count")?;
        let read = self.number("count", cell, &cell.text(), "a whole number from 1 to 999", |number| {
            usize::try_from(whole(number)?).ok().filter(|count| (1..=999).contains(count))
        });
        read.map(|count| count.value)
    }

    /// A number of some kind: the part of the cell's text that is the number, what is wanted, what becomes of it.
    pub(super) fn number<T>(
        &mut self,
        id: &str,
        cell: &Cell,
        text: &str,
        wanted: &str,
        make: impl Fn(Decimal) -> Option<T>,
    ) -> Option<Located<T>> {
        let value = self.decimal(cell, text)?.ok().and_then(make);
        if value.is_none() {
            self.problems.push(catalogue::claim::number_unreadable(cell.place, id, &cell.text(), wanted));
        }
        value.map(|value| Located::new(value, cell.place))
    }

    /// The number of a cell: as stored, or of the given part of its text. `None` when it had to be asked about.
    pub(super) fn decimal(&mut self, cell: &Cell, text: &str) -> Option<Result<Decimal, NumberFault>> {
        let (mark, _) = self.table.sheet.mark_of(cell);
        if !matches!(cell.value, Value::Text(_)) {
            return Some(cell.number(mark));
        }
        if self.reads_both_ways(cell, text) {
            return None;
        }
        let read = parse_decimal(text, mark);
        if read.is_err()
            && let Some(problem) = why_no_value(self.table, cell, text)
        {
            self.problems.push(problem);
            return None;
        }
        Some(read)
    }

    /// Whether a text is a number that the two decimal marks read differently and the file does not settle; then it is
    /// asked about.
    pub(super) fn reads_both_ways(&mut self, cell: &Cell, text: &str) -> bool {
        let is_open = is_open(self.table, cell, text);
        if is_open {
            self.problems.push(catalogue::counts::both_ways(cell.place, &cell.text()));
        }
        is_open
    }

    /// Says that the row lacks something that its other cells need.
    pub(super) fn lacks(&mut self, id: &str) {
        let place = self.place();
        self.problems.push(catalogue::claim::row_incomplete(place, self.table.form.name, id));
    }
}

/// Whether a number reads differently under the two decimal marks, where neither the file nor the column proves one.
pub(super) fn is_open(table: &Table<'_>, cell: &Cell, text: &str) -> bool {
    let (_, is_proved) = table.sheet.mark_of(cell);
    !is_proved && text.contains(['.', ',']) && could_be_both(text)
}

/// Why a text that was meant as a number cannot be read, where that can be said: it is the text of a formula, or it is
/// written with the decimal mark that the file does not use.
pub(super) fn why_no_value(table: &Table<'_>, cell: &Cell, text: &str) -> Option<Problem> {
    if is_formula(&cell.text()) {
        return Some(catalogue::counts::formula_as_text(cell.place, &cell.text()));
    }
    let (mark, _) = table.sheet.mark_of(cell);
    parse_decimal(text, other(mark))
        .is_ok()
        .then(|| catalogue::counts::other_mark(cell.place, &cell.text(), mark))
}

/// Whether a text would be a formula in a spreadsheet program.
pub(super) fn is_formula(text: &str) -> bool {
    text.starts_with('=')
}

/// The decimal mark that a file does not use.
pub(super) const fn other(mark: DecimalMark) -> DecimalMark {
    match mark {
        DecimalMark::Point => DecimalMark::Comma,
        DecimalMark::Comma => DecimalMark::Point,
    }
}

pub(super) fn whole(number: Decimal) -> Option<i64> {
    number.fract().is_zero().then(|| i64::try_from(number).ok()).flatten()
}

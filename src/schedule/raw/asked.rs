//! Values put in place of those that a schedule's tables hold, for asking what would be otherwise.

use super::{Raw, RawLabour, RawTax, RawTerm};
use crate::claim::words::folded;
use crate::problem::{Located, Place};
use crate::quantity::{Decimal, DecimalMark, parse_date, parse_decimal};
use crate::schedule::{Asked, forms};
use crate::table::{Cell, Value};

impl Raw {
    /// Puts what was asked for in place of what is written, for the checks to look at with all the rest. A row that is not
    /// there is added, and stands where its table does.
    pub fn ask(&mut self, asked: &[Asked], home: Place) {
        for asked in asked {
            match asked {
                Asked::Term { name, value } => {
                    let place = self.place_of(&forms::TERMS).unwrap_or(home);
                    ask_term(&mut self.terms, name, value, place);
                }
                Asked::Labour { class, per_hour } => {
                    let place = self.place_of(&forms::LABOUR).unwrap_or(home);
                    let is_it = |row: &&mut RawLabour| folded(&row.class.value) == folded(class);
                    match self.labour.iter_mut().find(is_it) {
                        Some(row) => put(&mut row.per_hour, *per_hour, row.class.place),
                        None => self.labour.push(RawLabour {
                            class: Located::new(class.clone(), place),
                            per_hour: Some(Located::new(*per_hour, place)),
                        }),
                    }
                }
                Asked::Tax { on, percent } => {
                    let place = self.place_of(&forms::TAXES).unwrap_or(home);
                    let is_it = |row: &&mut RawTax| folded(&row.on.value) == folded(on);
                    match self.taxes.iter_mut().find(is_it) {
                        Some(row) => put(&mut row.percent, *percent, row.on.place),
                        None => self.taxes.push(RawTax {
                            on: Located::new(on.clone(), place),
                            percent: Some(Located::new(*percent, place)),
                        }),
                    }
                }
            }
        }
    }
}

fn put(written: &mut Option<Located<Decimal>>, value: Decimal, place: Place) {
    let place = written.map_or(place, |written| written.place);
    *written = Some(Located::new(value, place));
}

fn ask_term(terms: &mut Vec<RawTerm>, name: &str, value: &str, place: Place) {
    let found = terms.iter_mut().find(|row| folded(&row.term.value) == folded(name));
    let place =
        found.as_ref().map_or(place, |row| row.value.as_ref().map_or(row.term.place, |cell| cell.place));
    // An empty value takes the term away, as a blank cell does.
    let value = (!value.trim().is_empty()).then(|| Cell {
        place,
        column: place.column,
        value: as_value(value.trim()),
        spread: false,
    });
    if let Some(row) = found {
        row.value = value;
    } else {
        let term = Located::new(name.to_owned(), place);
        terms.push(RawTerm { term, value, mark: DecimalMark::Point });
    }
}

/// A number with a decimal point, a percentage or a day as such, whatever the mark of the file; all else as words.
fn as_value(text: &str) -> Value {
    let number = text.strip_suffix('%').unwrap_or(text).trim_end();
    match (parse_decimal(number, DecimalMark::Point), parse_date(text)) {
        (Ok(number), _) => Value::Number(number),
        (_, Ok(date)) => Value::Date(date),
        _ => Value::Text(text.to_owned()),
    }
}

//! Values as the library that reads workbooks hands them over. Numbers arrive as floats here and leave as exact decimals.

use super::{MOST_COLUMNS, MOST_ROWS, UNREADABLE};
use crate::quantity::{Date, Decimal, parse_date};
use crate::table::{CellFault, Merge, Value};
use calamine::DataRef;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Runs a step of the library that reads workbooks: on bad input it may panic.
pub(super) fn guarded<T>(step: impl FnOnce() -> Result<T, String>) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(step)).unwrap_or_else(|_| Err(UNREADABLE.to_owned()))
}

/// Row and column from 1, inside the bounds of the format.
pub(super) fn position((row, column): (u32, u32)) -> Option<(u32, u16)> {
    let row = row.checked_add(1).filter(|row| *row <= MOST_ROWS)?;
    let column = column.checked_add(1).filter(|column| *column <= u32::from(MOST_COLUMNS))?;
    Some((row, u16::try_from(column).ok()?))
}

/// A rectangle of merged cells, if it lies inside the bounds of the format.
pub(super) fn merge(start: (u32, u32), end: (u32, u32)) -> Option<Merge> {
    let (first_row, first_column) = position(start)?;
    let (last_row, last_column) = position(end)?;
    (first_row <= last_row && first_column <= last_column).then_some(Merge {
        first_row,
        last_row,
        first_column,
        last_column,
    })
}

/// What a cell holds; `None` for a blank one.
pub(super) fn value(data: &DataRef<'_>, is_formula: bool) -> Option<Value> {
    match data {
        DataRef::Empty => is_formula.then_some(Value::Fault(CellFault::NoStoredValue)),
        DataRef::String(text) | DataRef::DurationIso(text) => text_value(text),
        DataRef::SharedString(text) => text_value(text),
        DataRef::Int(number) => Some(Value::Number(Decimal::from(*number))),
        DataRef::Float(number) => Some(number_value(*number)),
        DataRef::Bool(value) => Some(Value::Bool(*value)),
        DataRef::Error(error) => Some(Value::Fault(CellFault::Error(error.to_string()))),
        DataRef::DateTime(moment) if moment.is_duration() => Some(time_value(moment.as_f64())),
        DataRef::DateTime(moment) => Some(date_value(moment.as_f64(), moment.to_ymd_hms_milli())),
        DataRef::DateTimeIso(text) => {
            Some(parse_date(text).map_or_else(|_| Value::Text(text.clone()), Value::Date))
        }
    }
}

pub(super) fn text_value(text: &str) -> Option<Value> {
    let text = text.trim();
    (!text.is_empty()).then(|| Value::Text(text.to_owned()))
}

/// A number as the workbook shows it, to its 15 significant digits.
fn number_value(number: f64) -> Value {
    if let Some(whole) = small_whole(number) {
        return Value::Number(Decimal::from(whole));
    }
    match Decimal::try_from(number) {
        // What is too small to keep must not become a zero.
        Ok(decimal) if decimal.is_zero() && number != 0.0 => Value::Fault(CellFault::NotFinite),
        Ok(decimal) => Value::Number(decimal.normalize()),
        Err(_) => Value::Fault(CellFault::NotFinite),
    }
}

/// A whole number of up to nine digits, as nearly every one is: it needs no search for its digits.
#[expect(clippy::cast_possible_truncation, reason = "whole, and within bounds")]
fn small_whole(number: f64) -> Option<i32> {
    (number.trunc() == number && number.abs() < 1e9).then_some(number as i32)
}

/// A number that a file holds as text.
pub(super) fn number_of_text(text: &str) -> Value {
    text.trim().parse::<f64>().map_or(Value::Fault(CellFault::NotFinite), number_value)
}

/// The day of a date; a time of day without one as text. The 29th of February 1900, which some programs count and no
/// calendar has, stays text, so that it is told as impossible.
fn date_value(serial: f64, (year, month, day, ..): (u16, u8, u8, u8, u8, u8, u16)) -> Value {
    if (0.0..1.0).contains(&serial) {
        return time_value(serial);
    }
    let civil = i16::try_from(year).ok().zip(i8::try_from(month).ok()).zip(i8::try_from(day).ok());
    // Beyond the year 9999 and before 1900 a spreadsheet shows no day either.
    if !(0.0..2_958_466.0).contains(&serial) {
        return Value::Fault(CellFault::Error("########".to_owned()));
    }
    match civil.and_then(|((year, month), day)| Date::new(year, month, day).ok()) {
        Some(date) => Value::Date(date),
        None => Value::Text(format!("{year:04}-{month:02}-{day:02}")),
    }
}

/// A part of a day, or more than one day, as hours and minutes.
fn time_value(days: f64) -> Value {
    let minutes = Decimal::try_from(days)
        .ok()
        .and_then(|days| days.checked_mul(Decimal::from(24 * 60)))
        .and_then(|minutes| u64::try_from(minutes.checked_add(Decimal::new(5, 1))?.floor()).ok());
    match minutes {
        Some(minutes) => Value::Text(format!("{}:{:02}", minutes / 60, minutes % 60)),
        None => Value::Fault(CellFault::NotFinite),
    }
}

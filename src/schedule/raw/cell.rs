use crate::problem::{Place, Problem, catalogue::schedule as words};
use crate::quantity::{
    Date, Decimal, DecimalMark, Length, LengthUnit, NumberFault, QuantityFault, parse_count,
    parse_date as date_of,
};
use crate::table::{Cell, Value};
use crate::table::{LengthFault, parse_length};

/// An edge of a size band or of a rate by length, with what one step of its last printed digit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::schedule) struct Edge {
    pub length: Length,
    pub digit: Length,
    pub place: Place,
}

/// A name or other words. A date is refused: spreadsheets make dates of names such as 5-10.
pub(in crate::schedule) fn parse_text(cell: &Cell, column: &str) -> Result<String, Problem> {
    match &cell.value {
        Value::Text(text) => Ok(text.trim().to_owned()),
        Value::Number(_) | Value::Money(_) | Value::Bool(_) => Ok(cell.text()),
        Value::Date(_) => Err(at(cell, words::date_for_words(column))),
        Value::Fault(_) => Err(at(cell, words::cell_fault(column))),
    }
}

/// Free words, such as an edition: a date in it is as good as any other words.
pub(in crate::schedule) fn parse_free_text(cell: &Cell, column: &str) -> Result<String, Problem> {
    if matches!(cell.value, Value::Date(_)) { Ok(cell.text()) } else { parse_text(cell, column) }
}

/// A plain number, in the sheet's decimal mark where it is text.
pub(in crate::schedule) fn parse_number(
    cell: &Cell,
    column: &str,
    mark: DecimalMark,
) -> Result<Decimal, Problem> {
    number_of(cell, &cell.text(), column, mark)
}

/// A percentage, with or without its sign.
pub(in crate::schedule) fn parse_percent(
    cell: &Cell,
    column: &str,
    mark: DecimalMark,
) -> Result<Decimal, Problem> {
    let text = cell.text();
    number_of(cell, text.trim().trim_end_matches('%'), column, mark)
}

/// A whole number from 0 to 99 999.
pub(in crate::schedule) fn parse_whole(cell: &Cell, column: &str, mark: DecimalMark) -> Result<u32, Problem> {
    let number = parse_number(cell, column, mark)?;
    parse_count(number).map_err(|fault| at(cell, words::unreadable(column, &fault, mark)))
}

/// A calendar day.
pub(in crate::schedule) fn parse_date(cell: &Cell, column: &str) -> Result<Date, Problem> {
    match &cell.value {
        Value::Date(date) => Ok(*date),
        Value::Fault(_) => Err(at(cell, words::cell_fault(column))),
        _ => date_of(&cell.text()).map_err(|fault| at(cell, words::unreadable_date(column, fault))),
    }
}

/// Yes or no.
pub(in crate::schedule) fn parse_yes_no(cell: &Cell, column: &str) -> Result<bool, Problem> {
    match (&cell.value, cell.text().trim().to_lowercase().as_str()) {
        (Value::Fault(_), _) => Err(at(cell, words::cell_fault(column))),
        (_, "yes" | "true") => Ok(true),
        (_, "no" | "false") => Ok(false),
        (_, text) => Err(at(cell, words::unknown_name(column, text, &[], &["yes", "no"]))),
    }
}

/// A length that is not negative. The cell's own unit counts before the heading's.
pub(in crate::schedule) fn parse_edge(
    cell: &Cell,
    column: &str,
    unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Result<Edge, Problem> {
    match cell.value {
        Value::Fault(_) => return Err(at(cell, words::cell_fault(column))),
        Value::Date(_) => return Err(at(cell, words::date_for_words(column))),
        Value::Text(_) | Value::Number(_) | Value::Money(_) | Value::Bool(_) => {}
    }
    let mark = match cell.value {
        Value::Number(_) => DecimalMark::Point,
        _ => mark,
    };
    let text = cell.text();
    // Nothing is nothing in any unit.
    let is_zero = parse_length(&text, Some(LengthUnit::Millimetre), mark) == Ok(Length::ZERO);
    let parsed = if is_zero { Ok(Length::ZERO) } else { parse_length(&text, unit, mark) };
    let length = parsed.map_err(|fault| match fault {
        LengthFault::NoUnit => at(cell, words::no_unit(column)),
        LengthFault::Number(fault) => at(cell, words::unreadable_length(column, fault)),
    })?;
    if length < Length::ZERO {
        return Err(at(cell, words::unreadable_length(column, NumberFault::Negative)));
    }
    Ok(Edge { length, digit: printed_digit(&text, unit, mark), place: cell.place })
}

/// One step of the last digit of a length as printed: 1 mm for `10 mm`, 0.1 in for `0.5 in`, 1/16 in for `3/16 in`.
fn printed_digit(text: &str, unit: Option<LengthUnit>, mark: DecimalMark) -> Length {
    let number = text.trim_end_matches(|c: char| !c.is_ascii_digit());
    let unit = LengthUnit::from_word(text[number.len()..].trim()).or(unit).unwrap_or(LengthUnit::Millimetre);
    let one = unit.nanometres();
    if let Some((_, denominator)) = number.split_once(['/', '\u{2044}']) {
        let parts = denominator.trim().parse::<i64>().ok().filter(|parts| *parts > 0).unwrap_or(1);
        return Length::from_nanometres(one / parts);
    }
    let sign = match mark {
        DecimalMark::Point => '.',
        DecimalMark::Comma => ',',
    };
    let decimals = number.split_once(sign).map_or(0, |(_, decimals)| decimals.len());
    let step = u32::try_from(decimals).ok().and_then(|digits| 10_i64.checked_pow(digits)).unwrap_or(i64::MAX);
    Length::from_nanometres(one / step)
}

fn number_of(cell: &Cell, text: &str, column: &str, mark: DecimalMark) -> Result<Decimal, Problem> {
    let parsed = match &cell.value {
        Value::Number(number) => Ok(*number),
        Value::Money(money) => Ok(money.0),
        Value::Fault(_) => return Err(at(cell, words::cell_fault(column))),
        Value::Date(_) => return Err(at(cell, words::date_for_words(column))),
        Value::Bool(_) => Err(NumberFault::NotANumber),
        Value::Text(_) => crate::quantity::parse_decimal(text, mark),
    };
    parsed.map_err(|fault| at(cell, words::unreadable(column, &fault, mark)))
}

/// A value that is finer than its quantity can be, or too large for it.
pub(in crate::schedule) fn beyond_quantity(
    column: &str,
    value: Decimal,
    place: Place,
    fault: QuantityFault,
    finest: &str,
) -> Problem {
    match fault {
        QuantityFault::TooPrecise => words::too_precise(column, finest),
        QuantityFault::Overflow | QuantityFault::Currencies(..) => {
            words::out_of_range(column, "it is too large")
        }
    }
    .at(place)
    .written(value.normalize().to_string())
}

/// A problem of a cell, which is quoted.
fn at(cell: &Cell, problem: Problem) -> Problem {
    problem.at(cell.place).written(cell.text())
}

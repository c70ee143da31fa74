use super::terms::Book;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::{Currency, Decimal, Hours, Money, Percent, QuantityFault, TimeUnit, UnitRate};
use crate::schedule::forms::Holds;
use crate::schedule::raw::{Raw, beyond_quantity, hours_per_unit};

/// More than any schedule states, in major units: together with any number of dents it still fits the type.
const MOST_MONEY: i64 = 10_000_000_000;
/// More than any schedule states for one piece of work, in hours.
const MOST_HOURS: i64 = 10_000;

/// Whether a number may be below zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    NotNegative,
    Either,
}

/// What the schedule's plain numbers are numbers of. Where a term is missing or unreadable nothing can be made of them;
/// that is told once, at the term.
#[derive(Debug, Clone, Copy)]
pub(super) struct Units {
    pub currency: Option<Located<Currency>>,
    pub time: Option<Located<TimeUnit>>,
}

impl Units {
    /// The currency and the time unit of the terms, held against the units in headings.
    pub fn of(book: &Book<'_>, raw: &Raw, problems: &mut Vec<Problem>) -> Self {
        let units = Self { currency: book.currency(problems), time: book.time_unit(problems) };
        for headed in &raw.units {
            let expected = match headed.holds {
                Holds::Money => units
                    .currency
                    .filter(|currency| currency.value.code() != headed.unit)
                    .map(|currency| (currency.value.code(), currency.place)),
                Holds::Time => units
                    .time
                    .filter(|time| Some(unit_words(time.value)) != hours_per_unit(&headed.unit))
                    .map(|time| (unit_words(time.value), time.place)),
                _ => None,
            };
            if let Some((expected, place)) = expected {
                let problem = words::unit_clash(headed.column, &headed.unit, Some(expected));
                problems.push(problem.at(headed.place).written(headed.unit.clone()).and(place));
            }
        }
        units
    }

    /// An amount to the minor unit.
    pub fn money(
        &self,
        column: &str,
        written: Located<Decimal>,
        sign: Sign,
        problems: &mut Vec<Problem>,
    ) -> Option<Located<Money>> {
        let currency = self.currency?.value;
        in_range(column, written, sign, MOST_MONEY, problems)?;
        let finest = match currency.decimals() {
            0 => format!("whole {currency}"),
            digits => format!("{digits} decimals in {currency}"),
        };
        made(column, written, &finest, Money::from_decimal(written.value, currency), problems)
    }

    /// An amount per dent or hour, which may be finer than the minor unit.
    pub fn rate(
        &self,
        column: &str,
        written: Located<Decimal>,
        problems: &mut Vec<Problem>,
    ) -> Option<Located<UnitRate>> {
        let currency = self.currency?.value;
        in_range(column, written, Sign::NotNegative, MOST_MONEY, problems)?;
        let finest = format!("{} decimals", currency.decimals() + 4);
        made(column, written, &finest, UnitRate::from_decimal(written.value, currency), problems)
    }

    /// A time in the schedule's unit.
    pub fn hours(
        &self,
        column: &str,
        written: Located<Decimal>,
        problems: &mut Vec<Problem>,
    ) -> Option<Located<Hours>> {
        let unit = self.time?.value;
        let most = MOST_HOURS * 3600 / if unit == TimeUnit::Tenths { 3600 } else { unit.seconds() };
        in_range(column, written, Sign::NotNegative, most, problems)?;
        let finest = match unit {
            TimeUnit::Tenths => "hours that are whole seconds, such as 0.25".to_owned(),
            TimeUnit::Minutes => "minutes that are whole seconds, such as 7.5".to_owned(),
            TimeUnit::WorkUnits(_) => "work units that are whole seconds".to_owned(),
        };
        made(column, written, &finest, Hours::in_unit(written.value, unit), problems)
    }
}

/// A percentage between two bounds, both included.
pub(super) fn percent(
    column: &str,
    written: Located<Decimal>,
    bounds: (i64, i64),
    problems: &mut Vec<Problem>,
) -> Option<Located<Percent>> {
    let value = written.value;
    if value < Decimal::from(bounds.0) || value > Decimal::from(bounds.1) {
        let why = format!("it has to lie between {} and {}", bounds.0, bounds.1);
        problems.push(quoted(words::out_of_range(column, &why), written));
        return None;
    }
    if !value.is_zero() && value > Decimal::NEGATIVE_ONE && value < Decimal::ONE {
        problems.push(quoted(words::percent_as_fraction(column, value), written));
    }
    made(column, written, "six decimals of a percent", Percent::from_decimal(value), problems)
}

/// What the terms call a unit of time.
fn unit_words(unit: TimeUnit) -> &'static str {
    match unit {
        TimeUnit::Tenths => "tenths",
        TimeUnit::Minutes => "minutes",
        TimeUnit::WorkUnits(_) => "work units",
    }
}

fn in_range(
    column: &str,
    written: Located<Decimal>,
    sign: Sign,
    most: i64,
    problems: &mut Vec<Problem>,
) -> Option<()> {
    let value = written.value;
    let why = if sign == Sign::NotNegative && value < Decimal::ZERO {
        "it is below zero"
    } else if value > Decimal::from(most) || value < Decimal::from(-most) {
        "it is too large"
    } else {
        return Some(());
    };
    problems.push(quoted(words::out_of_range(column, why), written));
    None
}

fn made<T>(
    column: &str,
    written: Located<Decimal>,
    finest: &str,
    result: Result<T, QuantityFault>,
    problems: &mut Vec<Problem>,
) -> Option<Located<T>> {
    match result {
        Ok(value) => Some(Located::new(value, written.place)),
        Err(fault) => {
            problems.push(beyond_quantity(column, written.value, written.place, fault, finest));
            None
        }
    }
}

fn quoted(problem: Problem, written: Located<Decimal>) -> Problem {
    problem.at(written.place).written(written.value.normalize().to_string())
}

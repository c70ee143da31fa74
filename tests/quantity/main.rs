//! Exact quantities against published values (their sources stand in `tests/published/README.md`), and at their edges.

// `cfg(test)` says to the lints that these modules are tests, where `unwrap` may stand.
#[cfg(test)]
mod money;
#[cfg(test)]
mod parsing;
#[cfg(test)]
mod rounding;
#[cfg(test)]
mod splitting;

use stipple::quantity::{Currency, Decimal, DecimalMark, Money, parse_decimal};

/// The records of a published table.
fn records(text: &str) -> Vec<csv::StringRecord> {
    let records: Result<Vec<_>, _> = csv::Reader::from_reader(text.as_bytes()).records().collect();
    records.unwrap_or_else(|error| panic!("{error}"))
}

fn decimal(text: &str) -> Decimal {
    parse_decimal(text, DecimalMark::Point).unwrap_or_else(|fault| panic!("{text}: {fault}"))
}

fn currency(code: &str) -> Currency {
    Currency::from_code(code).unwrap_or_else(|| panic!("{code} is no currency"))
}

fn eur(text: &str) -> Money {
    Money::from_decimal(decimal(text), currency("EUR")).unwrap_or_else(|fault| panic!("{text}: {fault}"))
}

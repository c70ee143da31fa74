//! Exact quantities against published values (their sources stand in `tests/published/README.md`), and at their edges.

mod money;
mod parsing;
mod rounding;
mod splitting;

use stipple::quantity::{Currency, Decimal, DecimalMark, Money, parse_decimal};

/// The records of a published table.
fn records(text: &str) -> Vec<csv::StringRecord> {
    csv::Reader::from_reader(text.as_bytes()).records().map(Result::unwrap).collect()
}

fn decimal(text: &str) -> Decimal {
    parse_decimal(text, DecimalMark::Point).unwrap_or_else(|fault| panic!("{text}: {fault}"))
}

fn currency(code: &str) -> Currency {
    Currency::from_code(code).unwrap()
}

fn eur(text: &str) -> Money {
    Money::from_decimal(decimal(text), currency("EUR")).unwrap()
}

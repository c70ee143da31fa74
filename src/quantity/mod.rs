//! Exact quantities as distinct types, their strict parsing, and the only place that rounds.
//!
//! Everything here is an integer underneath: money in minor units, time in seconds, length in nanometres,
//! percentages in millionths of a percent. No binary floating point is used.

mod area;
mod currency;
mod date;
mod hours;
mod length;
mod money;
mod named_size;
mod number;
mod percent;
mod rounding;
mod split;
mod strokes;

pub use area::Area;
pub use currency::Currency;
pub use date::{Date, DateFault, DateOrder, date_order, parse_date, parse_date_in};
pub use hours::{Hours, TimeUnit};
pub use length::{Length, LengthUnit};
pub use money::{Money, UnitRate};
pub use named_size::named_size;
pub use number::{DecimalMark, NumberFault, could_be_both, exact, parse_count, parse_decimal};
pub use percent::Percent;
pub use rounding::Rounding;
pub use rust_decimal::Decimal;
pub use split::largest_remainder;
pub use strokes::{Strokes, parse_strokes};

/// Why a computation on quantities has no result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum QuantityFault {
    /// The exact result does not fit the type (amounts beyond some 92 quadrillion minor units).
    Overflow,
    /// Two currencies met in one sum.
    Currencies(Currency, Currency),
    /// The value has more decimals than its type can hold exactly.
    TooPrecise,
}

impl std::fmt::Display for QuantityFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Overflow => f.write_str("the result is too large"),
            Self::Currencies(a, b) => write!(f, "{a} and {b} cannot be added"),
            Self::TooPrecise => f.write_str("the value has too many decimals"),
        }
    }
}

impl std::error::Error for QuantityFault {}

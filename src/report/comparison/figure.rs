//! Statistics as people read them: rounded, with their unit and interval, or the reason why there is none.
#![expect(clippy::float_arithmetic, reason = "statistics are scaled to be read; amounts stay exact")]

use crate::compare::statistics::Statistic;
use crate::quantity::Currency;

/// From here on a number is none that anybody reads.
const TOO_LARGE: f64 = 1e15;

/// What a number is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// Dents of a difference, with a sign and so many decimals.
    Difference(usize),
    /// Dents of a size.
    Dents(usize),
    /// A share, in percent.
    Share,
    /// Minor units of a currency, with a sign.
    Money(Currency),
    /// A coefficient.
    Coefficient,
}

/// A statistic in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// The number, or why there is none.
    pub value: Result<String, String>,
    /// Its limits, or why there are none.
    pub interval: Result<(String, String), String>,
    /// Units that were used.
    pub used: usize,
}

impl Figure {
    /// A statistic's.
    pub fn new(statistic: &Statistic, shown: Shown) -> Self {
        Self {
            value: statistic.value.map(|value| text(value, shown)).map_err(|reason| reason.to_string()),
            interval: statistic
                .interval
                .map(|interval| (text(interval.low, shown), text(interval.high, shown)))
                .map_err(|reason| reason.to_string()),
            used: statistic.used,
        }
    }

    /// `+1.30 dents a panel (95 %: +0.20 to +2.40; n = 71)`.
    pub fn sentence(&self, unit: &str) -> String {
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        match (&self.value, &self.interval) {
            (Err(reason), _) => format!("none: {reason}"),
            (Ok(value), Ok((low, high))) => {
                format!("{value}{unit} (95 %: {low} to {high}; n = {})", self.used)
            }
            (Ok(value), Err(reason)) => {
                format!("{value}{unit} (no interval: {reason}; n = {})", self.used)
            }
        }
    }
}

fn text(value: f64, shown: Shown) -> String {
    let (factor, places, has_sign, unit) = match shown {
        Shown::Difference(places) => (1.0, places, true, ""),
        Shown::Dents(places) => (1.0, places, false, ""),
        Shown::Share => (100.0, 0, false, " %"),
        Shown::Money(currency) => {
            let decimals = currency.decimals();
            (
                10.0_f64.powi(-i32::try_from(decimals).unwrap_or(0)),
                usize::try_from(decimals).unwrap_or(0),
                true,
                "",
            )
        }
        Shown::Coefficient => (1.0, 3, false, ""),
    };
    // Limits of an interval may lie outside the range of a share; nobody reads them there.
    let value = if shown == Shown::Share { value.clamp(0.0, 1.0) } else { value };
    let scaled = value * factor;
    if scaled.abs() >= TOO_LARGE {
        return "too large".to_owned();
    }
    let text = format!("{scaled:.places$}");
    // Nearly nothing has no sign.
    let is_nothing = text.bytes().all(|byte| !byte.is_ascii_digit() || byte == b'0');
    let text = if is_nothing { text.trim_start_matches('-') } else { &text };
    let sign = if has_sign && !is_nothing && scaled > 0.0 { "+" } else { "" };
    format!("{sign}{text}{unit}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_rounded_with_sign_and_unit() {
        let euro = Currency::from_code("EUR").unwrap();
        assert_eq!(text(1.236, Shown::Difference(2)), "+1.24");
        assert_eq!(text(-0.001, Shown::Difference(2)), "0.00");
        assert_eq!(text(0.846, Shown::Share), "85 %");
        assert_eq!(text(6.31, Shown::Share), "100 %");
        assert_eq!(text(-2050.4, Shown::Money(euro)), "-20.50");
        assert_eq!(text(f64::MAX, Shown::Dents(1)), "too large");
    }
}

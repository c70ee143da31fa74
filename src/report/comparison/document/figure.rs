use crate::compare::statistics::Statistic;
use crate::quantity::{Currency, Money};
use crate::report::wording::amount;

/// Parts thousands: a narrow space that no line breaks at.
const THIN: char = '\u{202f}';
/// Stands before a number below zero, as wide as a digit.
const MINUS: char = '\u{2212}';

/// A number with so many decimals: `1 234.5`, thousands parted by a narrow space, a true minus, never a minus zero.
pub fn decimal(value: f64, places: usize) -> String {
    let plain = format!("{value:.places$}");
    let (is_below, plain) = plain.strip_prefix('-').map_or((false, plain.as_str()), |rest| (true, rest));
    let is_zero = plain.bytes().all(|byte| matches!(byte, b'0' | b'.'));
    let (whole, rest) = plain.split_at(plain.find('.').unwrap_or(plain.len()));
    let mut out = String::with_capacity(plain.len() + 4);
    if is_below && !is_zero {
        out.push(MINUS);
    }
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            out.push(THIN);
        }
        out.push(digit);
    }
    out.push_str(rest);
    out
}

/// The same with a plus before what is above zero: a difference.
pub fn signed(value: f64, places: usize) -> String {
    let text = decimal(value, places);
    let is_zero = text.bytes().all(|byte| matches!(byte, b'0' | b'.'));
    if value > 0.0 && !is_zero { format!("+{text}") } else { text }
}

/// A statistic with as many decimals as its size bears: `0.834`, `12.35`, `168.2`.
pub fn plain(value: f64) -> String {
    let places = if value.abs() >= 100.0 {
        1
    } else if value.abs() >= 10.0 {
        2
    } else {
        3
    };
    decimal(value, places)
}

/// A number of dents with one decimal where it has any: `3`, `2.5`.
pub fn dents(value: f64) -> String {
    let text = decimal(value, 1);
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// A statistic of amounts, which counts in minor units, in major ones.
pub fn money(minor: f64, currency: Currency) -> String {
    let places = currency.decimals() as usize;
    let scale = f64::from(10_u32.pow(currency.decimals()));
    signed(minor / scale, places)
}

/// A whole number, thousands parted.
pub fn whole(value: u64) -> String {
    crate::report::wording::number(value.into())
}

/// A whole number that is a difference.
pub fn signed_whole(value: i64) -> String {
    let text = crate::report::wording::number(value.into());
    if value > 0 { format!("+{text}") } else { text }
}

/// A share as whole percent: `83 %`. All and none are only said where they are exact.
pub fn share(value: f64) -> String {
    let percent = value * 100.0;
    if (99.5..100.0).contains(&percent) {
        return "over 99 %".to_owned();
    }
    if percent > 0.0 && percent < 0.5 {
        return "under 1 %".to_owned();
    }
    format!("{} %", decimal(percent, 0))
}

/// An amount that is a difference: with its sign, also above zero.
pub fn difference(money: Money) -> String {
    let text = amount(money);
    if money.minor() > 0 { format!("+{text}") } else { text }
}

/// `1.2 to 3.4`, or why there is none.
pub fn interval(statistic: &Statistic, show: impl Fn(f64) -> String) -> Result<String, String> {
    statistic
        .interval
        .map(|interval| format!("{} to {}", show(interval.low), show(interval.high)))
        .map_err(|reason| reason.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_their_decimals_narrow_spaces_and_a_true_minus() {
        assert_eq!(decimal(1234.56, 1), "1\u{202f}234.6");
        assert_eq!(decimal(-0.04, 1), "0.0");
        assert_eq!(decimal(-1_234_567.0, 0), "\u{2212}1\u{202f}234\u{202f}567");
        assert_eq!(signed(0.5, 1), "+0.5");
        assert_eq!(signed(0.01, 1), "0.0");
        assert_eq!(signed(-3.0, 0), "\u{2212}3");
    }

    #[test]
    fn all_and_none_are_said_only_where_they_are_exact() {
        assert_eq!(share(1.0), "100 %");
        assert_eq!(share(0.999), "over 99 %");
        assert_eq!(share(0.001), "under 1 %");
        assert_eq!(share(0.0), "0 %");
        assert_eq!(share(0.826), "83 %");
    }
}

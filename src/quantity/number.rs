use super::{QuantityFault, Rounding};
use rust_decimal::Decimal;
use std::fmt;

/// Which sign parts whole from fraction in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum DecimalMark {
    /// `1,234.5`
    #[default]
    Point,
    /// `1.234,5`
    Comma,
}

/// Why a text is not the number that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumberFault {
    /// Not a number at all.
    NotANumber,
    /// More digits than can be kept exactly.
    TooPrecise,
    /// A whole number was asked for and this has a fraction.
    Fractional,
    /// Below zero where nothing below zero makes sense.
    Negative,
    /// Beyond what the quantity can hold.
    TooLarge,
}

impl fmt::Display for NumberFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotANumber => "it is not a number",
            Self::TooPrecise => "it has more digits than can be kept exactly",
            Self::Fractional => "it is not a whole number",
            Self::Negative => "it is below zero",
            Self::TooLarge => "it is too large",
        })
    }
}

impl std::error::Error for NumberFault {}

/// A decimal as people write it: an optional sign, digits, grouping by the other mark, a space, a thin space or an
/// apostrophe in threes, and at most one decimal mark. No exponents, no underscores: `rust_decimal`'s own parser
/// accepts both and rounds silently past 28 digits.
pub fn parse_decimal(text: &str, mark: DecimalMark) -> Result<Decimal, NumberFault> {
    let text = text.trim();
    let (negative, digits) = match text.chars().next() {
        Some('-' | '\u{2212}') => (true, &text[text.chars().next().map_or(0, char::len_utf8)..]),
        Some('+') => (false, &text[1..]),
        _ => (false, text),
    };
    let (decimal, grouping) = match mark {
        DecimalMark::Point => ('.', ','),
        DecimalMark::Comma => (',', '.'),
    };
    let (whole, fraction) = digits.split_once(decimal).map_or((digits, None), |(w, f)| (w, Some(f)));
    let mut plain = String::with_capacity(digits.len() + 1);
    if negative {
        plain.push('-');
    }
    push_whole(&mut plain, whole, grouping)?;
    if let Some(fraction) = fraction {
        if !fraction.bytes().all(|b| b.is_ascii_digit()) || (fraction.is_empty() && whole.is_empty()) {
            return Err(NumberFault::NotANumber);
        }
        plain.push('.');
        plain.push_str(if fraction.is_empty() { "0" } else { fraction });
    } else if whole.is_empty() {
        return Err(NumberFault::NotANumber);
    }
    exact_decimal(&plain)
}

#[expect(
    clippy::disallowed_methods,
    reason = "the text was put together here: sign, digits, one point, digits"
)]
fn exact_decimal(plain: &str) -> Result<Decimal, NumberFault> {
    Decimal::from_str_exact(plain).map_err(|_| NumberFault::TooPrecise)
}

fn push_whole(plain: &mut String, whole: &str, grouping: char) -> Result<(), NumberFault> {
    let is_space = |c: char| matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\u{2009}');
    let is_group = |c: char| c == grouping || is_space(c) || matches!(c, '\'' | '\u{2019}');
    // One number has one grouping sign: `1 234,567` with a decimal point is two numbers or a slip.
    let mut signs = whole.chars().filter(|c| is_group(*c));
    if let Some(first) = signs.next()
        && !signs.all(|sign| sign == first || (is_space(sign) && is_space(first)))
    {
        return Err(NumberFault::NotANumber);
    }
    let mut groups = whole.split(is_group);
    let first = groups.next().unwrap_or_default();
    if !first.bytes().all(|b| b.is_ascii_digit()) {
        return Err(NumberFault::NotANumber);
    }
    plain.push_str(if first.is_empty() { "0" } else { first });
    let mut grouped = false;
    for group in groups {
        if group.len() != 3 || !group.bytes().all(|b| b.is_ascii_digit()) {
            return Err(NumberFault::NotANumber);
        }
        grouped = true;
        plain.push_str(group);
    }
    if grouped && (first.is_empty() || first.len() > 3) { Err(NumberFault::NotANumber) } else { Ok(()) }
}

/// Whether a number reads differently under the two decimal marks (`1.234`, `1,234`): then a column must prove or a
/// person must say which one holds.
pub fn could_be_both(text: &str) -> bool {
    let point = parse_decimal(text, DecimalMark::Point);
    let comma = parse_decimal(text, DecimalMark::Comma);
    matches!((point, comma), (Ok(a), Ok(b)) if a != b)
}

/// A number of dents: whole, not negative, at most 99 999.
pub fn parse_count(value: Decimal) -> Result<u32, NumberFault> {
    if value.is_sign_negative() && !value.is_zero() {
        return Err(NumberFault::Negative);
    }
    if !value.fract().is_zero() {
        return Err(NumberFault::Fractional);
    }
    match u32::try_from(value.trunc().mantissa() / 10_i128.pow(value.trunc().scale())) {
        Ok(count) if count <= 99_999 => Ok(count),
        _ => Err(NumberFault::TooLarge),
    }
}

/// A decimal as a whole number of its `digits`-th decimal place; anything finer is a fault.
pub fn exact(value: Decimal, digits: u32) -> Result<i64, QuantityFault> {
    let value = value.normalize();
    let missing = digits.checked_sub(value.scale()).ok_or(QuantityFault::TooPrecise)?;
    10_i128
        .checked_pow(missing)
        .and_then(|factor| value.mantissa().checked_mul(factor))
        .and_then(|scaled| i64::try_from(scaled).ok())
        .ok_or(QuantityFault::Overflow)
}

/// A decimal times a whole factor, when that is a whole number; anything finer is a fault. Never rounds on the way,
/// which a product of decimals does beyond 28 digits.
pub(super) fn exact_times(value: Decimal, factor: i64) -> Result<i64, QuantityFault> {
    let value = value.normalize();
    let product = value.mantissa().checked_mul(i128::from(factor)).ok_or(QuantityFault::Overflow)?;
    let one = 10_i128.checked_pow(value.scale()).ok_or(QuantityFault::Overflow)?;
    if product % one != 0 {
        return Err(QuantityFault::TooPrecise);
    }
    i64::try_from(product / one).map_err(|_| QuantityFault::Overflow)
}
/// `low + (high - low) x (at - from) / (to - from)` in whole steps of so many units each, rounded once; `from` is below `to`.
pub(super) fn between(
    (low, high): (i64, i64),
    at: Decimal,
    (from, to): (u32, u32),
    (step, rounding): (i64, Rounding),
) -> Result<i64, QuantityFault> {
    let one = 10_i128.checked_pow(at.scale()).ok_or(QuantityFault::Overflow)?;
    let whole = i128::from(to) - i128::from(from);
    if whole <= 0 || step <= 0 {
        return Err(QuantityFault::Overflow);
    }
    let product = |a: i128, b: i128| a.checked_mul(b).ok_or(QuantityFault::Overflow);
    let sum = |a: i128, b: i128| a.checked_add(b).ok_or(QuantityFault::Overflow);
    let beyond = sum(at.mantissa(), -product(i128::from(from), one)?)?;
    let rise = product(i128::from(high) - i128::from(low), beyond)?;
    let all = sum(product(i128::from(low), product(whole, one)?)?, rise)?;
    let units = rounding.divide(all, product(product(whole, one)?, i128::from(step))?);
    i64::try_from(units).map_err(|_| QuantityFault::Overflow)
}

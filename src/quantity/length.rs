use super::{DecimalMark, NumberFault, QuantityFault, number::exact_times, parse_decimal};
use rust_decimal::Decimal;
use std::fmt;

/// The unit a length was written in. Source: the inch is 25.4 mm exactly (International yard and pound, 1959).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Inches.
    Inch,
}

impl LengthUnit {
    /// Nanometres in one unit.
    pub const fn nanometres(self) -> i64 {
        match self {
            Self::Millimetre => 1_000_000,
            Self::Centimetre => 10_000_000,
            Self::Inch => 25_400_000,
        }
    }

    /// The unit's symbol.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
        }
    }

    /// The unit a word or sign stands for.
    pub fn from_word(word: &str) -> Option<Self> {
        match word.trim().trim_end_matches('.').to_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Some(Self::Millimetre),
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Some(Self::Centimetre),
            "in" | "inch" | "inches" | "\"" | "\u{201d}" | "\u{2033}" => Some(Self::Inch),
            _ => None,
        }
    }
}

/// A length in whole nanometres: 1/64 inch is 396 875 of them, so inches and their fractions are exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length {
    nanometres: i64,
}

impl Length {
    /// No length.
    pub const ZERO: Self = Self { nanometres: 0 };

    /// From whole nanometres.
    pub const fn from_nanometres(nanometres: i64) -> Self {
        Self { nanometres }
    }

    /// From a number of units; a value finer than a nanometre is a fault.
    pub fn from_decimal(value: Decimal, unit: LengthUnit) -> Result<Self, QuantityFault> {
        Ok(Self { nanometres: exact_times(value, unit.nanometres())? })
    }

    /// Whole nanometres.
    pub const fn nanometres(self) -> i64 {
        self.nanometres
    }

    /// Millimetres, exactly, without trailing zeros.
    pub fn millimetres(self) -> Decimal {
        Decimal::new(self.nanometres, 6).normalize()
    }

    /// A number with fractions as people write inches: `3/4`, `1 1/4`, `1-1/4`, `1.25`, `¾`. Returns the value in
    /// the given unit as an exact length. The unit's own sign is not accepted here: take it off first. No length is
    /// below zero.
    pub fn parse(text: &str, unit: LengthUnit, mark: DecimalMark) -> Result<Self, NumberFault> {
        let nanometres = parse_fraction(text.trim(), unit, mark)?;
        Ok(Self { nanometres })
    }
}

fn parse_fraction(text: &str, unit: LengthUnit, mark: DecimalMark) -> Result<i64, NumberFault> {
    let spelled = spell_vulgar(text);
    let text = spelled.trim();
    let Some((before, denominator)) = text.split_once(['/', '\u{2044}']) else {
        let value = parse_decimal(text, mark)?;
        return match Length::from_decimal(value, unit) {
            Ok(length) if length.nanometres() < 0 => Err(NumberFault::Negative),
            Ok(length) => Ok(length.nanometres()),
            Err(QuantityFault::Overflow) => Err(NumberFault::TooLarge),
            Err(_) => Err(NumberFault::TooPrecise),
        };
    };
    let before = before.trim();
    let (whole, numerator) = match before.rsplit_once([' ', '-', '\u{a0}']) {
        Some((whole, numerator)) => (small(whole.trim_end().trim_end_matches('-'))?, small(numerator)?),
        None => (0, small(before)?),
    };
    let denominator = small(denominator)?;
    if denominator == 0 {
        return Err(NumberFault::NotANumber);
    }
    let scaled = (whole * denominator + numerator) * i128::from(unit.nanometres());
    if scaled % denominator != 0 {
        return Err(NumberFault::TooPrecise);
    }
    i64::try_from(scaled / denominator).map_err(|_| NumberFault::TooLarge)
}

/// `1¾` and `¾` as `1 3/4` and `3/4`.
fn spell_vulgar(text: &str) -> String {
    const VULGAR: [(char, &str); 7] = [
        ('\u{bc}', "1/4"),
        ('\u{bd}', "1/2"),
        ('\u{be}', "3/4"),
        ('\u{215b}', "1/8"),
        ('\u{215c}', "3/8"),
        ('\u{215d}', "5/8"),
        ('\u{215e}', "7/8"),
    ];
    let mut out = String::with_capacity(text.len() + 4);
    for c in text.chars() {
        match VULGAR.iter().find(|(sign, _)| *sign == c) {
            Some((_, spelled)) => {
                out.push(' ');
                out.push_str(spelled);
            }
            None => out.push(c),
        }
    }
    out
}

/// A part of a fraction: a whole number below a million.
fn small(text: &str) -> Result<i128, NumberFault> {
    let text = text.trim();
    if text.is_empty() || text.len() > 6 || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(NumberFault::NotANumber);
    }
    text.parse().map_err(|_| NumberFault::NotANumber)
}

/// Millimetres without trailing zeros, with the unit.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.millimetres())
    }
}

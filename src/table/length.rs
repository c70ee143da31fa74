//! Lengths as people write them, and their units.

use crate::quantity::{DecimalMark, Length, LengthUnit, NumberFault, named_size};

/// Why a text is no length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthFault {
    /// A number without a unit, and none stands in the heading either.
    NoUnit,
    /// Not a number of units.
    Number(NumberFault),
}

impl std::fmt::Display for LengthFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoUnit => f.write_str("it has no unit"),
            Self::Number(fault) => fault.fmt(f),
        }
    }
}

/// A length: `12 mm`, `1.5 cm`, `3/4 in`, `1 1/4"`, or a bare number where a default unit is known (from the heading).
/// The cell's own unit wins. A coin or a hailstone that says which it is has the length of its diameter. Negative lengths are a fault.
pub fn parse_length(
    text: &str,
    default_unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Result<Length, LengthFault> {
    if let Some(length) = named_size(text) {
        return Ok(length);
    }
    let text = plain(text);
    let (number, own) = take_unit(text.trim_start_matches(DIAMETER_SIGNS).trim());
    if number.starts_with('-') {
        return Err(LengthFault::Number(NumberFault::Negative));
    }
    // Read it before asking for its unit: what is no number at all needs none.
    let unit = own.or(default_unit);
    let length =
        Length::parse(number, unit.unwrap_or(LengthUnit::Inch), mark).map_err(LengthFault::Number)?;
    if unit.is_none() { Err(LengthFault::NoUnit) } else { Ok(length) }
}

/// The one unit of length that a title or heading speaks of: "dents by size (mm)", "size in inches". `None` when it
/// speaks of none, or of two.
pub fn unit_in(text: &str) -> Option<LengthUnit> {
    let mut found = None;
    let word_ends = |c: char| !(c.is_alphabetic() || matches!(c, '"' | '\u{201d}' | '\u{2033}'));
    // "in" is a word of its own in "size in mm": it counts as a unit only where it stands in brackets.
    let bracketed = text.to_lowercase().contains("(in)") || text.to_lowercase().contains("[in]");
    for word in text.split(word_ends).filter(|word| !word.is_empty()) {
        let unit =
            if word.eq_ignore_ascii_case("in") && !bracketed { None } else { LengthUnit::from_word(word) };
        match (found, unit) {
            (Some(one), Some(other)) if one != other => return None,
            (_, Some(unit)) => found = Some(unit),
            (_, None) => {}
        }
    }
    found
}

pub(super) const DIAMETER_SIGNS: [char; 3] = ['\u{f8}', '\u{2300}', '\u{2205}'];
const UNITS: [&str; 14] = [
    "millimetres",
    "millimeters",
    "centimetres",
    "centimeters",
    "millimetre",
    "millimeter",
    "centimetre",
    "centimeter",
    "inches",
    "inch",
    "mm",
    "cm",
    "in",
    "\"",
];
/// Words beside a size that only say what is measured.
const IDLE: [&str; 12] =
    ["number of", "no. of", "count", "qty", "#", "dents", "dent", "diameter", "dia.", "dia", "size", "band"];

/// Lower case, one kind of dash, one kind of inch sign, without words that only say what is measured.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{2026}' => out.push('-'),
            '\u{201d}' | '\u{201c}' | '\u{2033}' => out.push('"'),
            '\u{a0}' | '\u{202f}' | '\u{2009}' => out.push(' '),
            _ => out.extend(c.to_lowercase()),
        }
    }
    let out = out.replace("''", "\"").replace("...", "-").replace("..", "-");
    let mut rest = out.as_str();
    for word in IDLE {
        let before = rest.strip_prefix(word).filter(|rest| rest.starts_with([' ', ':']));
        let after = rest.strip_suffix(word).filter(|rest| rest.ends_with(' '));
        rest = before.or(after).unwrap_or(rest).trim_matches([' ', ':']);
    }
    rest.to_owned()
}

/// The text without the unit it ends in, and that unit. A full stop may follow it.
pub(super) fn take_unit(text: &str) -> (&str, Option<LengthUnit>) {
    let text = text.trim();
    let without_stop =
        text.strip_suffix('.').filter(|rest| rest.ends_with(char::is_alphabetic)).unwrap_or(text);
    for unit in UNITS {
        if let Some(number) = without_stop.strip_suffix(unit)
            && !number.ends_with(char::is_alphabetic)
        {
            return (number.trim_end(), LengthUnit::from_word(unit));
        }
    }
    (text, None)
}

#[cfg(test)]
mod tests {
    use super::*;
    use LengthUnit::{Centimetre, Inch, Millimetre};

    #[test]
    fn lengths_carry_their_unit_or_take_the_headings() {
        let nanometres = |text, unit| parse_length(text, unit, DecimalMark::Point).map(Length::nanometres);
        assert_eq!(nanometres("55 mm", None), Ok(55_000_000));
        assert_eq!(nanometres("1 1/4\"", None), Ok(31_750_000));
        assert_eq!(nanometres("5.5", Some(Centimetre)), Ok(55_000_000));
        assert_eq!(nanometres("55", None), Err(LengthFault::NoUnit));
        assert_eq!(nanometres("-5 mm", None), Err(LengthFault::Number(NumberFault::Negative)));
        assert_eq!(nanometres("long", None), Err(LengthFault::Number(NumberFault::NotANumber)));
    }

    #[test]
    fn a_title_tells_the_unit_of_the_columns_below_it() {
        assert_eq!(unit_in("Dents per size (mm)"), Some(Millimetre));
        assert_eq!(unit_in("size in inches"), Some(Inch));
        assert_eq!(unit_in("Diameter (in)"), Some(Inch));
        assert_eq!(unit_in("counted in town"), None);
        assert_eq!(unit_in("mm or cm"), None);
    }
}

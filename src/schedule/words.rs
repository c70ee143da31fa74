//! Looking words and lengths up as people write them in schedules. Stands in for the claim stage's table of words and
//! the table stage's lengths until those are there, with the same signatures.

use crate::claim::words::{Named, folded};
use crate::problem::nearest;
use crate::quantity::{DecimalMark, Length, LengthUnit, NumberFault};

/// What people also write, beside the canonical name it stands for.
const ALSO: &[(&str, &str)] = &[
    ("bonnet", "hood"),
    ("wing", "fender"),
    ("front wing", "fender"),
    ("rear wing", "quarter panel"),
    ("quarter", "quarter panel"),
    ("boot lid", "trunk lid"),
    ("sill", "rocker"),
    ("cant rail", "roof rail"),
    ("aluminum", "aluminium"),
    ("steel", "mild steel"),
    ("replacement", "replace"),
    ("conventional", "conventional repair"),
    ("refinish", "paintless, then refinish"),
    ("refer", "refer to a person"),
];

/// The value that a text names, ignoring case, punctuation and a plural.
pub(super) fn find<T: Named>(text: &str) -> Option<T> {
    let text = folded(text);
    let named = |text: &str| T::ALL.iter().copied().find(|value| folded(value.name()) == text);
    let also =
        |text: &str| ALSO.iter().filter(|(word, _)| *word == text).find_map(|(_, name)| named(&folded(name)));
    let known = |text: &str| named(text).or_else(|| also(text));
    known(&text).or_else(|| text.strip_suffix('s').and_then(known))
}

/// The canonical names nearest to a text that names nothing.
pub(super) fn suggest<T: Named>(text: &str) -> Vec<&'static str> {
    nearest(text, T::ALL.iter().map(|value| value.name()))
}

/// Why a text is no length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LengthFault {
    /// The number is none.
    Number(NumberFault),
    /// Neither the text nor anything around it says the unit.
    NoUnit,
}

/// A length with its unit at the end (`12 mm`, `3/4 in`, `1/2"`), else in the default unit.
pub(super) fn parse_length(
    text: &str,
    default_unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Result<Length, LengthFault> {
    let text = text.trim();
    let is_unit = |c: char| c.is_alphabetic() || matches!(c, '"' | '\u{201d}' | '\u{2033}' | '.');
    let number = text.trim_end_matches(is_unit).trim_end();
    let (number, unit) = match LengthUnit::from_word(text[number.len()..].trim()) {
        Some(unit) => (number, Some(unit)),
        None => (text, default_unit),
    };
    let parsed =
        Length::parse(number, unit.unwrap_or(LengthUnit::Millimetre), mark).map_err(LengthFault::Number)?;
    if unit.is_none() { Err(LengthFault::NoUnit) } else { Ok(parsed) }
}

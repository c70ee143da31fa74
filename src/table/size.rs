//! Ranges of dent diameters as people write them, in cells and in headings.

use super::length::{DIAMETER_SIGNS, plain, take_unit};
use crate::claim::SizeInterval;
use crate::quantity::{DecimalMark, Length, LengthUnit, named_size};

/// A range of diameters: `0-10 mm`, `11 – 20`, `1/2" to 1"`, `up to 3/4 in`, `over 50 mm`, `50+`, `small (0-10 mm)`.
/// `None` for anything else, also for a single length and for a range that has no unit, neither its own nor a
/// default one ([`lacks_unit`] tells that apart).
pub fn parse_interval(
    text: &str,
    default_unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Option<SizeInterval> {
    let text = plain(text);
    let spaced: String =
        text.chars().map(|c| if matches!(c, '(' | ')' | '[' | ']') { ' ' } else { c }).collect();
    range(without_name(&spaced), default_unit, mark).or_else(|| {
        let (before, rest) = text.split_once('(')?;
        let inner = rest.split_once(')')?.0;
        range(inner, default_unit, mark).or_else(|| range(before, default_unit, mark))
    })
}

/// Words that people write before a range or behind it: `small 0-10 mm`, `0-10 mm (small)`.
const NAMES: [&str; 25] = [
    "very", "extra", "tiny", "small", "medium", "large", "big", "huge", "klein", "kleine", "mittel",
    "mittlere", "groß", "gross", "große", "petit", "moyen", "grand", "pequeño", "mediano", "grande",
    "piccolo", "medio", "dents", "dent",
];

/// A range without the words around it that say how large it is.
fn without_name(text: &str) -> &str {
    let mut text = text.trim();
    let is_name = |word: &str| NAMES.contains(&word.trim_end_matches([':', ',']));
    while let Some((_, rest)) = text.split_once(' ').filter(|(word, _)| is_name(word)) {
        text = rest.trim_start_matches([' ', ':', '=']);
    }
    while let Some((rest, _)) = text.rsplit_once(' ').filter(|(_, word)| is_name(word)) {
        text = rest.trim_end_matches([' ', ',']);
    }
    text
}

/// Whether a text would be a range of diameters if only it had a unit.
pub fn lacks_unit(text: &str, mark: DecimalMark) -> bool {
    parse_interval(text, None, mark).is_none()
        && parse_interval(text, Some(LengthUnit::Millimetre), mark).is_some()
}

const UP_TO: [&str; 19] = [
    "up to",
    "upto",
    "under",
    "below",
    "less than",
    "smaller than",
    "not over",
    "no more than",
    "until",
    "bis",
    "unter",
    "jusqu'à",
    "moins de",
    "hasta",
    "menos de",
    "fino a",
    "<=",
    "<",
    "\u{2264}",
];
const OVER: [&str; 18] = [
    "over",
    "above",
    "more than",
    "greater than",
    "larger than",
    "bigger than",
    "at least",
    "from",
    "über",
    "ab",
    "plus de",
    "más de",
    "mas de",
    "oltre",
    "più di",
    ">=",
    ">",
    "\u{2265}",
];
const AND_UNDER: [&str; 6] = ["and under", "and below", "or less", "or smaller", "and smaller", "or under"];
const AND_OVER: [&str; 11] = [
    "+",
    "plus",
    "and over",
    "and up",
    "and above",
    "or more",
    "and more",
    "or larger",
    "and larger",
    "or over",
    "upwards",
];
const BETWEEN: [&str; 8] = [" up to ", " to ", " and ", " bis ", " à ", " a ", "<=", "\u{2264}"];

/// One edge: its number as written, its length in its own unit if it has one.
struct Edge<'t> {
    number: &'t str,
    unit: Option<LengthUnit>,
}

impl<'t> Edge<'t> {
    fn new(text: &'t str) -> Self {
        let (number, unit) = take_unit(text.trim().trim_start_matches(DIAMETER_SIGNS));
        Self { number: number.trim(), unit }
    }

    fn length(&self, unit: LengthUnit, mark: DecimalMark) -> Option<Length> {
        let is_number =
            self.number.starts_with(|c: char| c.is_ascii_digit() || "\u{bc}\u{bd}\u{be}.,".contains(c));
        is_number.then(|| Length::parse(self.number, unit, mark).ok()).flatten()
    }

    /// One last printed digit, for a decimal number; a fraction has none.
    fn digit(&self, unit: LengthUnit, mark: DecimalMark) -> Option<Length> {
        let sign = if mark == DecimalMark::Point { '.' } else { ',' };
        if !self.number.chars().all(|c| c.is_ascii_digit() || c == sign) {
            return None;
        }
        let decimals = self.number.split_once(sign).map_or(0, |(_, fraction)| fraction.len());
        let divisor = 10_i64.checked_pow(u32::try_from(decimals).ok()?)?;
        Some(Length::from_nanometres(unit.nanometres() / divisor))
    }
}

/// An edge and one last printed digit of it. Its unit is its own, that of the other edge, or the table's; a coin or a
/// hailstone needs none.
fn measured(
    text: &str,
    of_other: Option<LengthUnit>,
    default_unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Option<(Length, Option<Length>)> {
    if let Some(length) = named_size(text) {
        return Some((length, None));
    }
    let edge = Edge::new(text);
    let unit = edge.unit.or(of_other).or(default_unit)?;
    Some((edge.length(unit, mark)?, edge.digit(unit, mark)))
}

fn range(text: &str, default_unit: Option<LengthUnit>, mark: DecimalMark) -> Option<SizeInterval> {
    let text = text.trim().trim_start_matches(DIAMETER_SIGNS).trim();
    let prefix = |words: &[&str]| {
        words.iter().find_map(|word| {
            let rest = text.strip_prefix(word)?;
            (!word.ends_with(char::is_alphabetic) || rest.starts_with(' ')).then_some(rest)
        })
    };
    if let Some(top) = prefix(&UP_TO) {
        return one_sided(None, Some(top), default_unit, mark);
    }
    if let Some(rest) = prefix(&OVER) {
        return two_sided(rest, default_unit, mark)
            .or_else(|| one_sided(Some(rest), None, default_unit, mark));
    }
    if let Some(top) = AND_UNDER.iter().find_map(|word| text.strip_suffix(word)) {
        return one_sided(None, Some(top), default_unit, mark);
    }
    // "50+ mm" and "50 mm +" both occur.
    let (number, unit) = take_unit(text);
    if let Some(low) = AND_OVER.iter().find_map(|word| number.strip_suffix(word)) {
        return one_sided(Some(low), None, unit.or(default_unit), mark);
    }
    two_sided(text.strip_prefix("between ").unwrap_or(text), default_unit, mark)
}

fn one_sided(
    low: Option<&str>,
    high: Option<&str>,
    default_unit: Option<LengthUnit>,
    mark: DecimalMark,
) -> Option<SizeInterval> {
    let (length, digit) = measured(low.or(high)?, None, default_unit, mark)?;
    if low.is_some() {
        Some(SizeInterval { low: length, high: None, digit: usable(digit, None) })
    } else if length > Length::ZERO {
        Some(SizeInterval {
            low: Length::ZERO,
            high: Some(length),
            digit: usable(digit, Some(length.nanometres())),
        })
    } else {
        None
    }
}

/// A low and a high edge. A hyphen may part them or stand inside a mixed number (`1-1/4 in`): every hyphen is tried,
/// and exactly one may leave two edges in rising order.
fn two_sided(text: &str, default_unit: Option<LengthUnit>, mark: DecimalMark) -> Option<SizeInterval> {
    let by_word = BETWEEN.iter().find_map(|word| text.split_once(word));
    let by_hyphen = text.match_indices('-').map(|(at, _)| (&text[..at], &text[at + 1..]));
    let mut found = None;
    for (low, high) in by_word.into_iter().chain(by_hyphen) {
        let Some(interval) = edges(low, high, default_unit, mark) else { continue };
        if found.replace(interval).is_some_and(|other| other != interval) {
            return None;
        }
    }
    found
}

fn edges(low: &str, high: &str, default_unit: Option<LengthUnit>, mark: DecimalMark) -> Option<SizeInterval> {
    let (low_unit, high_unit) = (Edge::new(low).unit, Edge::new(high).unit);
    let (from, low_digit) = measured(low, high_unit, default_unit, mark)?;
    let (to, high_digit) = measured(high, low_unit, default_unit, mark)?;
    let digit = low_digit.zip(high_digit).map(|(a, b)| a.min(b));
    let width = to.nanometres() - from.nanometres();
    (width > 0).then(|| SizeInterval { low: from, high: Some(to), digit: usable(digit, Some(width)) })
}

/// A last printed digit that two edges may differ by and still be one edge. Where it is coarse beside the range itself
/// (whole inches or centimetres), a neighbour would be taken for the band, so it counts as none.
fn usable(digit: Option<Length>, width: Option<i64>) -> Length {
    const COARSE: i64 = 2_540_000;
    digit
        .filter(|digit| digit.nanometres() <= COARSE)
        .filter(|digit| width.is_none_or(|width| digit.nanometres() * 3 <= width))
        .unwrap_or(Length::ZERO)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::DecimalMark::{Comma, Point};
    use LengthUnit::{Inch, Millimetre};

    /// Low, high and digit in micrometres.
    fn micrometres(text: &str, unit: Option<LengthUnit>) -> Option<(i64, Option<i64>, i64)> {
        let of = |length: Length| length.nanometres() / 1000;
        parse_interval(text, unit, Point).map(|i| (of(i.low), i.high.map(of), of(i.digit)))
    }

    #[test]
    fn ranges_are_read_in_every_usual_wording() {
        for text in [
            "11-20 mm",
            "11 \u{2013} 20 mm",
            "11mm-20mm",
            "11 to 20 mm",
            "from 11 to 20 mm",
            "11..20 mm",
            "11-20 (mm)",
            "11-20 mm (count)",
            "No. of dents 11-20 mm",
            "# 11-20 mm",
            "band 11-20 mm",
            "\u{f8} 11-20 mm",
            "Dents 11-20 mm",
            "small (11-20 mm)",
            "between 11 and 20 mm",
            "11 mm - 20",
            "Size: 11-20 mm",
            "over 11 up to 20 mm",
            ">11-20 mm",
        ] {
            assert_eq!(micrometres(text, None), Some((11_000, Some(20_000), 1000)), "{text}");
        }
        for text in ["up to 20 mm", "<20 mm", "\u{2264} 20mm", "20 mm and under", "0-20 mm", "under 20 mm"] {
            assert_eq!(micrometres(text, None), Some((0, Some(20_000), 1000)), "{text}");
        }
        for text in ["over 50 mm", "50+ mm", "50 mm +", "> 50 mm", "50 mm and over", "50+", "50 and up"] {
            assert_eq!(micrometres(text, Some(Millimetre)), Some((50_000, None, 1000)), "{text}");
        }
    }

    #[test]
    fn fractions_of_an_inch_are_exact_and_a_hyphen_may_stand_inside_them() {
        assert_eq!(micrometres("1/2\" - 1\"", None), Some((12_700, Some(25_400), 0)));
        assert_eq!(micrometres("1/2-1-1/4 in", None), Some((12_700, Some(31_750), 0)));
        assert_eq!(micrometres("1-1/2 - 2 inches", None), Some((38_100, Some(50_800), 0)));
        assert_eq!(micrometres("up to 3/4 in.", None), Some((0, Some(19_050), 0)));
        assert_eq!(micrometres("\u{be}\u{201d} to 1\u{bc}\u{201d}", None), Some((19_050, Some(31_750), 0)));
        assert_eq!(micrometres("1-1/4 in", None), None, "one length");
    }

    #[test]
    fn a_digit_that_is_coarse_beside_the_range_makes_no_edges_equal() {
        assert_eq!(micrometres("1-2 in", None), Some((25_400, Some(50_800), 0)));
        assert_eq!(micrometres("1-2 cm", None), Some((10_000, Some(20_000), 0)));
        assert_eq!(micrometres("0.6-1.0 in", None), Some((15_240, Some(25_400), 2540)));
        assert_eq!(micrometres("2.5-4.0 mm", None), Some((2500, Some(4000), 100)));
    }

    #[test]
    fn the_cells_own_unit_wins_and_none_at_all_is_told() {
        assert_eq!(micrometres("1-2 cm", Some(Inch)), Some((10_000, Some(20_000), 0)));
        assert_eq!(micrometres("11-20", Some(Millimetre)), Some((11_000, Some(20_000), 1000)));
        assert_eq!(micrometres("11-20", None), None);
        assert!(lacks_unit("11-20", Point) && lacks_unit("up to 3/4", Point) && lacks_unit("50+", Point));
        assert!(!lacks_unit("11-20 mm", Point) && !lacks_unit("small", Point));
    }

    #[test]
    fn what_is_no_range_stays_a_name() {
        for text in ["small", "dime", "20 mm", "20-10 mm", "total", "a-b mm", "", "-", "0-0 mm", "-5-10 mm"] {
            assert_eq!(micrometres(text, Some(Millimetre)), None, "{text}");
        }
        assert_eq!(micrometres("9999999999999-99999999999999 mm", None), None);
    }

    #[test]
    fn coins_and_hailstones_that_say_which_they_are_are_edges() {
        assert_eq!(micrometres("up to US dime", None), Some((0, Some(17_910), 0)));
        assert_eq!(micrometres("US dime to US quarter", None), Some((17_910, Some(24_260), 0)));
        assert_eq!(micrometres("over 2 euro", None), Some((25_750, None, 0)));
        assert_eq!(micrometres("10 mm - hail quarter", None), Some((10_000, Some(25_400), 0)));
        assert_eq!(micrometres("up to quarter", Some(Millimetre)), None);
    }

    #[test]
    fn decimal_commas_are_read_where_the_file_has_them() {
        let interval = parse_interval("0,5 - 1,0 cm", None, Comma).unwrap();
        assert_eq!((interval.low.nanometres(), interval.high.unwrap().nanometres()), (5_000_000, 10_000_000));
        assert_eq!(interval.digit.nanometres(), 1_000_000);
    }
}

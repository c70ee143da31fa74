//! Money, time and areas in cells: a number with a unit before or after it, or in the heading.

use super::cells::{Cells, is_formula};
use crate::claim::{Located, Place, WrittenAmount};
use crate::problem::{Problem, catalogue};
use crate::quantity::{Area, Currency, Decimal, DecimalMark, Hours, LengthUnit, parse_decimal};
use crate::table::parse_length;

/// A larger amount is taken for a slip; no currency's cars cost as much.
const MOST: u64 = 1_000_000_000_000;

/// Which dollar a bare `$` is on a car of this market, if that can be said.
pub(super) type Dollar = Option<Currency>;

/// The dollar of a market, by its name or ISO 3166-1 code (from memory).
pub(super) fn dollar(market: &str) -> Dollar {
    const DOLLARS: [(&str, &[&str]); 6] = [
        ("USD", &["us", "usa", "u s", "u s a", "united states", "united states of america"]),
        ("CAD", &["ca", "canada"]),
        ("AUD", &["au", "aus", "australia"]),
        ("NZD", &["nz", "new zealand"]),
        ("SGD", &["sg", "singapore"]),
        ("HKD", &["hk", "hong kong"]),
    ];
    let market = crate::claim::words::folded(market);
    let (code, _) = DOLLARS.iter().find(|(_, names)| names.contains(&market.as_str()))?;
    Currency::from_code(code)
}

/// What stands beside the number of an amount.
#[derive(Debug, PartialEq, Eq)]
enum Sign<'t> {
    None,
    Currency(Currency),
    Dollar,
    Unknown(&'t str),
}

impl Cells<'_, '_> {
    /// An amount of money, not below zero. The code or sign of a currency may stand in the cell or in the heading.
    pub(super) fn amount(&mut self, id: &str, dollar: Dollar) -> Option<Located<WrittenAmount>> {
        let heading = self.table.column(id)?.unit.as_deref();
        let cell = self.cell(id)?;
        let text = cell.text();
        if is_formula(&text) {
            self.problems.push(catalogue::counts::formula_as_text(cell.place, &text));
            return None;
        }
        let (number, own) = parted(&text);
        let currency = match currency(heading, &own, dollar) {
            Ok(currency) => currency,
            Err(wrong) => {
                self.problems.push(wrong.problem(cell.place, &text));
                return None;
            }
        };
        let why = match self.decimal(cell, number)? {
            Ok(amount) if amount.is_sign_negative() && !amount.is_zero() => "it is below zero".to_owned(),
            Ok(amount) if amount > Decimal::from(MOST) => format!("more than {MOST} is taken for a slip"),
            Ok(amount) => return Some(Located::new(WrittenAmount { amount, currency }, cell.place)),
            Err(fault) => fault.to_string(),
        };
        self.problems.push(catalogue::claim::amount_unreadable(cell.place, &text, &why));
        None
    }

    /// A time of labour: hours and decimals (`1.5`, `1.5 h`), hours and minutes (`1:30`), or minutes where the cell or
    /// the heading says so.
    pub(super) fn hours(&mut self, id: &str) -> Option<Located<Hours>> {
        let heading = self.table.column(id)?.unit.clone();
        let is_minutes = |unit: &str| matches!(unit, "min" | "mins" | "minutes");
        let by_heading = heading.is_some_and(|unit| is_minutes(&unit.to_lowercase()));
        let cell = self.cell(id)?;
        let text = cell.text().to_lowercase();
        let number = text.trim_end_matches(char::is_alphabetic).trim_end();
        let unit = text[number.len()..].trim();
        let as_minutes = if unit.is_empty() { by_heading } else { is_minutes(unit) };
        let is_known =
            unit.is_empty() || is_minutes(unit) || matches!(unit, "h" | "hr" | "hrs" | "hour" | "hours");
        let clock = number.split_once(':').and_then(|(hours, minutes)| clock(hours, minutes));
        if let Some(time) = clock.filter(|_| is_known && !as_minutes) {
            return Some(Located::new(time, cell.place));
        }
        self.number(id, cell, number, "hours such as 1.5 or 1:30", |value| {
            let is_negative = value.is_sign_negative() && !value.is_zero();
            if is_negative || !is_known {
                None
            } else if as_minutes {
                value.checked_mul(Decimal::from(60)).and_then(seconds)
            } else {
                Hours::from_decimal(value).ok()
            }
        })
    }

    /// An area: `0.09 m2`, `900 cm2`, `30 x 30 cm`, or a bare number under a heading with its unit.
    pub(super) fn area(&mut self, id: &str) -> Option<Located<Area>> {
        let heading = self.table.column(id)?.unit.clone();
        let cell = self.cell(id)?;
        let text = cell.text();
        let area = area(&text, heading.as_deref(), self.table.sheet.mark_of(cell).0);
        if area.is_none() {
            let wanted = "an area such as 0.09 m2 or 30 x 30 cm";
            self.problems.push(catalogue::claim::number_unreadable(cell.place, id, &text, wanted));
        }
        area.map(|area| Located::new(area, cell.place))
    }
}

/// What is wrong with the currency of an amount.
enum Wrong<'t> {
    /// A dollar, and nobody knows which.
    Open,
    /// Letters that are no currency.
    Unknown(&'t str),
    /// The cell's, then the heading's.
    Differ(Currency, Currency),
}

impl Wrong<'_> {
    fn problem(&self, place: Place, written: &str) -> Problem {
        match self {
            Self::Open => catalogue::claim::currency_open(place, written),
            Self::Unknown(letters) => catalogue::claim::currency_wrong(place, written, letters, None),
            Self::Differ(own, above) => {
                catalogue::claim::currency_wrong(place, written, own.code(), Some(above.code()))
            }
        }
    }
}

/// The currency that the heading or the cell says; none where neither does.
fn currency<'t>(
    heading: Option<&'t str>,
    own: &Sign<'t>,
    dollar: Dollar,
) -> Result<Option<Currency>, Wrong<'t>> {
    let said = |sign: &Sign<'t>, dollar: Dollar| match sign {
        Sign::None => Ok(None),
        Sign::Currency(currency) => Ok(Some(*currency)),
        Sign::Dollar => dollar.map(Some).ok_or(Wrong::Open),
        Sign::Unknown(letters) => Err(Wrong::Unknown(letters)),
    };
    let above = said(&heading.map_or(Sign::None, sign), dollar)?;
    // A dollar's code in the heading says which dollar the cell's sign is.
    let headed = above.filter(|currency| currency.code().ends_with('D'));
    match (said(own, headed.or(dollar))?, above) {
        (Some(own), Some(above)) if own != above => Err(Wrong::Differ(own, above)),
        (own, above) => Ok(own.or(above)),
    }
}

/// The number of an amount, and the sign or code before or after it.
fn parted(text: &str) -> (&str, Sign<'_>) {
    let text = text.trim();
    if !text.contains(|c: char| c.is_ascii_digit()) {
        return (text, Sign::None);
    }
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '.' | ',' | '\u{2212}');
    let start = text.find(is_number).unwrap_or(text.len());
    let before = text[..start].trim();
    let number_and_after = &text[start..];
    let end = number_and_after.rfind(|c: char| c.is_ascii_digit()).map_or(0, |last| last + 1);
    let after = number_and_after[end..].trim();
    match (before, after) {
        ("", "") => (text, Sign::None),
        (beside, "") | ("", beside) => (&number_and_after[..end], sign(beside)),
        _ => (text, Sign::None),
    }
}

fn sign(text: &str) -> Sign<'_> {
    match text.trim() {
        "" => Sign::None,
        "$" => Sign::Dollar,
        "\u{20ac}" => Currency::from_code("EUR").map_or(Sign::None, Sign::Currency),
        "\u{a3}" => Currency::from_code("GBP").map_or(Sign::None, Sign::Currency),
        "US$" => Currency::from_code("USD").map_or(Sign::None, Sign::Currency),
        code => Currency::from_code(code).map_or(Sign::Unknown(code), Sign::Currency),
    }
}

fn clock(hours: &str, minutes: &str) -> Option<Hours> {
    let is_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if !is_digits(hours) || !is_digits(minutes) || minutes.len() != 2 {
        return None;
    }
    let (hours, minutes): (i64, i64) = (hours.parse().ok()?, minutes.parse().ok()?);
    (minutes < 60 && hours < 10_000).then(|| Hours::from_seconds(hours * 3600 + minutes * 60))
}

fn seconds(value: Decimal) -> Option<Hours> {
    let seconds = i64::try_from(value).ok()?;
    (Decimal::from(seconds) == value).then(|| Hours::from_seconds(seconds))
}

fn area(text: &str, heading: Option<&str>, mark: DecimalMark) -> Option<Area> {
    let lower = text.to_lowercase().replace('\u{d7}', "x");
    if let Some((width, height)) = lower.split_once('x') {
        let (width, height) = (width.trim(), height.trim());
        let units = [LengthUnit::Millimetre, LengthUnit::Centimetre, LengthUnit::Inch];
        let unit = units.into_iter().find(|unit| height.ends_with(unit.symbol()));
        let unit = unit.or_else(|| LengthUnit::from_word(heading?));
        let (width, height) = (parse_length(width, unit, mark).ok()?, parse_length(height, unit, mark).ok()?);
        let area = width.millimetres().checked_mul(height.millimetres())?;
        return positive(area.checked_div(Decimal::from(1_000_000))?);
    }
    let lower = lower.replace('\u{b2}', "2");
    let (number, unit) = ["cm2", "sq m", "m2"]
        .iter()
        .find_map(|unit| Some((lower.strip_suffix(unit)?.trim(), *unit)))
        .unwrap_or((lower.trim(), heading.unwrap_or_default()));
    let value = parse_decimal(number, mark).ok()?;
    match unit.replace('\u{b2}', "2").as_str() {
        "m2" | "sq m" => positive(value),
        "cm2" => positive(value.checked_div(Decimal::from(10_000))?),
        _ => None,
    }
}

fn positive(square_metres: Decimal) -> Option<Area> {
    Area::from_square_metres(square_metres).ok().filter(|area| area.square_millimetres() > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_and_codes_stand_before_or_after_an_amount() {
        let euro = Sign::Currency(Currency::from_code("EUR").unwrap());
        assert_eq!(parted("1.234,50 EUR"), ("1.234,50", Sign::Currency(Currency::from_code("EUR").unwrap())));
        assert_eq!(parted("\u{20ac} 12"), ("12", euro));
        assert_eq!(parted("$500"), ("500", Sign::Dollar));
        assert_eq!(parted("12 XQX"), ("12", Sign::Unknown("XQX")));
        assert_eq!(parted("-5"), ("-5", Sign::None));
        assert_eq!(parted("none"), ("none", Sign::None));
    }

    #[test]
    fn areas_are_read_in_square_metres_centimetres_and_as_sides() {
        let of = |text, heading| area(text, heading, DecimalMark::Point).map(Area::square_millimetres);
        assert_eq!(of("0.09 m2", None), Some(90_000));
        assert_eq!(of("900 cm\u{b2}", None), Some(90_000));
        assert_eq!(of("30 x 30 cm", None), Some(90_000));
        assert_eq!(of("0.09", Some("m2")), Some(90_000));
        assert_eq!(of("0.09", None), None);
        assert_eq!(of("0 m2", None), None);
    }

    #[test]
    fn a_clock_is_hours_and_minutes() {
        assert_eq!(clock("1", "30"), Some(Hours::from_seconds(5400)));
        assert_eq!(clock("1", "75"), None);
    }
}

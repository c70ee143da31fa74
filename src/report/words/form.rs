//! Numbers and days in the form of a place, by the Unicode CLDR as ICU4X carries it. The only user of its crates.

use crate::quantity::Date;
use crate::report::wording;
use icu_datetime::DateTimeFormatter;
use icu_datetime::fieldsets::YMD;
use icu_datetime::input::Date as Day;
use icu_decimal::DecimalFormatter;
use icu_decimal::input::Decimal as Digits;
use icu_locale_core::Locale;

/// How numbers and days are written.
pub enum Form {
    /// In no country's own form: thousands parted by a narrow space, a point before decimals, months in English letters.
    International,
    /// As the CLDR has it for one place.
    Place(Box<Place>),
}

/// The formatters of a place.
pub struct Place {
    number: DecimalFormatter,
    date: DateTimeFormatter<YMD>,
}

impl Form {
    /// The form for a tag as in BCP 47. English without a country has none of its own.
    pub fn of(tag: &str) -> Option<Self> {
        if tag == "en" {
            return Some(Self::International);
        }
        let locale = Locale::try_from_str(tag).ok()?;
        let number = DecimalFormatter::try_new(
            (&locale).into(),
            icu_decimal::options::DecimalFormatterOptions::default(),
        );
        let date = DateTimeFormatter::try_new((&locale).into(), YMD::long());
        Some(Self::Place(Box::new(Place { number: number.ok()?, date: date.ok()? })))
    }

    /// A whole number of units of the `decimals`-th decimal place, with all of them.
    pub fn number(&self, units: i128, decimals: u32) -> String {
        let international = wording::grouped(units, decimals);
        let Self::Place(place) = self else { return international };
        let digits = |c| match c {
            wording::THIN => None,
            wording::MINUS => Some('-'),
            c => Some(c),
        };
        let plain: String = international.chars().filter_map(digits).collect();
        Digits::try_from_str(&plain).map_or(international, |digits| place.number.format(&digits).to_string())
    }

    /// A day with its month in letters.
    pub fn date(&self, date: Date) -> String {
        let international = || wording::date(date);
        let Self::Place(place) = self else { return international() };
        let (Ok(month), Ok(day)) = (u8::try_from(date.month()), u8::try_from(date.day())) else {
            return international();
        };
        Day::try_new_iso(i32::from(date.year()), month, day)
            .map_or_else(|_| international(), |day| place.date.format(&day).to_string())
    }
}

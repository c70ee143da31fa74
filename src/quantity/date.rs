pub use jiff::civil::Date;
use std::fmt;

/// Why a text is no date.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateFault {
    /// It does not look like a date.
    NotADate,
    /// It looks like one, but no calendar has that day.
    Impossible,
    /// Day and month can be exchanged and give another day.
    Ambiguous,
}

impl fmt::Display for DateFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotADate => "it is not a date",
            Self::Impossible => "there is no such day",
            Self::Ambiguous => "day and month can be read both ways",
        })
    }
}

/// A calendar day: `2026-06-14` (ISO 8601), `14.06.2026` (points: day first, common practice, no source),
/// `14/06/2026` and `06/14/2026` where only one reading is a day; both readings possible is ambiguous.
/// Years are four digits. A time after the day (`2026-06-14T09:30`) is not read.
pub fn parse_date(text: &str) -> Result<Date, DateFault> {
    let text = text.trim();
    let day = text.split(['T', ' ']).next().unwrap_or_default();
    for separator in ['-', '.', '/'] {
        let parts: Vec<&str> = day.split(separator).collect();
        let [first, middle, last] = parts[..] else { continue };
        return if first.len() == 4 {
            civil(first, middle, last)
        } else if separator == '/' {
            match (civil(last, middle, first), civil(last, first, middle)) {
                (Ok(day_first), Ok(month_first)) if day_first != month_first => Err(DateFault::Ambiguous),
                (Ok(date), _) | (_, Ok(date)) => Ok(date),
                (Err(fault), Err(_)) => Err(fault),
            }
        } else {
            civil(last, middle, first)
        };
    }
    Err(DateFault::NotADate)
}

fn civil(year: &str, month: &str, day: &str) -> Result<Date, DateFault> {
    if year.len() != 4 || !(1..=2).contains(&month.len()) || !(1..=2).contains(&day.len()) {
        return Err(DateFault::NotADate);
    }
    let number = |text: &str| {
        if text.bytes().all(|b| b.is_ascii_digit()) { text.parse().ok() } else { None }
    };
    let year: i16 = number(year).ok_or(DateFault::NotADate)?;
    let month = number(month).and_then(|m| i8::try_from(m).ok()).ok_or(DateFault::NotADate)?;
    let day = number(day).and_then(|d| i8::try_from(d).ok()).ok_or(DateFault::NotADate)?;
    Date::new(year, month, day).map_err(|_| DateFault::Impossible)
}

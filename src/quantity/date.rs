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
    /// Its year has two digits: which part it is, and which century, cannot be told.
    ShortYear,
}

/// Which part of a date stands first where both the day and the month are numbers before the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateOrder {
    /// 5/6/2026 is the fifth of June.
    DayFirst,
    /// 5/6/2026 is the sixth of May.
    MonthFirst,
}

impl fmt::Display for DateFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotADate => "it is not a date",
            Self::Impossible => "there is no such day",
            Self::Ambiguous => "day and month can be read both ways",
            Self::ShortYear => "its year has two digits",
        })
    }
}

/// A calendar day: `2026-06-14` (ISO 8601), `14.06.2026` (points: day first, common practice, no source),
/// `14/06/2026`, `14-06-2026` and `06/14/2026` where only one reading is a day; both readings possible is ambiguous.
/// Years are four digits. A time after the day (`2026-06-14T09:30`, `6/14/2026 9:30 AM`) is left away; anything else
/// after it may take the day back, so that it is no date. A month in English words (`14 May 2026`, `May 14, 2026`,
/// `14-May-2026`) is read, too.
pub fn parse_date(text: &str) -> Result<Date, DateFault> {
    parse_date_in(text, None)
}

/// The same, where it is known which part stands first in dates that can be read both ways. A date that has one reading
/// keeps it.
pub fn parse_date_in(text: &str, order: Option<DateOrder>) -> Result<Date, DateFault> {
    let text = text.trim();
    if let Some(by_name) = with_month_name(text) {
        return by_name;
    }
    let (day, time) = text.split_once(['T', ' ']).unwrap_or((text, ""));
    if day.len() < text.len() && !is_time(time) {
        return Err(DateFault::NotADate);
    }
    for separator in ['-', '.', '/'] {
        let Some(parts) = in_three(day, separator) else { continue };
        let [first, middle, last] = parts;
        let is_short = |part: &str| matches!(part.len(), 1 | 2) && part.bytes().all(|b| b.is_ascii_digit());
        if parts.iter().all(|part| is_short(part)) {
            return Err(DateFault::ShortYear);
        }
        return if first.len() == 4 {
            civil(first, middle, last)
        } else if separator == '.' {
            civil(last, middle, first)
        } else {
            match (civil(last, middle, first), civil(last, first, middle)) {
                (Ok(day_first), Ok(month_first)) if day_first != month_first => match order {
                    Some(DateOrder::DayFirst) => Ok(day_first),
                    Some(DateOrder::MonthFirst) => Ok(month_first),
                    None => Err(DateFault::Ambiguous),
                },
                (Ok(date), _) | (_, Ok(date)) => Ok(date),
                (Err(fault), Err(_)) => Err(fault),
            }
        };
    }
    Err(DateFault::NotADate)
}

/// Which part stands first in a date that is a day only so: `14/06/2026` proves that days stand first, `05/06/2026` and
/// `14.06.2026` prove nothing.
pub fn date_order(text: &str) -> Option<DateOrder> {
    let day = text.split(['T', ' ']).next()?;
    let [first, middle, year] = ['-', '/'].into_iter().find_map(|separator| in_three(day, separator))?;
    match (civil(year, middle, first), civil(year, first, middle)) {
        (Ok(_), Err(_)) => Some(DateOrder::DayFirst),
        (Err(_), Ok(_)) => Some(DateOrder::MonthFirst),
        _ => None,
    }
}

fn in_three(text: &str, separator: char) -> Option<[&str; 3]> {
    let mut parts = text.split(separator);
    let three = [parts.next()?, parts.next()?, parts.next()?];
    parts.next().is_none().then_some(three)
}

/// A day whose month stands in English words: the day before or after it, the year last. `None` for anything else.
fn with_month_name(text: &str) -> Option<Result<Date, DateFault>> {
    const MONTHS: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let text = text.to_lowercase();
    let parts = text.split([' ', ',', '-', '/', '.']).filter(|part| !part.is_empty()).collect::<Vec<_>>();
    let [first, second, year] = parts[..] else { return None };
    let month_of = |word: &str| {
        let is_meant = |month: &str| (word.len() == 3 && month.starts_with(word)) || month == word;
        if word == "sept" {
            Some(9)
        } else {
            MONTHS.iter().position(|month| is_meant(month)).map(|at| at + 1)
        }
    };
    let (day, month) = match (month_of(first), month_of(second)) {
        (None, Some(month)) => (first, month),
        (Some(month), None) => (second, month),
        _ => return None,
    };
    let day = ["st", "nd", "rd", "th"].iter().find_map(|end| day.strip_suffix(end)).unwrap_or(day);
    let is_short_year = year.len() == 2 && year.bytes().all(|byte| byte.is_ascii_digit());
    Some(if is_short_year { Err(DateFault::ShortYear) } else { civil(year, &month.to_string(), day) })
}

/// Whether a text is a time of day: hours and minutes, perhaps seconds, then `AM` or `PM`, `Z` or an offset.
fn is_time(text: &str) -> bool {
    let text = text.trim().to_lowercase();
    let (clock, offset) = text.find(['+', '-', 'z']).map_or((text.as_str(), ""), |at| text.split_at(at));
    let is_offset = match offset.strip_prefix(['+', '-']) {
        Some(ahead) => is_clock(ahead, 0, 23),
        None => matches!(offset, "" | "z"),
    };
    let half = clock.strip_suffix("am").or_else(|| clock.strip_suffix("pm")).map(str::trim_end);
    is_offset && half.map_or_else(|| is_clock(clock, 0, 23), |half| is_clock(half, 1, 12))
}

fn is_clock(text: &str, first_hour: u32, last_hour: u32) -> bool {
    let number = |text: &str, lengths: &[usize]| {
        let is_digits = text.bytes().all(|byte| byte.is_ascii_digit());
        if is_digits && lengths.contains(&text.len()) { text.parse::<u32>().ok() } else { None }
    };
    let mut parts = text.splitn(3, ':');
    let hours = parts.next().and_then(|text| number(text, &[1, 2]));
    let minutes = parts.next().and_then(|text| number(text, &[2]));
    let seconds = parts.next().map_or(Some(0), |text| {
        let (whole, fraction) = text.split_once('.').unwrap_or((text, "0"));
        let is_fraction = !fraction.is_empty() && fraction.bytes().all(|byte| byte.is_ascii_digit());
        number(whole, &[2]).filter(|_| is_fraction)
    });
    hours.is_some_and(|hours| (first_hour..=last_hour).contains(&hours))
        && [minutes, seconds].iter().all(|part| part.is_some_and(|part| part < 60))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_that_has_one_reading_is_a_date_with_or_without_a_time() {
        for text in [
            "2026-06-14",
            "14.06.2026",
            "14/06/2026",
            "06/14/2026",
            "14-06-2026",
            "06-14-2026",
            "2026-06-14T09:30",
            "2026-06-14 09:30:15",
            "2026-06-14T09:30:15.250Z",
            "2026-06-14T23:30:15+02:00",
            "6/14/2026 9:30 AM",
            "14.06.2026 12:30pm",
        ] {
            assert_eq!(parse_date(text).map(|date| date.to_string()).as_deref(), Ok("2026-06-14"), "{text}");
        }
    }

    #[test]
    fn day_and_month_that_can_be_exchanged_are_ambiguous_unless_points_part_them() {
        assert_eq!(parse_date("05/06/2026"), Err(DateFault::Ambiguous));
        assert_eq!(parse_date("05-06-2026"), Err(DateFault::Ambiguous));
        assert_eq!(parse_date("05.06.2026").map(|date| date.to_string()).as_deref(), Ok("2026-06-05"));
        assert_eq!(parse_date("06-06-2026").map(|date| date.to_string()).as_deref(), Ok("2026-06-06"));
        assert_eq!(parse_date("31-06-2026"), Err(DateFault::Impossible));
    }

    #[test]
    fn an_order_settles_what_reads_both_ways_and_nothing_else() {
        let read = |text, order| parse_date_in(text, Some(order)).map(|date| date.to_string());
        assert_eq!(read("05/06/2026", DateOrder::DayFirst).as_deref(), Ok("2026-06-05"));
        assert_eq!(read("05/06/2026 9:30", DateOrder::MonthFirst).as_deref(), Ok("2026-05-06"));
        assert_eq!(read("14/06/2026", DateOrder::MonthFirst).as_deref(), Ok("2026-06-14"));
        assert_eq!(read("05.06.2026", DateOrder::MonthFirst).as_deref(), Ok("2026-06-05"));
    }

    #[test]
    fn a_date_that_is_a_day_one_way_only_proves_the_order() {
        assert_eq!(date_order("14/06/2026"), Some(DateOrder::DayFirst));
        assert_eq!(date_order("6-14-2026 09:30"), Some(DateOrder::MonthFirst));
        for text in
            ["05/06/2026", "06/06/2026", "2026-06-14", "14.06.2026", "14/06/26", "31/31/2026", "", "14/06"]
        {
            assert_eq!(date_order(text), None, "{text}");
        }
    }

    #[test]
    fn a_day_with_anything_but_a_time_after_it_is_no_date() {
        for after in [
            "or 2025-06-21",
            "?",
            "approx",
            "25:00",
            "09:60",
            "13:00 PM",
            "0:30 am",
            "9",
            "2025",
            "09:30 or so",
            "09:30+99:00",
            "09:30:00.",
            "-",
        ] {
            let text = format!("2026-06-20 {after}");
            assert_eq!(parse_date(&text), Err(DateFault::NotADate), "{text}");
        }
        assert_eq!(parse_date("2026-06-20T"), Err(DateFault::NotADate));
        assert_eq!(parse_date("02.03.2026 approx"), Err(DateFault::NotADate));
    }
}

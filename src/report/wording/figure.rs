use crate::claim::Counted;
use crate::quantity::{Date, Decimal, Hours, Length, Money, Percent, TimeUnit, UnitRate};
use crate::report::words::Words;

/// Parts thousands: a narrow space that no line breaks at.
pub(in crate::report) const THIN: char = '\u{202f}';
/// Stands before an amount below zero, as wide as a digit.
pub(in crate::report) const MINUS: char = '\u{2212}';

/// An amount as every document prints it: `12 345.60`, thousands parted by a narrow space, always the currency's decimals,
/// a true minus sign, no currency. [`crate::quantity::parse_decimal`] reads it back.
pub fn amount(money: Money) -> String {
    grouped(i128::from(money.minor()), money.currency().decimals())
}

/// A rate per hour or per dent, in the same form.
pub fn rate(rate: UnitRate) -> String {
    number(rate.to_decimal())
}

/// A number in the form of [`amount`], with the decimals it has.
pub fn number(value: Decimal) -> String {
    grouped(value.mantissa(), value.scale())
}

/// A whole number of units of the `decimals`-th decimal place.
pub(in crate::report) fn grouped(units: i128, decimals: u32) -> String {
    let decimals = decimals as usize;
    // Digits from the last to the first: at least one before the point.
    let mut left = units.unsigned_abs();
    let mut reversed = String::with_capacity(24);
    let mut place = 0;
    while left > 0 || place <= decimals {
        if place == decimals && decimals > 0 {
            reversed.push('.');
        } else if place > decimals && (place - decimals).is_multiple_of(3) {
            reversed.push(THIN);
        }
        reversed.push(char::from(b'0' + u8::try_from(left % 10).unwrap_or_default()));
        left /= 10;
        place += 1;
    }
    if units < 0 {
        reversed.push(MINUS);
    }
    reversed.chars().rev().collect()
}

/// `19 %`.
pub fn percent(percent: Percent) -> String {
    format!("{} %", number(percent.to_decimal()))
}

/// A length as documents print it: millimetres, at most two decimals are ever needed for mm and common fractions.
pub fn length(length: Length) -> String {
    length.to_string()
}

/// A day with its month in letters, so that no country reads it the other way round: `14 June 2026`.
pub fn date(date: Date) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let month = usize::try_from(date.month()).ok().and_then(|month| MONTHS.get(month.wrapping_sub(1)));
    format!("{} {} {:04}", date.day(), month.unwrap_or(&"?"), date.year())
}

/// A time in the schedule's unit, as it is priced: hours with at least one decimal, else whole minutes or work units.
pub fn time(time: Hours, unit: TimeUnit, words: &Words) -> String {
    let whole_units = time.seconds() % unit.seconds() == 0;
    match unit {
        TimeUnit::Minutes | TimeUnit::WorkUnits(_) if whole_units => {
            words.number(Decimal::from(time.seconds() / unit.seconds()))
        }
        TimeUnit::Tenths | TimeUnit::Minutes | TimeUnit::WorkUnits(_) => {
            let mut hours = time.to_decimal();
            if hours.scale() == 0 {
                hours.rescale(1);
            }
            let text = words.number(hours);
            if unit == TimeUnit::Tenths { text } else { words.say("hours", &[("number", text.into())]) }
        }
    }
}

/// The heading of a column of times: `hours`, `minutes`, `work units, 12 to the hour`.
pub fn time_unit(unit: TimeUnit) -> String {
    match unit {
        TimeUnit::Tenths => "hours".to_owned(),
        TimeUnit::Minutes => "minutes".to_owned(),
        TimeUnit::WorkUnits(per_hour) => format!("work units, {per_hour} to the hour"),
    }
}

/// A time with its unit, for sentences and workings: `1.2 h`, `45 min`, `9 work units`.
pub fn time_with_unit(hours: Hours, unit: TimeUnit, words: &Words) -> String {
    let text = time(hours, unit, words);
    let key = match unit {
        // What is no whole number of units has its hours already.
        TimeUnit::Minutes | TimeUnit::WorkUnits(_) if hours.seconds() % unit.seconds() != 0 => return text,
        TimeUnit::Tenths => "hours",
        TimeUnit::Minutes => "minutes",
        TimeUnit::WorkUnits(_) => "work-units",
    };
    words.say(key, &[("number", text.into())])
}

/// So many of a thing: `1 panel`, `13 panels`.
pub fn so_many(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{} {many}", number(Decimal::from(count))) }
}

/// `1 dent`, `168 dents`.
pub fn dents(count: u32) -> String {
    so_many(usize::try_from(count).unwrap_or(usize::MAX), "dent", "dents")
}

/// A count cell: a number, a dash for none written, an estimate with its range, or `open`.
pub fn count(counted: &Counted) -> String {
    match counted {
        Counted::NoneWritten => "\u{2013}".to_owned(),
        Counted::Counted(dents) => number(Decimal::from(*dents)),
        Counted::Estimated { low, best, high, .. } => {
            let range = match high {
                Some(high) => format!("{low} to {high}"),
                None => format!("{low} or more"),
            };
            best.map_or(format!("about {range}"), |best| format!("about {best} ({range})"))
        }
        Counted::Open => "open".to_owned(),
    }
}

/// A text from a sheet inside one of our sentences. Marks that turn the writing direction are taken out, and a text that
/// runs from right to left is set apart, so that it cannot disturb the words around it.
pub fn said(text: &str) -> String {
    if text.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
        return text.trim().to_owned();
    }
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    // The blocks of Hebrew, Arabic and their neighbours (Unicode standard, chapter 9), and their presentation forms.
    let right_to_left = |c: char| matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}' | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}');
    let plain: String =
        text.chars().filter(|c| !turns(*c)).map(|c| if c.is_control() { ' ' } else { c }).collect();
    let plain = plain.trim();
    if plain.contains(right_to_left) { format!("\u{2068}{plain}\u{2069}") } else { plain.to_owned() }
}

/// The first letter as a capital, for the beginning of a sentence.
pub fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Several things in one phrase: `a`, `a and b`, `a, b and c`.
pub fn list(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

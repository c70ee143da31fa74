//! What a plan says in sentences.

use crate::plan::{OneMore, Part, Plan, Unplanned, day_of};
use crate::quantity::{Date, Hours};
use crate::report::wording::{self, label::LABELS};

/// Stands on everything that a plan writes.
pub const PROMISE: &str = "This is a plan, not a promise. It holds if every step takes as long as it was reckoned, everybody \
                           works as written, and parts arrive on their day.";
/// The same in short, for a cell.
pub fn promise_short() -> &'static str {
    LABELS.no_promise
}

/// The rule, sentence by sentence.
pub const RULE: [&str; 7] = [
    "Cars stand in a list: first the one that would be done first if it had the workshop to itself, its parts' arrival \
     included. Cars of one lot follow the first of them.",
    "Whenever somebody is free, the first step on the list that they can do, that waits for nothing and for which there is a \
     bay, is begun by them; of several who are free by whoever would be done first, and alike by whoever can do least else. \
     Nobody waits for a car further up.",
    "The steps of a car follow one another: strip, paintless, body repair, fit new parts, paint, glass, refit. Half of the \
     time for removing and refitting comes before the other work, half after it. Common practice, no source.",
    "A step stays with whoever began it and goes on the next day that they work. A bay is held from the begin of a step to \
     its end.",
    "A step that needs new parts begins at the earliest on the morning of the day on which they arrive. A part without a \
     written arrival is reckoned as at hand.",
    "Hours are those of the assessments. Where paintless work has an amount and no hours, they are the amount divided by \
     what an hour brings in, each panel rounded up to the tenth of an hour. What has neither takes no time here.",
    "It is a simple rule, not the best plan there is, and one more technician can even make it later: R. L. Graham showed \
     for such rules when (Bell System Technical Journal 45, 1966).",
];

/// `12.5 h`.
pub fn hours(hours: Hours) -> String {
    format!("{} h", wording::number(hours.to_decimal()))
}

/// `Mon 6 July`.
pub fn short_day(date: Date) -> String {
    const DAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    let day = usize::try_from(date.weekday().to_monday_zero_offset()).unwrap_or(0);
    let words = wording::date(date);
    let without_year = words.rsplit_once(' ').map_or(words.as_str(), |(day, _)| day);
    format!("{} {without_year}", DAYS.get(day).copied().unwrap_or_default())
}

/// Why a car is not planned.
pub fn unplanned(why: Unplanned) -> String {
    match why {
        Unplanned::NotPriced => "not priced: its problems are in the assessment".to_owned(),
        Unplanned::Open => "a person has to decide something on it first".to_owned(),
        Unplanned::TotalLoss => "total loss".to_owned(),
        Unplanned::Cash => "the owner takes money in place of the repair".to_owned(),
        Unplanned::Nothing => "there is nothing to do".to_owned(),
        Unplanned::NoWork => "nothing on it has hours".to_owned(),
        Unplanned::NoPace => {
            "its paintless work has amounts and no hours: give the table `paintless an hour`".to_owned()
        }
        Unplanned::TooMany => "its hours cannot be added up".to_owned(),
        Unplanned::NoTechnician(skill) => format!("no technician for {skill}"),
        Unplanned::NoBay(skill) => format!("no bay for {skill}"),
        Unplanned::Beyond => "it does not end within ten years".to_owned(),
    }
}

/// Where the price of a part comes from.
pub fn source(part: &Part) -> String {
    match (&part.source, part.quoted) {
        (Some(source), Some(day)) => format!("{source}, {day}"),
        (Some(source), None) => source.clone(),
        (None, Some(day)) => format!("quoted {day}"),
        (None, None) if part.typical => "price of the schedule".to_owned(),
        (None, None) => "claim sheet".to_owned(),
    }
}

/// One more of what.
pub fn one_more(more: OneMore) -> String {
    match more {
        OneMore::Technician(skill) => format!("technician for {skill}"),
        OneMore::Bay => "bay for any work".to_owned(),
    }
}

/// What one more does to the day on which the last car is done: that day, and the difference in words.
pub fn moved(plan: &Plan, end: Option<u64>) -> (Option<Date>, String) {
    let (Some(now), Some(then)) = (plan.end(), end) else {
        return (None, "it does not end within ten years".to_owned());
    };
    let date = plan.shop.calendar.date(day_of(then));
    let days = |number: usize| if number == 1 { "1 day".to_owned() } else { format!("{number} days") };
    let words = match (day_of(now), day_of(then)) {
        (now, then) if then < now => format!("{} earlier", days(now - then)),
        (now, then) if then > now => {
            format!("{} later: by this rule one more can make a plan longer", days(then - now))
        }
        _ if then < now => "the same day, at an earlier hour".to_owned(),
        _ if then > now => "the same day, at a later hour".to_owned(),
        _ => "no difference".to_owned(),
    };
    (date, words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Skill, Workshop};
    use crate::plan::{Calendar, Placed, PlannedCar, PlannedStep, Shop, Step, morning};
    use crate::quantity::parse_date;

    /// A plan whose last car is done one hour into the third day, a Wednesday.
    fn plan() -> Plan {
        let calendar = Calendar::new(parse_date("2026-07-06").unwrap(), &Workshop::default());
        let placed = Placed { hand: 0, bay: None, start: 0, end: morning(2) + 3600, days: Vec::new() };
        let step = PlannedStep { step: Step::Paintless, hours: Hours::ZERO, parts_on: 0, placed };
        Plan {
            shop: Shop { calendar, hands: Vec::new(), bays: None },
            bays: Vec::new(),
            cars: vec![PlannedCar { intake: 0, work: Vec::new(), steps: vec![step] }],
            unplanned: Vec::new(),
            parts: Vec::new(),
            one_more: Vec::new(),
            problems: Vec::new(),
        }
    }

    #[test]
    fn one_more_that_makes_the_last_car_later_is_said_as_it_is() {
        let plan = plan();
        let said = |end: u64| moved(&plan, Some(end));
        let day = |text: &str| Some(parse_date(text).unwrap());
        let later = "2 days later: by this rule one more can make a plan longer";
        assert_eq!(said(morning(4) + 60), (day("2026-07-10"), later.to_owned()));
        assert_eq!(said(morning(1)), (day("2026-07-07"), "1 day earlier".to_owned()));
        assert_eq!(said(morning(2) + 3600).1, "no difference");
        assert_eq!(said(morning(2) + 7200).1, "the same day, at a later hour");
        assert_eq!(moved(&plan, None).0, None);
        assert_eq!(one_more(OneMore::Technician(Skill::Paint)), "technician for paint");
    }

    #[test]
    fn a_day_is_named_by_its_weekday() {
        // 6 July 2026 is a Monday (ISO 8601 calendar).
        assert_eq!(short_day(parse_date("2026-07-06").unwrap()), "Mon 6 July");
    }
}

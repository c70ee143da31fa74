//! The calendar: weeks of days, and for each technician what is done on each.

use super::{PlanOf, words};
use crate::plan::day_of;
use crate::quantity::{Date, Hours};
use serde::Serialize;
use std::collections::BTreeMap;

/// A week of the calendar, from Monday (ISO 8601).
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Week {
    /// Its first day that is shown, in words.
    pub from: String,
    /// Its days.
    pub days: Vec<Day>,
    /// A row for each technician.
    pub rows: Vec<Row>,
    /// Hours of all technicians on each day.
    pub sums: Vec<String>,
    /// Hours of the week.
    pub sum: String,
}

/// A day of a week.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Day {
    /// In words.
    pub words: String,
    /// Its date.
    #[serde(skip)]
    pub date: Date,
    /// Whether the workshop is open.
    pub open: bool,
}

/// A technician's week.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Row {
    /// Name as written.
    pub technician: String,
    /// What they can do.
    pub skills: String,
    /// What they do on each day.
    pub cells: Vec<DayCell>,
    /// Hours of the week.
    pub sum: String,
}

/// A technician's day.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct DayCell {
    /// What is done, in its order.
    pub work: Vec<DayWork>,
    /// A day off of their own.
    pub off: bool,
}

/// Some work of a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DayWork {
    /// The claim as written.
    pub claim: String,
    /// The car's number in the list, from 1.
    pub car: usize,
    /// The step.
    pub step: String,
    /// In which bay, where bays are counted.
    pub bay: Option<String>,
    /// How long on this day.
    pub hours: String,
    /// Whether it goes on from an earlier day.
    pub goes_on: bool,
}

/// The weeks of a plan, from its first day to its last.
pub fn weeks(of: &PlanOf<'_>) -> Vec<Week> {
    let plan = of.plan;
    let calendar = &plan.shop.calendar;
    let Some(last) = plan.end().map(day_of) else { return Vec::new() };
    let mut cells = Cells::new();
    for (number, car) in plan.cars.iter().enumerate() {
        for step in &car.steps {
            for (index, (day, seconds)) in step.placed.days.iter().enumerate() {
                let hours = Hours::from_seconds(i64::try_from(*seconds).unwrap_or(i64::MAX));
                let work = DayWork {
                    claim: of.claim(car.intake).key.text.clone(),
                    car: number + 1,
                    step: step.step.to_string(),
                    bay: step.placed.bay.and_then(|bay| plan.bays.get(bay)).cloned(),
                    hours: words::hours(hours),
                    goes_on: index > 0,
                };
                let cell = cells.entry((*day, step.placed.hand)).or_insert((Hours::ZERO, Vec::new()));
                super::add(&mut cell.0, hours);
                cell.1.push((step.placed.start, work));
            }
        }
    }
    let weekday = |day: usize| calendar.date(day).map_or(0, |date| date.weekday().to_monday_zero_offset());
    // Weekdays on which nobody ever works have no column.
    let worked: Vec<bool> =
        (0..7).map(|number| (0..=last).any(|day| weekday(day) == number && calendar.is_open(day))).collect();
    let is_shown = |day: &usize| {
        usize::try_from(weekday(*day)).ok().and_then(|number| worked.get(number)).copied().unwrap_or(false)
    };
    let mut by_week: Vec<Vec<usize>> = Vec::new();
    let mut earlier = None;
    for day in 0..=last {
        if earlier.is_none() || weekday(day) == 0 {
            by_week.push(Vec::new());
        }
        earlier = Some(day);
        if let Some(week) = by_week.last_mut().filter(|_| is_shown(&day)) {
            week.push(day);
        }
    }
    by_week.retain(|week| !week.is_empty());
    by_week.iter().map(|week| filled(of, week, &mut cells)).collect()
}

/// By day and technician: the hours, and the work with the begin of its step.
type Cells = BTreeMap<(usize, usize), (Hours, Vec<(u64, DayWork)>)>;

fn filled(of: &PlanOf<'_>, numbers: &[usize], cells: &mut Cells) -> Week {
    let shop = &of.plan.shop;
    let date = |day: usize| shop.calendar.date(day);
    let days: Vec<Day> = numbers
        .iter()
        .filter_map(|day| {
            Some(Day {
                words: words::short_day(date(*day)?),
                date: date(*day)?,
                open: shop.calendar.is_open(*day),
            })
        })
        .collect();
    let mut sums = vec![Hours::ZERO; numbers.len()];
    let mut all = Hours::ZERO;
    let mut rows = Vec::with_capacity(shop.hands.len());
    for (hand, technician) in shop.hands.iter().enumerate() {
        let mut sum = Hours::ZERO;
        let mut own = Vec::with_capacity(numbers.len());
        for (column, day) in numbers.iter().enumerate() {
            let off = shop.calendar.is_open(*day) && !technician.works(&shop.calendar, *day);
            let (hours, mut work) = cells.remove(&(*day, hand)).unwrap_or((Hours::ZERO, Vec::new()));
            work.sort_by_key(|(start, _)| *start);
            super::add(&mut sum, hours);
            super::add(&mut sums[column], hours);
            own.push(DayCell { work: work.into_iter().map(|(_, work)| work).collect(), off });
        }
        super::add(&mut all, sum);
        let skills: Vec<&str> = technician.skills.iter().map(|skill| skill.name()).collect();
        rows.push(Row {
            technician: technician.name.clone(),
            skills: skills.join(", "),
            cells: own,
            sum: words::hours(sum),
        });
    }
    Week {
        from: days.first().map_or_else(String::new, |day| day.words.clone()),
        days,
        rows,
        sums: sums.into_iter().map(words::hours).collect(),
        sum: words::hours(all),
    }
}

//! The days of a plan, numbered from its first, and who works on which of them.

use crate::claim::words::folded;
use crate::claim::{Skill, Weekday, Workshop};
use crate::quantity::Date;
use std::collections::BTreeSet;

/// Days that a plan looks ahead: ten years.
pub const HORIZON: usize = 3653;

/// Seconds between the mornings of two days: whatever the hours of a day, a [`Moment`] counts so many.
pub const A_DAY: u64 = 86_400;

/// A point in working time: the day's number times [`A_DAY`], and the seconds worked since that day's morning.
pub type Moment = u64;

/// The number of a moment's day.
pub fn day_of(moment: Moment) -> usize {
    usize::try_from(moment / A_DAY).unwrap_or(usize::MAX)
}

/// The morning of a day.
pub fn morning(day: usize) -> Moment {
    u64::try_from(day).unwrap_or(u64::MAX).saturating_mul(A_DAY)
}

/// The days of a plan.
#[derive(Debug, Clone)]
pub struct Calendar {
    /// Each day's date and whether the workshop is open.
    days: Vec<(Date, bool)>,
}

impl Calendar {
    /// The calendar of a workshop from a day on. Monday to Friday are worked where no table of the week says otherwise;
    /// a day that it leaves out is as without it.
    pub fn new(first: Date, shop: &Workshop) -> Self {
        let is_worked = |date: Date| {
            let number = usize::try_from(date.weekday().to_monday_zero_offset()).unwrap_or(0);
            let weekday = Weekday::ALL.get(number).copied();
            let said = shop.week.iter().rev().find(|(day, _)| Some(*day) == weekday);
            said.map_or(number < 5, |(_, worked)| *worked)
        };
        let closed = |date: Date| {
            let mut all = shop.days_off.iter().filter(|off| off.technician.is_none());
            all.any(|off| (off.from..=off.until).contains(&date))
        };
        let mut days = Vec::new();
        let mut next = Some(first);
        while let Some(date) = next.filter(|_| days.len() < HORIZON) {
            days.push((date, is_worked(date) && !closed(date)));
            next = date.tomorrow().ok();
        }
        Self { days }
    }

    /// The date of a day.
    pub fn date(&self, day: usize) -> Option<Date> {
        self.days.get(day).map(|(date, _)| *date)
    }

    /// Whether the workshop is open on a day.
    pub fn is_open(&self, day: usize) -> bool {
        self.days.get(day).is_some_and(|(_, open)| *open)
    }

    /// Whether it is open on any day.
    pub fn ever_opens(&self) -> bool {
        self.days.iter().any(|(_, open)| *open)
    }

    /// How many days the calendar has.
    pub fn number_of_days(&self) -> usize {
        self.days.len()
    }

    /// The number of a date: of the first day for an earlier one, beyond the end for a later one.
    pub fn number(&self, date: Date) -> usize {
        self.days.partition_point(|(day, _)| *day < date)
    }
}

/// Somebody who works, as the rule sees them.
#[derive(Debug, Clone)]
pub struct Hand {
    /// Name as written.
    pub name: String,
    /// What they can do.
    pub skills: Vec<Skill>,
    /// Seconds of a working day.
    pub seconds: u64,
    /// Days on which they do not work though the workshop is open.
    pub off: BTreeSet<usize>,
}

impl Hand {
    /// The technicians of a workshop.
    pub fn all(shop: &Workshop, calendar: &Calendar) -> Vec<Self> {
        let of = |technician: &crate::claim::Technician| {
            let name = folded(&technician.name.value);
            let own = shop
                .days_off
                .iter()
                .filter(|off| off.technician.as_ref().is_some_and(|named| folded(&named.value) == name));
            let first = calendar.date(0);
            // Days before the plan have no number.
            let own = own.filter(|off| first.is_some_and(|first| off.until >= first));
            let off = own.flat_map(|off| {
                let after = calendar.number(off.until) + 1;
                calendar.number(off.from)..after.min(calendar.number_of_days())
            });
            Self {
                name: technician.name.value.clone(),
                skills: technician.skills.clone(),
                seconds: u64::try_from(technician.hours.seconds()).unwrap_or(0),
                off: off.collect(),
            }
        };
        shop.technicians.iter().map(of).collect()
    }

    /// Whether they work on a day.
    pub fn works(&self, calendar: &Calendar, day: usize) -> bool {
        calendar.is_open(day) && !self.off.contains(&day)
    }

    /// Whether they are at work at a moment.
    pub fn is_there(&self, calendar: &Calendar, now: Moment) -> bool {
        self.works(calendar, day_of(now)) && now % A_DAY < self.seconds
    }

    /// When so much work ends that begins at a moment, and the seconds of each of its days; nothing beyond the
    /// calendar's end.
    pub fn ends(
        &self,
        calendar: &Calendar,
        start: Moment,
        seconds: u64,
    ) -> Option<(Moment, Vec<(usize, u64)>)> {
        let (mut day, mut from, mut left) = (day_of(start), start % A_DAY, seconds);
        let mut days = Vec::new();
        while day < calendar.number_of_days() {
            if self.works(calendar, day) && from < self.seconds {
                let done = left.min(self.seconds - from);
                days.push((day, done));
                left -= done;
                if left == 0 {
                    return Some((morning(day) + from + done, days));
                }
            }
            (day, from) = (day + 1, 0);
        }
        None
    }
}

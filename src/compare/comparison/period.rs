//! Agreement over time: the same people over several events, or several months.

use super::annex::Members;
use super::summary::Groups;
use super::{CarComparison, PageOne};
use crate::claim::words::folded;
use crate::quantity::Date;
use crate::schedule::Schedule;
use std::collections::BTreeMap;

/// One pair of people in one period.
#[derive(Debug, Clone, PartialEq)]
pub struct Period {
    /// The event as first written, or the month as `2026-06`.
    pub name: String,
    /// First and second assessor, by number.
    pub between: (usize, usize),
    /// Cars with a common panel.
    pub cars: usize,
    /// Common panels.
    pub panels: usize,
    /// The five figures.
    pub page_one: PageOne,
}

/// Every pair's periods in the order of time. A period is the event where every compared car names one, else the calendar
/// month of the date by which the car is priced. Where all cars lie in one period there is nothing to follow, and none is
/// given.
pub(super) fn periods(cars: &[CarComparison], schedules: &[Schedule], groups: &Groups) -> Vec<Period> {
    let by_event = cars.iter().all(|car| car.event.is_some());
    let called = |car: &CarComparison| match &car.event {
        Some(name) if by_event => name.trim().to_owned(),
        _ => format!("{:04}-{:02}", car.date.year(), car.date.month()),
    };
    // By folded name: when it began, and how it was first written.
    let mut known: BTreeMap<String, (Date, String)> = BTreeMap::new();
    for car in cars {
        let name = called(car);
        let (begins, _) = known.entry(folded(&name)).or_insert_with(|| (car.date, name));
        *begins = (*begins).min(car.date);
    }
    if known.len() < 2 {
        return Vec::new();
    }
    let mut periods = Vec::new();
    for (between, members) in groups {
        let mut parts: BTreeMap<(Date, &str), Vec<(usize, usize)>> = BTreeMap::new();
        for member in members {
            if let Some((begins, name)) = known.get(&folded(&called(&cars[member.0]))) {
                parts.entry((*begins, name)).or_default().push(*member);
            }
        }
        periods.extend(parts.into_iter().map(|((_, name), pairs)| {
            let of_pair = |(car, pair): &(usize, usize)| cars[*car].pairs[*pair].common.len();
            Period {
                name: name.to_owned(),
                between: *between,
                cars: pairs.iter().filter(|pair| of_pair(pair) > 0).count(),
                panels: pairs.iter().map(of_pair).sum(),
                page_one: Members { cars, schedules, pairs: &pairs, is_directed: true }.page_one(),
            }
        }));
    }
    periods
}

use super::amounts::cell_amount;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::quantity::Money;
use crate::schedule::{GroupId, Schedule};

/// Counts at which an open-ended band is looked at: its first, and more than any panel has.
const MANY: u32 = 99_999;

/// Tells where a panel's amount falls as its dents become more or larger. Panel amounts are held against each other, not
/// unit rates: a lower rate per dent in the next count band is no fall while the panel still costs more.
pub(super) fn check(schedule: &Schedule, problems: &mut Vec<Problem>) {
    for group in 0..schedule.groups.len() {
        let Ok(group) = u16::try_from(group).map(GroupId) else { continue };
        for size in 0..schedule.sizes.len() {
            more_dents(schedule, group, size, problems);
        }
        for count in 0..schedule.counts.len() {
            larger_dents(schedule, group, count, problems);
        }
    }
}

/// From the last count of a band to the first of the next that has a price.
fn more_dents(schedule: &Schedule, group: GroupId, size: usize, problems: &mut Vec<Problem>) {
    let with_price: Vec<usize> =
        (0..schedule.counts.len()).filter(|count| schedule.grid.get(group, size, *count).is_some()).collect();
    for pair in with_price.windows(2) {
        let (Some(last), first) = (schedule.counts[pair[0]].to, schedule.counts[pair[1]].from) else {
            continue;
        };
        let less = cell_amount(schedule, group, size, pair[0], last);
        let more = cell_amount(schedule, group, size, pair[1], first);
        let at = |dents: u32| dents_of(dents, &schedule.sizes[size].name);
        tell(
            schedule,
            (less, at(last)),
            (more, at(first)),
            (group, [(size, pair[0]), (size, pair[1])]),
            problems,
        );
    }
}

/// From one size band to the next that has a price, at both ends of the count band.
fn larger_dents(schedule: &Schedule, group: GroupId, count: usize, problems: &mut Vec<Problem>) {
    let with_price: Vec<usize> =
        (0..schedule.sizes.len()).filter(|size| schedule.grid.get(group, *size, count).is_some()).collect();
    let band = &schedule.counts[count];
    for pair in with_price.windows(2) {
        for dents in [band.from, band.to.unwrap_or(MANY)] {
            let smaller = cell_amount(schedule, group, pair[0], count, dents);
            let larger = cell_amount(schedule, group, pair[1], count, dents);
            let at = |size: usize| dents_of(dents, &schedule.sizes[size].name);
            let cells = [(pair[0], count), (pair[1], count)];
            if tell(schedule, (smaller, at(pair[0])), (larger, at(pair[1])), (group, cells), problems) {
                break;
            }
        }
    }
}

/// `1 dent of small`, `5 dents of small`.
fn dents_of(dents: u32, size: &str) -> String {
    if dents == 1 { format!("1 dent of {size}") } else { format!("{dents} dents of {size}") }
}

/// Tells a fall from the first amount to the second; whether there was one.
fn tell(
    schedule: &Schedule,
    (less, before): (Option<Money>, String),
    (more, after): (Option<Money>, String),
    (group, cells): (GroupId, [(usize, usize); 2]),
    problems: &mut Vec<Problem>,
) -> bool {
    let (Some(less), Some(more)) = (less, more) else { return false };
    if more.minor() >= less.minor() {
        return false;
    }
    let name = &schedule.groups[usize::from(group.0)];
    let mut problem = words::amount_falls(name, &before, less, &after, more);
    let places = cells.map(|(size, count)| schedule.grid.get(group, size, count).map(|cell| cell.place));
    if let [Some(first), Some(second)] = places {
        problem = problem.at(second).and(first);
    }
    problems.push(problem);
    true
}

use crate::quantity::{Decimal, Hours, Money};
use crate::schedule::{GroupId, LabourClass, Per, Price, Schedule};

/// What so many dents come to at one cell of the grid, for holding amounts against each other: the amount, or the time at
/// the paintless rate, for the panel or for each dent. A time is not rounded to the schedule's unit here. `None` where the
/// cell or that rate is absent. Between two count bands amounts rise evenly where the schedule says so.
pub(in crate::schedule) fn cell_amount(
    schedule: &Schedule,
    group: GroupId,
    size: usize,
    count: usize,
    dents: u32,
) -> Option<Money> {
    let own = alone(schedule, group, size, count, dents)?;
    let from = schedule.counts[count].from;
    if !schedule.terms.is_interpolated() || dents <= from {
        return Some(own);
    }
    let is_time =
        |count| schedule.grid.get(group, size, count).map(|cell| matches!(cell.price, Price::Time(_)));
    let Some(to) = schedule.counts.get(count + 1).map(|next| next.from) else { return Some(own) };
    if is_time(count) != is_time(count + 1) {
        return Some(own);
    }
    let [low, high] =
        [(count, from), (count + 1, to)].map(|(count, at)| alone(schedule, group, size, count, at));
    low?.towards(high?, Decimal::from(dents), (from, to), schedule.terms.rounding.value).ok()
}

/// The same by the cell alone.
fn alone(schedule: &Schedule, group: GroupId, size: usize, count: usize, dents: u32) -> Option<Money> {
    let cell = schedule.grid.get(group, size, count)?;
    let rounding = schedule.terms.rounding.value;
    let times = match cell.per {
        Per::Panel => 1,
        Per::Dent => dents,
    };
    match cell.price {
        Price::Amount(rate) => rate.times(times, rounding).ok(),
        Price::Time(hours) => {
            let paintless = schedule.labour.iter().find(|rate| rate.class == LabourClass::Paintless)?;
            let seconds = hours.seconds().checked_mul(i64::from(times))?;
            Hours::from_seconds(seconds).at(paintless.per_hour.value, rounding).ok()
        }
    }
}

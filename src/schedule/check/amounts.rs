use crate::quantity::{Hours, Money};
use crate::schedule::{GroupId, LabourClass, Per, Price, Schedule};

/// What so many dents come to at one cell of the grid, for holding amounts against each other: the amount, or the time at
/// the paintless rate, for the panel or for each dent. A time is not rounded to the schedule's unit here. `None` where the
/// cell or that rate is absent.
pub(in crate::schedule) fn cell_amount(
    schedule: &Schedule,
    group: GroupId,
    size: usize,
    count: usize,
    dents: u32,
) -> Option<Money> {
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

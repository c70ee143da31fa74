//! What the grid gives at one place: a cell by itself, or evenly between the counts at which two count bands begin.

use super::base::{Number, Spot, SpotSteps};
use super::desk::Desk;
use super::{Formula, Recorder, Rule, Shown, StepId};
use crate::quantity::{Decimal, Hours, Money, QuantityFault};
use crate::schedule::{GridCell, GroupId, LabourClass, Per, Price, Schedule};

/// A time where the cell gives one, and the amount.
type Given = (Option<Hours>, Money);

/// The cell of a place in the grid, and the one that it rises to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cells<'s> {
    /// The place's own.
    pub own: &'s GridCell,
    rise: Option<Rise<'s>>,
}

/// From the first count of a band to that of the next.
#[derive(Debug, Clone, Copy)]
struct Rise<'s> {
    next: &'s GridCell,
    /// The next count band.
    band: usize,
    from: u32,
    to: u32,
}

impl<'s> Cells<'s> {
    /// `None` where nothing is agreed. Nothing rises beyond the last band, to a cell that is empty or gives the other of an
    /// amount and a time, or up to the first count of its band.
    pub fn at(schedule: &'s Schedule, group: GroupId, spot: Spot) -> Option<Self> {
        let own = schedule.grid.get(group, spot.size, spot.count)?;
        let rise = || {
            let band = spot.count + 1;
            let (from, to) = (schedule.counts[spot.count].from, schedule.counts.get(band)?.from);
            let next = schedule.grid.get(group, spot.size, band)?;
            let is_alike = matches!(own.price, Price::Amount(_)) == matches!(next.price, Price::Amount(_));
            let is_above = spot.number.exactly() > Decimal::from(from);
            (is_alike && is_above && from < to).then_some(Rise { next, band, from, to })
        };
        let rise = if schedule.terms.is_interpolated() { rise() } else { None };
        Some(Self { own, rise })
    }

    /// What so many dents come to; `None` where a time has no rate.
    pub fn priced(&self, schedule: &Schedule, number: Number) -> Result<Option<Given>, QuantityFault> {
        let Some(rise) = self.rise else { return given(schedule, self.own, number) };
        let low = given(schedule, self.own, Number::Dents(rise.from))?;
        let high = given(schedule, rise.next, Number::Dents(rise.to))?;
        let (Some(low), Some(high)) = (low, high) else { return Ok(None) };
        let (at, ends) = (number.exactly(), (rise.from, rise.to));
        let rounding = schedule.terms.rounding.value;
        let (Some(from), Some(to)) = (low.0, high.0) else {
            return Ok(Some((None, low.1.towards(high.1, at, ends, rounding)?)));
        };
        let unit = schedule.terms.time_unit.value;
        let time = from.towards(to, at, ends, (unit, rounding))?;
        let rate = paintless(schedule);
        Ok(rate.map(|rate| time.at(rate, rounding)).transpose()?.map(|amount| (Some(time), amount)))
    }

    /// Keeps the way from the bands to the amount.
    pub fn record<R: Recorder>(
        &self,
        desk: &mut Desk<'_, R>,
        spot: Spot,
        steps: SpotSteps,
        (time, amount): Given,
    ) -> StepId {
        if !R::KEEPS {
            return StepId::NONE;
        }
        let counts = &desk.schedule.counts;
        let SpotSteps { number, size } = steps;
        let band = counts[spot.count].place;
        let count = desk
            .step_at(Rule::BandOfCount, &[band], Shown::CountBand(spot.count), || Formula::BandOf(number));
        let Some(rise) = self.rise else {
            return record(desk, self.own, (number, spot.number), (size, count), time);
        };
        let from = desk.term(band, rise.from);
        let beyond = counts[rise.band].place;
        let to = desk.term(beyond, rise.to);
        let next =
            desk.step_at(Rule::BandOfCount, &[beyond], Shown::CountBand(rise.band), || Formula::BandOf(to));
        // Times are read between times, and priced once.
        let low = end(desk, self.own, (from, rise.from), (size, count));
        let high = end(desk, rise.next, (to, rise.to), (size, next));
        let formula = || Formula::Between { low, high, at: number, from, to };
        match time {
            Some(time) => {
                let time = desk.step(Rule::LabourTime, time, formula);
                let rate = desk.labour(LabourClass::Paintless).map_or(StepId::NONE, |rate| rate.step);
                desk.step(Rule::Base, amount, || Formula::Times { rate, by: time })
            }
            None => desk.step(Rule::Base, amount, formula),
        }
    }
}

impl Number {
    /// Dents or equivalents as they are.
    fn exactly(self) -> Decimal {
        match self {
            Self::Dents(dents) => Decimal::from(dents),
            Self::Equivalents(weighted) => weighted,
        }
    }
}

fn paintless(schedule: &Schedule) -> Option<crate::quantity::UnitRate> {
    let rate = schedule.labour.iter().find(|rate| rate.class == LabourClass::Paintless)?;
    Some(rate.per_hour.value)
}

/// What a cell gives by itself.
fn given(schedule: &Schedule, cell: &GridCell, number: Number) -> Result<Option<Given>, QuantityFault> {
    let rounding = schedule.terms.rounding.value;
    let each = match cell.price {
        Price::Amount(rate) => {
            let amount = match (cell.per, number) {
                (Per::Panel, _) => rate.times(1, rounding)?,
                (Per::Dent, Number::Dents(dents)) => rate.times(dents, rounding)?,
                (Per::Dent, Number::Equivalents(weighted)) => rate.times_decimal(weighted, rounding)?,
            };
            return Ok(Some((None, amount)));
        }
        Price::Time(each) => each,
    };
    let Some(rate) = paintless(schedule) else { return Ok(None) };
    let unit = schedule.terms.time_unit.value;
    let hours = match cell.per {
        Per::Panel => each,
        Per::Dent => each.times(number.exactly(), unit, rounding)?,
    };
    Ok(Some((Some(hours), hours.at(rate, rounding)?)))
}

/// Keeps what a cell gives at the count at which its band begins: an amount, or a time.
fn end<R: Recorder>(
    desk: &mut Desk<'_, R>,
    cell: &GridCell,
    (number, dents): (StepId, u32),
    place: (StepId, StepId),
) -> StepId {
    match cell.price {
        Price::Amount(_) => record(desk, cell, (number, Number::Dents(dents)), place, None),
        Price::Time(each) => {
            let given = given(desk.schedule, cell, Number::Dents(dents));
            let time = given.ok().flatten().and_then(|(time, _)| time);
            time_step(desk, cell, each, number, place, time)
        }
    }
}

/// Keeps a time of the grid, per dent times the dents.
fn time_step<R: Recorder>(
    desk: &mut Desk<'_, R>,
    cell: &GridCell,
    each: Hours,
    number: StepId,
    (size, count): (StepId, StepId),
    time: Option<Hours>,
) -> StepId {
    let each = desk.step_at(Rule::Term, &[cell.place], each, || Formula::GridCell { size, count });
    match (cell.per, time) {
        (Per::Dent, Some(time)) => {
            desk.step(Rule::LabourTime, time, || Formula::Times { rate: each, by: number })
        }
        _ => each,
    }
}

/// Keeps what a cell gives by itself.
fn record<R: Recorder>(
    desk: &mut Desk<'_, R>,
    cell: &GridCell,
    (number, dents): (StepId, Number),
    (size, count): (StepId, StepId),
    time: Option<Hours>,
) -> StepId {
    let Some((_, amount)) = given(desk.schedule, cell, dents).ok().flatten() else { return StepId::NONE };
    let in_grid = || Formula::GridCell { size, count };
    match (cell.price, cell.per) {
        (Price::Amount(_), Per::Panel) => desk.step_at(Rule::Base, &[cell.place], amount, in_grid),
        (Price::Amount(rate), Per::Dent) => {
            let rate = desk.step_at(Rule::Term, &[cell.place], rate, in_grid);
            desk.step(Rule::Base, amount, || Formula::Times { rate, by: number })
        }
        (Price::Time(each), _) => {
            let time = time_step(desk, cell, each, number, (size, count), time);
            let rate = desk.labour(LabourClass::Paintless).map_or(StepId::NONE, |rate| rate.step);
            desk.step(Rule::Base, amount, || Formula::Times { rate, by: time })
        }
    }
}

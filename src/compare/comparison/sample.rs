//! Which cars a second person should count, and what those counts then say of the batch.

use super::gathered::of_each;
use super::{CarComparison, Source};
use crate::assess::{Silent, assess, choose_schedule};
use crate::claim::Intake;
use crate::compare::money::could_move;
use crate::compare::sampling::{
    BatchSays, InspectionLevel, QualityLevel, Severity, Size, draw, plan_for_lot, says, share_accepted_with,
};
use crate::compare::statistics::Level;
use crate::quantity::{Currency, Date, Money, Percent, Rounding};
use crate::schedule::Schedule;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// What the parties agreed on before the batch was known.
#[derive(Debug, Clone, PartialEq)]
pub struct SampleOrder {
    /// How much is looked at.
    pub level: InspectionLevel,
    /// Percent of cars off that is still taken for good work.
    pub quality: QualityLevel,
    /// How severe inspection is.
    pub severity: Severity,
    /// What the drawing is repeated by.
    pub seed: String,
    /// A car is off when a second count differs by more than this share of the gross amount of the first.
    pub lets_pass: Percent,
    /// So many cars beside the sample, of those whose recount could move most money.
    pub beside: usize,
    /// The date for claims that carry none.
    pub run_date: Option<Date>,
}

/// A car beside the sample. It was chosen, not drawn, so it says nothing of the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// Its claim, by its number in the batch.
    pub claim: usize,
    /// Its key.
    pub key: String,
    /// What a second count could move, of the net amounts of its panels.
    pub could_move: Money,
}

/// A drawn car.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Its claim, by its number in the batch.
    pub claim: usize,
    /// Its key.
    pub key: String,
    /// The difference of the gross amounts of its first two looks, first minus second, and whether the car is off; none
    /// while it was not counted again.
    pub counted: Option<(Money, bool)>,
}

/// A sample.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// Cars in the batch.
    pub lot: u64,
    /// What the plan asks for.
    pub size: Size,
    /// The cars, in the order in which they were drawn.
    pub drawn: Vec<Drawn>,
    /// Cars beside the sample, those that could move most first; by currency where there are several.
    pub beside: Vec<Beside>,
    /// Shares off that the plan accepts with a chance of 95, 50 and 10 %: points of its operating characteristic.
    pub accepts: Vec<(f64, f64)>,
    /// What the drawn cars that were counted again say of the batch; none before the first.
    pub says: Option<BatchSays>,
    /// Whether the batch is accepted; none while too few cars were counted again to tell.
    pub accepted: Option<bool>,
}

/// Draws the sample of a batch, and reads what was counted again of it. None for an empty batch.
pub fn sample<S: Source + ?Sized>(
    claims: &S,
    cars: &[CarComparison],
    schedules: &[Schedule],
    order: &SampleOrder,
) -> Result<Option<Sample>, S::Error> {
    let read = of_each(claims, |_, intake, _| {
        let could_move = if order.beside == 0 { None } else { moves(intake, schedules, order) };
        (intake.claim.key.text.clone(), could_move)
    })?;
    Ok(drawn(&read, cars, schedules, order))
}

/// From every claim's key and what its recount could move.
fn drawn(
    claims: &[(String, Option<Money>)],
    cars: &[CarComparison],
    schedules: &[Schedule],
    order: &SampleOrder,
) -> Option<Sample> {
    let keys: Vec<&str> = claims.iter().map(|(key, _)| key.as_str()).collect();
    let lot = u64::try_from(keys.len()).ok()?;
    let size = plan_for_lot(lot, order.level, order.quality, order.severity)?;
    let wanted = match size {
        Size::Sample(plan) => usize::try_from(plan.sample).ok()?,
        Size::Everything => keys.len(),
    };
    let drawn: Vec<Drawn> = draw(&order.seed, &keys, wanted)
        .into_iter()
        .map(|claim| Drawn {
            claim,
            key: keys[claim].to_owned(),
            counted: cars.iter().find(|car| car.claim == claim).and_then(|car| off(car, schedules, order)),
        })
        .collect();
    let counted = drawn.iter().filter(|drawn| drawn.counted.is_some()).count();
    let off = drawn.iter().filter(|drawn| drawn.counted.is_some_and(|(_, is_off)| is_off)).count();
    let (of_sample, off) = (u64::try_from(counted).ok()?, u64::try_from(off).ok()?);
    let is_complete = counted == drawn.len();
    let accepted = match size {
        Size::Sample(plan) if off >= plan.reject => Some(false),
        Size::Sample(_) => is_complete.then_some(true),
        // Every car was looked at: there is nothing to infer, and no rule to accept by.
        Size::Everything => None,
    };
    let accepts = match size {
        Size::Sample(plan) => [0.95, 0.5, 0.1]
            .into_iter()
            .filter_map(|chance| {
                share_accepted_with(chance, plan.sample, plan.accept).map(|share| (chance, share))
            })
            .collect(),
        Size::Everything => Vec::new(),
    };
    let says = (of_sample > 0).then(|| says(lot, of_sample, off, Level::NINETY_FIVE)).flatten();
    let beside = beside(claims, order, &drawn);
    Some(Sample { lot, size, drawn, beside, accepts, says, accepted })
}

/// What a recount of a car could move that was counted once.
fn moves(intake: &Intake, schedules: &[Schedule], order: &SampleOrder) -> Option<Money> {
    let claim = &intake.claim;
    if intake.is_stopped() || claim.inspections.len() != 1 {
        return None;
    }
    let index = choose_schedule(claim, schedules, order.run_date).ok()?;
    let schedule = &schedules[index];
    let assessment = assess(claim, schedule, index, order.run_date, &mut Silent).ok()?;
    could_move(claim, &assessment, schedule).ok()
}

/// The cars that were not drawn and not counted twice, whose recount could move most.
fn beside(claims: &[(String, Option<Money>)], order: &SampleOrder, drawn: &[Drawn]) -> Vec<Beside> {
    let drawn: BTreeSet<usize> = drawn.iter().map(|drawn| drawn.claim).collect();
    let left = claims.iter().enumerate().filter(|(number, _)| !drawn.contains(number));
    let could_move = |(claim, (key, could_move)): (usize, &(String, Option<Money>))| {
        let could_move = could_move.filter(|could_move| !could_move.is_zero())?;
        Some(Beside { claim, key: key.clone(), could_move })
    };
    let mut beside: Vec<Beside> = left.filter_map(could_move).collect();
    beside.sort_by_key(|one| (one.could_move.currency(), Reverse(one.could_move.minor()), one.claim));
    let mut kept: BTreeMap<Currency, usize> = BTreeMap::new();
    beside.retain(|one| {
        let kept = kept.entry(one.could_move.currency()).or_default();
        *kept += 1;
        *kept <= order.beside
    });
    beside
}

/// The difference of a car's first two looks, and whether it is more than the parties let pass.
fn off(car: &CarComparison, schedules: &[Schedule], order: &SampleOrder) -> Option<(Money, bool)> {
    let [first, second, ..] = &car.looks[..] else { return None };
    let difference = first.gross.minus(second.gross).ok()?;
    let rounding: Rounding = schedules.get(car.schedule)?.terms.rounding.value;
    let passes = first.gross.percent(order.lets_pass, rounding).ok()?;
    Some((difference, difference.minor().unsigned_abs() > passes.minor().unsigned_abs()))
}

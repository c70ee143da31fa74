//! What every part of an assessment works at: the claim, the schedule, what has been noted so far, and the recorder.

use super::base::WEIGHT_DIGITS;
use super::{End, Excluded, Formula, Note, Recorder, Rule, Shown, Step, StepId};
use crate::claim::{Claim, Located, Place, SizeHeading, Vehicle, WrittenAmount, words::folded};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::{Currency, Money, Percent, QuantityFault, Rounding, UnitRate, exact};
use crate::schedule::{LabourClass, MixedRule, Schedule, SizeFit, TaxOn, TaxRate, Typical};

/// A labour rate with its step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rate {
    /// Amount per hour.
    pub per_hour: UnitRate,
    /// Its cell.
    pub place: Place,
    /// Its step.
    pub step: StepId,
}

/// One assessment in the making.
pub(super) struct Desk<'a, R> {
    /// What was written.
    pub claim: &'a Claim,
    /// What holds.
    pub schedule: &'a Schedule,
    /// The vehicle's class, folded: as written, else its body type's name.
    pub class: Option<String>,
    /// Rows of typical prices that hold for that class.
    pub typical: Vec<&'a Typical>,
    /// What was wrong or odd so far.
    pub problems: Vec<Problem>,
    /// How the claim was understood.
    pub notes: Vec<Note>,
    /// Marks that are not paid.
    pub excluded: Vec<Excluded>,
    /// Which number of an estimate is rated.
    pub end: End,
    /// Blank cells beside numbers.
    pub blanks: u32,
    /// What headings are in the schedule's bands: few headings stand over many counts.
    pub fits: Vec<(&'a SizeHeading, SizeFit)>,
    /// Steps of the dents of each size band of the panel at hand; filled only while recording.
    pub band_steps: Vec<StepId>,
    recorder: &'a mut R,
    labour_steps: [Option<StepId>; LabourClass::ALL.len()],
}

impl<'a, R: Recorder> Desk<'a, R> {
    /// An empty desk. What the schedule lacks for any claim at all is a problem from the start.
    pub fn new(claim: &'a Claim, schedule: &'a Schedule, recorder: &'a mut R) -> Self {
        let class = class(&claim.vehicle);
        let of_class = |row: &&Typical| match (&row.class, &class) {
            (None, _) => true,
            (Some(wanted), Some(class)) => folded(wanted) == *class,
            (Some(_), None) => false,
        };
        let typical = schedule.typical.iter().filter(of_class).collect();
        let mut desk = Self {
            claim,
            schedule,
            class,
            typical,
            problems: Vec::new(),
            notes: Vec::new(),
            excluded: Vec::new(),
            end: End::Best,
            blanks: 0,
            fits: Vec::new(),
            band_steps: Vec::new(),
            recorder,
            labour_steps: [None; LabourClass::ALL.len()],
        };
        for on in TaxOn::ALL {
            if desk.tax(*on).is_none() {
                desk.problems.push(wording::rate_missing(&format!("tax rate on {on}"), schedule.place));
            }
        }
        if let MixedRule::Equivalents(_) = schedule.terms.mixed.value {
            let is_exact = |weight| exact(weight, WEIGHT_DIGITS).is_ok();
            for band in schedule.sizes.iter().filter(|band| !band.weight.is_some_and(is_exact)) {
                let what = format!("weight of at most {WEIGHT_DIGITS} decimals for dents of {}", band.name);
                desk.problems.push(wording::rate_missing(&what, band.place));
            }
        }
        desk
    }

    /// Currency of every amount.
    pub fn currency(&self) -> Currency {
        self.schedule.terms.currency.value
    }

    /// Nothing, in that currency.
    pub fn nothing(&self) -> Money {
        Money::zero(self.currency())
    }

    /// How amounts are rounded.
    pub fn rounding(&self) -> Rounding {
        self.schedule.terms.rounding.value
    }

    /// Whether something keeps the claim from being priced.
    pub fn is_stopped(&self) -> bool {
        self.problems.iter().any(|problem| problem.severity().stops_the_claim())
    }

    /// The tax on a kind of line, if the schedule states it.
    pub fn tax(&self, on: TaxOn) -> Option<&'a TaxRate> {
        self.schedule.taxes.iter().find(|rate| rate.on == on)
    }

    /// The tax rate of a kind of line. A schedule without it was refused at the start.
    pub fn tax_rate(&self, on: TaxOn) -> Percent {
        self.tax(on).map_or_else(Percent::default, |rate| rate.percent.value)
    }

    /// The rate of a kind of labour, if the schedule prices it. Its step is made once.
    pub fn labour(&mut self, class: LabourClass) -> Option<Rate> {
        let rate = self.schedule.labour.iter().find(|rate| rate.class == class)?.per_hour;
        let known = self.labour_steps.iter().zip(LabourClass::ALL).find(|(_, kind)| **kind == class);
        let step = match known.and_then(|(step, _)| *step) {
            Some(step) => step,
            None => self.term(rate.place, rate.value),
        };
        for (slot, kind) in self.labour_steps.iter_mut().zip(LabourClass::ALL) {
            if *kind == class {
                *slot = Some(step);
            }
        }
        Some(Rate { per_hour: rate.value, place: rate.place, step })
    }

    /// Keeps a step that follows from other steps alone.
    pub fn step(
        &mut self,
        rule: Rule,
        result: impl Into<Shown>,
        formula: impl FnOnce() -> Formula,
    ) -> StepId {
        self.recorder.step(|| Step { rule, formula: formula(), result: result.into(), cells: Vec::new() })
    }

    /// Keeps a step that also rests on cells itself.
    pub fn step_at(
        &mut self,
        rule: Rule,
        cells: &[Place],
        result: impl Into<Shown>,
        formula: impl FnOnce() -> Formula,
    ) -> StepId {
        self.recorder.step(|| Step { rule, formula: formula(), result: result.into(), cells: cells.to_vec() })
    }

    /// Keeps what a cell of the schedule says.
    pub fn term(&mut self, place: Place, value: impl Into<Shown>) -> StepId {
        self.step_at(Rule::Term, &[place], value, || Formula::Read)
    }

    /// Keeps what a cell of the claim says.
    pub fn input(&mut self, place: Place, value: impl Into<Shown>) -> StepId {
        self.step_at(Rule::Input, &[place], value, || Formula::Read)
    }

    /// An amount of the claim in the schedule's currency, with its step. Written amounts were checked before.
    pub fn amount(&mut self, written: &Located<WrittenAmount>) -> Result<(Money, StepId), Problem> {
        let money = in_currency(&written.value, self.currency()).or_stop(written.place)?;
        Ok((money, self.input(written.place, money)))
    }

    /// Everything that was wrong or odd, naming the claim.
    pub fn told(&mut self) -> Vec<Problem> {
        let of_claim = |problem: Problem| problem.of_claim(self.claim.key.text.clone());
        std::mem::take(&mut self.problems).into_iter().map(of_claim).collect()
    }

    /// Closes the working.
    pub fn finish(&mut self) -> Option<super::Working> {
        self.recorder.finish()
    }
}

fn class(vehicle: &Vehicle) -> Option<String> {
    let written = vehicle.class.as_ref().map(|class| folded(&class.value));
    written.or_else(|| vehicle.body.map(|body| folded(body.value.name())))
}

/// A written amount as money of a currency: another currency or finer decimals are a fault.
pub(super) fn in_currency(written: &WrittenAmount, currency: Currency) -> Result<Money, QuantityFault> {
    match written.currency {
        Some(said) if said != currency => Err(QuantityFault::Currencies(said, currency)),
        Some(_) | None => Money::from_decimal(written.amount, currency),
    }
}

/// Turns a computation without a result into the claim's problem, at the place whose value went into it.
pub(super) trait OrStop<T> {
    /// The result, or the problem.
    fn or_stop(self, place: Place) -> Result<T, Problem>;
}

impl<T> OrStop<T> for Result<T, QuantityFault> {
    fn or_stop(self, place: Place) -> Result<T, Problem> {
        self.map_err(|fault| wording::cannot_compute(fault, place))
    }
}

//! What a change of schedules moves: every claim assessed two ways, and the differences added up. Amounts of different
//! currencies never meet: a claim whose currency changes is listed and adds to nothing.

use super::{Options, assess_one};
use crate::assess::{self, Assessment, Outcome, Silent};
use crate::claim::{Intake, PanelKind};
use crate::problem::Problem;
use crate::quantity::{Currency, Money, QuantityFault};
use crate::schedule::Schedule;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// A part of a claim's gross amount. The parts of a claim sum to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The panels of one kind, both sides.
    Panels(PanelKind),
    /// Operations, items, the minimum, the discount.
    Vehicle,
    /// Taxes.
    Tax,
    /// What brings the gross amount to its step.
    Rounding,
}

/// Amounts by part.
pub type ByKind = BTreeMap<Part, Money>;

/// What is kept of one way to assess a claim.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Number of its schedule among those of this way.
    pub schedule: usize,
    /// Gross amount, without open panels and items.
    pub gross: Money,
    /// What the insurer pays.
    pub insurer_pays: Money,
    /// The claim in one word.
    pub outcome: Outcome,
    /// Open panels and items.
    pub open: usize,
    /// The gross amount by its parts.
    pub parts: ByKind,
}

/// How a claim stands the other way.
#[derive(Debug, Clone, PartialEq)]
pub enum Shift {
    /// Priced both ways in one currency: the difference in gross, and in what the insurer pays.
    Both(Way, Way, Difference),
    /// Priced both ways, in two currencies: nothing is subtracted.
    Currencies(Way, Way),
    /// Priced only the other way.
    Gained(Way),
    /// Priced only as it was; the problems that stop it the other way.
    Lost(Way, Vec<Problem>),
    /// Priced neither way, with the problems of the other.
    Neither(Vec<Problem>),
    /// None of the other schedules is meant for it: it stays as it is.
    Untouched,
}

/// Amounts of the other way less those of the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// Gross.
    pub gross: Money,
    /// What the insurer pays.
    pub insurer_pays: Money,
    /// By part; only what differs.
    pub parts: ByKind,
}

/// One claim both ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// Its number in the batch, from 0.
    pub number: usize,
    /// What became of it.
    pub shift: Shift,
}

/// Whether the first way keeps to the dates of schedules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dates {
    /// A claim is assessed by the schedule that holds on its date.
    Hold,
    /// Dates are set aside, as for two editions that are held against each other.
    Aside,
}

/// Assesses every claim both ways, in input order: by one of `schedules`, and by the one among `others` that is meant for
/// it whatever its dates.
pub fn moved(
    intakes: &[Intake],
    schedules: &[Schedule],
    others: &[Schedule],
    dates: Dates,
    options: Options,
) -> Vec<Moved> {
    let of = |(number, intake): (usize, &Intake)| {
        let first = match dates {
            Dates::Aside => assess_whenever(intake, schedules, options),
            Dates::Hold => Some(assess_one(intake, schedules, options)),
        };
        let shift = match (first, assess_whenever(intake, others, options)) {
            (_, None) | (None, _) => Shift::Untouched,
            (Some(first), Some(other)) => shift(first, other),
        };
        Moved { number, shift }
    };
    intakes.par_iter().enumerate().map(of).collect()
}

/// Assesses a claim by the schedule meant for it whatever the dates; `None` where none is.
fn assess_whenever(
    intake: &Intake,
    schedules: &[Schedule],
    options: Options,
) -> Option<Result<Assessment, Vec<Problem>>> {
    let claim = &intake.claim;
    let chosen = assess::choose_whenever(claim, schedules, options.run_date)?;
    if intake.is_stopped() {
        return Some(assess_one(intake, schedules, options));
    }
    let assessed = chosen
        .map_err(|problem| vec![problem])
        .and_then(|index| assess::assess(claim, &schedules[index], index, options.run_date, &mut Silent));
    let named = |problems: Vec<Problem>| {
        problems.into_iter().map(|problem| problem.of_claim(claim.key.text.clone())).collect()
    };
    Some(assessed.map_err(named))
}

fn shift(first: Result<Assessment, Vec<Problem>>, other: Result<Assessment, Vec<Problem>>) -> Shift {
    let way = |assessed: Result<Assessment, Vec<Problem>>| {
        assessed.and_then(|assessment| Way::of(&assessment).map_err(|_| Vec::new()))
    };
    match (way(first), way(other)) {
        (Ok(first), Ok(other)) if first.gross.currency() != other.gross.currency() => {
            Shift::Currencies(first, other)
        }
        (Ok(first), Ok(other)) => match difference(&first, &other) {
            Ok(difference) => Shift::Both(first, other, difference),
            Err(_) => Shift::Neither(Vec::new()),
        },
        (Err(_), Ok(other)) => Shift::Gained(other),
        (Ok(first), Err(problems)) => Shift::Lost(first, problems),
        (Err(_), Err(problems)) => Shift::Neither(problems),
    }
}

impl Way {
    fn of(assessment: &Assessment) -> Result<Self, QuantityFault> {
        let mut parts = ByKind::new();
        let lines = assessment.lines().map(|numbered| {
            (numbered.panel.map_or(Part::Vehicle, |panel| Part::Panels(panel.kind)), numbered.line.amount)
        });
        let totals = &assessment.totals;
        let rest = [(Part::Tax, totals.tax)];
        let rounding = totals.rounding.map(|rounding| (Part::Rounding, rounding));
        for (part, amount) in lines.chain(rest).chain(rounding) {
            let sum = parts.entry(part).or_insert(Money::zero(assessment.currency));
            *sum = sum.plus(amount)?;
        }
        Ok(Self {
            schedule: assessment.schedule,
            gross: totals.gross,
            insurer_pays: assessment.settled.insurer_pays,
            outcome: assessment.outcome,
            open: assessment.open_panels().count() + assessment.open_items.len(),
            parts,
        })
    }
}

fn difference(first: &Way, other: &Way) -> Result<Difference, QuantityFault> {
    let zero = Money::zero(first.gross.currency());
    let mut parts = ByKind::new();
    for part in first.parts.keys().chain(other.parts.keys()) {
        let of = |way: &Way| way.parts.get(part).copied().unwrap_or(zero);
        let differs = of(other).minus(of(first))?;
        if !differs.is_zero() {
            parts.insert(*part, differs);
        }
    }
    let gross = other.gross.minus(first.gross)?;
    Ok(Difference { gross, insurer_pays: other.insurer_pays.minus(first.insurer_pays)?, parts })
}

/// The differences of a batch in one currency. A sum that does not fit, which only absurd input reaches, is a fault.
#[derive(Debug, Clone, PartialEq)]
pub struct MovedTotals {
    /// Claims priced both ways.
    pub claims: usize,
    /// Of these, claims whose gross amount differs.
    pub differ: usize,
    /// Gross as it is.
    pub before: Result<Money, QuantityFault>,
    /// Gross the other way.
    pub after: Result<Money, QuantityFault>,
    /// What insurers pay the other way, less what they do.
    pub insurer_pays: Result<Money, QuantityFault>,
    /// The difference by part; only what differs.
    pub parts: Result<ByKind, QuantityFault>,
}

impl MovedTotals {
    /// Sums by currency, over the claims that are priced both ways.
    pub fn of(moved: &[Moved]) -> BTreeMap<Currency, Self> {
        let mut all = BTreeMap::new();
        for claim in moved {
            let Shift::Both(first, other, difference) = &claim.shift else { continue };
            let currency = first.gross.currency();
            all.entry(currency).or_insert_with(|| Self::zero(currency)).add(first, other, difference);
        }
        all
    }

    fn zero(currency: Currency) -> Self {
        let zero = Ok(Money::zero(currency));
        let parts = Ok(ByKind::new());
        Self { claims: 0, differ: 0, before: zero, after: zero, insurer_pays: zero, parts }
    }

    fn add(&mut self, first: &Way, other: &Way, difference: &Difference) {
        self.claims += 1;
        self.differ += usize::from(!difference.gross.is_zero());
        self.before = self.before.and_then(|sum| sum.plus(first.gross));
        self.after = self.after.and_then(|sum| sum.plus(other.gross));
        self.insurer_pays = self.insurer_pays.and_then(|sum| sum.plus(difference.insurer_pays));
        let sums = std::mem::replace(&mut self.parts, Ok(ByKind::new()));
        self.parts = sums.and_then(|mut sums| {
            for (part, amount) in &difference.parts {
                let sum = sums.entry(*part).or_insert(Money::zero(amount.currency()));
                *sum = sum.plus(*amount)?;
            }
            // A part that comes back to nothing does not differ; a later claim begins it again.
            sums.retain(|_, sum| !sum.is_zero());
            Ok(sums)
        });
    }

    /// Gross the other way less gross as it is.
    pub fn gross(&self) -> Result<Money, QuantityFault> {
        self.after?.minus(self.before?)
    }
}

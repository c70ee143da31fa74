use super::Done;
use crate::assess::{Assessment, Outcome, PanelState};
use crate::claim::{Method, Settlement};
use crate::problem::{Code, Problem, Severity};
use crate::quantity::{Currency, Money, QuantityFault};
use std::collections::BTreeMap;

/// A sum of amounts of one currency; a fault when it does not fit, which only absurd input reaches.
type Sum = Result<Money, QuantityFault>;

/// The money of all priced claims in one currency. Open panels and items are in none of it.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrencyTotals {
    /// Priced claims in it.
    pub claims: u64,
    /// Net amounts.
    pub net: Sum,
    /// Taxes.
    pub tax: Sum,
    /// What brings gross amounts to their step.
    pub rounding: Sum,
    /// Gross amounts.
    pub gross: Sum,
    /// Settlement amounts.
    pub settled: Sum,
    /// Tax in them that owners get back elsewhere.
    pub tax_reclaimed: Sum,
    /// Owners' shares of what is new.
    pub betterment: Sum,
    /// What was paid before for the same panels.
    pub paid_before: Sum,
    /// Excess that is taken.
    pub excess: Sum,
    /// What goes beyond policy limits.
    pub over_limit: Sum,
    /// What insurers pay.
    pub insurer_pays: Sum,
    /// What owners bear.
    pub owner_bears: Sum,
    /// Value of wrecks that owners keep.
    pub salvage_kept: Sum,
}

impl CurrencyTotals {
    fn of(assessment: &Assessment) -> Self {
        let totals = &assessment.totals;
        let settled = &assessment.settled;
        Self {
            claims: 1,
            net: Ok(totals.net),
            tax: Ok(totals.tax),
            rounding: Ok(totals.rounding.unwrap_or(Money::zero(assessment.currency))),
            gross: Ok(totals.gross),
            settled: Ok(settled.amount),
            tax_reclaimed: Ok(settled.tax_reclaimed),
            betterment: Ok(settled.betterment),
            paid_before: Ok(settled.paid_before),
            excess: Ok(settled.excess),
            over_limit: Ok(settled.over_limit),
            insurer_pays: Ok(settled.insurer_pays),
            owner_bears: Ok(settled.owner_bears),
            salvage_kept: Ok(settled.salvage_kept),
        }
    }

    fn add(&mut self, other: &Self) {
        let plus = |sum: &mut Sum, more: Sum| *sum = sum.and_then(|sum| sum.plus(more?));
        self.claims += other.claims;
        plus(&mut self.net, other.net);
        plus(&mut self.tax, other.tax);
        plus(&mut self.rounding, other.rounding);
        plus(&mut self.gross, other.gross);
        plus(&mut self.settled, other.settled);
        plus(&mut self.tax_reclaimed, other.tax_reclaimed);
        plus(&mut self.betterment, other.betterment);
        plus(&mut self.paid_before, other.paid_before);
        plus(&mut self.excess, other.excess);
        plus(&mut self.over_limit, other.over_limit);
        plus(&mut self.insurer_pays, other.insurer_pays);
        plus(&mut self.owner_bears, other.owner_bears);
        plus(&mut self.salvage_kept, other.salvage_kept);
    }
}

/// What a run, or a part of it, comes to. Totals of one claim each are added in any order to the same totals.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Totals {
    /// Claims in all.
    pub claims: u64,
    /// Claims that could not be priced: an error or a question stands in their way.
    pub not_priced: u64,
    /// Priced claims by outcome.
    pub outcomes: BTreeMap<Outcome, u64>,
    /// Priced claims by how they are settled.
    pub settled_as: BTreeMap<Settlement, u64>,
    /// Panels with damage that is paid, by what is to be done with them, open ones included.
    pub panels: BTreeMap<Method, u64>,
    /// Panels on which nothing that is paid was found.
    pub panels_without_damage: u64,
    /// Panels that nobody looked at.
    pub panels_not_inspected: u64,
    /// Panels that enter no total.
    pub open_panels: u64,
    /// Items that enter no total.
    pub open_items: u64,
    /// Panels on which a person decided otherwise than the schedule.
    pub overruled: u64,
    /// Dents that are rated.
    pub dents: u64,
    /// Money by currency: currencies are never added.
    pub money: BTreeMap<Currency, CurrencyTotals>,
    /// Problems by the name of their code.
    pub problems: BTreeMap<&'static str, u64>,
    /// Problems by severity.
    pub severities: BTreeMap<Severity, u64>,
}

impl Totals {
    /// One claim's.
    pub fn of(done: &Done<'_>) -> Self {
        let mut totals = Self { claims: 1, ..Self::default() };
        match &done.result {
            Ok(assessment) => totals.take(assessment),
            Err(_) => totals.not_priced = 1,
        }
        for problem in done.problems() {
            totals.count(problem);
        }
        totals
    }

    fn take(&mut self, assessment: &Assessment) {
        self.outcomes.insert(assessment.outcome, 1);
        self.settled_as.insert(assessment.settled.basis, 1);
        for panel in &assessment.panels {
            match panel.state {
                PanelState::NotInspected => self.panels_not_inspected += 1,
                PanelState::NoDamage => self.panels_without_damage += 1,
                PanelState::Assessed => *self.panels.entry(panel.method).or_default() += 1,
            }
            self.dents += u64::from(panel.dents);
            self.open_panels += u64::from(panel.open.is_some());
            self.overruled += u64::from(panel.overruled.is_some());
        }
        self.open_items = assessment.open_items.len() as u64;
        self.money.insert(assessment.currency, CurrencyTotals::of(assessment));
    }

    /// Counts a problem that belongs to no claim of the run, or to this one.
    pub fn count(&mut self, problem: &Problem) {
        let Code { id, severity, .. } = problem.code;
        *self.problems.entry(id).or_default() += 1;
        *self.severities.entry(*severity).or_default() += 1;
    }

    /// Adds another part of the run.
    pub fn add(&mut self, other: &Self) {
        fn merge<K: Ord + Copy>(into: &mut BTreeMap<K, u64>, from: &BTreeMap<K, u64>) {
            for (key, count) in from {
                *into.entry(*key).or_default() += count;
            }
        }
        self.claims += other.claims;
        self.not_priced += other.not_priced;
        merge(&mut self.outcomes, &other.outcomes);
        merge(&mut self.settled_as, &other.settled_as);
        merge(&mut self.panels, &other.panels);
        self.panels_without_damage += other.panels_without_damage;
        self.panels_not_inspected += other.panels_not_inspected;
        self.open_panels += other.open_panels;
        self.open_items += other.open_items;
        self.overruled += other.overruled;
        self.dents += other.dents;
        for (currency, money) in &other.money {
            self.money.entry(*currency).and_modify(|sums| sums.add(money)).or_insert_with(|| money.clone());
        }
        merge(&mut self.problems, &other.problems);
        merge(&mut self.severities, &other.severities);
    }

    /// Problems of a severity.
    pub fn problems_of(&self, severity: Severity) -> u64 {
        self.severities.get(&severity).copied().unwrap_or(0)
    }

    /// Whether anything was left out: an error or a question stands somewhere.
    pub fn is_incomplete(&self) -> bool {
        self.severities.keys().any(|severity| severity.stops_the_claim())
    }
}

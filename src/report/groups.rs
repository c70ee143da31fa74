//! Sums of a batch by outcome, insurer, owner and method, for the bordereau in each of its forms. Its only arithmetic is
//! adding what claims hold already.

use super::Subject;
use super::wording::bordereau::LABELS;
use crate::assess::PanelState;
use crate::batch::{CurrencyTotals, Totals};
use crate::claim::Method;
use crate::quantity::{Currency, Money, QuantityFault};
use std::collections::BTreeMap;

/// A sum of amounts of one currency; a fault where it does not fit, which only absurd input reaches.
type Sum = Result<Money, QuantityFault>;

/// Sums of some claims. Small, for there may be as many owners as claims.
#[derive(Debug, Default, Clone)]
struct Sums {
    claims: u64,
    not_priced: u64,
    open: u64,
    money: Vec<(Currency, [Sum; 5])>,
}

/// The claims, panels and money of one group in one currency.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupRow {
    /// What the group is of.
    pub of: String,
    /// Claims, or panels of a method; on the first row of a group alone.
    pub count: Option<u64>,
    /// Of the claims, those without a price.
    pub not_priced: Option<u64>,
    /// Open panels and items, or open panels of a method.
    pub open: Option<u64>,
    /// None where nothing is priced.
    pub currency: Option<Currency>,
    /// Net, tax, gross, insurer pays, owner bears; net alone for a method. None where a sum is too large.
    pub amounts: [Option<Money>; 5],
}

/// What a claim adds to its groups beside its totals.
#[derive(Debug, Default)]
pub struct GroupPiece {
    owner: String,
    methods: Vec<(Method, Currency, bool, Option<Money>)>,
}

impl GroupPiece {
    /// A claim's; `owner` is as written.
    pub fn of(owner: &str, subject: Option<&Subject<'_>>) -> Self {
        let methods = subject.map_or(Vec::new(), |subject| {
            let worked = |panel: &&crate::assess::PanelAssessment| panel.state == PanelState::Assessed;
            let panels = subject.assessment.panels.iter().filter(worked);
            panels
                .map(|panel| {
                    (panel.method, subject.assessment.currency, panel.open.is_some(), panel.amount())
                })
                .collect()
        });
        Self { owner: owner.to_owned(), methods }
    }
}

/// The sums of a batch.
#[derive(Debug, Default)]
pub struct Groups {
    outcomes: BTreeMap<&'static str, Sums>,
    insurers: BTreeMap<String, Sums>,
    owners: BTreeMap<String, Sums>,
    methods: BTreeMap<(Method, Currency), (u64, u64, Option<Sum>)>,
}

impl Groups {
    /// Takes a claim.
    pub fn add(&mut self, insurer: &str, totals: &Totals, piece: GroupPiece) {
        let outcome = totals.outcomes.keys().next().map_or(LABELS.not_priced, |outcome| outcome.words());
        self.outcomes.entry(outcome).or_default().add(totals);
        self.insurers.entry(insurer.to_owned()).or_default().add(totals);
        self.owners.entry(piece.owner).or_default().add(totals);
        for (method, currency, is_open, amount) in piece.methods {
            let (panels, open, sum) = self.methods.entry((method, currency)).or_default();
            *panels += 1;
            *open += u64::from(is_open);
            *sum = match (sum.take(), amount) {
                (Some(sum), Some(amount)) => Some(sum.and_then(|sum| sum.plus(amount))),
                (sum, amount) => sum.or(amount.map(Ok)),
            };
        }
    }

    /// By outcome.
    pub fn outcomes(&self) -> Vec<GroupRow> {
        self.outcomes.iter().flat_map(|(outcome, sums)| sums.rows(outcome)).collect()
    }

    /// By insurer.
    pub fn insurers(&self) -> Vec<GroupRow> {
        self.insurers.iter().flat_map(|(name, sums)| sums.rows(named(name, LABELS.no_insurer))).collect()
    }

    /// By owner: those of several claims, then all others in one group, so that the rows still sum to the whole.
    pub fn owners(&self) -> Vec<GroupRow> {
        let mut others = Sums::default();
        let mut rows = Vec::new();
        for (name, sums) in &self.owners {
            if sums.claims > 1 {
                rows.extend(sums.rows(named(name, LABELS.no_owner)));
            } else {
                others.merge(sums);
            }
        }
        if others.claims > 0 {
            rows.extend(others.rows(LABELS.owners_of_one));
        }
        rows
    }

    /// By method: panels, and what they come to before what is of the vehicle.
    pub fn methods(&self) -> Vec<GroupRow> {
        let row =
            |((method, currency), (panels, open, sum)): (&(Method, Currency), &(u64, u64, Option<Sum>))| {
                GroupRow {
                    of: method.name().to_owned(),
                    count: Some(*panels),
                    not_priced: None,
                    open: Some(*open),
                    currency: Some(*currency),
                    amounts: [sum.and_then(Result::ok), None, None, None, None],
                }
            };
        self.methods.iter().map(row).collect()
    }
}

fn named<'n>(name: &'n str, none: &'n str) -> &'n str {
    if name.is_empty() { none } else { name }
}

impl Sums {
    fn add(&mut self, totals: &Totals) {
        self.claims += totals.claims;
        self.not_priced += totals.not_priced;
        self.open += totals.open_panels + totals.open_items;
        for (currency, money) in &totals.money {
            self.plus(*currency, of(money));
        }
    }

    fn merge(&mut self, other: &Self) {
        self.claims += other.claims;
        self.not_priced += other.not_priced;
        self.open += other.open;
        for (currency, more) in &other.money {
            self.plus(*currency, *more);
        }
    }

    fn plus(&mut self, currency: Currency, more: [Sum; 5]) {
        match self.money.iter_mut().find(|(other, _)| *other == currency) {
            Some((_, sums)) => {
                for (sum, more) in sums.iter_mut().zip(more) {
                    *sum = sum.and_then(|sum| sum.plus(more?));
                }
            }
            None => self.money.push((currency, more)),
        }
    }

    fn rows(&self, of: &str) -> Vec<GroupRow> {
        let mut money = self.money.clone();
        money.sort_by_key(|(currency, _)| *currency);
        let mut rows: Vec<GroupRow> = money
            .iter()
            .map(|(currency, sums)| GroupRow {
                of: of.to_owned(),
                count: None,
                not_priced: None,
                open: None,
                currency: Some(*currency),
                amounts: sums.map(Result::ok),
            })
            .collect();
        if rows.is_empty() {
            let of = of.to_owned();
            rows.push(GroupRow {
                of,
                count: None,
                not_priced: None,
                open: None,
                currency: None,
                amounts: [None; 5],
            });
        }
        let first = &mut rows[0];
        (first.count, first.not_priced, first.open) =
            (Some(self.claims), Some(self.not_priced), Some(self.open));
        rows
    }
}

fn of(money: &CurrencyTotals) -> [Sum; 5] {
    [money.net, money.tax, money.gross, money.insurer_pays, money.owner_bears]
}

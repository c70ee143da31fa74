//! Where the claims of a storm stand: what the dated rows of a register say, held against the claims and what they were
//! assessed at. Never a second truth: nothing here is kept, and nothing changes an amount.
#![doc = include_str!("README.md")]

mod amounts;
mod course;
mod known;
mod standing;

pub use amounts::{Owed, Sums};
pub use known::{Figures, KnownClaim};
pub use standing::{Standing, Waits};

use crate::claim::{KeyKind, RegisterRow, Step};
use crate::problem::{Problem, catalogue::register as say, nearest};
use crate::quantity::{Currency, Date};
use std::collections::BTreeMap;

/// Where every claim stands on a day.
#[derive(Debug)]
pub struct Register {
    /// The day; none where no row has one and none was given.
    pub day: Option<Date>,
    /// The claims, those that wait longest first; what waits for nobody comes last.
    pub standings: Vec<Standing>,
    /// Rows for claims that are not in the files.
    pub strangers: Vec<RegisterRow>,
    /// Rows up to that day.
    pub rows: usize,
    /// What was assessed, submitted, agreed and paid, by currency: currencies are never added.
    pub sums: BTreeMap<Currency, Sums>,
    /// What does not fit, by the order of claims, then rows.
    pub findings: Vec<Problem>,
}

/// Holds the rows of a register against claims. `day` is the day asked about, else the latest of the rows; `usual` is the
/// currency of amounts that carry none, on claims that have none of their own.
pub fn register(
    known: Vec<KnownClaim>,
    rows: Vec<RegisterRow>,
    day: Option<Date>,
    usual: Option<Currency>,
) -> Register {
    let mut findings = Vec::new();
    let (rows, later): (Vec<_>, Vec<_>) =
        rows.into_iter().partition(|row| day.is_none_or(|day| row.date.value <= day));
    let number_of_rows = rows.len();
    if let Some(day) = day {
        findings.extend(later.iter().map(|row| say::register_row_later(row.place, row.date.value, day)));
    }
    let day = day.or_else(|| rows.iter().map(|row| row.date.value).max());
    let owners = owners(&known);
    let mut of_claim: Vec<Vec<RegisterRow>> = known.iter().map(|_| Vec::new()).collect();
    let mut strangers: Vec<RegisterRow> = Vec::new();
    for row in rows {
        let owner = owner(&row, &owners);
        match owner.and_then(|owner| of_claim.get_mut(owner)) {
            Some(rows) => rows.push(row),
            None => strangers.push(row),
        }
    }
    let keys: Vec<&str> = known.iter().map(|claim| claim.key.text.as_str()).collect();
    for row in &strangers {
        let near = nearest(&row.key.value, keys.iter().copied());
        findings.push(say::register_row_without_claim(row.key.place, &row.key.value, &near));
    }
    let mut sums: BTreeMap<Currency, Sums> = BTreeMap::new();
    let mut standings = Vec::with_capacity(known.len());
    for (claim, mut rows) in known.into_iter().zip(of_claim) {
        rows.sort_by_key(|row| (row.date.value, row.step.value, row.place));
        let mut found = course::out_of_order(&rows);
        let owed = Owed::of(&rows, &claim, usual, &mut found);
        Sums::add(&mut sums, &owed);
        if rows.is_empty() {
            found.push(say::claim_without_register_row(claim.place));
        }
        found.sort_by(|a, b| (a.place, a.code.id, &a.message).cmp(&(b.place, b.code.id, &b.message)));
        findings.extend(found.into_iter().map(|problem| problem.of_claim(claim.key.text.as_str())));
        standings.push(Standing::of(claim, rows, owed, day));
    }
    standings.sort_by_cached_key(Standing::rank);
    Register { day, standings, strangers, rows: number_of_rows, sums, findings }
}

/// Which claim a name belongs to; none where it belongs to several.
fn owners(known: &[KnownClaim]) -> BTreeMap<(KeyKind, String), Option<usize>> {
    let mut owners: BTreeMap<(KeyKind, String), Option<usize>> = BTreeMap::new();
    for (number, claim) in known.iter().enumerate() {
        for name in &claim.names {
            owners
                .entry(name.clone())
                .and_modify(|owner| *owner = owner.filter(|owner| *owner == number))
                .or_insert(Some(number));
        }
    }
    owners
}

/// The claim of a row: by its first key that names one, else by the same text as a key of another kind. A car without a
/// claim number is often listed by its registration, whatever the column is called.
fn owner(row: &RegisterRow, owners: &BTreeMap<(KeyKind, String), Option<usize>>) -> Option<usize> {
    const KINDS: [KeyKind; 4] =
        [KeyKind::ClaimNumber, KeyKind::JobNumber, KeyKind::Registration, KeyKind::Vin];
    let named = row.names.iter().find_map(|name| owners.get(name).copied().flatten());
    let otherwise = || {
        KINDS.iter().find_map(|kind| owners.get(&(*kind, kind.compared(&row.key.value))).copied().flatten())
    };
    named.or_else(otherwise)
}

/// The first row of a step.
fn first(rows: &[RegisterRow], step: Step) -> Option<&RegisterRow> {
    rows.iter().find(|row| row.step.value == step)
}

//! Where one claim stands, and what it waits for.

use super::{KnownClaim, Owed, first};
use crate::claim::{RegisterRow, Step};
use crate::quantity::{Date, Money};
use std::cmp::Reverse;

/// Whom or what a claim waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Waits {
    /// Whoever repairs.
    Technician,
    /// Whoever pays under the policy.
    Insurer,
    /// The owner of the car.
    Owner,
    /// Parts that were ordered.
    Parts,
    /// Nothing is left to do.
    Nobody,
}

impl Waits {
    /// Everything, in the order of summaries.
    pub const ALL: [Self; 5] = [Self::Technician, Self::Insurer, Self::Owner, Self::Parts, Self::Nobody];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Technician => "the technician",
            Self::Insurer => "the insurer",
            Self::Owner => "the owner",
            Self::Parts => "parts",
            Self::Nobody => "nobody",
        }
    }
}

/// One claim.
#[derive(Debug, Clone)]
pub struct Standing {
    /// The claim.
    pub claim: KnownClaim,
    /// Its rows, by day.
    pub rows: Vec<RegisterRow>,
    /// The latest thing that happened to it; payments apart.
    pub stands: Option<Step>,
    /// Whom it waits for.
    pub waits: Waits,
    /// What for.
    pub next: &'static str,
    /// Since when.
    pub since: Option<Date>,
    /// Days from then to the day asked about.
    pub days: Option<i64>,
    /// Its amounts.
    pub owed: Owed,
}

impl Standing {
    pub(super) fn of(claim: KnownClaim, rows: Vec<RegisterRow>, owed: Owed, day: Option<Date>) -> Self {
        let latest = rows.iter().rfind(|row| row.step.value != Step::Paid);
        let paid = rows.iter().rfind(|row| row.step.value == Step::Paid);
        let stands = latest.map(|row| row.step.value);
        let (waits, next) = next(&claim, &rows, &owed, stands);
        let on = |row: Option<&RegisterRow>| row.map(|row| row.date.value);
        let since = match latest {
            _ if waits == Waits::Nobody || next == REST => on(latest).max(on(paid)),
            Some(_) => on(latest),
            None => claim.seen,
        };
        let days = match (since, day) {
            (Some(since), Some(day)) if waits != Waits::Nobody => {
                Some(since.duration_until(day).as_hours() / 24)
            }
            _ => None,
        };
        Self { claim, rows, stands, waits, next, since, days: days.map(|days| days.max(0)), owed }
    }

    /// What waits longest comes first; what nobody knows the day of, after all others; what is done, last.
    pub(super) fn rank(&self) -> impl Ord + use<> {
        let is_done = self.waits == Waits::Nobody;
        (is_done, self.days.is_none(), Reverse(self.days), self.claim.key.clone())
    }

    /// By whom its latest row was written.
    pub fn by(&self) -> Option<&str> {
        let latest = self.rows.iter().rfind(|row| row.step.value != Step::Paid)?;
        latest.by.as_ref().map(|by| by.value.as_str())
    }
}

/// What is left when a part was paid.
const REST: &str = "to pay the rest";

/// Whom a claim waits for, and what for.
fn next(
    claim: &KnownClaim,
    rows: &[RegisterRow],
    owed: &Owed,
    stands: Option<Step>,
) -> (Waits, &'static str) {
    let has = |step: Step| first(rows, step).is_some();
    // Somebody without an insurer pays and agrees himself.
    let payer = if claim.insurer.is_some() { Waits::Insurer } else { Waits::Owner };
    let to_agree =
        || if has(Step::Supplement) { (payer, "to agree to the supplement") } else { (payer, "to agree") };
    let payment = || {
        let is_paid = has(Step::Paid) && owed.still.is_none_or(Money::is_zero);
        if is_paid { (Waits::Nobody, "") } else { (payer, if has(Step::Paid) { REST } else { "to pay" }) }
    };
    match stands {
        None => (Waits::Technician, "to begin"),
        Some(Step::Listed) => (Waits::Technician, "to inspect"),
        Some(Step::Inspected) if claim.lacks => (Waits::Technician, "to fetch what is missing, and submit"),
        Some(Step::Inspected) => (Waits::Technician, "to submit"),
        Some(Step::Submitted | Step::Supplement) => to_agree(),
        // Parts may come before the insurer's word.
        Some(Step::PartsIn) if !has(Step::Agreed) && has(Step::Submitted) => to_agree(),
        Some(Step::Agreed | Step::PartsIn) if claim.no_repair => payment(),
        Some(Step::Agreed) if claim.needs_parts && !has(Step::PartsIn) => (Waits::Parts, "to arrive"),
        Some(Step::Agreed | Step::PartsIn) => (Waits::Technician, "to repair"),
        Some(Step::Repaired) => (Waits::Owner, "to fetch the car"),
        Some(Step::HandedOver | Step::Paid) => payment(),
    }
}

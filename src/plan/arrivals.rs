//! Which steps wait for parts, by the rows that say when they arrive.

use super::calendar::Calendar;
use super::parts::{Part, PartOf};
use super::work::Step;
use crate::claim::{Arrival, Claim, JobKey, KeyKind, vin};
use crate::problem::{Problem, catalogue::plan as say};
use crate::quantity::Hours;
use std::collections::BTreeMap;

/// A car's steps: their hours, and the day before whose morning their parts are not at hand.
pub(super) type Steps = BTreeMap<Step, (Hours, usize)>;

/// The rows of arrivals by the keys that they name.
pub(super) struct Arrivals<'a> {
    rows: &'a [Arrival],
    by_key: BTreeMap<(KeyKind, String), Vec<usize>>,
    used: Vec<bool>,
}

impl<'a> Arrivals<'a> {
    pub(super) fn new(rows: &'a [Arrival]) -> Self {
        let mut by_key: BTreeMap<(KeyKind, String), Vec<usize>> = BTreeMap::new();
        for (number, row) in rows.iter().enumerate() {
            by_key.entry(compared(row.key.kind, &row.key.text)).or_default().push(number);
        }
        Self { rows, by_key, used: vec![false; rows.len()] }
    }

    /// Lets the steps of a car wait for their parts, and the parts know their day.
    pub(super) fn hold_up(
        &mut self,
        claim: &Claim,
        steps: &mut Steps,
        parts: &mut [Part],
        calendar: &Calendar,
    ) {
        let numbers = keys(claim).into_iter().filter_map(|key| self.by_key.get(&key));
        let mut numbers: Vec<usize> = numbers.flatten().copied().collect();
        numbers.sort_unstable();
        numbers.dedup();
        for number in numbers {
            let row = &self.rows[number];
            let is_meant = |part: &&mut Part| match row.panel {
                Some(panel) => part.of == PartOf::Panel(panel),
                None => part.step.is_some(),
            };
            for part in parts.iter_mut().filter(is_meant) {
                self.used[number] = true;
                part.arrives = part.arrives.max(Some(row.day));
                // A part whose fitting is in no hours holds up what comes after it, or the car's last step.
                let step = part.step.and_then(|step| {
                    let mut later = steps.range(step..).map(|(step, _)| *step);
                    later.next().or(steps.keys().next_back().copied())
                });
                if let Some((_, parts_on)) = step.and_then(|step| steps.get_mut(&step)) {
                    *parts_on = (*parts_on).max(calendar.number(row.day));
                }
            }
        }
    }

    /// The rows of tables of arrivals that hold nothing up; a register tells of cars that are done as well.
    pub(super) fn idle(&self) -> Vec<Problem> {
        let idle = self.rows.iter().zip(&self.used).filter(|(row, used)| !**used && !row.by_register);
        idle.map(|(row, _)| say::arrival_unknown(row.place, &row.key.text)).collect()
    }
}

/// The keys that a row may name a car by.
fn keys(claim: &Claim) -> Vec<(KeyKind, String)> {
    let (parties, vehicle) = (&claim.parties, &claim.vehicle);
    let written = [
        (KeyKind::ClaimNumber, &parties.claim_number),
        (KeyKind::JobNumber, &parties.job_number),
        (KeyKind::Registration, &vehicle.registration),
        (KeyKind::Vin, &vehicle.vin),
    ];
    let written = written.into_iter().filter_map(|(kind, text)| Some(compared(kind, &text.as_ref()?.value)));
    let JobKey { kind, text } = &claim.key;
    written.chain([compared(*kind, text)]).collect()
}

/// A key as it is compared: case and spacing do not matter, and in registrations and VINs no punctuation.
fn compared(kind: KeyKind, text: &str) -> (KeyKind, String) {
    let text = match kind {
        KeyKind::Registration | KeyKind::Vin => vin::normalised(text),
        _ => text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase(),
    };
    (kind, text)
}

//! A sample as data.

use crate::compare::comparison::{Sample, SampleOrder};
use crate::compare::sampling::{Severity, Size};
use crate::report::run_record::{FORMAT, TOOL, VERSION};
use serde::Serialize;

/// A drawn sample, the plan it follows, and what it says so far. Chances and shares run from 0 to 1.
#[derive(Debug, Serialize)]
pub struct SampleView<'a> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    seed: &'a str,
    drawn_by: &'static str,
    level: &'static str,
    quality_percent: &'static str,
    severity: &'static str,
    lets_pass_percent: String,
    cars: u64,
    plan: Option<PlanView>,
    everything_because: Option<&'static str>,
    accepts: Vec<AcceptsView>,
    drawn: Vec<DrawnView<'a>>,
    beside: Vec<BesideView<'a>>,
    says: Option<SaysView>,
    says_nothing_because: Option<&'static str>,
    accepted: Option<bool>,
}

#[derive(Debug, Serialize)]
struct PlanView {
    letter: char,
    sample: u64,
    accept: u64,
    reject: u64,
    source: &'static str,
}

#[derive(Debug, Serialize)]
struct AcceptsView {
    chance: f64,
    share_off: f64,
    definition: &'static str,
}

#[derive(Debug, Serialize)]
struct DrawnView<'a> {
    claim: &'a str,
    counted_again: bool,
    off: Option<bool>,
    gross_difference: Option<String>,
    currency: Option<&'static str>,
}

#[derive(Debug, Serialize)]
struct BesideView<'a> {
    claim: &'a str,
    could_move: String,
    currency: &'static str,
}

#[derive(Debug, Serialize)]
struct SaysView {
    counted_again: u64,
    off: u64,
    off_in_batch_at_least: u64,
    off_in_batch_at_most: u64,
    level: f64,
    definition: &'static str,
}

impl<'a> SampleView<'a> {
    /// A sample's.
    pub fn new(sample: &'a Sample, order: &'a SampleOrder) -> Self {
        let plan = match sample.size {
            Size::Sample(plan) => Some(PlanView {
                letter: plan.letter.letter(),
                sample: plan.sample,
                accept: plan.accept,
                reject: plan.reject,
                source: "MIL-STD-105E, tables I and II; the same stand in ISO 2859-1",
            }),
            Size::Everything => None,
        };
        Self {
            format: FORMAT,
            tool: TOOL,
            version: VERSION,
            seed: &order.seed,
            drawn_by: "smallest SHA-256 digests of seed, line feed, claim key",
            level: order.level.name(),
            quality_percent: order.quality.name(),
            severity: match order.severity {
                Severity::Normal => "normal",
                Severity::Tightened => "tightened",
            },
            lets_pass_percent: order.lets_pass.to_string(),
            cars: sample.lot,
            everything_because: plan.is_none().then_some("the batch is no larger than the sample would be"),
            plan,
            accepts: sample.accepts.iter().map(|(chance, share)| accepts(*chance, *share)).collect(),
            drawn: sample
                .drawn
                .iter()
                .map(|drawn| DrawnView {
                    claim: &drawn.key,
                    counted_again: drawn.counted.is_some(),
                    off: drawn.counted.map(|(_, is_off)| is_off),
                    gross_difference: drawn.counted.map(|(difference, _)| difference.to_string()),
                    currency: drawn.counted.map(|(difference, _)| difference.currency().code()),
                })
                .collect(),
            beside: sample
                .beside
                .iter()
                .map(|car| BesideView {
                    claim: &car.key,
                    could_move: car.could_move.to_string(),
                    currency: car.could_move.currency().code(),
                })
                .collect(),
            says: sample.says.map(|says| SaysView {
                counted_again: says.sample,
                off: says.off,
                off_in_batch_at_least: says.at_least,
                off_in_batch_at_most: says.at_most,
                level: says.level.get(),
                definition: "exact bounds by the hypergeometric distribution, of cars drawn at random",
            }),
            says_nothing_because: sample.says.is_none().then_some("no drawn car was counted again yet"),
            accepted: sample.accepted,
        }
    }
}

const fn accepts(chance: f64, share_off: f64) -> AcceptsView {
    let definition = "operating characteristic of the plan, long run (binomial): share off that is accepted with this chance";
    AcceptsView { chance, share_off, definition }
}

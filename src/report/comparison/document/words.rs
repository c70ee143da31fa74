//! The words of a comparison: plain, complete, and without blame.

use crate::compare::agree::Proposal;
use crate::compare::money::Cause;
use crate::compare::statistics::agreement::{Reading, Scale};
use crate::compare::statistics::standing::Verdict;

/// What a comparison can and cannot say; on every page of it.
pub const FAIR: &str = "This shows where counts differ and what that does to the amounts. It does not say which count is \
                        right or why they differ: light, angle, time and preparation differ, too. Whoever decides looks \
                        at the car.";

/// Which way a difference runs.
pub const DIRECTION: &str =
    "Every difference is the first minus the second: a plus means that the first has more.";

/// What differs, or why it cannot be said.
pub fn cause(cause: Option<Cause>) -> &'static str {
    cause.map_or("several causes together, not split", Cause::name)
}

/// A proposed count, or that none is made.
pub fn proposal(proposal: Proposal) -> String {
    match proposal {
        Proposal::Dents(dents) => dents.to_string(),
        Proposal::CountAgain(_) => "again".to_owned(),
    }
}

/// The rule by which counts are proposed.
pub const PROPOSED_BY: &str = "Proposed is the middle count of each size over those who inspected the panel; of two, \
                               their mean, a half counted up. It is a rule of arithmetic and decides nothing.";

/// Which scale the limits are to be read on.
pub fn reading(reading: Reading) -> &'static str {
    match reading {
        Reading::Difference => {
            "Read the limits of the differences: their spread shows no change with the level."
        }
        Reading::Ratio => {
            "Read the limits of the ratios: differences grow with the level, and ratios show no change with it."
        }
        Reading::Neither(Scale::Difference) => {
            "Neither scale is even. Differences are the less uneven: their limits are too wide at one end and too narrow \
             at the other."
        }
        Reading::Neither(Scale::Ratio) => {
            "Neither scale is even. Ratios are the less uneven: their limits are too wide at one end and too narrow at \
             the other."
        }
    }
}

/// What the funnel can tell.
pub fn verdict(verdict: Verdict) -> String {
    match verdict {
        Verdict::Told => {
            "Whoever lies outside the limits counts more or less than the others on the same cars by more \
                          than chance; who stands out is in the table."
                .to_owned()
        }
        Verdict::OnlyThePair => {
            "Two people cannot be told apart: only their pair can be named, never one of them.".to_owned()
        }
        Verdict::TooFewUnits => {
            "Cannot tell: nobody has ten cars that at least two others counted, too.".to_owned()
        }
        Verdict::OutOfReach { people, farthest, needed } => format!(
            "Cannot tell: with {people} people nobody could lie further out than {} standard deviations, and {} would be \
             needed.",
            super::figure::decimal(farthest, 2),
            super::figure::decimal(needed, 2)
        ),
    }
}

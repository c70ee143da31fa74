//! The words of a comparison: plain, complete, and without blame.

use crate::compare::agree::Proposal;
use crate::compare::comparison::{Recount, WhyUnpaired};
use crate::compare::habit::{Slip, Suggestion};
use crate::compare::money::{Cause, Turned};
use crate::compare::pairing::JoinedBy;
use crate::compare::statistics::agreement::{Reading, Scale};
use crate::compare::statistics::standing::Verdict;
use crate::report::wording::{list, said, so_many};
use crate::schedule::Schedule;

/// What a comparison can and cannot say; on every page of it.
pub const FAIR: &str = "This shows where counts differ and what that does to the amounts. It does not say which count is \
                        right or why they differ: light, angle, time and preparation differ, too. Whoever decides looks \
                        at the car.";

/// Which way a difference runs.
pub const DIRECTION: &str = "Every difference is the first minus the second: a plus means that the first has more.";

/// How a difference came about.
pub fn turned(turned: Turned) -> &'static str {
    match turned {
        Turned::Method => "another way of repair",
        Turned::Band => "another band of size or count",
        Turned::SameCell => "same bands, other number",
    }
}

/// What differs, or why it cannot be said.
pub fn cause(cause: Option<Cause>) -> &'static str {
    cause.map_or("several causes together, not split", Cause::name)
}


/// By what claims were found to be one car.
pub const fn joined(joined: JoinedBy) -> &'static str {
    match joined {
        JoinedBy::Claim => "claim",
        JoinedBy::Vin => "VIN",
        JoinedBy::Registration => "registration",
    }
}

/// A pattern in one sentence, with what undoing it would take away.
pub fn slip(suggestion: &Suggestion) -> String {
    let what = match &suggestion.slip {
        Slip::SidesExchanged(left) => {
            let kinds: Vec<String> = left.iter().map(|panel| panel.kind.name().to_owned()).collect();
            format!("looks like left and right exchanged: {}", list(&kinds))
        }
        Slip::PanelsExchanged(one, other) => format!("looks like {one} and {other} exchanged"),
        Slip::BandsShifted(by) => {
            let (bands, way) =
                (so_many(usize::from(by.unsigned_abs()), "column", "columns"), if *by > 0 { "higher" } else { "lower" });
            format!("looks like counts {bands} too far: the second's stand {way}")
        }
        Slip::TotalAsPanel(panel) => format!("{panel} of the second repeats the sum of the other panels"),
    };
    let (before, after) = (suggestion.before, suggestion.after);
    format!("{what}; undone, {before} dents of difference would be {after}")
}

/// What to look at again on a panel.
pub fn recount(recount: Recount, schedule: Option<&Schedule>) -> String {
    match recount {
        Recount::Band { size, apart, only } => {
            let band = schedule.and_then(|schedule| schedule.sizes.get(size));
            let name = band.map_or_else(|| "one size".to_owned(), |band| said(&band.name));
            let rest = if only { ": all other sizes are equal" } else { ": there they differ most" };
            format!("count {name} again, {} apart{rest}", so_many(apart as usize, "dent", "dents"))
        }
        Recount::Notes => {
            "counts are equal: look at what was noted of the panel (material, access, paint) and at the marks".to_owned()
        }
        Recount::Inspect => "not everybody inspected it: inspect it".to_owned(),
    }
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

/// Why a panel is in no statistic, by the names of the two.
pub const fn unpaired(why: WhyUnpaired) -> &'static str {
    why.words()
}

/// Which scale the limits are to be read on.
pub fn reading(reading: Reading) -> &'static str {
    match reading {
        Reading::Difference => "Read the limits of the differences: their spread shows no change with the level.",
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
        Verdict::Told => "Whoever lies outside the limits counts more or less than the others on the same cars by more \
                          than chance; who stands out is in the table."
            .to_owned(),
        Verdict::OnlyThePair => {
            "Two people cannot be told apart: only their pair can be named, never one of them.".to_owned()
        }
        Verdict::TooFewUnits => "Cannot tell: nobody has ten cars that at least two others counted, too.".to_owned(),
        Verdict::OutOfReach { people, farthest, needed } => format!(
            "Cannot tell: with {people} people nobody could lie further out than {} standard deviations, and {} would be \
             needed.",
            super::figure::decimal(farthest, 2),
            super::figure::decimal(needed, 2)
        ),
    }
}

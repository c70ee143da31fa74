#![doc = include_str!("README.md")]

mod finding;
mod line;
mod note;
mod panel;
mod result;
mod totals;
mod working;

pub use finding::{Crossing, Finding, Measured};
pub use line::{Line, LineKind};
pub use note::{Caution, Excluded, ExclusionReason, Note};
pub use panel::{
    Alternative, MarkAssessment, OpenReason, Overruled, PanelAssessment, PanelState, SizeCount, Unpriced,
};
pub use result::{Assessment, DateOrigin, JobKind, NumberedLine, OpenItem, Outcome};
pub use totals::{Screen, ScreenFigures, Settled, TaxLine, Totals, Unscreened};
pub use working::{Formula, Recorder, Rule, Shown, Silent, Step, StepId, Working};

use crate::claim::Claim;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::Schedule;

/// Picks the schedule that holds for a claim: the most specific fit that is valid on the date of loss, else of
/// inspection, else `run_date`. None, and two equally specific ones, are the claim's problem.
pub fn choose_schedule(
    claim: &Claim,
    schedules: &[Schedule],
    run_date: Option<Date>,
) -> Result<usize, Problem> {
    let _ = (claim, schedules, run_date);
    todo!()
}

/// Assesses one claim against one schedule (number `index` in the run). A pure function: the same claim and schedule
/// give the same assessment, whatever the recorder. Problems that keep the claim from being priced come back all at
/// once; warnings and notes about it are in the assessment.
pub fn assess<R: Recorder>(
    claim: &Claim,
    schedule: &Schedule,
    index: usize,
    run_date: Option<Date>,
    recorder: &mut R,
) -> Result<Assessment, Vec<Problem>> {
    let _ = (claim, schedule, index, run_date, recorder);
    todo!()
}

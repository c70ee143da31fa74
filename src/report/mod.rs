//! Documents: one neutral model filled once from an assessment, and the formats that draw it. No amount is computed
//! here.

pub mod explain;
pub mod wording;

use crate::assess::Assessment;
use crate::claim::{Claim, InputFile};
use crate::problem::Sources;
use crate::schedule::Schedule;

/// Everything a document may speak of.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// What was written.
    pub claim: &'a Claim,
    /// What came out.
    pub assessment: &'a Assessment,
    /// The schedule it was assessed with.
    pub schedule: &'a Schedule,
    /// What places refer to.
    pub sources: &'a Sources,
    /// Every file of the run.
    pub files: &'a [InputFile],
}

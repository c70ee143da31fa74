//! Every claim of a batch with its assessment, for what looks at all of them together.

use super::{Options, assess_one};
use crate::assess::Assessment;
use crate::claim::Intake;
use crate::problem::Problem;
use crate::schedule::Schedule;
use rayon::prelude::*;

/// The assessment of each claim, or why there is none, in input order.
pub fn assessed(
    intakes: &[Intake],
    schedules: &[Schedule],
    options: Options,
) -> Vec<Result<Assessment, Vec<Problem>>> {
    intakes.par_iter().map(|intake| assess_one(intake, schedules, options)).collect()
}

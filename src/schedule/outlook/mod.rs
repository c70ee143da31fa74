//! What follows from a schedule that stands: where one dent moves much, what nothing can reach, and limits that decide
//! nothing. Looked at on request; no assessment depends on it.

mod cliffs;
mod limits;
mod reach;
mod turns;

use super::Schedule;
use crate::claim::Method;
use crate::problem::Problem;
use crate::quantity::Percent;

/// Everything that is worth knowing of a schedule that stands. `cliff` is the share of a panel's amount beyond which one
/// more dent is told. Cliffs come first, the steepest before the others.
pub fn outlook(schedule: &Schedule, cliff: Percent) -> Vec<Problem> {
    let mut problems = cliffs::check(schedule, cliff);
    reach::check(schedule, &mut problems);
    limits::check(schedule, &mut problems);
    turns::check(schedule, &mut problems);
    problems
}

/// How far a consequence is from paintless.
fn rank(then: Method) -> u8 {
    match then {
        Method::NoRepair | Method::Paintless => 0,
        Method::RefinishAfter => 1,
        Method::Conventional => 2,
        Method::Replace => 3,
        Method::Refer => 4,
    }
}

//! The course of a claim: what comes before what.

use super::first;
use crate::claim::{RegisterRow, Step};
use crate::problem::{Problem, catalogue::register as say};

/// Pairs of steps of which the first may not be later than the second; each step against the nearest that has a row.
const COURSE: [Step; 6] =
    [Step::Listed, Step::Inspected, Step::Submitted, Step::Agreed, Step::Repaired, Step::HandedOver];
/// Further pairs.
const BESIDE: [(Step, Step); 3] =
    [(Step::PartsIn, Step::Repaired), (Step::Submitted, Step::Supplement), (Step::Submitted, Step::Paid)];

/// Rows whose days do not follow the course, by the first row of each step.
pub(super) fn out_of_order(rows: &[RegisterRow]) -> Vec<Problem> {
    let taken: Vec<&RegisterRow> = COURSE.iter().filter_map(|step| first(rows, *step)).collect();
    let along = taken.windows(2).filter_map(|pair| match pair {
        [before, after] => Some((*before, *after)),
        _ => None,
    });
    let beside =
        BESIDE.iter().filter_map(|(before, after)| Some((first(rows, *before)?, first(rows, *after)?)));
    along
        .chain(beside)
        .filter(|(before, after)| after.date.value < before.date.value)
        .map(|(before, after)| {
            let said = |row: &RegisterRow| (row.step.value, row.date.value, row.date.place);
            let ((late, late_day, late_place), (early, early_day, early_place)) = (said(before), said(after));
            say::register_out_of_order(
                (&early.to_string(), early_day, early_place),
                (&late.to_string(), late_day, late_place),
            )
        })
        .collect()
}

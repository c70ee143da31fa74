//! Tallies written as strokes.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    COUNT_STROKES = "count-strokes", Question, "tally strokes can be counted in two ways",
        "Strokes in groups of four, with another group after them, may be fours, or fives whose cross stroke was lost when \
         the tally was typed or copied. The claim is listed and not priced.\n\nWrite the number. Groups of five strokes \
         (`||||| ||` is 7), four and a cross stroke (`||||/ ||` is 7) and a single group of up to five are read as they \
         stand.";
}

/// A tally in groups of four.
pub fn strokes(place: Place, written: &str, plain: u32, crossed: u32) -> Problem {
    Problem::new(
        &COUNT_STROKES,
        format!("are these {plain} dents, or {crossed} with the cross strokes that text cannot show?"),
    )
    .at(place)
    .written(written)
    .help(format!("write {plain} or {crossed}"))
}

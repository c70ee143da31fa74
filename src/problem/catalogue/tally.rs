//! Tallies written as strokes, and sizes that cannot be in the unit they are in.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    COUNT_STROKES = "count-strokes", Question, "tally strokes can be counted in two ways",
        "Strokes in groups of four, with another group after them, may be fours, or fives whose cross stroke was lost when \
         the tally was typed or copied. The claim is listed and not priced.\n\nWrite the number. Groups of five strokes \
         (`||||| ||` is 7), four and a cross stroke (`||||/ ||` is 7) and a single group of up to five are read as they \
         stand.";
    SIZE_ABSURD = "size-absurd", Question, "a size cannot be in its unit",
        "By its unit the size is wider than a panel, or the largest size of the table is too small to see: a title or a \
         heading may name another unit than the one that was measured in. The claims of this table are listed and not \
         priced.\n\nWrite the sizes with their unit into the headings.\n\nExample: `11-20` below the title `sizes in \
         inches` would begin 28 cm wide; `11-20 mm` settles it.";
    LENGTH_ABSURD = "length-absurd", Question, "a length cannot be in its unit",
        "By its unit the dent is wider than half a metre, the crease longer than two, or either is shorter than a \
         millimetre (limits of our own, no source). The claim is listed and not priced.\n\nWrite the length with its unit \
         into the cell, or mend the unit in its heading.\n\nExample: `25` below `diameter (in)` would be 63 cm; `25 mm` \
         settles it.";
}

/// A size that its unit makes absurd.
pub fn size_absurd(place: Place, written: &str, is_small: bool) -> Problem {
    let what = if is_small { "too small to see" } else { "wider than a panel" };
    Problem::new(&SIZE_ABSURD, format!("in its unit the size \"{written}\" is {what}: which unit is meant?"))
        .at(place)
        .help("write the unit that was measured in into the heading")
}

/// A length that its unit makes absurd; the heading that names the unit, if the cell does not.
pub fn length_absurd(place: Place, is_small: bool, heading: Option<Place>) -> Problem {
    let what = if is_small { "small" } else { "large" };
    let problem =
        Problem::new(&LENGTH_ABSURD, format!("this is too {what} in its unit: which unit is meant?"))
            .at(place)
            .help("write the unit into the cell, or mend the one in its heading");
    match heading {
        Some(heading) => problem.and(heading),
        None => problem,
    }
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

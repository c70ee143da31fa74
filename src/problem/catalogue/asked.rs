//! What only people know, and what becomes of their answers.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    HIDDEN_ANSWERED = "hidden-answered", Note, "what to do with hidden parts was answered",
        "A column map or an answered question says whether the sheet, rows or columns that the file hides are read. That \
         was done.\n\nNothing has to be done. The row of the map reads: `word` is `hidden`, `means` is `read` or `left \
         out`, with the `sheet` and the `file` that it is said of.";
    SHEET_LEFT_OUT = "sheet-left-out", Note, "a sheet is left out, as was answered",
        "A column map or an answered question says that this sheet or file is not read, because another one counts the \
         same car. Nothing of it counts.\n\nNothing has to be done. The row of the map reads: `word` is `this sheet`, \
         `means` is `left out`, with the `sheet` and the `file` that it is said of.";
    WORK_IN_COUNTS = "work-in-counts", Question, "work stands where dents are counted",
        "A cell of counts, or a column among them, says `R&I` or `R&R`: a part is taken off and put back, or replaced. That \
         is no number of dents, and work is priced from the table of items. The claim is listed and not priced.\n\nWrite \
         the work into a table of items (`item`, `action`, `hours`), and into the cell how many dents there are; or \
         answer that the cell is blank, or the column left out.\n\nExample: item `headlining`, action `remove and refit`, \
         hours `1.5`.";
    LABEL_BESIDE = "label-beside", Warning, "a label and its value stand beside or below a table",
        "What a form says of its car (`Excess:` beside `500`) is read above the table of the car. This one stands beside \
         or below it, where it may as well be of something else: it was not read.\n\nMove it above the table, or into a \
         table of vehicles.";
    SHEET_NAME_OPEN = "sheet-name-open", Question, "the name of a sheet may be a registration or a time",
        "Nothing on the sheet names its claim, nothing says which car it is, and its name may be a registration or a \
         quarter, a week or a month (`Q1 26`, `WK 12`). The rows are listed and not priced.\n\nWrite the registration or \
         the claim number above the table: `Registration:` beside `AB 12 CDE`.";
    MAP_MEANING_UNKNOWN = "map-meaning-unknown", Error, "a column map gives a meaning that nobody knows",
        "The table says what a heading means, and the meaning is neither a column of a table, nor a size, a panel, `own`, \
         `second`, nor `left out`. The row was not used.\n\nWrite a word that the tables know, or a size: `material`, \
         `11-20 mm`, `left out`.";
    MAP_ROW_OPEN = "map-row-open", Warning, "a row of a column map names neither a heading nor a word",
        "A column map says of a heading, or of a word in cells, what it means. This row says a meaning, and not of \
         what.\n\nWrite the heading or the word as it stands in your file, or clear the row.";
    MAP_ROW_UNUSED = "map-row-unused", Note, "a row of a column map was of no use",
        "No sheet of the run holds the heading or the word that the row speaks of, or none whose headings are those that \
         it was said of.\n\nNothing has to be done if the map is kept for other files. Else compare the spelling.";
}

/// Hidden parts of a sheet were read, or left out, as somebody said.
pub fn hidden_answered(place: Place, is_read: bool) -> Problem {
    let what = if is_read { "read" } else { "left out" };
    Problem::new(&HIDDEN_ANSWERED, format!("what is hidden here was {what}, as was answered")).at(place)
}

/// A sheet that somebody said is not to be read.
pub fn sheet_left_out(place: Place) -> Problem {
    Problem::new(&SHEET_LEFT_OUT, "this sheet is left out, as was answered").at(place)
}

/// Work in a cell of counts, or over a column among them.
pub fn work_in_counts(place: Place, written: &str) -> Problem {
    Problem::new(&WORK_IN_COUNTS, "this is work on a part, no number of dents: what was counted?")
        .at(place)
        .written(written)
        .help("write the work into a table of items, and here how many dents there are")
}

/// A fact of a form where none is read.
pub fn label_beside(place: Place, label: &str, value: &str) -> Problem {
    let message = format!("\"{label}\" is read above a table, and stands beside or below it here");
    Problem::new(&LABEL_BESIDE, message).at(place).written(value).help("move it above the table of its car")
}

/// A sheet that is known by a name that may be a time.
pub fn sheet_name_open(place: Place, sheet: &str) -> Problem {
    Problem::new(&SHEET_NAME_OPEN, format!("is {sheet} the registration of the car, or a time?"))
        .at(place)
        .help("write the registration or the claim number above the table")
}

/// A meaning that is no word of the tables.
pub fn map_meaning_unknown(place: Place, written: &str, near: &[&str]) -> Problem {
    let problem =
        Problem::new(&MAP_MEANING_UNKNOWN, "no table knows this meaning").at(place).written(written);
    match near {
        [] => problem.help("write a column's name, a size such as `11-20 mm`, or `left out`"),
        near => problem.help(format!("did you mean {}?", near.join(" or "))),
    }
}

/// A meaning of nothing.
pub fn map_row_open(place: Place) -> Problem {
    Problem::new(&MAP_ROW_OPEN, "this meaning belongs to no heading and no word").at(place)
}

/// A row that nothing was found for.
pub fn map_row_unused(place: Place, what: &str) -> Problem {
    Problem::new(
        &MAP_ROW_UNUSED,
        format!("nothing in the files reads \"{what}\" where this row speaks of it"),
    )
    .at(place)
}

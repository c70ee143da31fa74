//! Words of one's own: rows of column maps that say what a word means wherever it stands.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    MEANING_UNKNOWN = "meaning-unknown", Error, "a word of your own means nothing that is known",
        "A row of a column map that names a word and no heading, sheet or file says what the word means wherever it \
         stands. Its meaning has to be one that is read without help: a panel, a side, a material, an access, a kind of \
         mark, a number, `blank`. The row is not used.\n\nWrite the meaning as documents show it, or name the `heading` \
         below which the word stands.\n\nExample: the word `bonnet skin` with the meaning `hood`.";
    WORD_TAKEN = "word-taken", Warning, "a word of your own means something else already",
        "Two rows of column maps give one word two meanings, wherever it stands. The earlier one holds, since one word in \
         two meanings would decide which panel is paid.\n\nRemove the row that is wrong, or name the `heading`, `sheet` \
         or `file` that it is about.\n\nExample: `lid skin` with the meaning `hood`, and further down with `trunk lid`.";
}

/// A meaning that stands for nothing, with what it may be a slip of.
pub fn meaning_unknown(place: Place, written: &str, near: &[String]) -> Problem {
    let help = if near.is_empty() {
        "write a panel, side, material, access or mark as documents name it".to_owned()
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    Problem::new(&MEANING_UNKNOWN, format!("\"{written}\" is no word that is known"))
        .at(place)
        .written(written)
        .help(help)
}

/// A word with another meaning than an earlier row gives it.
pub fn word_taken(place: Place, written: &str, before: Place) -> Problem {
    Problem::new(
        &WORD_TAKEN,
        format!("\"{written}\" means something else in an earlier row; this row is not used"),
    )
    .at(place)
    .and(before)
    .written(written)
}

//! Words of one's own: tables that say what the words of other sheets mean.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    MEANING_UNKNOWN = "meaning-unknown", Error, "a word of your own means nothing that is known",
        "A table with the headings `word` and `meaning` says what the words of your sheets mean. The meaning has to be a \
         word that is read without help: a panel, a side, a material, an access, a kind of mark. The row is not \
         used.\n\nWrite the meaning as documents show it.\n\nExample: the word `bonnet skin` with the meaning `hood`.";
    WORD_TAKEN = "word-taken", Warning, "a word of your own means something else already",
        "A table with the headings `word` and `meaning` gives a word another meaning than the one it has: it is known \
         without the table, or an earlier row says otherwise. The row is not used, since one word in two meanings would \
         decide which panel is paid.\n\nUse another word in your sheets, or remove the row that is wrong.\n\nExample: \
         `roof` with the meaning `hood`.";
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

/// A word with another meaning, which an earlier row gives it if no word of ours does.
pub fn word_taken(place: Place, written: &str, before: Option<Place>) -> Problem {
    let why = if before.is_some() { "in an earlier row" } else { "without this table" };
    let problem =
        Problem::new(&WORD_TAKEN, format!("\"{written}\" means something else {why}; this row is not used"))
            .at(place)
            .written(written);
    match before {
        Some(before) => problem.and(before),
        None => problem,
    }
}

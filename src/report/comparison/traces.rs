//! What looks like a habit or a slip, in neutral words.

use crate::compare::habit::{Blanks, Rounded, Slip, Suggestion};

/// Round digits in neutral words.
pub fn digits(rounded: Rounded) -> String {
    format!(
        "{} of {} counts are multiples of {}, as rounding gives; counts that stop at a band's top look so, too",
        rounded.round, rounded.of, rounded.to
    )
}

/// A person's way with blanks in neutral words.
pub const fn blanks(blanks: Blanks) -> &'static str {
    match blanks {
        Blanks::WritesZeros => {
            "writes a zero where the others leave a blank: a size that was not looked at would look the same"
        }
        Blanks::LeavesBlanks => "leaves a blank where the others write a zero: it is rated as no dents",
    }
}

/// A slip in neutral words.
pub fn slip(suggestion: &Suggestion) -> String {
    let what = match &suggestion.slip {
        Slip::SidesExchanged(panels) => {
            let kinds: Vec<&str> = panels.iter().map(|panel| panel.kind.name()).collect();
            format!("left and right may be exchanged ({})", kinds.join(", "))
        }
        Slip::PanelsExchanged(one, other) => format!("{one} and {other} may be exchanged"),
        Slip::BandsShifted(by) => {
            let way = if *by > 0 { "higher" } else { "lower" };
            format!(
                "the second count may stand one size band too {}",
                if way == "higher" { "high" } else { "low" }
            )
        }
        Slip::TotalAsPanel(panel) => {
            format!("{panel} of the second count repeats the sum of its other panels")
        }
        Slip::CountedTwice(panel) => format!("{panel} may be counted twice in one of the counts"),
    };
    format!(
        "{what}: undone, {} of {} dents of difference go",
        suggestion.before - suggestion.after,
        suggestion.before
    )
}

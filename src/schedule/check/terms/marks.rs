use super::{Book, text};
use crate::claim::words::folded;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::Percent;
use crate::schedule::SeveralMarks;
use crate::schedule::check::names::unknown_among;

/// How several marks on one panel count. A share is kept at its own cell, where it stands.
pub(super) fn several_marks(book: &Book<'_>, problems: &mut Vec<Problem>) -> Option<Located<SeveralMarks>> {
    const RULES: [&str; 3] = ["add", "larger only", "share of the second"];
    let written = book.take("several marks", text, problems);
    let said = written.as_ref().map(|written| folded(&written.value));
    if let (true, Some(row)) = (said.as_deref() != Some(RULES[2]), book.rows.get("second mark share")) {
        let why = "it belongs to several marks: share of the second";
        problems.push(words::idle("the term second mark share", why).at(row.term.place));
    }
    let written = written?;
    match said.as_deref() {
        Some("add") => Some(Located::new(SeveralMarks::Add, written.place)),
        Some("larger only") => Some(Located::new(SeveralMarks::Further(Percent::default()), written.place)),
        Some("share of the second") => {
            if !book.has("second mark share") {
                let rule = "several marks: share of the second";
                problems.push(words::incomplete(rule, "second mark share").at(written.place));
            }
            let share = book.percent("second mark share", (0, 100), problems)?;
            Some(Located::new(SeveralMarks::Further(share.value), share.place))
        }
        _ => {
            problems.push(unknown_among("several marks", &written, &RULES));
            None
        }
    }
}

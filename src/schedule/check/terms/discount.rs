use super::Book;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::schedule::{DiscountOn, DiscountTaken};

/// What the discount is taken of, and when; each has an effect only beside the terms it is about.
pub(super) fn order(
    book: &Book<'_>,
    problems: &mut Vec<Problem>,
) -> (Option<Located<DiscountOn>>, Option<Located<DiscountTaken>>) {
    for (term, needed) in [
        ("discount on", "discount"),
        ("discount taken", "discount"),
        ("discount taken", "minimum per vehicle"),
    ] {
        if let (true, false, Some(row)) = (book.has(term), book.has(needed), book.rows.get(term)) {
            let why = format!("the schedule has no {needed}");
            problems.push(words::idle(&format!("the term {term}"), &why).at(row.term.place));
        }
    }
    (book.word("discount on", problems), book.word("discount taken", problems))
}

use super::Book;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::TotalLossTerms;

/// The four terms of the screen come together or not at all.
pub(super) fn check(book: &Book<'_>, problems: &mut Vec<Problem>) -> Option<TotalLossTerms> {
    const FOUR: [&str; 4] =
        ["total loss compares", "total loss when", "total loss share", "total loss with tax"];
    let given = FOUR.iter().find_map(|term| book.rows.get(term).filter(|row| row.value.is_some()));
    if let Some(given) = given {
        for missing in FOUR.iter().filter(|term| !book.has(term)) {
            problems.push(words::incomplete("the total-loss screen", missing).at(given.term.place));
        }
    }
    let rule = book.word("total loss compares", problems);
    let comparator = book.word("total loss when", problems);
    let share = book.percent("total loss share", (1, 1000), problems);
    let with_tax = book.yes_no("total loss with tax", problems);
    Some(TotalLossTerms { rule: rule?, comparator: comparator?, share: share?, with_tax: with_tax? })
}

use super::names::named;
use super::units::percent;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::TitleRule;
use crate::schedule::raw::RawTitle;

/// What the law of places notes on titles. Several rows of one place all count, unless they say the same.
pub(super) fn check(raw: &[RawTitle], problems: &mut Vec<Problem>) -> Vec<TitleRule> {
    let rules: Vec<TitleRule> = raw.iter().filter_map(|row| check_row(row, problems)).collect();
    for (index, second) in rules.iter().enumerate() {
        let is_alike = |first: &&TitleRule| {
            let same = |of: fn(&TitleRule) -> &str| folded(of(first)) == folded(of(second));
            let overlap = first.valid_to.is_none_or(|to| second.valid_from.value <= to.value)
                && second.valid_to.is_none_or(|to| first.valid_from.value <= to.value);
            overlap && same(|rule| &rule.place.value) && same(|rule| &rule.note.value)
        };
        if let Some(first) = rules[..index].iter().find(is_alike) {
            problems.push(words::rows_tied("title rules").at(second.row).and(first.row));
        }
    }
    rules
}

fn check_row(row: &RawTitle, problems: &mut Vec<Problem>) -> Option<TitleRule> {
    let rule = row.compares.as_ref().and_then(|word| named("compares", word, problems));
    let comparator = row.when.as_ref().and_then(|word| named("when", word, problems));
    let share = row.share.and_then(|share| percent("share", share, (1, 1000), problems));
    let causes = row.not_from.iter().flat_map(|causes| causes.value.split(';'));
    if let (Some(from), Some(to)) = (row.valid_from, row.valid_to)
        && to.value < from.value
    {
        problems.push(words::dates_reversed(from.value, to.value).at(to.place).and(from.place));
    }
    Some(TitleRule {
        place: row.registered_in.clone(),
        note: row.note.clone(),
        rule: rule?,
        comparator: comparator?,
        share: share?,
        with_tax: row.with_tax?,
        not_from: causes.map(|cause| cause.trim().to_owned()).filter(|cause| !cause.is_empty()).collect(),
        valid_from: row.valid_from?,
        valid_to: row.valid_to,
        source: row.source.clone()?,
        row: row.place,
    })
}

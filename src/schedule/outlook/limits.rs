use super::rank;
use crate::claim::MarkKind;
use crate::problem::{Problem, catalogue::outlook as words};
use crate::quantity::Length;
use crate::schedule::{Limit, Measure, Schedule};

/// Tells limits that can never change what is done, and those that everything they measure crosses.
pub(super) fn check(schedule: &Schedule, problems: &mut Vec<Problem>) {
    for limit in &schedule.limits {
        if let Some(other) = covering(schedule, limit) {
            problems.push(words::limit_never(&limit.name, &other.name).at(limit.place).and(other.place));
        } else if let Some(what) = always(schedule, limit) {
            problems.push(words::limit_always(&limit.name, &what).at(limit.place));
        }
    }
}

/// On every panel for which a limit holds another one covers it; the first of them.
fn covering<'s>(schedule: &'s Schedule, limit: &Limit) -> Option<&'s Limit> {
    let mut panels = schedule.panels.iter().filter(|panel| limit.scope.holds_for(panel)).peekable();
    panels.peek()?;
    let all: Option<Vec<&Limit>> = panels
        .map(|panel| {
            schedule.limits.iter().find(|other| other.scope.holds_for(panel) && covers(other, limit))
        })
        .collect();
    all?.first().copied()
}

/// Whether one limit is crossed whenever another is, and goes as far. Of two that say the same the earlier counts.
fn covers(one: &Limit, other: &Limit) -> bool {
    let (far, as_far) = (rank(one.then), rank(other.then));
    let says_the_same = one.measure == other.measure && far == as_far;
    one.number != other.number
        && far >= as_far
        && is_implied(one.measure, other.measure)
        && (!says_the_same || one.number < other.number)
}

/// Whether crossing `crossed` is crossing `one`.
fn is_implied(one: Measure, crossed: Measure) -> bool {
    match (one, crossed) {
        (Measure::DentsOver(over), Measure::DentsOver(dents) | Measure::DentsOfSizeOver(_, dents)) => {
            over <= dents
        }
        (Measure::DentsOfSizeOver(band, over), Measure::DentsOfSizeOver(size, dents)) => {
            band <= size && over <= dents
        }
        // Every dent is of the smallest band or larger.
        (Measure::DentsOfSizeOver(0, over), Measure::DentsOver(dents)) => over <= dents,
        (Measure::MarkLength(mark, over), Measure::MarkLength(other, length)) => {
            mark == other && over <= length
        }
        (Measure::ShareOfReplacing(over), Measure::ShareOfReplacing(share))
        | (Measure::ShareOfConventional(over), Measure::ShareOfConventional(share)) => over <= share,
        _ => one == crossed,
    }
}

/// What crosses a limit whatever its number, in words.
fn always(schedule: &Schedule, limit: &Limit) -> Option<String> {
    let size = |band: usize| schedule.sizes.get(band).map_or("", |band| band.name.as_str());
    match limit.measure {
        Measure::DentsOver(0) => Some("every panel with a dent".to_owned()),
        Measure::DentsOfSizeOver(band, 0) => Some(format!("every dent of {} or larger", size(band))),
        Measure::MarkLength(MarkKind::OversizeDent, length) => {
            let top = schedule.sizes.last()?.high;
            (length <= top).then(|| format!("every oversize dent: they are all longer than {top}"))
        }
        Measure::MarkLength(mark, length) => {
            (length == Length::ZERO).then(|| format!("every {}", mark.name()))
        }
        _ => None,
    }
}

use super::{Fit, Schedule};
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::outlook as words};
use std::collections::BTreeMap;

/// Holds the validity of schedules against each other: days on which two hold for the same, and days between two editions
/// on which none does. Each is told with the cells of both dates.
pub fn editions(schedules: &[Schedule]) -> Vec<Problem> {
    let mut by_fit: BTreeMap<String, (String, Vec<&Schedule>)> = BTreeMap::new();
    for schedule in schedules {
        for fit in &schedule.terms.fits {
            let (key, whom) = match &fit.value {
                Fit::Insurer(name) => (format!("insurer {}", folded(name)), name.clone()),
                Fit::NoInsurer => ("none".to_owned(), "jobs without an insurer".to_owned()),
                Fit::Anyone => ("any".to_owned(), "any insurer".to_owned()),
            };
            by_fit.entry(key).or_insert_with(|| (whom, Vec::new())).1.push(schedule);
        }
    }
    // Two editions that meet for several are told once.
    let mut pairs: Vec<(&Schedule, &Schedule, Vec<String>)> = Vec::new();
    for (whom, mut all) in by_fit.into_values() {
        all.sort_by_key(|schedule| schedule.terms.valid_from.value);
        // The one that reaches furthest of those before: an edition may lie within another.
        let mut reaching: Option<&Schedule> = None;
        for schedule in all {
            if let Some(before) = reaching {
                let is_this = |(a, b, _): &&mut (&Schedule, &Schedule, _)| {
                    std::ptr::eq(*a, before) && std::ptr::eq(*b, schedule)
                };
                match pairs.iter_mut().find(is_this) {
                    Some((_, _, others)) => others.push(whom.clone()),
                    None => pairs.push((before, schedule, vec![whom.clone()])),
                }
            }
            let ends = |schedule: &Schedule| schedule.terms.valid_to.map(|to| to.value);
            let is_further = reaching.is_none_or(|before| match (ends(before), ends(schedule)) {
                (None, _) => false,
                (_, None) => true,
                (Some(before), Some(end)) => end > before,
            });
            if is_further {
                reaching = Some(schedule);
            }
        }
    }
    pairs.iter().filter_map(|(before, after, whom)| between(before, after, &whom.join(" and "))).collect()
}

/// The overlap of two editions, or the gap between them.
fn between(before: &Schedule, after: &Schedule, whom: &str) -> Option<Problem> {
    let [earlier, later] =
        [before, after].map(|it| format!("{}, edition {}", it.terms.name.value, it.terms.edition.value));
    let names = [earlier.as_str(), later.as_str()];
    let begins = after.terms.valid_from;
    let Some(ends) = before.terms.valid_to else {
        let to = after.terms.valid_to.map(|to| to.value);
        let problem = words::editions_overlap(names, whom, begins.value, to);
        return Some(problem.at(begins.place).and(before.terms.valid_from.place));
    };
    if begins.value <= ends.value {
        let to = after.terms.valid_to.map_or(ends.value, |to| to.value.min(ends.value));
        let problem = words::editions_overlap(names, whom, begins.value, Some(to));
        return Some(problem.at(begins.place).and(ends.place));
    }
    let (first, last) = (ends.value.tomorrow().ok()?, begins.value.yesterday().ok()?);
    let problem = words::editions_gap(names, whom, first, last);
    (first <= last).then(|| problem.at(begins.place).and(ends.place))
}

use super::names::Once;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::CountBand;
use crate::schedule::raw::RawCountBand;

/// More bands than any schedule has; a wrong table must not fill the memory.
const MOST: usize = 200;

/// Count bands from few to many, from 1, without gap or overlap. Where a number could not be read the bands stay in
/// the order of their rows, so that their names are still known.
pub(super) fn check(raw: &[RawCountBand], problems: &mut Vec<Problem>) -> Vec<CountBand> {
    if let Some(beyond) = raw.get(MOST) {
        problems.push(words::too_many_bands("count bands", MOST).at(beyond.place));
    }
    let raw = &raw[..raw.len().min(MOST)];
    let mut once = Once::new();
    for row in raw {
        once.note(folded(&row.name.value), "count band", &row.name.value, row.name.place, problems);
    }
    let mut rows: Vec<&RawCountBand> = raw.iter().collect();
    let readable = rows.iter().all(|row| row.sound && row.from.is_some());
    if readable {
        rows.sort_by_key(|row| (row.from.map(|from| from.value), row.to.map_or(u32::MAX, |to| to.value)));
        follow_on(&rows, problems);
    }
    rows.into_iter()
        .map(|row| CountBand {
            name: row.name.value.clone(),
            from: row.from.map_or(0, |from| from.value),
            to: row.to.map(|to| to.value),
            place: row.place,
        })
        .collect()
}

fn follow_on(rows: &[&RawCountBand], problems: &mut Vec<Problem>) {
    let mut next = Some(1);
    let mut before = None;
    for row in rows {
        let Some(from) = row.from else { continue };
        let problem = match next {
            Some(next) if from.value == next => None,
            Some(next) if from.value > next => Some(words::count_gap(next, from.value - 1)),
            Some(1) => Some(words::count_from_zero()),
            Some(next) => Some(words::count_overlap(from.value, next - 1)),
            None => Some(words::count_after_open(&row.name.value)),
        };
        if let Some(problem) = problem {
            let problem = problem.at(from.place);
            problems.push(match before {
                Some(place) => problem.and(place),
                None => problem,
            });
        }
        if let Some(to) = row.to.filter(|to| to.value < from.value) {
            problems.push(words::band_empty("count band", &row.name.value).at(to.place));
        }
        next = row.to.map(|to| to.value.saturating_add(1).max(from.value + 1));
        before = Some(row.place);
    }
}

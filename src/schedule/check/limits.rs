use super::mark_rates::{RATED, rated_mark};
use super::names::{named, unknown_among};
use super::scopes::Scopes;
use super::units::percent;
use crate::claim::words::find;
use crate::claim::words::{Named, folded};
use crate::claim::{MarkKind, Method};
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::Percent;
use crate::schedule::bands::label;
use crate::schedule::raw::{RawLimit, parse_edge, parse_percent, parse_text, parse_whole};
use crate::schedule::{Limit, Measure, MixedRule, Schedule, SizeBand};
use crate::table::Cell;
use std::collections::BTreeMap;

/// What can follow when a limit is crossed.
const THEN: [Method; 4] = [Method::RefinishAfter, Method::Conventional, Method::Replace, Method::Refer];

/// Limits in the order of their rows. Their numbers are those of the rows, from 1.
pub(super) fn check(
    raw: &[RawLimit],
    sizes: &[SizeBand],
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Limit> {
    let mut limits = Vec::new();
    for (index, row) in raw.iter().enumerate() {
        let scope = scopes.resolve(row.panel.as_ref(), problems);
        let measure = measure(row, sizes, problems);
        let then = row.then.as_ref().and_then(|written| then(written, problems));
        let (Some(scope), Some(measure), Some(then)) = (scope, measure, then) else { continue };
        let same =
            limits.iter().find(|limit: &&Limit| limit.scope == scope && limit.measure == measure.value);
        if let Some(same) = same {
            problems.push(words::twice("limit", &row.name.value).at(row.name.place).and(same.place));
        }
        limits.push(Limit {
            name: row.name.value.clone(),
            scope,
            measure: measure.value,
            then,
            number: u32::try_from(index + 1).unwrap_or(u32::MAX),
            place: measure.place,
        });
    }
    limits
}

fn then(written: &Located<String>, problems: &mut Vec<Problem>) -> Option<Method> {
    let allowed = THEN.map(Method::name);
    match find::<Method>(&written.value) {
        Some(method) if THEN.contains(&method) => Some(method),
        _ => {
            problems.push(unknown_among("then", written, &allowed));
            None
        }
    }
}

fn measure(row: &RawLimit, sizes: &[SizeBand], problems: &mut Vec<Problem>) -> Option<Located<Measure>> {
    let measures = row.measures.as_ref()?;
    let cell = row.beyond.as_ref()?;
    let said = folded(&measures.value);
    let measure = match said.as_str() {
        "material" => value(cell, "material", problems).map(Measure::Material),
        "paint" => value(cell, "paint", problems).map(Measure::Paint),
        "access" => value(cell, "access", problems).map(Measure::Access),
        "depth" => value(cell, "depth", problems).map(Measure::Depth),
        "dents" => kept(parse_whole(cell, "beyond", row.mark), problems).map(Measure::DentsOver),
        "share of replacing" => share(row, cell, problems).map(Measure::ShareOfReplacing),
        "share of conventional repair" => share(row, cell, problems).map(Measure::ShareOfConventional),
        _ if said.starts_with("dents of ") => {
            let band = size_band(measures, sizes, problems)?;
            let dents = kept(parse_whole(cell, "beyond", row.mark), problems)?;
            Some(Measure::DentsOfSizeOver(band, dents))
        }
        _ if find::<MarkKind>(&measures.value).is_some() => {
            let mark = rated_mark(measures, problems)?;
            let edge = kept(parse_edge(cell, "beyond", row.unit, row.mark), problems)?;
            Some(Measure::MarkLength(mark, edge.length))
        }
        _ => {
            problems.push(unknown_among("measures", measures, &measure_words()));
            None
        }
    };
    measure.map(|measure| Located::new(measure, cell.place))
}

/// Everything that can be measured, as the page of the tables writes it.
fn measure_words() -> Vec<&'static str> {
    let mut all = vec!["material", "paint", "access", "depth", "dents", "dents of SIZE BAND"];
    all.extend(RATED.map(MarkKind::name));
    all.extend(["share of replacing", "share of conventional repair"]);
    all
}

fn kept<T>(parsed: Result<T, Problem>, problems: &mut Vec<Problem>) -> Option<T> {
    parsed.map_err(|problem| problems.push(problem)).ok()
}

fn value<T: Named>(cell: &Cell, what: &str, problems: &mut Vec<Problem>) -> Option<T> {
    let text = kept(parse_text(cell, what), problems)?;
    named::<T>(what, &Located::new(text, cell.place), problems).map(|found| found.value)
}

/// A share above nothing: a share of 0 would be crossed by every panel with any amount at all.
fn share(row: &RawLimit, cell: &Cell, problems: &mut Vec<Problem>) -> Option<Percent> {
    let written = Located::new(kept(parse_percent(cell, "beyond", row.mark), problems)?, cell.place);
    if written.value.is_zero() {
        problems
            .push(words::out_of_range("beyond", "a share has to be above zero").at(cell.place).written("0"));
        return None;
    }
    percent("beyond", written, (0, 1000), problems).map(|share| share.value)
}

/// The band named after `dents of`.
fn size_band(measures: &Located<String>, sizes: &[SizeBand], problems: &mut Vec<Problem>) -> Option<usize> {
    let name: String = measures.value.split_whitespace().skip(2).collect::<Vec<_>>().join(" ");
    let text = label(&name);
    let found = sizes.iter().position(|band| label(&band.name) == text);
    if found.is_none() && !sizes.is_empty() {
        let names: Vec<&str> = sizes.iter().map(|band| band.name.as_str()).collect();
        problems.push(unknown_among("size band", &Located::new(name, measures.place), &names));
    }
    found
}

/// Between the last count that has a rate and the first limit on dents a panel has no price and no limit. Told where a panel
/// has such limits and all of them begin too late; under equivalents no number of dents is the last.
pub(super) fn check_late(schedule: &Schedule, problems: &mut Vec<Problem>) {
    let Some((last, to)) = schedule.counts.last().and_then(|band| band.to.map(|to| (band, to))) else {
        return;
    };
    // What a limit has to hold for to be crossed in time: all dents, or those of each band by itself.
    let (bands, of_one_size) = match schedule.terms.mixed.value {
        MixedRule::MostFrequent | MixedRule::LargestShare(_) => (0..1, false),
        MixedRule::EachBand => (0..schedule.sizes.len(), true),
        MixedRule::Equivalents(_) => return,
    };
    let mut late: BTreeMap<u32, &Limit> = BTreeMap::new();
    for panel in &schedule.panels {
        for band in bands.clone() {
            let first = schedule
                .limits
                .iter()
                .filter(|limit| limit.scope.holds_for(panel))
                .filter_map(|limit| dents_over(limit, band).map(|over| (over, limit)))
                .min_by_key(|(over, _)| *over);
            if let Some((_, limit)) = first.filter(|(over, _)| *over > to) {
                late.insert(limit.number, limit);
            }
        }
    }
    for limit in late.values() {
        if let Measure::DentsOver(over) | Measure::DentsOfSizeOver(_, over) = limit.measure {
            problems.push(words::limit_late(over, to, of_one_size).at(limit.place).and(last.place));
        }
    }
}

/// The number of dents of a size band beyond which a limit is crossed, if it looks at dents of that band.
fn dents_over(limit: &Limit, band: usize) -> Option<u32> {
    match limit.measure {
        Measure::DentsOver(over) => Some(over),
        Measure::DentsOfSizeOver(from, over) if from <= band => Some(over),
        _ => None,
    }
}

use super::mark_rates::{RATED, rated_mark};
use super::names::{named, unknown_among};
use super::scopes::Scopes;
use super::units::percent;
use crate::claim::words::{Named, folded};
use crate::claim::{MarkKind, Method};
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::Percent;
use crate::schedule::bands::label;
use crate::schedule::raw::{RawLimit, parse_edge, parse_percent, parse_text, parse_whole};
use crate::schedule::words::find;
use crate::schedule::{CountBand, Limit, Measure, SizeBand};
use crate::table::Cell;

/// What can follow when a limit is crossed.
const THEN: [Method; 4] = [Method::RefinishAfter, Method::Conventional, Method::Replace, Method::Refer];

/// Limits in the order of their rows. Their numbers are those of the rows, from 1.
pub(super) fn check(
    raw: &[RawLimit],
    sizes: &[SizeBand],
    counts: &[CountBand],
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
        tell_if_late(measure, counts, problems);
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

/// Between the last count band and a limit that begins later a panel has no price and no limit.
fn tell_if_late(measure: Located<Measure>, counts: &[CountBand], problems: &mut Vec<Problem>) {
    let Some(last) = counts.last() else { return };
    let (Measure::DentsOver(over) | Measure::DentsOfSizeOver(_, over)) = measure.value else { return };
    if let Some(to) = last.to.filter(|to| over > *to) {
        problems.push(words::limit_late(over, to).at(measure.place).and(last.place));
    }
}

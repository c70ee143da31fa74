use super::grid::price;
use super::names::named;
use super::scopes::Scopes;
use super::units::Units;
use crate::claim::{MarkKind, PanelKind};
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::Length;
use crate::schedule::raw::{Gives, RawMarkRate};
use crate::schedule::{MarkRate, Per};
use std::collections::{BTreeMap, BTreeSet};

/// Marks that are rated by their own size.
pub(super) const RATED: [MarkKind; 4] =
    [MarkKind::OversizeDent, MarkKind::Crease, MarkKind::Crown, MarkKind::BraceMark];

/// Rates of marks by length; `largest_band` is where the size bands end, when they stand. Told are equally particular rows that meet, and lengths between that no row prices.
pub(super) fn check(
    raw: &[RawMarkRate],
    units: &Units,
    largest_band: Option<Length>,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<MarkRate> {
    let mut rates = Vec::new();
    let mut complete = true;
    for row in raw {
        let rate = check_row(row, units, scopes, problems);
        complete &= rate.is_some() && row.sound;
        rates.extend(rate);
    }
    if complete {
        check_lengths(&rates, largest_band, scopes, problems);
    }
    rates
}

fn check_row(
    row: &RawMarkRate,
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Option<MarkRate> {
    let mark = rated_mark(&row.mark, problems);
    let scope = scopes.resolve(row.panel.as_ref(), problems);
    if let (Some(over), Some(up_to)) = (row.over, row.up_to)
        && up_to.length <= over.length
    {
        problems.push(words::band_empty("mark rate", &row.mark.value).at(up_to.place).and(over.place));
    }
    let (kind, value) = row.price?;
    let price = price(units, Gives { kind, per: Per::Panel }, value, problems)?;
    Some(MarkRate {
        mark: mark?,
        scope: scope?,
        over: row.over?.length,
        up_to: row.up_to.map(|edge| edge.length),
        price,
        place: value.place,
    })
}

/// A mark that can be rated or limited by its length.
pub(super) fn rated_mark(written: &Located<String>, problems: &mut Vec<Problem>) -> Option<MarkKind> {
    let kind = named::<MarkKind>("mark", written, problems)?.value;
    if RATED.contains(&kind) {
        return Some(kind);
    }
    problems.push(
        words::unknown_name("mark", &written.value, &[], &RATED.map(MarkKind::name))
            .at(written.place)
            .written(written.value.clone()),
    );
    None
}

/// Walks over all lengths, panel by panel and mark by mark: the edges of its rows part them into pieces, and in each
/// piece exactly one most particular row should hold.
fn check_lengths(
    rates: &[MarkRate],
    largest_band: Option<Length>,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) {
    let mut tied: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut unrated: BTreeMap<(MarkKind, Length, Length), Vec<PanelKind>> = BTreeMap::new();
    for panel in scopes.panels {
        for mark in RATED {
            let rows: Vec<usize> = (0..rates.len())
                .filter(|row| rates[*row].mark == mark && rates[*row].scope.holds_for(panel))
                .collect();
            let mut edges: BTreeSet<Length> = rows.iter().map(|row| rates[*row].over).collect();
            edges.extend(rows.iter().filter_map(|row| rates[*row].up_to));
            // An oversize dent begins where the bands end, if that is known; the other marks begin at nothing.
            let start = if mark == MarkKind::OversizeDent { largest_band } else { Some(Length::ZERO) };
            let Some(start) = start else { continue };
            edges.insert(start);
            let edges: Vec<Length> = edges.into_iter().collect();
            for (index, from) in
                edges.iter().enumerate().filter(|(_, from)| !rows.is_empty() && **from >= start)
            {
                let to = edges.get(index + 1).copied();
                let holds = |row: &usize| {
                    let rate = &rates[*row];
                    rate.over <= *from && rate.up_to.is_none_or(|up_to| to.is_some_and(|to| to <= up_to))
                };
                let best = rows.iter().filter(|row| holds(row)).map(|row| rates[*row].scope.rank()).max();
                let mut most_particular =
                    rows.iter().filter(|row| holds(row) && Some(rates[**row].scope.rank()) == best);
                match (most_particular.next(), most_particular.next(), to) {
                    (Some(first), Some(second), _) => {
                        tied.insert((*first, *second));
                    }
                    (None, _, Some(to)) => unrated.entry((mark, *from, to)).or_default().push(panel.kind),
                    _ => {}
                }
            }
        }
    }
    for (first, second) in tied {
        let what = format!("mark rates for {}", rates[first].mark);
        problems.push(words::rows_tied(&what).at(rates[second].place).and(rates[first].place));
    }
    for ((mark, from, to), panels) in unrated {
        let near = rates.iter().find(|rate| rate.mark == mark && rate.over == to);
        let problem = words::lengths_unrated(mark.name(), from, to, &listed(&panels));
        problems.push(match near {
            Some(rate) => problem.at(rate.place),
            None => problem,
        });
    }
}

/// `hood, roof and 3 more panels`.
fn listed(panels: &[PanelKind]) -> String {
    let names: Vec<&str> = panels.iter().take(3).map(|kind| kind.name()).collect();
    match panels.len().saturating_sub(names.len()) {
        0 => names.join(", "),
        1 => format!("{} and one more panel", names.join(", ")),
        more => format!("{} and {more} more panels", names.join(", ")),
    }
}

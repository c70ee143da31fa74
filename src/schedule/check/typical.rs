use super::scopes::Scopes;
use super::units::{Sign, Units};
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::Typical;
use crate::schedule::raw::RawTypical;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// Typical prices, the most particular first: by panel, then those of one class of vehicle before those of any.
pub(super) fn check(
    raw: &[RawTypical],
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Typical> {
    let mut rows: Vec<Typical> =
        raw.iter().filter_map(|row| check_row(row, units, scopes, problems)).collect();
    rows.sort_by_cached_key(|row| {
        (Reverse(row.scope.rank()), row.class.is_none(), row.class.as_deref().map(folded))
    });
    tell_tied(&rows, scopes, problems);
    rows
}

fn check_row(
    row: &RawTypical,
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Typical> {
    let scope = scopes.resolve(row.panel.as_ref(), problems);
    let mut money = |column, written: Option<_>| {
        written.and_then(|written| units.money(column, written, Sign::NotNegative, problems))
    };
    let (part, paint_material) = (money("part", row.part), money("paint material", row.paint_material));
    let mut hours =
        |column, written: Option<_>| written.and_then(|written| units.hours(column, written, problems));
    let typical = Typical {
        scope: scope?,
        class: row.class.as_ref().map(|class| class.value.clone()),
        part,
        fitting: hours("fitting", row.fitting),
        conventional: hours("conventional", row.conventional),
        refinish: hours("refinish", row.refinish),
        blend: hours("blend", row.blend),
        paint_material,
        source: row.source.clone(),
        place: row.place,
    };
    let written = [row.part, row.fitting, row.conventional, row.refinish, row.blend, row.paint_material];
    if row.sound && written.iter().all(Option::is_none) {
        problems.push(words::idle("the row", "it gives no price and no time").at(row.place));
    }
    Some(typical)
}

/// Tells rows that are equally particular for one panel and class.
fn tell_tied(rows: &[Typical], scopes: &Scopes<'_>, problems: &mut Vec<Problem>) {
    let mut tied: BTreeSet<(usize, usize)> = BTreeSet::new();
    let class = |row: &Typical| row.class.as_deref().map(folded);
    for panel in scopes.panels {
        let holding: Vec<usize> = (0..rows.len()).filter(|row| rows[*row].scope.holds_for(panel)).collect();
        for pair in holding.windows(2) {
            let (a, b) = (&rows[pair[0]], &rows[pair[1]]);
            if a.scope.rank() == b.scope.rank() && class(a) == class(b) {
                tied.insert((pair[0], pair[1]));
            }
        }
    }
    for (first, second) in tied {
        problems.push(words::rows_tied("typical prices").at(rows[second].place).and(rows[first].place));
    }
}

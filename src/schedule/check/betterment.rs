use super::names::named;
use super::scopes::Scopes;
use super::units::percent;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::raw::RawBetterment;
use crate::schedule::{BetterOf, Betterment, PanelTerms, Scope};

/// Shares of new prices that owners bear. Told are equally particular rows that meet at some age.
pub(super) fn check(
    raw: &[RawBetterment],
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Betterment> {
    let rows: Vec<Betterment> = raw.iter().filter_map(|row| check_row(row, scopes, problems)).collect();
    for (index, second) in rows.iter().enumerate() {
        let is_tied = |first: &&Betterment| {
            let ages = first.holds_at(second.from_years) || second.holds_at(first.from_years);
            first.on == second.on && ages && meet(first, second, scopes.panels)
        };
        if let Some(first) = rows[..index].iter().find(is_tied) {
            problems.push(words::rows_tied("betterment").at(second.place).and(first.place));
        }
    }
    rows
}

/// Whether two rows are equally particular for one price.
fn meet(first: &Betterment, second: &Betterment, panels: &[PanelTerms]) -> bool {
    match first.on {
        BetterOf::Items => {
            let name = |row: &Betterment| row.item.as_ref().map(|item| folded(&item.value));
            name(first) == name(second)
        }
        BetterOf::Parts => {
            let both = |panel: &&PanelTerms| first.scope.holds_for(panel) && second.scope.holds_for(panel);
            first.scope.rank() == second.scope.rank() && panels.iter().any(|panel| both(&panel))
        }
    }
}

fn check_row(row: &RawBetterment, scopes: &Scopes<'_>, problems: &mut Vec<Problem>) -> Option<Betterment> {
    let on = named::<BetterOf>("betterment on", &row.on, problems)?.value;
    let share = row.percent.and_then(|share| percent("percent", share, (0, 100), problems));
    let (scope, item) = match on {
        BetterOf::Parts => {
            if let Some(item) = &row.item {
                problems.push(words::idle("item", "a new part is one of a panel").at(item.place));
            }
            (scopes.resolve(row.panel.as_ref(), problems)?, None)
        }
        BetterOf::Items => {
            if let Some(panel) = &row.panel {
                problems.push(words::idle("panel", "an item is no part of a panel").at(panel.place));
            }
            (Scope::Any, row.item.clone())
        }
    };
    if let (Some(from), Some(to)) = (row.from_years, row.to_years)
        && to.value < from.value
    {
        problems.push(words::band_empty("betterment", on.name()).at(to.place).and(from.place));
    }
    Some(Betterment {
        on,
        scope,
        item,
        from_years: row.from_years.map_or(0, |from| from.value),
        to_years: row.to_years.map(|to| to.value),
        share: share.filter(|_| row.sound)?,
        place: row.place,
    })
}

//! The whole of a schedule, checked: names found, quantities made, and every table held against the others. Each file
//! checks one table, or one thing that several tables have to agree on.

pub(super) mod amounts;
mod betterment;
mod counts;
mod drops;
mod factors;
mod grid;
mod labour;
mod limits;
mod mark_rates;
mod names;
mod operations;
mod panels;
mod rises;
mod scopes;
mod sizes;
mod terms;
mod titles;
mod typical;
mod units;

use super::raw::Raw;
use super::{Schedule, forms};
use crate::claim::InputFile;
use crate::problem::{Place, Problem, Severity, catalogue::schedule as words, worst};
use crate::table::Form;
use scopes::Scopes;

/// What a schedule was read from.
pub(super) struct Origin {
    pub files: Vec<InputFile>,
    pub digest: String,
    pub place: Place,
}

/// Makes a schedule of its raw tables; every problem is told. `None` where terms are missing without which nothing can
/// be said; otherwise whether the schedule stands follows from the problems.
pub(super) fn check(raw: &Raw, origin: Origin, problems: &mut Vec<Problem>) -> Option<Schedule> {
    tables_are_there(raw, origin.place, problems);
    let stands = |forms: &[&Form], told: &[Problem]| {
        worst(told) < Some(Severity::Error) && forms.iter().all(|form| raw.is_sound(form))
    };
    let told = problems.len();
    let sizes = sizes::check(&raw.sizes, problems);
    let counts = counts::check(&raw.counts, problems);
    let bands_stand = !sizes.is_empty()
        && !counts.is_empty()
        && stands(&[&forms::SIZES, &forms::COUNTS], &problems[told..]);
    let book = terms::Book::open(raw, problems);
    let units = units::Units::of(&book, raw, problems);
    let terms = terms::check(&book, &units, &sizes, problems);
    let (panels, groups) = panels::check(&raw.panels, &units, problems);
    let scopes = Scopes::new(&panels, &groups);
    let told = problems.len();
    let labour = labour::check_rates(&raw.labour, &units, problems);
    let labour_stands = stands(&[&forms::LABOUR], &problems[told..]);
    let taxes = labour::check_taxes(&raw.taxes, raw.place_of(&forms::TAXES), problems);
    let told = problems.len();
    let grid = grid::check(raw, &units, &sizes, &counts, &scopes, problems);
    let has_rates = !panels.is_empty() && (!raw.rates.is_empty() || !raw.grids.is_empty());
    let rates_stand = bands_stand
        && has_rates
        && units.currency.is_some()
        && units.time.is_some()
        && stands(&[&forms::RATES, &forms::GRID], &problems[told..]);
    // An unreadable cell would be told a second time as a missing one.
    if rates_stand {
        let rated = terms.as_ref().map(|terms| terms.mixed.value);
        grid::check_missing(&grid, &sizes, &counts, &scopes, rated, problems);
    }
    let largest = sizes.last().filter(|_| bands_stand).map(|band| band.high);
    let mark_rates = mark_rates::check(&raw.mark_rates, &units, largest, &scopes, problems);
    let factors = factors::check(&raw.factors, &units, &scopes, problems);
    if let Some(most) =
        terms.as_ref().and_then(|terms| terms.factors_at_most).filter(|_| raw.factors.is_empty())
    {
        problems.push(words::idle("the term factors at most", "there are no factors").at(most.place));
    }
    let typical = typical::check(&raw.typical, &units, &scopes, problems);
    let limits = limits::check(&raw.limits, &sizes, &scopes, problems);
    let operations = operations::check(&raw.operations, &units, &scopes, problems);
    let betterment = betterment::check(&raw.betterment, &scopes, problems);
    let titles = titles::check(&raw.titles, problems);
    let Origin { files, digest, place } = origin;
    let schedule = Schedule {
        terms: terms?,
        labour,
        taxes,
        sizes,
        counts,
        groups,
        panels,
        grid,
        mark_rates,
        factors,
        typical,
        limits,
        operations,
        betterment,
        titles,
        files,
        digest,
        place,
    };
    // What is needed, and how amounts compare, can be said only where each of them stands by itself.
    if labour_stands && rates_stand {
        labour::check_needs(&schedule, problems);
    }
    if bands_stand {
        limits::check_late(&schedule, problems);
    }
    if rates_stand {
        rises::check(&schedule, problems);
        drops::check(&schedule, problems);
    }
    Some(schedule)
}

/// Tells the tables that no schedule can do without: those that are not there, and those that hold no row. A table of
/// which a row could not be read is there.
fn tables_are_there(raw: &Raw, place: Place, problems: &mut Vec<Problem>) {
    let mut needed = |form: &Form, rows: usize, columns: &str| {
        if rows == 0 && raw.is_sound(form) {
            let place = raw.place_of(form).unwrap_or(place);
            problems.push(words::table_missing(form.name, columns).at(place));
        }
    };
    let rates = raw.rates.len() + raw.grids.len() + usize::from(!raw.is_sound(&forms::GRID));
    needed(&forms::TERMS, raw.terms.len(), "term, value");
    needed(&forms::TAXES, raw.taxes.len(), "tax on, percent");
    needed(&forms::SIZES, raw.sizes.len(), "size band, from, to");
    needed(&forms::COUNTS, raw.counts.len(), "count band, from dents, to dents");
    needed(&forms::PANELS, raw.panels.len(), "panel, lies, joined");
    needed(&forms::RATES, rates, "rated as, size band, count band, and amount or hours");
}

//! The whole of a schedule, checked: names found, quantities made, and every table held against the others. Each file
//! checks one table, or one thing that several tables have to agree on.

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
    let sizes = sizes::check(&raw.sizes, problems);
    let counts = counts::check(&raw.counts, problems);
    let bands_stand = worst(problems.iter()) < Some(Severity::Error);
    let book = terms::Book::open(raw, problems);
    let units = units::Units::of(&book, raw, problems);
    let terms = terms::check(&book, &units, &sizes, problems);
    let (panels, groups) = panels::check(&raw.panels, &units, problems);
    let scopes = Scopes::new(&panels, &groups);
    let labour = labour::check_rates(&raw.labour, &units, problems);
    let taxes = labour::check_taxes(&raw.taxes, raw.place_of(&forms::TAXES), problems);
    let told = problems.len();
    let grid = grid::check(raw, &units, &sizes, &counts, &scopes, problems);
    let rates_stand = bands_stand && worst(&problems[told..]) < Some(Severity::Error);
    let mark_rates = mark_rates::check(&raw.mark_rates, &units, &sizes, &scopes, problems);
    let factors = factors::check(&raw.factors, &units, &scopes, problems);
    let typical = typical::check(&raw.typical, &units, &scopes, problems);
    let limits = limits::check(&raw.limits, &sizes, &counts, &scopes, problems);
    let operations = operations::check(&raw.operations, &units, &scopes, problems);
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
        files,
        digest,
        place,
    };
    labour::check_needs(&schedule, problems);
    // Amounts are held against each other only where each of them stands by itself.
    if rates_stand {
        rises::check(&schedule, problems);
        drops::check(&schedule, problems);
    }
    Some(schedule)
}

/// Tells the tables that no schedule can do without.
fn tables_are_there(raw: &Raw, place: Place, problems: &mut Vec<Problem>) {
    let mut needed = |forms: &[&Form], columns: &str| {
        if forms.iter().all(|form| raw.place_of(form).is_none())
            && let Some(form) = forms.first()
        {
            problems.push(words::table_missing(form.name, columns).at(place));
        }
    };
    needed(&[&forms::TERMS], "term, value");
    needed(&[&forms::TAXES], "tax on, percent");
    needed(&[&forms::SIZES], "size band, from, to");
    needed(&[&forms::COUNTS], "count band, from dents, to dents");
    needed(&[&forms::PANELS], "panel, lies, joined");
    needed(&[&forms::RATES, &forms::GRID], "rated as, size band, count band, and amount or hours");
}

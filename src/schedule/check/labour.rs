use super::names::{Once, named};
use super::units::{Units, percent};
use crate::problem::{Place, Problem, catalogue::schedule as words};
use crate::schedule::raw::{RawLabour, RawTax};
use crate::schedule::{FactorEffect, LabourClass, LabourRate, Price, Schedule, TaxOn, TaxRate};

/// Labour rates, at most one of a class.
pub(super) fn check_rates(raw: &[RawLabour], units: &Units, problems: &mut Vec<Problem>) -> Vec<LabourRate> {
    let mut once = Once::new();
    let mut rates = Vec::new();
    for row in raw {
        let Some(class) = named::<LabourClass>("labour", &row.class, problems) else { continue };
        if !once.note(class.value, "labour", class.value.name(), row.class.place, problems) {
            continue;
        }
        if let Some(per_hour) = row.per_hour.and_then(|written| units.rate("per hour", written, problems)) {
            rates.push(LabourRate { class: class.value, per_hour });
        }
    }
    rates
}

/// Tax rates: exactly one each of what is taxed.
pub(super) fn check_taxes(raw: &[RawTax], table: Option<Place>, problems: &mut Vec<Problem>) -> Vec<TaxRate> {
    let mut once = Once::new();
    let mut rates = Vec::new();
    let mut written = Vec::new();
    for row in raw {
        let Some(on) = named::<TaxOn>("tax on", &row.on, problems) else { continue };
        written.push(on.value);
        if !once.note(on.value, "tax on", on.value.name(), row.on.place, problems) {
            continue;
        }
        if let Some(percent) = row.percent.and_then(|rate| percent("percent", rate, (0, 100), problems)) {
            rates.push(TaxRate { on: on.value, percent });
        }
    }
    if let Some(table) = table.filter(|_| !raw.is_empty()) {
        for on in TaxOn::ALL.iter().filter(|on| !written.contains(on)) {
            problems.push(words::tax_missing(on.name()).at(table));
        }
    }
    rates
}

/// Tells labour that something in the schedule needs and no row prices, and a paintless rate that nothing uses. The other
/// rates are also used by times that claims bring.
pub(super) fn check_needs(schedule: &Schedule, problems: &mut Vec<Problem>) {
    for class in LabourClass::ALL {
        let rate = schedule.labour.iter().find(|rate| rate.class == *class);
        match (rate, needed_by(schedule, *class)) {
            (None, Some((what, place))) => {
                problems.push(words::labour_missing(class.name(), what).at(place));
            }
            (Some(rate), None) if *class == LabourClass::Paintless => {
                problems.push(words::labour_unused(class.name()).at(rate.per_hour.place));
            }
            _ => {}
        }
    }
}

/// The first thing that needs a kind of labour.
fn needed_by(schedule: &Schedule, class: LabourClass) -> Option<(&'static str, Place)> {
    let operation = schedule.operations.iter().find(|row| row.class == class && row.hours.is_some());
    if let Some(hours) = operation.and_then(|row| row.hours) {
        return Some(("an operation", hours.place));
    }
    let typical = |place: fn(&crate::schedule::Typical) -> Option<Place>| {
        schedule.typical.iter().find_map(place).map(|place| ("a typical time", place))
    };
    match class {
        LabourClass::Paintless => {
            let cell = schedule.grid.cells().find(|cell| matches!(cell.price, Price::Time(_)));
            let mark = schedule.mark_rates.iter().find(|rate| matches!(rate.price, Price::Time(_)));
            let factor =
                schedule.factors.iter().find(|factor| matches!(factor.effect, FactorEffect::Time(_)));
            let cell = cell.map(|cell| ("a rate in hours", cell.place));
            let mark = mark.map(|rate| ("a mark rate in hours", rate.place));
            cell.or(mark).or(factor.map(|factor| ("a factor in hours", factor.place)))
        }
        LabourClass::Refit => typical(|row| row.fitting.map(|value| value.place)),
        LabourClass::Conventional => typical(|row| row.conventional.map(|value| value.place)),
        LabourClass::Refinish => typical(|row| row.refinish.or(row.blend).map(|value| value.place)),
    }
}

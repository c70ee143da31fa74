//! The last look at a claim: everything in an order that does not depend on the order of rows, and what only the whole
//! claim shows.

use super::draft::Draft;
use super::inspections::join_partial;
use super::sizes;
use crate::claim::vin::{self, VinFault};
use crate::claim::words::find;
use crate::claim::{
    CheckDigitRule, Claim, Intake, KeyKind, Located, Mark, PanelCount, Place, Traffic, Vehicle,
};
use crate::problem::{
    Code, Problem, catalogue::asked, catalogue::claim as say, catalogue::counts, catalogue::tally,
};
use std::collections::BTreeMap;

/// Makes an intake of a draft. `near` finds the nearest claim numbers that tables of vehicles list.
pub(super) fn finish(mut draft: Draft, near: &dyn Fn(&str) -> Vec<String>) -> Intake {
    join_partial(&mut draft);
    let Draft { mut claim, inspections, mut problems, vehicle_row, other_row, .. } = draft;
    claim.inspections = inspections.into_values().collect();
    claim.inspections.sort_by_cached_key(|inspection| {
        let text = |text: &Option<Located<String>>| text.as_ref().map(|text| text.value.clone());
        let date = inspection.date.map(|date| date.value);
        (inspection.role(), date, inspection.pass.map(|pass| pass.value), text(&inspection.assessor))
    });
    for panel in claim.inspections.iter_mut().flat_map(|inspection| &mut inspection.panels) {
        put_panel_in_order(panel);
    }
    put_in_order(&mut claim);
    problems.extend(vin_problem(&claim.vehicle));
    problems.extend(sheet_name(&claim));
    // Counts that could not be read are told already.
    let is_stopped = problems.iter().any(|problem| problem.severity().stops_the_claim());
    problems.extend(
        membership(&claim, vehicle_row, other_row, near)
            .filter(|problem| !is_stopped || problem.code != &say::VEHICLE_WITHOUT_COUNTS),
    );
    let name = claim.key.to_string();
    let mut problems: Vec<Problem> =
        problems.into_iter().map(|problem| problem.of_claim(name.as_str())).collect();
    problems.sort_by(|a, b| (a.place, a.code.id, &a.message).cmp(&(b.place, b.code.id, &b.message)));
    problems.dedup();
    ask_once_about_sides(&mut problems);
    Intake { claim, problems: once_for_each_word(problems) }
}

/// A word that cannot be read stands in many rows of one claim: it is told at the first, with the number of the others.
/// Numbers are told cell by cell, since each has to be mended by itself.
fn once_for_each_word(problems: Vec<Problem>) -> Vec<Problem> {
    let mut told: Vec<(Problem, usize)> = Vec::new();
    let mut first_of = BTreeMap::new();
    for problem in problems {
        if is_of_a_word(problem.code) {
            let Problem { code, message, written, help, also, .. } = &problem;
            let words = (code.id, message.clone(), written.clone(), help.clone(), also.clone());
            let first = *first_of.entry(words).or_insert(told.len());
            if let Some((_, more)) = told.get_mut(first) {
                *more += 1;
                continue;
            }
        }
        told.push((problem, 0));
    }
    told.into_iter().map(|(problem, more)| say::and_more_cells(problem, more)).collect()
}

fn is_of_a_word(code: &Code) -> bool {
    [
        &say::WORD_UNKNOWN,
        &say::WORD_OPEN,
        &counts::PANEL_UNKNOWN,
        &counts::PANEL_WHICH,
        &counts::PANEL_WORD,
        &counts::PANEL_LACKING,
        &counts::SIDE_MISSING,
        &counts::SIDE_NEEDLESS,
        &counts::SIDE_CLASH,
        &counts::SIZE_WITHOUT_UNIT,
        &tally::LENGTH_ABSURD,
    ]
    .contains(&code)
}

/// One answer settles every side that depends on the market or the steering: it is asked for once, at the first cell,
/// and names the others.
fn ask_once_about_sides(problems: &mut Vec<Problem>) {
    let mut asked: Vec<Problem> = Vec::new();
    problems.retain(|problem| {
        if problem.code != &counts::SIDE_RELATIVE {
            return true;
        }
        match asked.iter_mut().find(|first| first.message == problem.message) {
            Some(first) => first.also.extend(problem.place),
            None => asked.push(problem.clone()),
        }
        false
    });
    problems.append(&mut asked);
    problems.sort_by(|a, b| (a.place, a.code.id, &a.message).cmp(&(b.place, b.code.id, &b.message)));
}

fn put_panel_in_order(panel: &mut PanelCount) {
    if !panel.tally.is_sorted_by_key(|entry| sizes::rank(&entry.size)) {
        panel.tally.sort_by_cached_key(|entry| sizes::rank(&entry.size));
    }
    panel.marks.sort_by_cached_key(mark_rank);
    panel.remarks.sort_by(|a, b| (&a.value, a.place).cmp(&(&b.value, b.place)));
}

/// Marks by what they are and how large, then by whatever else tells them apart.
fn mark_rank(mark: &Mark) -> impl Ord + use<> {
    let value =
        |length: Option<Located<_>>| length.map(|length: Located<crate::quantity::Length>| length.value);
    (
        (mark.kind.value, mark.cause.map(|cause| cause.value), value(mark.length), value(mark.width)),
        (mark.depth.map(|depth| depth.value), mark.position.map(|position| position.value)),
        (mark.access.map(|access| access.value), mark.remark.as_ref().map(|remark| remark.value.clone())),
        mark.place,
    )
}

fn put_in_order(claim: &mut Claim) {
    let text = |text: &Option<Located<String>>| text.as_ref().map(|text| text.value.clone());
    claim.items.sort_by_cached_key(|item| {
        let amounts = (item.price.map(|price| price.value.amount), item.hours.map(|hours| hours.value));
        let rest = (item.calibration.map(|answer| answer.value), item.date.map(|date| date.value));
        (
            item.name.value.clone(),
            item.action.map(|action| action.value),
            amounts,
            text(&item.source),
            rest,
            text(&item.remark),
            item.place,
        )
    });
    claim.parts.sort_by_key(|part| part.panel);
    claim.photographs.sort_by_cached_key(|photograph| {
        (
            photograph.file.value.clone(),
            text(&photograph.shows),
            photograph.panel.map(|panel| panel.value),
            text(&photograph.mark),
            photograph.date.map(|date| date.value),
            photograph.place,
        )
    });
    claim.enclosures.sort_by_cached_key(|paper| {
        (paper.name.value.clone(), text(&paper.file), paper.date.map(|date| date.value), paper.place)
    });
    claim.overrules.sort_by_key(|overrule| overrule.panel);
    claim.paid_before.sort_by_cached_key(|paid| {
        (
            paid.panel,
            paid.date.map(|date| date.value),
            text(&paid.event),
            paid.amount.value.amount,
            paid.place,
        )
    });
    claim.remarks.sort_by(|a, b| (&a.text, a.place).cmp(&(&b.text, b.place)));
}

/// A claim that is known by the name of its sheet alone, where that may be a time.
fn sheet_name(claim: &Claim) -> Option<Problem> {
    let car = &claim.vehicle;
    let is_described = car.make.is_some() || car.model.is_some() || claim.parties.insurer.is_some();
    let written = car.registration.as_ref().filter(|_| claim.key.kind == KeyKind::Registration)?;
    let is_name = written.place.row == 0 && written.place.column == 0;
    (is_name && !is_described && is_like_time(&written.value))
        .then(|| asked::sheet_name_open(written.place, &written.value))
}

/// Whether capitals and figures may be a quarter, a week or a month: `Q1 26`, `WK 12`, `JAN26`.
fn is_like_time(name: &str) -> bool {
    const WORDS: [&str; 21] = [
        "q", "h", "wk", "week", "kw", "fy", "year", "month", "day", "jan", "feb", "mar", "apr", "may", "jun",
        "jul", "aug", "sep", "oct", "nov", "dec",
    ];
    let name = name.to_lowercase();
    let letters: Vec<&str> =
        name.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).collect();
    matches!(letters[..], [word] if WORDS.contains(&word))
}

/// What is odd about the VIN: a hint, or a warning where the rules bind. Where the market is known to be another one,
/// its check digit is no rule at all.
fn vin_problem(vehicle: &Vehicle) -> Option<Problem> {
    let written = vehicle.vin.as_ref()?;
    let market = vehicle.market.as_ref().map(|market| market.value.as_str());
    let is_binding = market.and_then(find::<CheckDigitRule>).is_some();
    let is_elsewhere = !is_binding && market.and_then(find::<Traffic>).is_some();
    let why = match vin::check(&written.value).err()? {
        VinFault::Length(length) => format!("it has {length} characters, not 17"),
        VinFault::Character(character, position) => {
            format!(
                "{character} at position {position} is in no VIN (0 and O, 1 and I are easily taken for each other)"
            )
        }
        VinFault::CheckDigit { .. } | VinFault::ModelYear(_) if is_elsewhere => return None,
        // Makers elsewhere fill the position with Z.
        VinFault::CheckDigit { written: 'Z', .. } if !is_binding => return None,
        VinFault::CheckDigit { written, computed } => {
            format!("the check digit at position 9 is {written} and computes to {computed}")
        }
        VinFault::ModelYear(code) => format!("{code} at position 10 stands for no model year"),
    };
    Some(say::vin(written.place, &written.value, &why, is_binding))
}

/// Whether the claim has a vehicle and counts, and what follows if not.
fn membership(
    claim: &Claim,
    vehicle_row: Option<Place>,
    other_row: Option<Place>,
    near: &dyn Fn(&str) -> Vec<String>,
) -> Option<Problem> {
    let has_insurer = claim.parties.insurer.is_some();
    let is_numbered = claim.key.kind == KeyKind::ClaimNumber;
    match (vehicle_row, other_row) {
        (None, Some(row)) if is_numbered && !has_insurer => {
            Some(say::claim_without_vehicle(row, &claim.key.text, &near(&claim.key.text)))
        }
        (None, Some(row)) if !has_insurer && claim.vehicle.make.is_none() && claim.vehicle.body.is_none() => {
            Some(say::job_without_vehicle(row))
        }
        (Some(row), _) if claim.inspections.is_empty() => Some(say::vehicle_without_counts(row)),
        (Some(row), _) if is_numbered && !has_insurer => {
            Some(say::claim_without_insurer(row, &claim.key.text))
        }
        _ => None,
    }
}

//! Which schedule holds for a claim, and by which date.

use super::{DateOrigin, inspection};
use crate::claim::{Claim, words::folded};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::Date;
use crate::schedule::{Fit, Schedule};

/// Picks the schedule that holds for a claim: the most specific fit that is valid on the date of loss, else of
/// inspection, else `run_date`. None, and two equally specific ones, are the claim's problem.
pub fn choose_schedule(
    claim: &Claim,
    schedules: &[Schedule],
    run_date: Option<Date>,
) -> Result<usize, Problem> {
    of_claim(claim, chosen(claim, schedules, run_date))
}

/// Picks the schedule that holds for a claim on a date.
pub fn choose_schedule_on(claim: &Claim, schedules: &[Schedule], date: Date) -> Result<usize, Problem> {
    of_claim(claim, chosen_on(claim, schedules, date))
}

fn chosen(claim: &Claim, schedules: &[Schedule], run_date: Option<Date>) -> Result<usize, Problem> {
    let (date, _) = dated(claim, run_date)?;
    chosen_on(claim, schedules, date)
}

fn chosen_on(claim: &Claim, schedules: &[Schedule], date: Date) -> Result<usize, Problem> {
    let insurer = claim.parties.insurer.as_ref().map(|insurer| insurer.value.as_str());
    let wanted = insurer.map(folded);
    let fits: Vec<(usize, Specific)> = schedules
        .iter()
        .enumerate()
        .filter(|(_, schedule)| is_valid(schedule, date))
        .filter_map(|(index, schedule)| Some((index, specific(schedule, wanted.as_deref())?)))
        .collect();
    let Some(best) = fits.iter().map(|(_, specific)| *specific).max() else {
        let known: Vec<String> = schedules.iter().map(described).collect();
        return Err(wording::no_schedule(insurer, &date.to_string(), &known));
    };
    let alike: Vec<usize> = fits.iter().filter(|(_, s)| *s == best).map(|(index, _)| *index).collect();
    if let [only] = alike[..] {
        return Ok(only);
    }
    let names: Vec<String> = alike.iter().map(|index| described(&schedules[*index])).collect();
    let places: Vec<_> = alike.iter().map(|index| schedules[*index].terms.name.place).collect();
    Err(wording::two_schedules(&names, &date.to_string(), &places))
}

/// Picks the edition that would be meant for a claim whatever its date: the most specific fit, and of several alike the one
/// that is valid on the claim's date. `None` where none is meant for its insurer.
pub fn choose_whenever(
    claim: &Claim,
    schedules: &[Schedule],
    run_date: Option<Date>,
) -> Option<Result<usize, Problem>> {
    let wanted = claim.parties.insurer.as_ref().map(|insurer| folded(&insurer.value));
    let fit = |schedule: &Schedule| specific(schedule, wanted.as_deref());
    let best = schedules.iter().filter_map(fit).max()?;
    let mut alike = (0..schedules.len()).filter(|index| fit(&schedules[*index]) == Some(best));
    match (alike.next(), alike.next()) {
        (Some(only), None) => Some(Ok(only)),
        _ => Some(choose_schedule(claim, schedules, run_date)),
    }
}

/// How closely a schedule is meant for a claim.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Specific {
    Anyone,
    Named,
}

fn specific(schedule: &Schedule, insurer: Option<&str>) -> Option<Specific> {
    let of = |fit: &Fit| match (fit, insurer) {
        (Fit::Insurer(name), Some(insurer)) if folded(name) == insurer => Some(Specific::Named),
        (Fit::NoInsurer, None) => Some(Specific::Named),
        (Fit::Anyone, _) => Some(Specific::Anyone),
        _ => None,
    };
    schedule.terms.fits.iter().filter_map(|fit| of(&fit.value)).max()
}

fn is_valid(schedule: &Schedule, date: Date) -> bool {
    let terms = &schedule.terms;
    terms.valid_from.value <= date && terms.valid_to.is_none_or(|last| date <= last.value)
}

/// `Harbour terms, edition 3 (for Harbour Mutual, from 2026-01-01 to 2026-12-31)`.
fn described(schedule: &Schedule) -> String {
    let terms = &schedule.terms;
    let whom: Vec<&str> = terms
        .fits
        .iter()
        .map(|fit| match &fit.value {
            Fit::Insurer(name) => name.as_str(),
            Fit::NoInsurer => "jobs without an insurer",
            Fit::Anyone => "any",
        })
        .collect();
    let end = terms.valid_to.map_or_else(String::new, |last| format!(" to {}", last.value));
    let (name, edition, from) = (&terms.name.value, &terms.edition.value, terms.valid_from.value);
    format!("{name}, edition {edition} (for {}, from {from}{end})", whom.join(", "))
}

/// The date that chooses a schedule's edition: of loss, else of the inspection that is assessed, else the run's.
pub(super) fn dated(claim: &Claim, run_date: Option<Date>) -> Result<(Date, DateOrigin), Problem> {
    if let Some(loss) = claim.event.date {
        return Ok((loss.value, DateOrigin::Loss));
    }
    // Without any inspection the run's date still chooses a schedule; assessing then says what is missing.
    let base = if claim.inspections.is_empty() { None } else { Some(inspection::base(claim)?) };
    let inspected = base.and_then(|base| claim.inspections[base].date);
    match (inspected, run_date) {
        (Some(inspected), _) => Ok((inspected.value, DateOrigin::Inspection)),
        (None, Some(run)) => Ok((run, DateOrigin::Run)),
        (None, None) => Err(wording::no_date()),
    }
}

/// A result whose problem names its claim.
pub(super) fn of_claim<T>(claim: &Claim, result: Result<T, Problem>) -> Result<T, Problem> {
    result.map_err(|problem| problem.of_claim(claim.key.text.clone()))
}

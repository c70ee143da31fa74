//! Which schedule holds for a claim, and by which date.

use super::{DateOrigin, inspection};
use crate::claim::{Claim, Place, words::folded};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::Date;
use crate::schedule::{EditionBy, Fit, Schedule, Terms};
use std::collections::BTreeSet;

/// What a claim can be dated by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dates {
    /// Of loss.
    pub loss: Option<Date>,
    /// Of the inspection that is assessed, or of the first of those that are compared.
    pub inspection: Option<Date>,
    /// The run's own.
    pub run: Option<Date>,
}

impl Dates {
    /// A claim's, for schedules of which some may go by the inspection. That two inspections could be meant is told only
    /// where the date of one is needed.
    fn of(claim: &Claim, is_by_inspection: bool, run: Option<Date>) -> Result<Self, Problem> {
        let loss = claim.event.date.map(|loss| loss.value);
        // Without any inspection another date still chooses a schedule; assessing then says what is missing.
        let is_needed = (is_by_inspection || loss.is_none()) && !claim.inspections.is_empty();
        let base = if is_needed { Some(inspection::base(claim)?) } else { None };
        let inspected = base.and_then(|base| claim.inspections[base].date);
        Ok(Self { loss, inspection: inspected.map(|date| date.value), run })
    }

    /// The date that has to lie in a schedule's days: the one its terms name, else the run's; where they name none, that of
    /// loss, else of inspection, else the run's.
    pub fn by(self, terms: &Terms) -> Option<(Date, DateOrigin)> {
        let loss = self.loss.map(|date| (date, DateOrigin::Loss));
        let inspection = self.inspection.map(|date| (date, DateOrigin::Inspection));
        let written = match terms.edition_by.map(|by| by.value) {
            None => loss.or(inspection),
            Some(EditionBy::Loss) => loss,
            Some(EditionBy::Inspection) => inspection,
        };
        written.or(self.run.map(|date| (date, DateOrigin::Run)))
    }
}

/// Picks the schedule that holds for a claim: the most specific fit that is valid on the date its editions go by. None, and
/// two equally specific ones, are the claim's problem.
pub fn choose_schedule(
    claim: &Claim,
    schedules: &[Schedule],
    run_date: Option<Date>,
) -> Result<usize, Problem> {
    let is_by_inspection = schedules.iter().any(|schedule| schedule.terms.is_by_inspection());
    let dates = Dates::of(claim, is_by_inspection, run_date);
    of_claim(claim, dates.and_then(|dates| chosen(claim, schedules, dates)).map(|(index, _)| index))
}

/// Picks the schedule that holds for a claim of these dates, and the date that chose it.
pub fn choose_schedule_by(
    claim: &Claim,
    schedules: &[Schedule],
    dates: Dates,
) -> Result<(usize, (Date, DateOrigin)), Problem> {
    of_claim(claim, chosen(claim, schedules, dates))
}

type Chosen = (usize, (Date, DateOrigin));

fn chosen(claim: &Claim, schedules: &[Schedule], dates: Dates) -> Result<Chosen, Problem> {
    let insurer = claim.parties.insurer.as_ref().map(|insurer| insurer.value.as_str());
    let wanted = insurer.map(folded);
    let meant = |schedule: &Schedule| specific(schedule, wanted.as_deref());
    let fits: Vec<(Chosen, Specific)> = schedules
        .iter()
        .enumerate()
        .filter_map(|(index, schedule)| {
            let date = dates.by(&schedule.terms).filter(|(date, _)| is_valid(schedule, *date))?;
            Some(((index, date), meant(schedule)?))
        })
        .collect();
    let Some(best) = fits.iter().map(|(_, specific)| *specific).max() else {
        return Err(none_holds(insurer, schedules, dates, |schedule| meant(schedule).is_some()));
    };
    let alike: Vec<Chosen> = fits.iter().filter(|(_, s)| *s == best).map(|(chosen, _)| *chosen).collect();
    if let [only] = alike[..] {
        return Ok(only);
    }
    let names: Vec<String> = alike.iter().map(|(index, _)| described(&schedules[*index])).collect();
    let places: Vec<_> = alike.iter().map(|(index, _)| schedules[*index].terms.name.place).collect();
    let days: BTreeSet<Date> = alike.iter().map(|(_, (date, _))| *date).collect();
    Err(wording::two_schedules(&names, &listed(&days), &places))
}

/// What is missing: a date, where no schedule that is meant for the claim has one to go by; else a schedule.
fn none_holds(
    insurer: Option<&str>,
    schedules: &[Schedule],
    dates: Dates,
    is_meant: impl Fn(&Schedule) -> bool,
) -> Problem {
    let meant = || schedules.iter().filter(|schedule| is_meant(schedule));
    let undated = meant().filter(|schedule| dates.by(&schedule.terms).is_none()).count();
    if undated > 0 && undated == meant().count() {
        return wording::no_date(meant().next().and_then(|schedule| named(&schedule.terms)));
    }
    let by = |schedule: &Schedule| dates.by(&schedule.terms).map(|(date, _)| date);
    let mut days: BTreeSet<Date> = meant().filter_map(by).collect();
    days.extend(dates.loss.or(dates.inspection).or(dates.run).filter(|_| days.is_empty()));
    if days.is_empty() {
        return wording::no_date(None);
    }
    let known: Vec<String> = schedules.iter().map(described).collect();
    wording::no_schedule(insurer, &listed(&days), &known)
}

/// The date that a schedule's editions go by, in words, and where it says so.
fn named(terms: &Terms) -> Option<(&'static str, Place)> {
    terms.edition_by.map(|by| (by.value.name(), by.place))
}

/// `2026-05-02 and 2026-06-01`.
fn listed(days: &BTreeSet<Date>) -> String {
    days.iter().map(Date::to_string).collect::<Vec<_>>().join(" and ")
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
    let by = terms.edition_by.map_or_else(String::new, |by| format!(", by the {}", by.value));
    let (name, edition, from) = (&terms.name.value, &terms.edition.value, terms.valid_from.value);
    format!("{name}, edition {edition} (for {}, from {from}{end}{by})", whom.join(", "))
}

/// The date that chooses the edition of a schedule for a claim.
pub(super) fn dated(
    claim: &Claim,
    terms: &Terms,
    run_date: Option<Date>,
) -> Result<(Date, DateOrigin), Problem> {
    let dates = Dates::of(claim, terms.is_by_inspection(), run_date)?;
    dates.by(terms).ok_or_else(|| wording::no_date(named(terms)))
}

/// A result whose problem names its claim.
pub(super) fn of_claim<T>(claim: &Claim, result: Result<T, Problem>) -> Result<T, Problem> {
    result.map_err(|problem| problem.of_claim(claim.key.text.clone()))
}

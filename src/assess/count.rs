//! From headings and cells to dents per size band of the schedule; marks that are dents are counted with them.

use super::desk::Desk;
use super::frame::{Scaling, scaled};
use super::inspection::Seen;
use super::{Excluded, ExclusionReason, Formula, MarkAssessment, Note, Recorder, Rule, SizeCount, StepId};
use crate::claim::{Cause, Counted, Mark, MarkKind, Place, SizeHeading, TallyEntry};
use crate::problem::catalogue::assess as wording;
use crate::quantity::Length;
use crate::schedule::{PanelTerms, Schedule, SizeBand, SizeFit, fit_size};

/// A panel's dents by band, and what became of its marks.
pub(super) struct Tallied {
    /// One for each size band.
    pub counts: Vec<SizeCount>,
    /// Dents in all.
    pub dents: u32,
    /// In the order of the inspection.
    pub marks: Vec<MarkAssessment>,
}

impl Tallied {
    /// Nothing written in any band.
    pub fn blank(schedule: &Schedule) -> Self {
        let none = SizeCount { count: Counted::NoneWritten, from_marks: 0, cells: Vec::new() };
        Self { counts: vec![none; schedule.sizes.len()], dents: 0, marks: Vec::new() }
    }
}

/// Counts a panel. What stops the claim is left on the desk; the numbers are then of no use.
pub(super) fn tallied<'a, R: Recorder>(
    desk: &mut Desk<'a, R>,
    seen: &Seen<'a>,
    terms: Option<&PanelTerms>,
) -> Tallied {
    let Tallied { mut counts, .. } = Tallied::blank(desk.schedule);
    for entry in &seen.panel.tally {
        count_entry(desk, &mut counts, entry);
    }
    let scaling = scaled(desk, seen, terms, &mut counts);
    let indices = 0..seen.panel.marks.len();
    let marks: Vec<MarkAssessment> = indices.map(|index| mark(desk, seen, index, &mut counts)).collect();
    let total: u64 = counts.iter().map(|count| u64::from(count.dents())).sum();
    let dents = u32::try_from(total).unwrap_or_else(|_| {
        desk.problems.push(wording::too_many_dents(seen.panel.place));
        0
    });
    if R::KEEPS {
        record(desk, seen, &counts, &marks, scaling);
    }
    Tallied { counts, dents, marks }
}

fn count_entry<'a, R: Recorder>(desk: &mut Desk<'a, R>, counts: &mut [SizeCount], entry: &'a TallyEntry) {
    match &entry.count {
        Counted::NoneWritten => {
            desk.blanks = desk.blanks.saturating_add(1);
            return;
        }
        Counted::Open => return desk.problems.push(wording::count_not_known(None, entry.place)),
        Counted::Estimated { best: None, how, .. } => {
            return desk.problems.push(wording::count_not_known(Some(how), entry.place));
        }
        Counted::Counted(_) | Counted::Estimated { .. } => {}
    }
    let fit = fit(desk, entry);
    let sizes = &desk.schedule.sizes;
    let heading = &entry.size.text;
    let problem = match fit {
        SizeFit::Band(band) => return add(&mut counts[band], entry),
        _ if rated(&entry.count) == 0 => return,
        SizeFit::Straddles(first, last) => wording::size_straddles(
            heading,
            &sizes[first].name,
            &sizes[last].name,
            entry.place,
            entry.size_place,
        ),
        SizeFit::Beyond => {
            let largest = sizes.last().map(|band| band.name.as_str());
            wording::size_beyond(heading, largest, entry.place, entry.size_place)
        }
        SizeFit::Unknown => {
            let range = |band: &SizeBand| format!("{} ({} to {})", band.name, band.low, band.high);
            let known: Vec<String> = sizes.iter().map(range).collect();
            wording::size_unknown(heading, &known, entry.place, entry.size_place)
        }
    };
    // One heading is one thing to mend, however many counts stand under it.
    match desk.problems.iter_mut().find(|told| told.code == problem.code && told.message == problem.message) {
        Some(told) => told.also.push(entry.place),
        None => desk.problems.push(problem),
    }
}

/// What an entry's heading is in the schedule's bands, looked up once per heading.
fn fit<'a, R>(desk: &mut Desk<'a, R>, entry: &'a TallyEntry) -> SizeFit {
    let heading: &'a SizeHeading = &entry.size;
    let is_known = |known: &SizeHeading| std::ptr::eq(known, heading) || known == heading;
    if let Some((_, fit)) = desk.fits.iter().find(|(known, _)| is_known(known)) {
        return fit.clone();
    }
    let fit = fit_size(&desk.schedule.sizes, heading);
    if let SizeFit::Band(band) = fit
        && is_taken_as(desk.schedule, heading, band)
    {
        let heading = heading.text.clone();
        desk.notes.push(Note::SizeTakenAs { place: entry.size_place, heading, band });
    }
    desk.fits.push((heading, fit.clone()));
    fit
}

/// Whether a heading is neither a name of its band nor exactly its interval.
fn is_taken_as(schedule: &Schedule, heading: &SizeHeading, band: usize) -> bool {
    let band = &schedule.sizes[band];
    let is_equal =
        |interval: crate::claim::SizeInterval| interval.low == band.low && interval.high == Some(band.high);
    !band.is_called(&heading.text) && !heading.interval.is_some_and(is_equal)
}

fn rated(count: &Counted) -> u32 {
    match count {
        Counted::Counted(dents) | Counted::Estimated { best: Some(dents), .. } => *dents,
        Counted::Estimated { best: None, .. } | Counted::NoneWritten | Counted::Open => 0,
    }
}

/// Adds a column to its band. An estimate anywhere makes the band an estimate.
fn add(band: &mut SizeCount, entry: &TallyEntry) {
    band.cells.push(entry.place);
    let before = std::mem::replace(&mut band.count, Counted::NoneWritten);
    band.count = match (before, &entry.count) {
        (Counted::Counted(a), Counted::Counted(b)) => Counted::Counted(a.saturating_add(*b)),
        (Counted::NoneWritten | Counted::Open, count) => count.clone(),
        (a, b) => sum_of_estimates(&a, b),
    };
}

fn sum_of_estimates(a: &Counted, b: &Counted) -> Counted {
    let parts = |count: &Counted| match count {
        Counted::Estimated { low, high, how, .. } => (*low, *high, how.clone()),
        exact => (rated(exact), Some(rated(exact)), rated(exact).to_string()),
    };
    let ((low_a, high_a, how_a), (low_b, high_b, how_b)) = (parts(a), parts(b));
    Counted::Estimated {
        low: low_a.saturating_add(low_b),
        best: Some(rated(a).saturating_add(rated(b))),
        high: high_a.zip(high_b).map(|(a, b)| a.saturating_add(b)),
        how: format!("{how_a} + {how_b}"),
    }
}

/// Why a mark is not paid, if it is not.
pub(super) fn exclusion(mark: &Mark) -> Option<ExclusionReason> {
    match (mark.kind.value, mark.cause.map_or(Cause::ThisEvent, |cause| cause.value)) {
        (MarkKind::NotDamage, _) | (_, Cause::NotDamage) => Some(ExclusionReason::NotDamage),
        (_, Cause::OtherEvent) => Some(ExclusionReason::OtherEvent),
        (_, Cause::Earlier) => Some(ExclusionReason::Earlier),
        (_, Cause::ThisEvent) => None,
    }
}

fn mark<R: Recorder>(
    desk: &mut Desk<'_, R>,
    seen: &Seen<'_>,
    index: usize,
    counts: &mut [SizeCount],
) -> MarkAssessment {
    let mark = &seen.panel.marks[index];
    if let Some(reason) = exclusion(mark) {
        let (panel, place) = (seen.panel.panel, mark.place);
        desk.excluded.push(Excluded { panel, mark: index, reason, place });
        return MarkAssessment::Excluded;
    }
    let kind = mark.kind.value;
    if matches!(kind, MarkKind::BrokenPaint | MarkKind::NotDamage) {
        return MarkAssessment::Noted;
    }
    let length = mark.length.map(|length| length.value);
    let Some(length) = length.filter(|length| *length > Length::ZERO) else {
        desk.problems.push(wording::mark_without_length(kind.name(), length, mark.place));
        return MarkAssessment::NotPriced;
    };
    let band = match kind {
        MarkKind::Dent | MarkKind::OversizeDent => band_of(desk.schedule, length),
        _ => None,
    };
    let Some(band) = band else { return MarkAssessment::Rated };
    if kind == MarkKind::OversizeDent {
        desk.notes.push(Note::NotOversize(seen.panel.panel, index));
    }
    counts[band].from_marks = counts[band].from_marks.saturating_add(1);
    counts[band].cells.push(length_place(mark));
    MarkAssessment::Counted(band)
}

/// The band of a measured dent: the first whose top is not below it.
fn band_of(schedule: &Schedule, length: Length) -> Option<usize> {
    schedule.sizes.iter().position(|band| length <= band.high)
}

/// The cell of a mark's length.
pub(super) fn length_place(mark: &Mark) -> Place {
    mark.length.map_or(mark.place, |length| length.place)
}

/// Keeps a step for the dents of every band: the cells, and their sum where there are several.
fn record<'a, R: Recorder>(
    desk: &mut Desk<'a, R>,
    seen: &Seen<'a>,
    counts: &[SizeCount],
    marks: &[MarkAssessment],
    scaling: Option<Scaling>,
) {
    let mut steps: Vec<Vec<StepId>> = vec![Vec::new(); counts.len()];
    let mut written = vec![0_u32; counts.len()];
    for entry in seen.panel.tally.iter().filter(|entry| entry.count != Counted::NoneWritten) {
        if let SizeFit::Band(band) = fit(desk, entry) {
            let dents = rated(&entry.count);
            written[band] = written[band].saturating_add(dents);
            steps[band].push(desk.input(entry.place, dents));
        }
    }
    if let Some(scaling) = scaling {
        let bands = counts.iter().zip(written).zip(&mut steps);
        for ((counted, written), inputs) in bands.filter(|(_, inputs)| !inputs.is_empty()) {
            let count = match inputs[..] {
                [only] => only,
                _ => desk.step(Rule::DentsOfSize, written, || Formula::Sum(std::mem::take(inputs))),
            };
            *inputs = vec![scaling.record(desk, count, &counted.count)];
        }
    }
    for (mark, fate) in seen.panel.marks.iter().zip(marks) {
        if let MarkAssessment::Counted(band) = fate {
            steps[*band].push(desk.input(length_place(mark), 1));
        }
    }
    desk.band_steps.clear();
    for (count, inputs) in counts.iter().zip(steps) {
        let step = match inputs[..] {
            // A band of which nothing was written is no step.
            [] => StepId::NONE,
            [only] => only,
            _ => desk.step(Rule::DentsOfSize, count.dents(), || Formula::Sum(inputs)),
        };
        desk.band_steps.push(step);
    }
}

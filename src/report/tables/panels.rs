//! One row per panel of every priced claim.

use super::{Column, Field, Kind};
use crate::assess::{AtEnd, MarkAssessment, PanelAssessment, PanelState};
use crate::claim::{Counted, Method, Overrule};
use crate::report::{Subject, wording};
use std::fmt::Write as _;

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new("claim", Kind::Text, "the job's key"),
    Column::new("panel", Kind::Text, "with its side, as seated and facing forward"),
    Column::new("rated as", Kind::Text, "its group in the schedule's rates"),
    Column::new("state", Kind::Text, "`assessed`, `no damage`, or `not inspected` (priced at nothing)"),
    Column::new("assessor", Kind::Text, "whose count it is"),
    Column::new("role", Kind::Text, "own, second, agreed or supplement"),
    Column::new("counts", Kind::Text, "dents by size band of the schedule; `-` is none written"),
    Column::new("dents", Kind::Count, "dents that are rated"),
    Column::new(
        "rated at size",
        Kind::Text,
        "size band for the whole panel, where the schedule's rule names one",
    ),
    Column::new("rated at count", Kind::Text, "count band for the whole panel, likewise"),
    Column::new("marks", Kind::Count, "marks written for it"),
    Column::new("marks not paid", Kind::Count, "of those, marks that are listed and not paid"),
    Column::new("method", Kind::Text, "what is to be done"),
    Column::new("decided by", Kind::Text, "the limit that decides; blank when none is crossed"),
    Column::new("limit cell", Kind::Text, "where it stands in the schedule"),
    Column::new("measured", Kind::Text, "what was measured against it"),
    Column::new("schedule decides", Kind::Text, "the schedule's method, where a person overruled it"),
    Column::new("overruled by", Kind::Text, "who"),
    Column::new("reason", Kind::Text, "why"),
    Column::new("difference", Kind::Money, "what the overrule adds, where both methods are priced"),
    Column::new("open because", Kind::Text, "why its amount is in no total"),
    Column::new("currency", Kind::Text, "ISO 4217 code"),
    Column::new("paintless", Kind::Money, "amount of paintless repair; blank is not priced"),
    Column::new("paintless then refinish", Kind::Money, "likewise"),
    Column::new("conventional", Kind::Money, "likewise"),
    Column::new("replace", Kind::Money, "likewise"),
    Column::new("amount", Kind::Money, "what enters the claim's totals; blank for an open panel"),
    Column::new(
        "amount at low end",
        Kind::Money,
        "where dents are estimated: with every estimate at its lower end",
    ),
    Column::new("amount at high end", Kind::Money, "likewise at its upper end"),
    Column::new(
        "typical prices",
        Kind::Text,
        "`yes` when a typical price of the schedule stands in the method decided",
    ),
    Column::new("row", Kind::Text, "first row of the panel in the claim's sheets"),
];

/// The rows of a claim.
pub fn rows(subject: &Subject<'_>) -> Vec<Vec<Field>> {
    subject.assessment.panels.iter().map(|panel| row(panel, subject)).collect()
}

fn row(panel: &PanelAssessment, subject: &Subject<'_>) -> Vec<Field> {
    let (claim, schedule) = (subject.claim, subject.schedule);
    let inspection = claim.inspections.get(panel.inspection);
    let written = inspection.and_then(|inspection| inspection.panels.get(panel.index));
    let deciding = panel.decided_by.and_then(|index| panel.findings.get(index));
    let limit = deciding.and_then(|finding| schedule.limits.get(finding.limit));
    let overrule = panel.overruled.as_ref();
    let person: Option<&Overrule> = overrule.and_then(|overruled| claim.overrules.get(overruled.overrule));
    let amount = |method: Method| {
        let alternative = panel.alternatives.iter().find(|alternative| alternative.method == method);
        Field::money(alternative.and_then(|alternative| alternative.amount.ok()))
    };
    let range = subject.assessment.range.as_ref();
    let not_paid = panel.marks.iter().filter(|mark| matches!(mark, MarkAssessment::Excluded)).count();
    vec![
        Field::text(claim.key.text.clone()),
        Field::text(panel.panel.to_string()),
        Field::text(
            panel
                .group
                .and_then(|group| schedule.groups.get(usize::from(group.0)))
                .cloned()
                .unwrap_or_default(),
        ),
        Field::text(state(panel.state)),
        inspection.map_or(Field::Blank, |inspection| Field::written(inspection.assessor.as_ref())),
        inspection.map_or(Field::Blank, |inspection| Field::text(inspection.role().name())),
        Field::text(counts(panel, subject)),
        Field::Count(u64::from(panel.dents)),
        panel.rated_at.map_or(Field::Blank, |(size, _)| Field::text(schedule.sizes[size].name.clone())),
        panel.rated_at.map_or(Field::Blank, |(_, count)| Field::text(schedule.counts[count].name.clone())),
        Field::count(panel.marks.len()),
        Field::count(not_paid),
        Field::text(panel.method.name()),
        limit.map_or(Field::Blank, |limit| Field::text(limit.name.clone())),
        limit.map_or(Field::Blank, |limit| Field::text(subject.sources.short(limit.place))),
        deciding.map_or(Field::Blank, |finding| Field::text(wording::measured(finding))),
        overrule.map_or(Field::Blank, |overruled| Field::text(overruled.schedule_says.name())),
        person.map_or(Field::Blank, |overrule| Field::written(overrule.by.as_ref())),
        person.map_or(Field::Blank, |overrule| Field::written(overrule.reason.as_ref())),
        Field::money(overrule.and_then(|overruled| overruled.difference)),
        panel.open.map_or(Field::Blank, |reason| Field::text(wording::open(reason, subject))),
        Field::text(subject.assessment.currency.code()),
        amount(Method::Paintless),
        amount(Method::RefinishAfter),
        amount(Method::Conventional),
        amount(Method::Replace),
        Field::money(panel.amount()),
        end(panel, range.and_then(|range| range.low.as_ref())),
        end(panel, range.and_then(|range| range.high.as_ref())),
        Field::yes(panel.chosen().is_some_and(|chosen| chosen.typical)),
        written.map_or(Field::Blank, |written| Field::text(subject.sources.short(written.place))),
    ]
}

/// The amount of an estimated panel at one end.
fn end(panel: &PanelAssessment, end: Option<&AtEnd>) -> Field {
    let found = end.and_then(|end| end.panels.iter().find(|(of, _, _)| *of == panel.panel));
    Field::money(found.and_then(|(_, _, amount)| *amount))
}

/// The words for a panel's state.
pub(crate) const fn state(state: PanelState) -> &'static str {
    match state {
        PanelState::NotInspected => "not inspected",
        PanelState::NoDamage => "no damage",
        PanelState::Assessed => "assessed",
    }
}

/// `0-10 mm: 12; 10-20 mm: -`: the four kinds of count stay apart.
fn counts(panel: &PanelAssessment, subject: &Subject<'_>) -> String {
    if panel.state == PanelState::NotInspected {
        return String::new();
    }
    let sizes = subject.schedule.sizes.iter().zip(&panel.counts);
    let parts: Vec<String> = sizes
        .map(|(band, size)| {
            let mut count = match &size.count {
                Counted::NoneWritten => "-".to_owned(),
                Counted::Counted(dents) => dents.to_string(),
                Counted::Estimated { low, best: Some(best), high: Some(high), how } => {
                    format!("estimated {best} ({low} to {high}) from {how}")
                }
                Counted::Estimated { how, .. } => format!("estimated {how}"),
                Counted::Open => "open".to_owned(),
            };
            if size.from_marks > 0 {
                let _ = write!(count, " and {} measured", size.from_marks);
            }
            format!("{}: {count}", band.name)
        })
        .collect();
    parts.join("; ")
}

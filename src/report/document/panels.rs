use super::{Figure, Filling};
use crate::assess::{MarkAssessment, PanelAssessment, PanelState, SizeCount};
use crate::claim::PanelCount;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// Every panel with its counts by size band, method and amount.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelTable {
    /// Names of the size bands, as the schedule has them.
    pub sizes: Vec<String>,
    /// Whether any panel has marks that are rated by themselves.
    pub marks: bool,
    /// Columns that a panel without counts leaves empty: sizes, dents in all, marks.
    pub spanned: usize,
    /// The panels, in document order.
    pub rows: Vec<PanelRow>,
    /// What the signs in the table mean, those that are used.
    pub keys: Vec<&'static str>,
    /// The edges of the size bands that are not said by their names.
    pub bands: Option<String>,
}

/// One panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelRow {
    /// Its name.
    pub name: String,
    /// What makes its work different, and whose count it is where that is not the inspection's own.
    pub about: Option<String>,
    /// Counts by size band; `None` when nobody inspected it.
    pub counts: Option<Vec<String>>,
    /// Dents in all.
    pub dents: Option<String>,
    /// Marks rated by themselves.
    pub marks: Option<String>,
    /// What is to be done, in words.
    pub method: String,
    /// Whether it enters no total.
    pub open: bool,
    /// The amount that enters the totals.
    pub amount: Option<Figure>,
}

pub(super) fn panels(filling: &Filling<'_>) -> PanelTable {
    let subject = &filling.subject;
    let rows: Vec<PanelRow> = subject.assessment.panels.iter().map(|panel| row(panel, filling)).collect();
    let mut keys = Vec::new();
    let cells = || rows.iter().filter_map(|row| row.counts.as_ref()).flatten();
    if cells().any(|cell| cell == "\u{2013}") {
        keys.push(LABELS.dash_key);
    }
    if cells().any(|cell| cell.contains('+')) {
        keys.push(LABELS.plus_key);
    }
    let marks = rows.iter().any(|row| row.marks.is_some());
    if marks {
        keys.push(LABELS.marks_key);
    }
    let sizes: Vec<String> = subject.schedule.sizes.iter().map(|band| wording::said(&band.name)).collect();
    let bands = wording::size_bands(subject.schedule);
    PanelTable { spanned: sizes.len() + 1 + usize::from(marks), sizes, marks, rows, keys, bands }
}

fn row(panel: &PanelAssessment, filling: &Filling<'_>) -> PanelRow {
    let inspected = panel.state != PanelState::NotInspected;
    let by_themselves = |mark: &&MarkAssessment| {
        matches!(mark, MarkAssessment::Rated | MarkAssessment::Noted | MarkAssessment::NotPriced)
    };
    let marks = panel.marks.iter().filter(by_themselves).count();
    PanelRow {
        name: wording::sentence(&panel.panel.to_string()),
        about: about(panel, filling),
        counts: inspected.then(|| panel.counts.iter().map(count).collect()),
        dents: inspected.then(|| wording::number(panel.dents.into())),
        marks: (marks > 0).then(|| marks.to_string()),
        method: wording::method_of(panel),
        open: panel.open.is_some(),
        amount: panel.amount().map(|money| Figure(money, filling.subject.words)),
    }
}

/// A count as written, and what marks of that size add to it.
fn count(size: &SizeCount) -> String {
    let counted = wording::count(&size.count);
    match (size.from_marks, counted.as_str()) {
        (0, _) => counted,
        (marks, "\u{2013}" | "0") => format!("0 + {marks}"),
        (marks, _) => format!("{counted} + {marks}"),
    }
}

fn about(panel: &PanelAssessment, filling: &Filling<'_>) -> Option<String> {
    let subject = &filling.subject;
    let inspection = subject.claim.inspections.get(panel.inspection)?;
    let mut parts: Vec<String> =
        inspection.panels.get(panel.index).map(attributes).into_iter().flatten().collect();
    let range = subject.assessment.range.as_ref();
    parts.extend(range.and_then(|range| wording::panel_range(panel.panel, panel.method, range)));
    if subject.assessment.inspection.is_some_and(|own| own != panel.inspection) {
        parts.push(wording::overlay(inspection));
    }
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// What was written of a panel beyond its counts.
pub(super) fn attributes(panel: &PanelCount) -> Vec<String> {
    let attributes = [
        panel.material.map(|material| material.value.name().to_owned()),
        panel.access.map(|access| format!("access: {}", access.value)),
        panel.paint.map(|paint| format!("paint {}", paint.value)),
        panel.depth.map(|depth| format!("{} dents", depth.value)),
        panel.position.map(|position| format!("on {}", position.value)),
        panel.frame.map(|frame| format!("counted in a frame of {}", frame.value)),
    ];
    attributes.into_iter().flatten().collect()
}

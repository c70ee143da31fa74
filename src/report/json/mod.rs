//! A claim's whole assessment as data: one line of `assessments.jsonl`, and what `explain --json` prints.
//!
//! Amounts, hours and lengths are strings in plain decimal form; places are strings as in the tables. `format` changes
//! when a field changes its meaning or goes away; a field more does not change it.

mod enclosed;
mod money;
mod panel;
mod problem;
mod working;
mod written;

pub use problem::ProblemView;

use super::Subject;
use super::run_record::FORMAT;
use super::supplement::Change;
use super::tables::{Run, claims};
use crate::assess::{Assessment, Caution, DateOrigin, ExclusionReason, Note};
use crate::batch::Done;
use crate::claim::PanelId;
use crate::schedule::Schedule;
use money::{LabourView, RangeView, ScreenView, SettlementView, TitleView, TotalsView};
use panel::{LineView, PanelView};
use serde::Serialize;
use working::StepView;
use written::{Cells, WrittenView};

/// A claim with what was written, what came out, and what is wrong.
#[derive(Debug, Serialize)]
pub struct ClaimView {
    format: u32,
    claim: String,
    known_by: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    document: Option<String>,
    written: WrittenView,
    /// Missing when the claim is not priced.
    #[serde(skip_serializing_if = "Option::is_none")]
    assessment: Option<AssessmentView>,
    /// What changed since the agreed version, where one was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    supplement: Option<Change>,
    problems: Vec<ProblemView>,
}

/// What came out.
#[derive(Debug, Serialize)]
struct AssessmentView {
    document_kind: &'static str,
    outcome: &'static str,
    schedule: ScheduleView,
    currency: &'static str,
    /// Numbers of inspections as `written` lists them.
    #[serde(skip_serializing_if = "Option::is_none")]
    inspection: Option<usize>,
    overlays: Vec<usize>,
    panels: Vec<PanelView>,
    /// Every line that enters the totals; they sum to `net`.
    lines: Vec<LineView>,
    /// Numbers of items as `written` lists them.
    open_items: Vec<usize>,
    not_paid: Vec<NotPaidView>,
    totals: TotalsView,
    total_loss_screen: ScreenView,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    title_notes: Vec<TitleView>,
    settlement: SettlementView,
    /// What estimates leave open.
    #[serde(skip_serializing_if = "Option::is_none")]
    estimate: Option<RangeView>,
    labour: Vec<LabourView>,
    cautions: Vec<String>,
    notes: Vec<NoteView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    working: Option<Vec<StepView>>,
}

#[derive(Debug, Serialize)]
struct ScheduleView {
    name: String,
    edition: String,
    digest: String,
    chosen_by_date: String,
    date_is: &'static str,
}

#[derive(Debug, Serialize)]
struct NotPaidView {
    panel: String,
    /// Number of the mark on that panel, from 0.
    mark: usize,
    reason: &'static str,
    at: String,
}

/// How the claim was understood.
#[derive(Debug, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
enum NoteView {
    PanelsNotListed { panels: Vec<String> },
    NoneWritten { cells: u32 },
    SizeTakenAs { at: String, written: String, size: String },
    SecondInspection { inspection: usize },
    NotOversize { panel: String, mark: usize },
    MoreCouldBeLess { panel: String },
    MinimumWaits { minimum: String },
}

impl ClaimView {
    /// What became of a claim; `document` is its path in the output.
    pub fn new(done: &Done<'_>, document: Option<&str>, run: &Run<'_>) -> Self {
        let claim = &done.intake.claim;
        Self {
            format: FORMAT,
            claim: claim.key.text.clone(),
            known_by: claim.key.kind.words(),
            document: document.map(str::to_owned),
            written: WrittenView::new(claim, run.sources),
            assessment: run.subject(done).map(|subject| assessment(&subject)),
            supplement: None,
            problems: done
                .problems()
                .map(|problem| ProblemView::new(problem, Some(&claim.key.text), run.sources))
                .collect(),
        }
    }

    /// The job's key.
    pub fn key(&self) -> &str {
        &self.claim
    }

    /// Adds what changed since the agreed version.
    #[must_use]
    pub fn supplemented(mut self, change: Change) -> Self {
        self.supplement = Some(change);
        self
    }

    /// Leaves out the panels that are not named, and their lines.
    pub fn keep_panels(&mut self, panels: &[PanelId]) {
        let names: Vec<String> = panels.iter().map(ToString::to_string).collect();
        if let Some(assessment) = &mut self.assessment {
            assessment.panels.retain(|panel| names.iter().any(|name| panel.is(name)));
            assessment.lines.retain(|line| names.iter().any(|name| line.is_of(name)));
        }
    }

    /// One line of JSON, without its end.
    pub fn to_line(&self) -> serde_json::Result<Vec<u8>> {
        serde_json::to_vec(self)
    }
}

fn assessment(subject: &Subject<'_>) -> AssessmentView {
    let assessment = subject.assessment;
    let cells = Cells(subject.sources);
    AssessmentView {
        document_kind: claims::kind(assessment.kind),
        outcome: assessment.outcome.words(),
        schedule: schedule(assessment, subject.schedule),
        currency: assessment.currency.code(),
        inspection: assessment.inspection,
        overlays: assessment.overlays.clone(),
        panels: assessment.panels.iter().map(|panel| PanelView::new(panel, subject)).collect(),
        lines: assessment
            .lines()
            .map(|line| LineView::new(line.line, Some(line.number), line.panel, subject))
            .collect(),
        open_items: assessment.open_items.iter().map(|open| open.item).collect(),
        not_paid: assessment
            .excluded
            .iter()
            .map(|excluded| NotPaidView {
                panel: excluded.panel.to_string(),
                mark: excluded.mark,
                reason: match excluded.reason {
                    ExclusionReason::NotDamage => "not damage",
                    ExclusionReason::OtherEvent => "another event",
                    ExclusionReason::Earlier => "earlier damage",
                },
                at: cells.at(excluded.place),
            })
            .collect(),
        totals: TotalsView::new(&assessment.totals, cells),
        total_loss_screen: ScreenView::new(&assessment.screen),
        title_notes: assessment
            .titles
            .iter()
            .map(|found| TitleView::new(found, subject.schedule, cells))
            .collect(),
        settlement: SettlementView::new(&assessment.settled),
        estimate: assessment.range.as_ref().map(RangeView::new),
        labour: assessment.hours.iter().map(|(class, hours)| LabourView::new(*class, *hours)).collect(),
        cautions: assessment.cautions.iter().map(|stated| caution(stated, subject.schedule)).collect(),
        notes: assessment.notes.iter().map(|noted| note(noted, subject)).collect(),
        working: assessment.working.as_ref().map(|working| working::steps(working, subject.schedule, cells)),
    }
}

fn schedule(assessment: &Assessment, schedule: &Schedule) -> ScheduleView {
    let (date, origin) = assessment.dated;
    ScheduleView {
        name: schedule.terms.name.value.clone(),
        edition: schedule.terms.edition.value.clone(),
        digest: schedule.digest.clone(),
        chosen_by_date: date.to_string(),
        date_is: match origin {
            DateOrigin::Loss => "date of loss",
            DateOrigin::Inspection => "date of inspection",
            DateOrigin::Run => "date of the run",
        },
    }
}

/// The word by which a schedule's operations ask for it, or the schedule's own words.
fn caution(caution: &Caution, schedule: &Schedule) -> String {
    match caution {
        Caution::Airbag => "airbag".to_owned(),
        Caution::HighVoltage => "high voltage".to_owned(),
        Caution::Calibration => "calibration".to_owned(),
        Caution::Structural => "structural".to_owned(),
        Caution::Heat => "heat".to_owned(),
        Caution::Glass => "glass".to_owned(),
        Caution::Chemicals => "chemicals".to_owned(),
        Caution::Stated(operation) => schedule
            .operations
            .get(*operation)
            .and_then(|operation| operation.caution.as_ref())
            .map(|caution| caution.value.clone())
            .unwrap_or_default(),
    }
}

fn note(note: &Note, subject: &Subject<'_>) -> NoteView {
    match note {
        Note::PanelsNotListed(panels) => {
            NoteView::PanelsNotListed { panels: panels.iter().map(ToString::to_string).collect() }
        }
        Note::NoneWritten(cells) => NoteView::NoneWritten { cells: *cells },
        Note::SizeTakenAs { place, heading, band } => NoteView::SizeTakenAs {
            at: subject.sources.short(*place),
            written: heading.clone(),
            size: subject.schedule.sizes[*band].name.clone(),
        },
        Note::SecondInspection(inspection) => NoteView::SecondInspection { inspection: *inspection },
        Note::NotOversize(panel, mark) => NoteView::NotOversize { panel: panel.to_string(), mark: *mark },
        Note::MoreCouldBeLess(panel) => NoteView::MoreCouldBeLess { panel: panel.to_string() },
        Note::MinimumWaits(minimum) => NoteView::MinimumWaits { minimum: minimum.to_string() },
    }
}

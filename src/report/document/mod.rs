//! The one neutral model of a document: filled once from an assessment, drawn by every format, so that all of them say the
//! same figures and words in the same order. No amount is computed here: amounts are the assessment's own, wrapped as
//! [`Figure`]s, and everything else is text from [`super::wording`].

mod annex;
mod block;
mod cite;
mod decisions;
mod facts;
mod figure;
mod lines;
mod listed;
mod offer;
mod owner_sheet;
mod panels;
mod provenance;
mod refs;
mod summary;
mod supplement;
mod work_order;

pub use annex::{Annex, AnnexSection, AnnexStep, Span, StepWords};
pub use block::{Column, Entry, Fact, FactGroup, Figure, Table};
pub use decisions::{Choice, Decision, Decisions};
pub use figure::{PanelFigure, Plate, PlateLine};
pub use lines::{LineGroup, LineRow, Lines, Total};
pub use offer::Offer;
pub use owner_sheet::{OwnerSheet, owner_sheet};
pub use panels::{PanelRow, PanelTable};
pub use provenance::{FileRow, Provenance};
pub use summary::{Head, Summary};
pub use supplement::{LineThenNow, PanelThenNow, SupplementPage, ThenNow, supplement_page};
pub use work_order::{Heed, PanelWork, Task, WorkOrder, work_order};

use super::Subject;
use super::wording::{self, label::LABELS};
use crate::assess::{DateOrigin, JobKind, Rule, StepId};
use crate::claim::Place;
use crate::quantity::Date;
use serde::Serialize;

/// What a document says of its own making.
#[derive(Debug, Clone, Copy)]
pub struct Imprint<'a> {
    /// The tool's version, as in `0.1.0`.
    pub tool_version: &'a str,
    /// The date of the document, where one was given. There is no clock here.
    pub run_date: Option<Date>,
}

/// A claim file or a quotation, ready to be drawn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Document {
    /// `claim` or `quotation`.
    pub kind: Kind,
    /// Language of our own words, as in BCP 47.
    pub language: &'static str,
    /// Currency of every amount, by its ISO 4217 code.
    pub currency: &'static str,
    /// What it is and whom it concerns.
    pub head: Head,
    /// What a reader wants to know first.
    pub summary: Summary,
    /// Vehicle, loss, parties, inspection.
    pub facts: Vec<FactGroup>,
    /// Every panel with its counts, method and amount.
    pub panels: PanelTable,
    /// The panels as plates, where there are several.
    pub figure: Option<PanelFigure>,
    /// Every amount, numbered, and what they add up to.
    pub lines: Lines,
    /// The alternatives of each panel side by side, and why one was taken.
    pub decisions: Decisions,
    /// Marks that are paid for.
    pub marks: Option<Table>,
    /// Marks that are not.
    pub excluded: Option<Table>,
    /// Everything else that was written: items, prices, overrules, what was paid before, photographs, remarks.
    pub lists: Vec<Table>,
    /// What reading and assessing found worth a look.
    pub look_at: Vec<String>,
    /// How the claim was understood.
    pub notes: Vec<String>,
    /// What to heed, and who decides: what it is about, and the caution.
    pub cautions: Vec<(String, String)>,
    /// Whose amounts these are and what local law decides.
    pub standing: &'static str,
    /// What a customer is offered; only on a quotation.
    pub offer: Option<Offer>,
    /// The working, when it was recorded.
    pub annex: Option<Annex>,
    /// Schedule, files and tool.
    pub provenance: Provenance,
    /// Who signs.
    pub signatures: Vec<&'static str>,
}

/// Which document it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// For an insurer.
    Claim,
    /// For a customer who pays.
    Quotation,
}

/// What every part of a document is filled from.
struct Filling<'a> {
    subject: Subject<'a>,
    imprint: Imprint<'a>,
    refs: refs::Refs,
    sheets: cite::Sheets,
}

impl Filling<'_> {
    /// The day that a document bears: its own, else that of the inspection it rests on.
    fn day(&self) -> Option<(Date, DateOrigin)> {
        let inspections = &self.subject.claim.inspections;
        let inspected = || inspections.get(self.subject.assessment.inspection?)?.date;
        let run = self.imprint.run_date.map(|day| (day, DateOrigin::Run));
        run.or_else(|| inspected().map(|day| (day.value, DateOrigin::Inspection)))
    }

    /// A cell in short.
    fn cell(&self, place: Place) -> String {
        self.sheets.cell(place, self.subject.sources)
    }

    /// The last step made by a rule: where several are added up, their sum.
    fn last_step(&self, rule: Rule) -> Option<StepId> {
        let steps = &self.subject.assessment.working.as_ref()?.steps;
        let index = steps.iter().rposition(|step| step.rule == rule)?;
        u32::try_from(index).ok().map(StepId)
    }
}

fn filling<'a>(subject: &Subject<'a>, imprint: &Imprint<'a>) -> Filling<'a> {
    Filling {
        subject: *subject,
        imprint: *imprint,
        refs: refs::Refs::of(subject.assessment),
        sheets: cite::Sheets::of(subject),
    }
}

/// Where nothing is cited: neither steps nor cells have short names.
fn plain<'a>(subject: &Subject<'a>, imprint: &Imprint<'a>) -> Filling<'a> {
    let (refs, sheets) = (refs::Refs::default(), cite::Sheets::default());
    Filling { subject: *subject, imprint: *imprint, refs, sheets }
}

/// The steps of a claim's working in words, by their numbers: with the names that its document gives them.
pub fn steps_in_words(subject: &Subject<'_>, imprint: &Imprint<'_>) -> Vec<StepWords> {
    annex::in_words(&filling(subject, imprint))
}

/// Fills the document that a claim asks for: a claim file, or a quotation where there is no insurer.
pub fn fill(subject: &Subject<'_>, imprint: &Imprint<'_>) -> Document {
    let filling = filling(subject, imprint);
    let assessment = subject.assessment;
    let kind = match assessment.kind {
        JobKind::Claim => Kind::Claim,
        JobKind::Quotation => Kind::Quotation,
    };
    Document {
        kind,
        language: "en",
        currency: assessment.currency.code(),
        head: summary::head(&filling),
        summary: summary::summary(&filling),
        facts: facts::facts(&filling),
        panels: panels::panels(&filling),
        figure: figure::figure(&filling),
        lines: lines::lines(&filling),
        decisions: decisions::decisions(&filling),
        marks: listed::marks(&filling),
        excluded: listed::excluded(&filling),
        lists: listed::lists(&filling),
        look_at: listed::look_at(&filling),
        notes: listed::notes(&filling),
        cautions: assessment.cautions.iter().map(|caution| wording::caution(caution, subject)).collect(),
        standing: wording::standing_caution(),
        offer: (kind == Kind::Quotation).then(|| offer::offer(&filling)),
        annex: annex::annex(&filling),
        provenance: provenance::provenance(&filling),
        signatures: match kind {
            Kind::Claim => vec![LABELS.assessor, LABELS.owner_or_agent, LABELS.for_insurer],
            Kind::Quotation => vec![LABELS.customer],
        },
    }
}

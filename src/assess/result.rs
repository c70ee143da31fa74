use super::{
    Caution, Excluded, Line, Note, PanelAssessment, Range, Screen, Settled, TitleFinding, Totals, Working,
};
use crate::claim::{JobKey, Method, PanelId};
use crate::problem::Problem;
use crate::quantity::{Currency, Date, Hours};
use crate::schedule::LabourClass;

/// Which document a job asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JobKind {
    /// A claim on an insurer.
    Claim,
    /// A price for a customer without one.
    Quotation,
}

/// Which date chose the schedule's edition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateOrigin {
    /// The date of loss.
    Loss,
    /// The date of inspection.
    Inspection,
    /// The run's own date.
    Run,
}

/// The claim in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Nothing that is paid was found.
    NothingFound,
    /// To be repaired.
    Repair,
    /// A person has to look at open panels or items first.
    NeedsAPerson,
    /// The screen is reached.
    ProbableTotalLoss,
}

impl Outcome {
    /// Every outcome, in the order of summaries.
    pub const ALL: [Self; 4] =
        [Self::Repair, Self::NeedsAPerson, Self::ProbableTotalLoss, Self::NothingFound];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NothingFound => "nothing found",
            Self::Repair => "repair",
            Self::NeedsAPerson => "needs a person",
            Self::ProbableTotalLoss => "probable total loss",
        }
    }
}

/// Why an item could not be priced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ItemUnpriced {
    /// Neither a price nor a time is written.
    NothingWritten,
    /// It has a time, and the schedule has no rate for removing and refitting.
    NoLabourRate,
}

/// An item that could not be priced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OpenItem {
    /// Its number in the claim.
    pub item: usize,
    /// Why.
    pub why: ItemUnpriced,
}

/// A line of the claim with its number on every document.
#[derive(Debug, Clone, Copy)]
pub struct NumberedLine<'a> {
    /// From 1, in document order.
    pub number: usize,
    /// The panel it belongs to; `None` for the vehicle.
    pub panel: Option<PanelId>,
    /// The line.
    pub line: &'a Line,
}

/// One claim, assessed. Open panels and items enter no total.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The claim's key.
    pub key: JobKey,
    /// Claim or quotation.
    pub kind: JobKind,
    /// Number of its schedule in the run.
    pub schedule: usize,
    /// The date that chose the schedule, and which date that is.
    pub dated: (Date, DateOrigin),
    /// Currency of every amount.
    pub currency: Currency,
    /// The inspection that was assessed, by its number in the claim; `None` without one.
    pub inspection: Option<usize>,
    /// Agreed and supplementary inspections whose panels replace it.
    pub overlays: Vec<usize>,
    /// Panels in document order.
    pub panels: Vec<PanelAssessment>,
    /// Lines of the vehicle: operations, items, minimum, discount.
    pub vehicle_lines: Vec<Line>,
    /// Items that are not priced.
    pub open_items: Vec<OpenItem>,
    /// Marks that are not paid.
    pub excluded: Vec<Excluded>,
    /// Net, tax, gross.
    pub totals: Totals,
    /// The total-loss screen.
    pub screen: Screen,
    /// What the law of the place of registration notes on the title, rule by rule.
    pub titles: Vec<TitleFinding>,
    /// Who pays what.
    pub settled: Settled,
    /// The claim in one word.
    pub outcome: Outcome,
    /// Labour by class, over the lines that enter the totals.
    pub hours: Vec<(LabourClass, Hours)>,
    /// What estimates of its dents leave open; `None` where nothing is estimated.
    pub range: Option<Range>,
    /// Cautions that apply, in their order.
    pub cautions: Vec<Caution>,
    /// How the claim was understood.
    pub notes: Vec<Note>,
    /// Warnings and notes of assessing.
    pub problems: Vec<Problem>,
    /// Every step, when it was recorded.
    pub working: Option<Working>,
}

impl Assessment {
    /// Every line that enters the totals, numbered: panel by panel, then the vehicle's.
    pub fn lines(&self) -> impl Iterator<Item = NumberedLine<'_>> {
        self.panels
            .iter()
            .filter(|panel| panel.open.is_none())
            .filter_map(|panel| panel.chosen().map(|chosen| (panel.panel, chosen)))
            .flat_map(|(panel, chosen)| chosen.lines.iter().map(move |line| (Some(panel), line)))
            .chain(self.vehicle_lines.iter().map(|line| (None, line)))
            .enumerate()
            .map(|(index, (panel, line))| NumberedLine { number: index + 1, panel, line })
    }

    /// Panels that enter no total.
    pub fn open_panels(&self) -> impl Iterator<Item = &PanelAssessment> {
        self.panels.iter().filter(|panel| panel.open.is_some())
    }

    /// Panels to be worked on by a method, open ones included.
    pub fn panels_by(&self, method: Method) -> impl Iterator<Item = &PanelAssessment> {
        self.panels.iter().filter(move |panel| panel.method == method)
    }
}

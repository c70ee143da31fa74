use super::{Finding, Line, StepId};
use crate::claim::{Counted, Method, PanelId, Place};
use crate::quantity::Money;
use crate::schedule::GroupId;

/// The count of one size band of the schedule on one panel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SizeCount {
    /// What the sheets say: several columns inside one band are added; no column at all is none written.
    pub count: Counted,
    /// Dents that marks of this size add.
    pub from_marks: u32,
    /// The cells it comes from.
    pub cells: Vec<Place>,
}

impl SizeCount {
    /// Dents that are rated.
    pub fn dents(&self) -> u32 {
        let counted = match &self.count {
            Counted::Counted(dents) => *dents,
            Counted::Estimated { best: Some(best), .. } => *best,
            Counted::Estimated { .. } | Counted::NoneWritten | Counted::Open => 0,
        };
        counted.saturating_add(self.from_marks)
    }
}

/// What became of a mark.
#[derive(Debug, Clone, PartialEq)]
pub enum MarkAssessment {
    /// Counted with the dents of a size band.
    Counted(usize),
    /// Rated by itself.
    Rated,
    /// No amount by itself: it only bears on a limit (broken paint).
    Noted,
    /// Not paid; the reason stands among the exclusions.
    Excluded,
    /// No rate holds for it: the panel is open.
    NotPriced,
}

/// Whether anything can be said of a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PanelState {
    /// Nobody wrote a number or a mark: priced at nothing, and said so.
    NotInspected,
    /// Inspected, nothing that is paid was found.
    NoDamage,
    /// Rated and decided.
    Assessed,
}

/// Why a way of repair has no amount.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unpriced {
    /// The schedule does not list this kind of panel.
    NoPanelTerms,
    /// More dents than the last count band.
    BeyondCounts,
    /// The grid has no cell there.
    NoGridCell {
        /// Size band.
        size: usize,
        /// Count band.
        count: usize,
    },
    /// No rate for a mark, by its number on the panel.
    NoMarkRate(usize),
    /// No price of the part.
    NoPart,
    /// No time to fit it.
    NoFitting,
    /// No conventional repair time.
    NoConventional,
    /// No refinish time.
    NoRefinish,
    /// The labour rate it needs is not in the schedule.
    NoLabourRate,
}

/// One way of repair with its amount, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// Which way.
    pub method: Method,
    /// Its lines, as far as they could be priced.
    pub lines: Vec<Line>,
    /// Their sum, or what is missing.
    pub amount: Result<Money, Unpriced>,
    /// Whether a typical price of the schedule stands in it.
    pub typical: bool,
    /// Step of the sum of its lines, as far as they could be priced.
    pub step: StepId,
}

/// A person's decision in place of the schedule's.
#[derive(Debug, Clone, PartialEq)]
pub struct Overruled {
    /// The overrule, by its number in the claim.
    pub overrule: usize,
    /// What the schedule decides.
    pub schedule_says: Method,
    /// Amount of the person's method less that of the schedule's, where both are priced.
    pub difference: Option<Money>,
}

/// Why a panel enters no total.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OpenReason {
    /// It is referred to a person.
    Referred,
    /// The decided method is not priced.
    NotPriced(Unpriced),
}

/// One panel, counted, banded, rated and decided.
#[derive(Debug, Clone, PartialEq)]
pub struct PanelAssessment {
    /// Which panel.
    pub panel: PanelId,
    /// The inspection it was taken from, by its number in the claim.
    pub inspection: usize,
    /// Its number in that inspection's panels.
    pub index: usize,
    /// The group it is rated as, when the schedule knows it.
    pub group: Option<GroupId>,
    /// Whether anything can be said of it.
    pub state: PanelState,
    /// Counts, one for each size band of the schedule.
    pub counts: Vec<SizeCount>,
    /// Dents in all, rated ones only.
    pub dents: u32,
    /// The size band and count band the panel is rated at, where the rule names one for the whole panel.
    pub rated_at: Option<(usize, usize)>,
    /// What became of each mark, in the order of the inspection.
    pub marks: Vec<MarkAssessment>,
    /// Every limit that holds for the panel, evaluated.
    pub findings: Vec<Finding>,
    /// Every way of repair, in the order of [`Method`].
    pub alternatives: Vec<Alternative>,
    /// What is to be done.
    pub method: Method,
    /// The finding that decided it, by its number; none when no limit is crossed.
    pub decided_by: Option<usize>,
    /// A person's decision, where there is one.
    pub overruled: Option<Overruled>,
    /// Why it enters no total; `None` when it does.
    pub open: Option<OpenReason>,
}

impl PanelAssessment {
    /// Whether its dents were counted in a part of it and scaled.
    pub fn is_estimated(&self) -> bool {
        self.counts.iter().any(|count| matches!(count.count, Counted::Estimated { .. }))
    }

    /// The way of repair that was decided, if it is one that has lines.
    pub fn chosen(&self) -> Option<&Alternative> {
        self.alternatives.iter().find(|alternative| alternative.method == self.method)
    }

    /// The amount that enters the totals: the chosen one's, unless the panel is open.
    pub fn amount(&self) -> Option<Money> {
        if self.open.is_some() { None } else { self.chosen().and_then(|chosen| chosen.amount.ok()) }
    }
}

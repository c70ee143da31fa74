use crate::claim::{Method, PanelId};
use crate::compare::agree::Proposal;
use crate::quantity::Money;

/// One look at a panel that is to be agreed on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DisputedLook {
    /// Who, by number.
    pub assessor: usize,
    /// Dents in each size band of the schedule; none where the panel was not inspected.
    pub counts: Option<Box<[u32]>>,
    /// What is to be done; none where the panel was not inspected.
    pub method: Option<Method>,
    /// What the panel comes to, where it is priced.
    pub amount: Option<Money>,
}

/// What is cheapest to look at again on a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Recount {
    /// Count this size band: only there do the counts differ, or there most.
    Band {
        /// Size band of the schedule.
        size: usize,
        /// Largest count less the smallest.
        apart: u32,
        /// Whether the counts of all other bands are equal.
        only: bool,
    },
    /// The counts are equal: look at what was noted of the panel, or at the marks.
    Notes,
    /// A look did not inspect the panel: inspect it.
    Inspect,
}

/// A panel of which the amount or the method differs between looks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Disputed {
    /// Which panel.
    pub panel: PanelId,
    /// Every look at the car, in the order of the car's looks.
    pub looks: Vec<DisputedLook>,
    /// Largest amount less the smallest, of the looks that are priced.
    pub at_stake: Option<Money>,
    /// What is cheapest to look at again.
    pub recount: Recount,
    /// A proposed count for each size band, by the median of the looks that inspected it; a proposal, never an entry.
    pub proposed: Vec<Proposal>,
}

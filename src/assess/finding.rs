use crate::claim::{Access, Depth, Material, Paint, Place};
use crate::quantity::{Length, Money};

/// What was measured against a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// The panel's material.
    Material(Material),
    /// State of the paint.
    Paint(Paint),
    /// Access.
    Access(Access),
    /// Depth.
    Depth(Depth),
    /// The longest mark of the limit's kind.
    Length(Length),
    /// Dents, of all sizes or of the limit's size and larger.
    Dents(u32),
    /// The paintless amount, the amount it is compared with, and the share of that at which the limit is crossed.
    Amounts {
        /// The paintless amount.
        paintless: Money,
        /// Replacing or conventional repair.
        other: Money,
        /// The limit's share of it.
        threshold: Money,
    },
    /// Nothing of the kind was written or found on this panel.
    Nothing,
}

/// Whether a limit is crossed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Crossing {
    /// Not reached.
    No,
    /// Crossed: its consequence counts.
    Yes,
    /// An amount that it needs is not priced.
    CannotTell,
}

/// One limit, evaluated on one panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The limit, by its number in the schedule's list (from 0).
    pub limit: usize,
    /// What was measured.
    pub measured: Measured,
    /// Whether it is crossed.
    pub crossing: Crossing,
    /// Cells of the claim that the measure rests on.
    pub cells: Vec<Place>,
}

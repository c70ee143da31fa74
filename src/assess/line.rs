use super::StepId;
use crate::claim::{PanelId, Place, Side};
use crate::quantity::{Decimal, Hours, Money, Percent};
use crate::schedule::LabourClass;

/// What a line is for. Numbers count in the claim's or the schedule's lists; the report words them.
#[derive(Debug, Clone, PartialEq)]
pub enum LineKind {
    /// Dents of a panel at a size band and count band of the grid.
    Dents {
        /// Size band.
        size: usize,
        /// Count band.
        count: usize,
        /// Dents it is for.
        dents: u32,
    },
    /// Dents weighted into equivalents of a size band.
    Equivalents {
        /// Size band.
        size: usize,
        /// Count band.
        count: usize,
        /// Weighted dents, exactly.
        equivalents: Decimal,
    },
    /// A mark, by its number in the panel's marks.
    Mark(usize),
    /// A mark beside a dearer one on the same panel: a share of its amount.
    FurtherMark {
        /// Its number in the panel's marks.
        mark: usize,
        /// The share.
        share: Percent,
    },
    /// A factor, by its number in the schedule.
    Factor(usize),
    /// Takes the factors down to the most that they add together.
    FactorCeiling,
    /// Tops the panel up to its floor.
    Floor,
    /// Takes the panel down to its cap.
    Cap,
    /// Brings a panel that factors took below zero up to nothing.
    UpToNothing,
    /// Paintless work that readies the panel for paint: a share of the full amount.
    Readying(Percent),
    /// Conventional repair time.
    ConventionalLabour,
    /// Time to fit a new part.
    FittingLabour,
    /// Time to refinish.
    RefinishLabour,
    /// Time to blend the neighbouring panels.
    BlendLabour,
    /// The new part.
    Part,
    /// Paint material.
    PaintMaterial,
    /// Labour of an operation, by its number in the schedule, with the panel or side it is charged for.
    OperationLabour {
        /// Which operation.
        operation: usize,
        /// The panel, when it is charged per panel.
        panel: Option<PanelId>,
        /// The side, when it is charged per side.
        side: Option<Side>,
    },
    /// Parts of an operation.
    OperationParts {
        /// Which operation.
        operation: usize,
        /// The panel, when it is charged per panel.
        panel: Option<PanelId>,
        /// The side, when it is charged per side.
        side: Option<Side>,
    },
    /// Price of an item, by its number in the claim.
    ItemPrice(usize),
    /// Labour of an item, by its number in the claim.
    ItemLabour(usize),
    /// Tops the vehicle up to its minimum.
    Minimum,
    /// One tax rate's part of the stated discount; negative.
    Discount(Percent),
}

impl LineKind {
    /// The size band and count band of the grid that a line stands at, where it is one of dents.
    pub const fn place_in_grid(&self) -> Option<(usize, usize)> {
        match self {
            Self::Dents { size, count, .. } | Self::Equivalents { size, count, .. } => Some((*size, *count)),
            _ => None,
        }
    }

    /// Whether it is labour, and so carries the tax of labour.
    pub(super) const fn is_labour(&self) -> bool {
        !matches!(
            self,
            Self::Part
                | Self::PaintMaterial
                | Self::OperationParts { .. }
                | Self::ItemPrice(_)
                | Self::Discount(_)
        )
    }
}

/// One amount, rounded: printed lines sum to printed totals.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is for.
    pub kind: LineKind,
    /// The amount without tax.
    pub amount: Money,
    /// Labour in it, where it is labour by time.
    pub hours: Option<(LabourClass, Hours)>,
    /// Rate of the tax on it.
    pub tax: Percent,
    /// The cell that its rate or price stands in.
    pub cite: Option<Place>,
    /// Its step in the working.
    pub step: StepId,
}

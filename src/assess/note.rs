use crate::claim::{PanelId, Place};
use crate::quantity::Money;

/// Why a mark is not paid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExclusionReason {
    /// Not damage: a factory pressing, an old repair.
    NotDamage,
    /// From another event.
    OtherEvent,
    /// There before the loss.
    Earlier,
}

/// Something that was written and is priced at nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Excluded {
    /// Its panel.
    pub panel: PanelId,
    /// The mark, by its number on that panel.
    pub mark: usize,
    /// Why.
    pub reason: ExclusionReason,
    /// Its row.
    pub place: Place,
}

/// A caution that belongs on the documents, by what calls for it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Work behind headliner, roof-rail or seat trim: airbags.
    Airbag,
    /// Hybrid, electric or fuel-cell vehicle.
    HighVoltage,
    /// Camera or radar behind something that is taken off or replaced.
    Calibration,
    /// A welded panel is cut or replaced.
    Structural,
    /// Heat on high-strength steel or aluminium.
    Heat,
    /// Glass is broken, taken out or protected.
    Glass,
    /// Solvents, adhesives and degreasers are used.
    Chemicals,
    /// The schedule's own words, from an operation (by its number).
    Stated(usize),
}

/// Something worth knowing about how the claim was understood; none of it moves an amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Note {
    /// Panels that this body type has and no sheet mentions.
    PanelsNotListed(Vec<PanelId>),
    /// Blank cells beside numbers, so many: rated as no dents.
    NoneWritten(u32),
    /// A column's edges were taken for a schedule band's edges that differ by one last printed digit, or its heading
    /// was inside a larger band: the heading as written and the band.
    SizeTakenAs {
        /// The heading's cell.
        place: Place,
        /// As written.
        heading: String,
        /// The band it was taken for.
        band: usize,
    },
    /// Somebody else's inspection, named and not added (by its number in the claim).
    SecondInspection(usize),
    /// A mark called oversize is not larger than the top band and was counted with the dents (panel, mark).
    NotOversize(PanelId, usize),
    /// One more dent would lower the amount of this panel under the schedule's rule.
    MoreCouldBeLess(PanelId),
    /// The vehicle's lines do not reach this minimum, which is not charged while panels or items are open.
    MinimumWaits(Money),
}

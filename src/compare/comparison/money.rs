use crate::claim::PanelId;
use crate::compare::money::{Cause, Share, Turned};
use crate::quantity::{Currency, Money};

/// A panel of the comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PanelRef {
    /// The car, by its number in [`super::Comparison::cars`].
    pub car: usize,
    /// The pair, by its number in the car.
    pub pair: usize,
    /// The panel, by its number in the pair.
    pub index: usize,
    /// Which panel.
    pub panel: PanelId,
    /// First minus second.
    pub difference: Money,
}

/// What one cause does over many panels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfCause {
    /// Which cause; none for differences that could not be split.
    pub cause: Option<Cause>,
    /// Panels on which it differs.
    pub panels: usize,
    /// Its parts added up, first minus second: one panel's more takes away another's less.
    pub net: Money,
    /// Its parts added up without their signs.
    pub gross: Money,
}

/// What one way of turning does over many panels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfTurn {
    /// Which way.
    pub turned: Turned,
    /// Panels that differ in money so.
    pub panels: usize,
    /// Their differences added up, first minus second.
    pub net: Money,
    /// Their differences added up without their signs.
    pub gross: Money,
}

/// What one part between the panels and the total does over many cars.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfShare {
    /// Which part.
    pub share: Share,
    /// Differences added up, first minus second.
    pub net: Money,
}

/// The money of a pair of assessors, or of all pairs, in one currency. Sums that do not fit an amount are left out with
/// the whole block, which only absurd input reaches.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MoneyByCause {
    /// The currency.
    pub currency: Currency,
    /// Cars with a common panel.
    pub cars: usize,
    /// Common panels that both looks price.
    pub panels: usize,
    /// Of these, panels whose amounts differ.
    pub differing: usize,
    /// Common panels that a look leaves open: in no sum here.
    pub open: usize,
    /// The first assessors' amounts on these panels.
    pub first: Money,
    /// The second assessors' amounts on these panels.
    pub second: Money,
    /// First minus second.
    pub difference: Money,
    /// The panels' differences added up without their signs.
    pub gross: Money,
    /// By cause, in their fixed order; what could not be split stands last. Their nets sum to the difference.
    pub causes: Vec<OfCause>,
    /// By the way the difference came about. Their nets sum to the difference.
    pub turns: Vec<OfTurn>,
    /// From panels to gross totals, over cars that both looks price whole or in part.
    pub shares: Vec<OfShare>,
    /// The panels with the largest differences, largest first; at most twenty.
    pub largest: Vec<PanelRef>,
    /// So few panels carry four fifths of `gross`.
    pub carry_most: usize,
}

use crate::assess::{Assessment, LineKind};
use crate::quantity::{Money, QuantityFault};

/// What stands between the panels and what is paid, in the order of money.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Share {
    /// The panels' own lines.
    Panels,
    /// Operations.
    Operations,
    /// Items that are no panels.
    Items,
    /// The top-up to the least amount of a vehicle.
    Minimum,
    /// The stated discount.
    Discount,
    /// Tax.
    Tax,
    /// Rounding of the total.
    Rounding,
}

impl Share {
    /// In the order in which documents list them.
    pub const ALL: [Self; 7] = [
        Self::Panels,
        Self::Operations,
        Self::Items,
        Self::Minimum,
        Self::Discount,
        Self::Tax,
        Self::Rounding,
    ];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Panels => "panels",
            Self::Operations => "operations",
            Self::Items => "items",
            Self::Minimum => "least amount of a vehicle",
            Self::Discount => "discount",
            Self::Tax => "tax",
            Self::Rounding => "rounding of the total",
        }
    }
}

/// The difference of two assessments of one car, first minus second, by where it arises. The shares sum to the gross
/// difference exactly: each is a difference of printed lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VehicleDifference {
    /// A part for every [`Share`], in their order.
    pub shares: [Money; 7],
    /// Difference of the gross amounts.
    pub gross: Money,
    /// Difference of what the insurer pays.
    pub insurer: Money,
    /// Whether one look leaves panels or items open, so that the amounts are without them.
    pub is_partial: bool,
}

/// Where two assessments of one car part, in money.
pub fn vehicle_difference(a: &Assessment, b: &Assessment) -> Result<VehicleDifference, QuantityFault> {
    let (of_a, of_b) = (shares(a)?, shares(b)?);
    let mut parts = [Money::zero(a.currency); 7];
    for ((part, x), y) in parts.iter_mut().zip(of_a).zip(of_b) {
        *part = x.minus(y)?;
    }
    let is_open = |assessment: &Assessment| {
        assessment.open_panels().next().is_some() || !assessment.open_items.is_empty()
    };
    Ok(VehicleDifference {
        shares: parts,
        gross: a.totals.gross.minus(b.totals.gross)?,
        insurer: a.settled.insurer_pays.minus(b.settled.insurer_pays)?,
        is_partial: is_open(a) || is_open(b),
    })
}

fn shares(assessment: &Assessment) -> Result<[Money; 7], QuantityFault> {
    let mut shares = [Money::zero(assessment.currency); 7];
    for numbered in assessment.lines() {
        let share = match (numbered.panel, &numbered.line.kind) {
            (Some(_), _) => Share::Panels,
            (None, LineKind::ItemPrice(_) | LineKind::ItemLabour(_)) => Share::Items,
            (None, LineKind::Minimum) => Share::Minimum,
            (None, LineKind::Discount(_)) => Share::Discount,
            (None, _) => Share::Operations,
        };
        let slot = &mut shares[share as usize];
        *slot = slot.plus(numbered.line.amount)?;
    }
    shares[Share::Tax as usize] = assessment.totals.tax;
    shares[Share::Rounding as usize] =
        assessment.totals.rounding.unwrap_or_else(|| Money::zero(assessment.currency));
    Ok(shares)
}

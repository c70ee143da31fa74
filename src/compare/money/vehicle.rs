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
    /// From the gross amount to the settlement amount: a total loss, or cash without tax.
    Settlement,
    /// Value of the wreck that the owner keeps.
    Salvage,
    /// Excess taken.
    Excess,
    /// What goes beyond the policy limit.
    OverLimit,
    /// What else the owner bears: tax that is reclaimed, what was paid before, all of it without an insurer.
    OwnerBears,
}

impl Share {
    /// In the order in which documents list them.
    pub const ALL: [Self; SHARES] = [
        Self::Panels,
        Self::Operations,
        Self::Items,
        Self::Minimum,
        Self::Discount,
        Self::Tax,
        Self::Rounding,
        Self::Settlement,
        Self::Salvage,
        Self::Excess,
        Self::OverLimit,
        Self::OwnerBears,
    ];

    /// Whether it stands between the gross amount and what the insurer pays, where what others bear comes off.
    pub const fn is_beyond_gross(self) -> bool {
        matches!(self, Self::Settlement | Self::Salvage | Self::Excess | Self::OverLimit | Self::OwnerBears)
    }

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
            Self::Settlement => "settlement other than by repair",
            Self::Salvage => "salvage kept",
            Self::Excess => "excess",
            Self::OverLimit => "beyond the policy limit",
            Self::OwnerBears => "else borne by the owner",
        }
    }
}

/// How many parts there are.
const SHARES: usize = 12;

/// The difference of two assessments of one car, first minus second, by where it arises. The shares up to the rounding of the
/// total sum to the gross difference, all of them to the difference in what the insurer pays: each is a difference of
/// printed lines, with a minus where the line comes off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VehicleDifference {
    /// A part for every [`Share`], in their order.
    pub shares: [Money; SHARES],
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
    let mut parts = [Money::zero(a.currency); SHARES];
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

fn shares(assessment: &Assessment) -> Result<[Money; SHARES], QuantityFault> {
    let mut shares = [Money::zero(assessment.currency); SHARES];
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
    let settled = &assessment.settled;
    shares[Share::Settlement as usize] = settled.amount.minus(assessment.totals.gross)?;
    shares[Share::Salvage as usize] = settled.salvage_kept.negated()?;
    shares[Share::Excess as usize] = settled.excess.negated()?;
    shares[Share::OverLimit as usize] = settled.over_limit.negated()?;
    let named = settled.excess.plus(settled.over_limit)?;
    shares[Share::OwnerBears as usize] = named.minus(settled.owner_bears)?;
    Ok(shares)
}

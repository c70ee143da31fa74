use super::StepId;
use crate::claim::{Place, Settlement};
use crate::quantity::{Money, Percent};

/// Tax of one rate.
#[derive(Debug, Clone, PartialEq)]
pub struct TaxLine {
    /// The rate.
    pub percent: Percent,
    /// Sum of the lines it is on.
    pub taxable: Money,
    /// The tax.
    pub tax: Money,
    /// Cells of the schedule that state the rate.
    pub cells: Vec<Place>,
    /// Its step in the working.
    pub step: StepId,
}

/// The money of one claim, without its open panels and items.
#[derive(Debug, Clone, PartialEq)]
pub struct Totals {
    /// All lines, minimum and discount included.
    pub net: Money,
    /// Tax per rate, from low to high.
    pub taxes: Vec<TaxLine>,
    /// All taxes.
    pub tax: Money,
    /// What brings the gross amount to its step, if the schedule has one and it is not nothing.
    pub rounding: Option<Money>,
    /// Net, tax and rounding.
    pub gross: Money,
    /// Step of the net amount.
    pub net_step: StepId,
    /// Step of the rounding, where the schedule has one: of a rounding by nothing, too, for a changed count moves it.
    pub rounding_step: Option<StepId>,
    /// Step of the gross amount.
    pub gross_step: StepId,
}

/// Why a claim is not screened for total loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unscreened {
    /// The schedule has no terms for it.
    NoTerms,
    /// The market value is not written.
    NoMarketValue,
    /// The rule needs a salvage value and none is written.
    NoSalvage,
}

/// The figures of a screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScreenFigures {
    /// What is compared: repair, with or without tax, perhaps plus salvage.
    pub cost: Money,
    /// The stated share of the market value.
    pub limit: Money,
    /// Market value.
    pub value: Money,
    /// Salvage, when the rule uses it.
    pub salvage: Option<Money>,
    /// Step of the cost.
    pub cost_step: StepId,
    /// Step of the limit.
    pub limit_step: StepId,
}

/// The economic total-loss screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// Not done.
    Not(Unscreened),
    /// Below, as far as everything is priced.
    Below(ScreenFigures),
    /// Not reached yet, but panels or items are open.
    Open(ScreenFigures),
    /// Reached: a probable total loss.
    Reached(ScreenFigures),
}

/// Who pays what. `insurer_pays + owner_bears + salvage_kept` is `amount`.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    /// How it is settled.
    pub basis: Settlement,
    /// The settlement amount.
    pub amount: Money,
    /// Tax in it that the owner gets back from elsewhere and therefore bears here.
    pub tax_reclaimed: Money,
    /// The owner's share of what is new.
    pub betterment: Money,
    /// What was paid before for panels of this claim; comes off the insurer's part.
    pub paid_before: Money,
    /// Excess taken; never more than the insurer's part before it.
    pub excess: Money,
    /// Whether the policy limit comes before the excess.
    pub is_limit_first: bool,
    /// What goes beyond the policy limit.
    pub over_limit: Money,
    /// What the insurer pays; nothing without an insurer.
    pub insurer_pays: Money,
    /// What the owner bears.
    pub owner_bears: Money,
    /// Value of the wreck that the owner keeps.
    pub salvage_kept: Money,
    /// Step of the settlement amount.
    pub amount_step: StepId,
    /// Step of the excess.
    pub excess_step: StepId,
    /// Step of what the insurer pays.
    pub insurer_step: StepId,
    /// Step of what the owner bears.
    pub owner_step: StepId,
}

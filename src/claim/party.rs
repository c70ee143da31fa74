use super::{Located, WrittenAmount, words::named};
use crate::quantity::{Date, Percent};

/// What happened, when and where.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Event {
    /// Name of the event.
    pub name: Option<Located<String>>,
    /// Date of loss.
    pub date: Option<Located<Date>>,
    /// What caused the loss, in words.
    pub cause: Option<Located<String>>,
    /// Place of the loss.
    pub location: Option<Located<String>>,
}

named! {
    /// Whether the owner gets input tax back.
    pub enum TaxPosition {
        Bears = "bears tax",
        Reclaims = "reclaims tax",
    }
}

named! {
    /// How the claim is to be settled, where that is said.
    pub enum Settlement {
        Repair = "repair",
        Cash = "cash in place of repair",
        TotalLoss = "total loss",
        TotalLossKept = "total loss, car kept",
    }
}

/// Who is concerned, and the terms the policy sets for this claim.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parties {
    /// The insurer's claim number.
    pub claim_number: Option<Located<String>>,
    /// The assessor's own job number.
    pub job_number: Option<Located<String>>,
    /// Policy number.
    pub policy_number: Option<Located<String>>,
    /// The insurer; none is a customer who pays.
    pub insurer: Option<Located<String>>,
    /// The owner.
    pub owner: Option<Located<String>>,
    /// Name of the lot (dealer, fleet) it belongs to.
    pub lot: Option<Located<String>>,
    /// Most that the vehicles of the lot bear together as excess for one event.
    pub lot_cap: Option<Located<WrittenAmount>>,
    /// What the owner bears of each claim.
    pub excess: Option<Located<WrittenAmount>>,
    /// Value of the vehicle before the loss.
    pub market_value: Option<Located<WrittenAmount>>,
    /// What the wreck would fetch.
    pub salvage: Option<Located<WrittenAmount>>,
    /// Most the policy pays.
    pub policy_limit: Option<Located<WrittenAmount>>,
    /// Whether the owner gets input tax back.
    pub tax_position: Option<Located<TaxPosition>>,
    /// Share of the tax the owner gets back where it is not all of it.
    pub tax_share: Option<Located<Percent>>,
    /// How it is to be settled.
    pub settlement: Option<Located<Settlement>>,
}

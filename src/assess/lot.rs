//! The statement of a lot: many vehicles of one owner whose excesses together go no further than a cap. Every claim keeps
//! the excess of its own document; the cap is applied once, here.

use super::Assessment;
use super::desk::in_currency;
use crate::claim::{Claim, Located, WrittenAmount};
use crate::quantity::{Money, QuantityFault, largest_remainder};

/// What the statement says of one vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LotRow {
    /// The excess that the vehicle's own document takes.
    pub own_excess: Money,
    /// Its part of the excess that the lot bears.
    pub excess: Money,
    /// What goes beyond the policy limit with that excess.
    pub over_limit: Money,
    /// What the insurer pays with that excess.
    pub insurer_pays: Money,
    /// What the owner bears with that excess.
    pub owner_bears: Money,
}

/// The statement of one lot after one event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotStatement {
    /// A row for each claim, in their order.
    pub rows: Vec<LotRow>,
    /// All own excesses.
    pub own_excess: Money,
    /// What of them is taken: at most the cap.
    pub excess: Money,
    /// What the insurer pays for the lot.
    pub insurer_pays: Money,
    /// What the owner bears for the lot.
    pub owner_bears: Money,
}

/// What the statement needs of one claim of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LotMember {
    /// The settlement amount.
    pub amount: Money,
    /// The excess that its own document takes.
    pub own_excess: Money,
    /// The insurer's part before the excess.
    pub before_excess: Money,
    /// The policy limit.
    pub limit: Option<Money>,
    /// Whether the limit comes before the excess.
    pub is_limit_first: bool,
    /// Value of a wreck that is kept.
    pub salvage_kept: Money,
    /// The cap of the lot's excess, as the claim's row states it or another of the lot.
    pub cap: Option<Money>,
}

impl LotMember {
    /// A claim's. Its amounts were checked when it was assessed.
    pub fn of(claim: &Claim, assessed: &Assessment) -> Result<Self, QuantityFault> {
        let own = &assessed.settled;
        let stated = |written: &Option<Located<WrittenAmount>>| {
            written.map(|written| in_currency(&written.value, assessed.currency)).transpose()
        };
        Ok(Self {
            amount: own.amount,
            own_excess: own.excess,
            before_excess: own.insurer_pays.plus(own.over_limit)?.plus(own.excess)?,
            limit: stated(&claim.parties.policy_limit)?,
            is_limit_first: own.is_limit_first,
            salvage_kept: own.salvage_kept,
            cap: stated(&claim.parties.lot_cap)?,
        })
    }

    /// With another excess than its own.
    fn row(&self, excess: Money) -> Result<LotRow, QuantityFault> {
        let to_limit = |part: Money| self.limit.map_or(Ok(part), |limit| part.at_most(limit));
        let (over_limit, insurer_pays) = if self.is_limit_first {
            let part = to_limit(self.before_excess)?;
            (self.before_excess.minus(part)?, part.minus(excess)?)
        } else {
            let part = self.before_excess.minus(excess)?;
            let pays = to_limit(part)?;
            (part.minus(pays)?, pays)
        };
        let owner_bears = self.amount.minus(insurer_pays)?.minus(self.salvage_kept)?;
        Ok(LotRow { own_excess: self.own_excess, excess, over_limit, insurer_pays, owner_bears })
    }
}

/// Takes the excesses of a lot's claims together at most up to a cap, split over them by largest remainder with their own
/// excesses as weights (of equal remainders the earlier claim). What a policy limit then cuts off the owner bears. Which
/// claims are of one lot and one event is for the caller to say; amounts in several currencies are a fault.
pub fn lot_statement(lot: &[LotMember], cap: Money) -> Result<LotStatement, QuantityFault> {
    let currency = cap.currency();
    let nothing = Money::zero(currency);
    let own_excess = Money::sum(currency, lot.iter().map(|member| member.own_excess))?;
    let excess = own_excess.at_most(cap.at_least(nothing)?)?;
    // An excess is never below zero.
    let weights: Vec<u64> =
        lot.iter().map(|member| u64::try_from(member.own_excess.minor()).unwrap_or(0)).collect();
    let parts = largest_remainder(excess.minor(), &weights);
    let rows = lot.iter().zip(parts).map(|(member, part)| member.row(Money::from_minor(part, currency)));
    let rows: Vec<LotRow> = rows.collect::<Result<_, _>>()?;
    let insurer_pays = Money::sum(currency, rows.iter().map(|row| row.insurer_pays))?;
    let owner_bears = Money::sum(currency, rows.iter().map(|row| row.owner_bears))?;
    Ok(LotStatement { rows, own_excess, excess, insurer_pays, owner_bears })
}

//! What was submitted, agreed and paid, and what is still owed.

use super::KnownClaim;
use crate::claim::{Located, RegisterRow, Step, WrittenAmount};
use crate::problem::{Problem, catalogue::register as say};
use crate::quantity::{Currency, Money, QuantityFault};
use std::collections::BTreeMap;

/// The amounts of one claim.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Owed {
    /// The gross amount that the files come to.
    pub assessed: Option<Money>,
    /// The latest submitted amount, with the supplements of that day and later.
    pub submitted: Option<Money>,
    /// The latest agreed amount: the whole claim's.
    pub agreed: Option<Money>,
    /// All payments.
    pub paid: Option<Money>,
    /// Agreed and not yet paid.
    pub still: Option<Money>,
}

impl Owed {
    /// By the rows of a claim in the order of their days; what cannot be used or does not fit is told.
    pub(super) fn of(
        rows: &[RegisterRow],
        claim: &KnownClaim,
        usual: Option<Currency>,
        found: &mut Vec<Problem>,
    ) -> Self {
        let mut owed = Self { assessed: claim.figures.map(|figures| figures.gross), ..Self::default() };
        let mut currency = owed.assessed.map(Money::currency);
        let (mut submitted_at, mut agreed_at) = (None, None);
        for row in rows {
            let Some(written) = row.amount else { continue };
            let money = match in_currency(written, currency, usual) {
                Ok(money) => money,
                Err(why) => {
                    found.push(say::register_amount_unusable(written.place, &shown(written.value), &why));
                    continue;
                }
            };
            currency = Some(money.currency());
            // One that is too large to add up is left out of its sum, and told.
            let sum = |before: Option<Money>| before.map_or(Ok(money), |before| before.plus(money));
            let added = match row.step.value {
                Step::Submitted => {
                    submitted_at = Some(written.place);
                    owed.submitted = Some(money);
                    Ok(())
                }
                Step::Supplement => sum(owed.submitted).map(|sum| {
                    submitted_at = Some(written.place);
                    owed.submitted = Some(sum);
                }),
                Step::Agreed => {
                    agreed_at = Some(written.place);
                    owed.agreed = Some(money);
                    Ok(())
                }
                Step::Paid => sum(owed.paid).map(|sum| {
                    owed.paid = Some(sum);
                    if let (Some(agreed), Some(at)) = (owed.agreed, agreed_at)
                        && sum.minor() > agreed.minor()
                    {
                        found.push(say::register_paid_more(
                            written.place,
                            at,
                            &in_words(sum),
                            &in_words(agreed),
                        ));
                    }
                }),
                Step::Listed | Step::Inspected | Step::PartsIn | Step::Repaired | Step::HandedOver => Ok(()),
            };
            if let Err(fault) = added {
                found.push(say::register_amount_unusable(
                    written.place,
                    &shown(written.value),
                    &fault.to_string(),
                ));
            }
        }
        for (what, amount, at) in
            [("submitted", owed.submitted, submitted_at), ("agreed", owed.agreed, agreed_at)]
        {
            if let (Some(amount), Some(at), Some(figures)) = (amount, at, claim.figures) {
                let fitting = [figures.gross, figures.settlement, figures.insurer_pays];
                if !fitting.contains(&amount) {
                    found.push(say::register_amount_differs(
                        at,
                        what,
                        &in_words(amount),
                        &in_words(figures.gross),
                    ));
                }
            }
        }
        owed.still = owed.agreed.and_then(|agreed| match owed.paid {
            Some(paid) if paid.minor() >= agreed.minor() => Some(Money::zero(agreed.currency())),
            Some(paid) => agreed.minus(paid).ok(),
            None => Some(agreed),
        });
        owed
    }

    /// The currency of its amounts.
    pub fn currency(&self) -> Option<Currency> {
        [self.assessed, self.submitted, self.agreed, self.paid]
            .into_iter()
            .flatten()
            .next()
            .map(Money::currency)
    }
}

fn in_currency(
    written: Located<WrittenAmount>,
    of_claim: Option<Currency>,
    usual: Option<Currency>,
) -> Result<Money, String> {
    let Some(currency) = written.value.currency.or(of_claim).or(usual) else {
        return Err("nothing says which currency it is in".to_owned());
    };
    if let Some(other) = of_claim.filter(|other| *other != currency) {
        return Err(format!("other amounts of the claim are in {other}"));
    }
    Money::from_decimal(written.value.amount, currency).map_err(|fault| fault.to_string())
}

fn shown(written: WrittenAmount) -> String {
    match written.currency {
        Some(currency) => format!("{currency} {}", written.amount),
        None => written.amount.to_string(),
    }
}

fn in_words(money: Money) -> String {
    format!("{} {money}", money.currency())
}

/// The amounts of all claims in one currency; a fault where a sum does not fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sums {
    /// Which it is.
    pub currency: Currency,
    /// Claims with any amount in it.
    pub claims: u64,
    /// What the files come to.
    pub assessed: Result<Money, QuantityFault>,
    /// What was submitted.
    pub submitted: Result<Money, QuantityFault>,
    /// What was agreed.
    pub agreed: Result<Money, QuantityFault>,
    /// What was paid.
    pub paid: Result<Money, QuantityFault>,
    /// What is still to be paid of what was agreed.
    pub still: Result<Money, QuantityFault>,
}

impl Sums {
    pub(super) fn add(all: &mut BTreeMap<Currency, Self>, owed: &Owed) {
        let Some(currency) = owed.currency() else { return };
        let zero = Ok(Money::zero(currency));
        let sums = all.entry(currency).or_insert(Self {
            currency,
            claims: 0,
            assessed: zero,
            submitted: zero,
            agreed: zero,
            paid: zero,
            still: zero,
        });
        let plus = |sum: &mut Result<Money, QuantityFault>, more: Option<Money>| {
            if let Some(more) = more {
                *sum = sum.and_then(|sum| sum.plus(more));
            }
        };
        sums.claims += 1;
        plus(&mut sums.assessed, owed.assessed);
        plus(&mut sums.submitted, owed.submitted);
        plus(&mut sums.agreed, owed.agreed);
        plus(&mut sums.paid, owed.paid);
        plus(&mut sums.still, owed.still);
    }
}

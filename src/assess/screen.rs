//! The economic total-loss screen by the policy's terms. It screens; a licensed adjuster decides.

use super::desk::{Desk, OrStop};
use super::{Formula, Recorder, Rule, Screen, ScreenFigures, StepId, Totals, Unscreened};
use crate::claim::Located;
use crate::problem::Problem;
use crate::quantity::{Money, Percent, Rounding};
use crate::schedule::{Comparator, LossRule, TotalLossTerms};

/// What is compared, by whichever rule.
#[derive(Debug, Clone, Copy)]
pub(super) struct Comparison {
    pub rule: Located<LossRule>,
    pub comparator: Located<Comparator>,
    pub share: Located<Percent>,
    pub with_tax: Located<bool>,
    /// Kinds of the steps of cost and limit.
    pub steps: (Rule, Rule),
}

/// Compares the cost with the policy's share of the market value.
pub(super) fn screened<R: Recorder>(
    desk: &mut Desk<'_, R>,
    totals: &Totals,
    is_open: bool,
) -> Result<Screen, Problem> {
    let Some(terms) = desk.schedule.terms.total_loss else { return Ok(Screen::Not(Unscreened::NoTerms)) };
    let TotalLossTerms { rule, comparator, share, with_tax } = terms;
    let steps = (Rule::ScreenCost, Rule::ScreenLimit);
    compared(desk, Comparison { rule, comparator, share, with_tax, steps }, totals, is_open)
}

/// Compares the cost with a share of the market value.
pub(super) fn compared<R: Recorder>(
    desk: &mut Desk<'_, R>,
    terms: Comparison,
    totals: &Totals,
    is_open: bool,
) -> Result<Screen, Problem> {
    let Some(written) = &desk.claim.parties.market_value else {
        return Ok(Screen::Not(Unscreened::NoMarketValue));
    };
    let salvage = match (terms.rule.value, &desk.claim.parties.salvage) {
        (LossRule::Repair, _) => None,
        (LossRule::RepairPlusSalvage, Some(salvage)) => Some(desk.amount(salvage)?),
        (LossRule::RepairPlusSalvage, None) => return Ok(Screen::Not(Unscreened::NoSalvage)),
    };
    let (value, value_step) = desk.amount(written)?;
    let (cost, cost_step) = cost(desk, &terms, totals, salvage)?;
    // Amounts are whole minor units, so with the limit rounded this way comparing with it is comparing exactly.
    let rounding = match terms.comparator.value {
        Comparator::Over => Rounding::Down,
        Comparator::AtLeast => Rounding::Up,
    };
    let limit = value.percent(terms.share.value, rounding).or_stop(terms.share.place)?;
    let percent = desk.term(terms.share.place, terms.share.value);
    let limit_step = desk.step_at(terms.steps.1, &[terms.comparator.place], limit, || Formula::PercentOf {
        percent,
        of: value_step,
    });
    let salvage = salvage.map(|(salvage, _)| salvage);
    let figures = ScreenFigures { cost, limit, value, salvage, cost_step, limit_step };
    let is_reached = match terms.comparator.value {
        Comparator::Over => cost.minor() > limit.minor(),
        Comparator::AtLeast => cost.minor() >= limit.minor(),
    };
    Ok(match (is_reached, is_open) {
        (true, _) => Screen::Reached(figures),
        (false, true) => Screen::Open(figures),
        (false, false) => Screen::Below(figures),
    })
}

/// Net, and tax where it counts, and salvage under that rule.
fn cost<R: Recorder>(
    desk: &mut Desk<'_, R>,
    terms: &Comparison,
    totals: &Totals,
    salvage: Option<(Money, StepId)>,
) -> Result<(Money, StepId), Problem> {
    let taxes = if terms.with_tax.value { totals.taxes.as_slice() } else { &[] };
    let tax = taxes.iter().map(|tax| tax.tax);
    let amounts = std::iter::once(totals.net).chain(tax).chain(salvage.map(|(salvage, _)| salvage));
    let cost = Money::sum(desk.currency(), amounts).or_stop(terms.rule.place)?;
    let step = desk.step_at(terms.steps.0, &[terms.rule.place, terms.with_tax.place], cost, || {
        let tax = taxes.iter().map(|tax| tax.step);
        let steps = std::iter::once(totals.net_step).chain(tax).chain(salvage.map(|(_, step)| step));
        Formula::Sum(steps.collect())
    });
    Ok((cost, step))
}

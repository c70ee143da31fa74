//! Who pays what. What insurer and owner pay and the value of a wreck that is kept sum to the settlement amount.

use super::betterment::betterment;
use super::desk::{Desk, OrStop};
use super::{Formula, Line, PanelAssessment, PanelState, Recorder, Rule, Settled, StepId, Totals};
use crate::claim::{Located, Place, Settlement, TaxPosition};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::{Date, Money, Percent};

/// An amount with its step.
type Known = (Money, StepId);

/// Settles the claim as its sheet says, else by repair.
pub(super) fn settled<R: Recorder>(
    desk: &mut Desk<'_, R>,
    totals: &Totals,
    panels: &[PanelAssessment],
    lines: &[Line],
    date: Date,
) -> Result<Settled, Problem> {
    let written = desk.claim.parties.settlement;
    let basis = written.map_or(Settlement::Repair, |written| written.value);
    let amount = settlement_amount(desk, basis, totals)?;
    let salvage = match (basis, &desk.claim.parties.salvage) {
        (Settlement::TotalLossKept, Some(salvage)) => {
            let (value, input) = desk.amount(salvage)?;
            Some((value, desk.step(Rule::SalvageKept, value, || Formula::Sum(vec![input]))))
        }
        (Settlement::TotalLossKept, None) => return Err(needed(desk, "salvage value")),
        _ => None,
    };
    if desk.claim.parties.insurer.is_none() {
        return without_insurer(desk, basis, amount, salvage);
    }
    let place = written.map_or(desk.schedule.terms.place, |written| written.place);
    let mut part = not_below_zero(desk, amount);
    let reclaimed = tax_reclaimed(desk, basis, totals, part)?;
    part = less(desk, part, reclaimed, place)?;
    if let Some(salvage) = salvage {
        part = less(desk, part, salvage, place)?;
    }
    let better = better(desk, basis, panels, lines, date, part)?;
    part = less(desk, part, better, place)?;
    let paid_before = paid_before(desk, basis, panels, part)?;
    part = less(desk, part, paid_before, place)?;
    let is_limit_first = desk.schedule.terms.is_limit_first();
    let limit_first = if is_limit_first { Some(over_limit(desk, part)?) } else { None };
    if let Some(over) = limit_first {
        part = less(desk, part, over, place)?;
    }
    let excess = excess(desk, part)?;
    part = less(desk, part, excess, place)?;
    let over_limit = match limit_first {
        Some(over) => over,
        None => over_limit(desk, part)?,
    };
    if !is_limit_first {
        part = less(desk, part, over_limit, place)?;
    }
    let insurer = (part.0, desk.step(Rule::InsurerPays, part.0, || Formula::Sum(vec![part.1])));
    let owner = owner(desk, amount, insurer, salvage, place)?;
    Ok(Settled {
        basis,
        amount: amount.0,
        tax_reclaimed: reclaimed.0,
        betterment: better.0,
        paid_before: paid_before.0,
        excess: excess.0,
        is_limit_first,
        over_limit: over_limit.0,
        insurer_pays: insurer.0,
        owner_bears: owner.0,
        salvage_kept: salvage.map_or(desk.nothing(), |(salvage, _)| salvage),
        amount_step: amount.1,
        excess_step: excess.1,
        insurer_step: insurer.1,
        owner_step: owner.1,
    })
}

/// Everything is the owner's, less the value of a wreck that is kept.
fn without_insurer<R: Recorder>(
    desk: &mut Desk<'_, R>,
    basis: Settlement,
    amount: Known,
    salvage: Option<Known>,
) -> Result<Settled, Problem> {
    let nothing = desk.nothing();
    let none = |desk: &mut Desk<'_, R>, rule| desk.step(rule, nothing, || Formula::Sum(Vec::new()));
    let (excess_step, insurer_step) = (none(desk, Rule::Excess), none(desk, Rule::InsurerPays));
    let place = desk.schedule.terms.place;
    let owner = owner(desk, amount, (nothing, insurer_step), salvage, place)?;
    Ok(Settled {
        basis,
        amount: amount.0,
        tax_reclaimed: nothing,
        betterment: nothing,
        paid_before: nothing,
        excess: nothing,
        is_limit_first: false,
        over_limit: nothing,
        insurer_pays: nothing,
        owner_bears: owner.0,
        salvage_kept: salvage.map_or(nothing, |(salvage, _)| salvage),
        amount_step: amount.1,
        excess_step,
        insurer_step,
        owner_step: owner.1,
    })
}

fn needed<R: Recorder>(desk: &Desk<'_, R>, missing: &str) -> Problem {
    let place = desk.claim.parties.settlement.map_or(desk.schedule.terms.place, |written| written.place);
    wording::settlement_needs_value(missing, place)
}

/// The gross for a repair; in cash the net, unless the schedule includes tax; the market value for a total loss.
fn settlement_amount<R: Recorder>(
    desk: &mut Desk<'_, R>,
    basis: Settlement,
    totals: &Totals,
) -> Result<Known, Problem> {
    let gross = (totals.gross, totals.gross_step);
    let rule = Rule::SettlementAmount;
    let with_tax = desk.schedule.terms.cash_with_tax.filter(|_| basis == Settlement::Cash);
    let said = desk.claim.parties.settlement.map(|written| written.place);
    let cells: Vec<Place> = said.into_iter().chain(with_tax.map(|with_tax| with_tax.place)).collect();
    match basis {
        Settlement::TotalLoss | Settlement::TotalLossKept => {
            let Some(value) = &desk.claim.parties.market_value else {
                return Err(needed(desk, "market value"));
            };
            let (value, input) = desk.amount(value)?;
            Ok((value, desk.step_at(rule, &cells, value, || Formula::Sum(vec![input]))))
        }
        // The rounding of the total belongs to the gross.
        Settlement::Cash if !includes_tax(desk, basis) => {
            let (net, step) = (totals.net, totals.net_step);
            Ok((net, desk.step_at(rule, &cells, net, || Formula::Sum(vec![step]))))
        }
        Settlement::Cash | Settlement::Repair => {
            Ok((gross.0, desk.step_at(rule, &cells, gross.0, || Formula::Sum(vec![gross.1]))))
        }
    }
}

/// Whether tax stands in the settlement amount.
fn includes_tax<R: Recorder>(desk: &Desk<'_, R>, basis: Settlement) -> bool {
    match basis {
        Settlement::Repair => true,
        Settlement::Cash => desk.schedule.terms.cash_with_tax.is_some_and(|with_tax| with_tax.value),
        Settlement::TotalLoss | Settlement::TotalLossKept => false,
    }
}

fn tax_step<R: Recorder>(desk: &mut Desk<'_, R>, totals: &Totals) -> StepId {
    let formula = || Formula::Sum(totals.taxes.iter().map(|tax| tax.step).collect());
    desk.step(Rule::Tax, totals.tax, formula)
}

/// The share of the tax in the amount that the owner gets back from elsewhere: all of it unless a share is written.
fn tax_reclaimed<R: Recorder>(
    desk: &mut Desk<'_, R>,
    basis: Settlement,
    totals: &Totals,
    amount: Known,
) -> Result<Known, Problem> {
    let parties = &desk.claim.parties;
    let position = parties.tax_position.map(|position| position.value);
    let share: Option<Located<Percent>> = match (position, parties.tax_share) {
        (Some(TaxPosition::Reclaims), None) => {
            parties.tax_position.map(|position| Located::new(Percent::HUNDRED, position.place))
        }
        (Some(TaxPosition::Bears), _) | (None, None) => None,
        (Some(TaxPosition::Reclaims) | None, Some(share)) => Some(share),
    };
    let Some(share) = share.filter(|_| includes_tax(desk, basis)) else {
        return Ok((desk.nothing(), StepId::NONE));
    };
    let of = tax_step(desk, totals);
    let reclaimed = totals.tax.percent(share.value, desk.rounding()).or_stop(share.place)?;
    let percent = desk.input(share.place, share.value);
    let said: Vec<Place> = parties.tax_position.iter().map(|position| position.place).collect();
    let formula = || Formula::PercentOf { percent, of };
    let step = desk.step_at(Rule::TaxReclaimed, &said, reclaimed, formula);
    at_most(desk, Rule::TaxReclaimed, (reclaimed, step), amount, share.place)
}

/// What was paid before for panels that are paid now (for a total loss: that are damaged), at most what is left.
fn paid_before<R: Recorder>(
    desk: &mut Desk<'_, R>,
    basis: Settlement,
    panels: &[PanelAssessment],
    part: Known,
) -> Result<Known, Problem> {
    let counts = |panel: &PanelAssessment| {
        if is_total(basis) { panel.state == PanelState::Assessed } else { panel.amount().is_some() }
    };
    let mut sum = desk.nothing();
    let mut steps = Vec::new();
    for paid in &desk.claim.paid_before {
        if panels.iter().any(|panel| panel.panel == paid.panel && counts(panel)) {
            let (amount, step) = desk.amount(&paid.amount)?;
            sum = sum.plus(amount).or_stop(paid.place)?;
            steps.push(step);
        } else {
            desk.problems.push(wording::paid_before_idle(&paid.panel.to_string(), paid.place));
        }
    }
    if sum.is_zero() {
        return Ok((sum, StepId::NONE));
    }
    let step = desk.step(Rule::PaidBefore, sum, || Formula::Sum(steps));
    let place = desk.claim.paid_before.first().map_or(desk.schedule.terms.place, |paid| paid.place);
    at_most(desk, Rule::PaidBefore, (sum, step), part, place)
}

/// The owner's share of what is new, at most what is left. A market value holds nothing new.
fn better<R: Recorder>(
    desk: &mut Desk<'_, R>,
    basis: Settlement,
    panels: &[PanelAssessment],
    lines: &[Line],
    date: Date,
    part: Known,
) -> Result<Known, Problem> {
    if is_total(basis) || desk.schedule.betterment.is_empty() {
        return Ok((desk.nothing(), StepId::NONE));
    }
    let shares = betterment(desk, panels, lines, date)?;
    match desk.schedule.betterment.first() {
        Some(row) if !shares.0.is_zero() => at_most(desk, Rule::Betterment, shares, part, row.place),
        _ => Ok(shares),
    }
}

/// Whether the claim is settled at the market value.
const fn is_total(basis: Settlement) -> bool {
    matches!(basis, Settlement::TotalLoss | Settlement::TotalLossKept)
}

/// The excess, at most what is left.
fn excess<R: Recorder>(desk: &mut Desk<'_, R>, part: Known) -> Result<Known, Problem> {
    let Some(stated) = &desk.claim.parties.excess else {
        let nothing = desk.nothing();
        return Ok((nothing, desk.step(Rule::Excess, nothing, || Formula::Sum(Vec::new()))));
    };
    let amount = desk.amount(stated)?;
    at_most(desk, Rule::Excess, amount, part, stated.place)
}

/// What goes beyond the policy limit.
fn over_limit<R: Recorder>(desk: &mut Desk<'_, R>, part: Known) -> Result<Known, Problem> {
    let Some(written) = &desk.claim.parties.policy_limit else {
        return Ok((desk.nothing(), StepId::NONE));
    };
    let limit = desk.amount(written)?;
    let nothing = desk.nothing();
    let over = part.0.minus(limit.0).and_then(|over| over.at_least(nothing)).or_stop(written.place)?;
    let order: Vec<Place> = desk.schedule.terms.excess_taken.iter().map(|taken| taken.place).collect();
    Ok((over, desk.step_at(Rule::OverLimit, &order, over, || Formula::AtLeastZero(part.1, limit.1))))
}

/// The smaller of an amount and what is left, never below zero.
fn at_most<R: Recorder>(
    desk: &mut Desk<'_, R>,
    rule: Rule,
    amount: Known,
    left: Known,
    place: Place,
) -> Result<Known, Problem> {
    let nothing = desk.nothing();
    let smaller = amount.0.at_most(left.0).and_then(|amount| amount.at_least(nothing)).or_stop(place)?;
    Ok((smaller, desk.step(rule, smaller, || Formula::Smallest(vec![amount.1, left.1]))))
}

/// An amount that discounts beyond all measure have taken below zero leaves nothing for the insurer.
fn not_below_zero<R: Recorder>(desk: &mut Desk<'_, R>, amount: Known) -> Known {
    let nothing = desk.nothing();
    if amount.0.minor() >= 0 {
        return amount;
    }
    (nothing, desk.step(Rule::InsurerPays, nothing, || Formula::Smallest(vec![amount.1])))
}

/// What is left of the insurer's part. Nothing that comes off makes no step.
fn less<R: Recorder>(
    desk: &mut Desk<'_, R>,
    part: Known,
    off: Known,
    place: Place,
) -> Result<Known, Problem> {
    let nothing = desk.nothing();
    if off.0.is_zero() {
        return Ok(part);
    }
    let left = part.0.minus(off.0).and_then(|left| left.at_least(nothing)).or_stop(place)?;
    Ok((left, desk.step(Rule::InsurerPays, left, || Formula::AtLeastZero(part.1, off.1))))
}

/// The rest of the settlement amount.
fn owner<R: Recorder>(
    desk: &mut Desk<'_, R>,
    amount: Known,
    insurer: Known,
    salvage: Option<Known>,
    place: Place,
) -> Result<Known, Problem> {
    let mut rest = amount.0.minus(insurer.0).or_stop(place)?;
    let mut step = desk.step(Rule::OwnerBears, rest, || Formula::Difference(amount.1, insurer.1));
    if let Some(salvage) = salvage {
        rest = rest.minus(salvage.0).or_stop(place)?;
        let before = step;
        step = desk.step(Rule::OwnerBears, rest, || Formula::Difference(before, salvage.1));
    }
    Ok((rest, step))
}

//! What the claim states in money, time and decisions, checked before anything is computed with it.

use super::desk::{Desk, in_currency};
use super::{PanelAssessment, PanelState, Recorder};
use crate::claim::{Located, PanelId, PartPrice, Place, TaxPosition, WrittenAmount};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::{Hours, Money, Percent};

/// Checks everything; problems are left on the desk.
pub(super) fn check<R>(desk: &mut Desk<'_, R>) {
    let mut problems = Vec::new();
    let currency = desk.schedule.terms.currency.value;
    let mut amount = |what: &str, written: Option<&Located<WrittenAmount>>| -> Option<Located<Money>> {
        let written = written?;
        match in_currency(&written.value, currency) {
            Ok(money) if money.minor() < 0 => {
                problems.push(wording::amount_negative(what, &money.to_string(), written.place));
                None
            }
            Ok(money) => Some(Located::new(money, written.place)),
            Err(fault) => {
                let as_written = written.value.amount.to_string();
                problems.push(wording::amount(what, &as_written, fault, written.place));
                None
            }
        }
    };
    let parties = &desk.claim.parties;
    amount("the excess", parties.excess.as_ref());
    amount("the cap of the lot's excess", parties.lot_cap.as_ref());
    amount("the policy limit", parties.policy_limit.as_ref());
    let value = amount("the market value", parties.market_value.as_ref());
    let salvage = amount("the salvage value", parties.salvage.as_ref());
    for item in &desk.claim.items {
        amount("the price of this item", item.price.as_ref());
    }
    for part in &desk.claim.parts {
        amount("the price of this part", part.price.as_ref());
        amount("the paint material", part.paint_material.as_ref());
    }
    for paid in &desk.claim.paid_before {
        amount("what was paid before", Some(&paid.amount));
    }
    values(value, salvage, &mut problems);
    times(desk, &mut problems);
    parts_agree(&desk.claim.parts, &mut problems);
    overrules(desk, &mut problems);
    tax_share(desk, &mut problems);
    desk.problems.append(&mut problems);
}

/// Market value and salvage have to make sense together.
fn values(value: Option<Located<Money>>, salvage: Option<Located<Money>>, problems: &mut Vec<Problem>) {
    let Some(value) = value else { return };
    if value.value.is_zero() {
        problems.push(wording::value_nothing(value.place));
    } else if let Some(salvage) = salvage.filter(|salvage| salvage.value.minor() > value.value.minor()) {
        problems.push(wording::salvage_above_value(salvage.place, value.place));
    }
}

fn times<R>(desk: &Desk<'_, R>, problems: &mut Vec<Problem>) {
    let items = desk.claim.items.iter().filter_map(|item| item.hours);
    let parts = desk.claim.parts.iter().flat_map(|part| [part.fitting, part.conventional, part.refinish]);
    for hours in items.chain(parts.flatten()).filter(|hours| hours.value < Hours::ZERO) {
        problems.push(wording::amount_negative("this time", &hours.value.to_string(), hours.place));
    }
}

/// No two rows may state the same value for the same panel.
fn parts_agree(parts: &[PartPrice], problems: &mut Vec<Problem>) {
    let stated = |part: &PartPrice| -> [(&'static str, Option<Place>); 5] {
        [
            ("price of the part", part.price.map(|cell| cell.place)),
            ("fitting time", part.fitting.map(|cell| cell.place)),
            ("conventional repair time", part.conventional.map(|cell| cell.place)),
            ("refinish time", part.refinish.map(|cell| cell.place)),
            ("paint material", part.paint_material.map(|cell| cell.place)),
        ]
    };
    for (index, second) in parts.iter().enumerate() {
        for first in parts[..index].iter().filter(|first| first.panel == second.panel) {
            for ((what, a), (_, b)) in stated(first).into_iter().zip(stated(second)) {
                if let (Some(a), Some(b)) = (a, b) {
                    problems.push(wording::part_prices_disagree(what, &second.panel.to_string(), a, b));
                }
            }
        }
    }
}

/// One decision a panel, with a name and a reason, on a panel that somebody's sheet names.
fn overrules<R>(desk: &Desk<'_, R>, problems: &mut Vec<Problem>) {
    let all = &desk.claim.overrules;
    for (index, overrule) in all.iter().enumerate() {
        let panel = overrule.panel.to_string();
        if let Some(first) = all[..index].iter().find(|first| first.panel == overrule.panel) {
            problems.push(wording::overrules_disagree(&panel, first.place, overrule.place));
        }
        let missing = match (&overrule.by, &overrule.reason) {
            (Some(_), Some(_)) => continue,
            (Some(_), None) => "reason",
            (None, Some(_)) => "name",
            (None, None) => "name and reason",
        };
        problems.push(wording::overrule_unsigned(&panel, missing, overrule.place));
    }
}

/// Overrules of panels that no assessed sheet names at all; those that it names without a number are refused where
/// the panel is assessed.
pub(super) fn unseen_overrules<R>(desk: &mut Desk<'_, R>, is_seen: impl Fn(PanelId) -> bool) {
    for overrule in desk.claim.overrules.iter().filter(|overrule| !is_seen(overrule.panel)) {
        desk.problems.push(wording::overrule_not_seen(&overrule.panel.to_string(), overrule.place));
    }
}

/// What was paid before for panels that no assessed sheet names at all.
pub(super) fn unseen_paid_before<R: Recorder>(desk: &mut Desk<'_, R>, is_seen: impl Fn(PanelId) -> bool) {
    for paid in desk.claim.paid_before.iter().filter(|paid| !is_seen(paid.panel)) {
        desk.problems.push(wording::paid_before_not_seen(&paid.panel.to_string(), paid.place));
    }
}

/// Rows of the parts table that price a panel without damage.
pub(super) fn idle_parts<R: Recorder>(desk: &mut Desk<'_, R>, panels: &[PanelAssessment]) {
    let is_assessed =
        |id| panels.iter().any(|panel| panel.panel == id && panel.state == PanelState::Assessed);
    for part in desk.claim.parts.iter().filter(|part| !is_assessed(part.panel)) {
        desk.problems.push(wording::part_idle(&part.panel.to_string(), part.place));
    }
}

/// A share of tax is between nothing and all, and belongs to an owner who gets tax back.
fn tax_share<R>(desk: &Desk<'_, R>, problems: &mut Vec<Problem>) {
    let parties = &desk.claim.parties;
    let Some(share) = parties.tax_share else { return };
    let position = parties.tax_position;
    let bears = position.is_some_and(|position| position.value == TaxPosition::Bears);
    let is_share = (Percent::default()..=Percent::HUNDRED).contains(&share.value);
    if !is_share || (bears && share.value > Percent::default()) {
        problems.push(wording::tax_share_odd(share.place, position.map(|position| position.place)));
    }
}

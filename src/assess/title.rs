//! What the law of the place of registration notes on the title. A finding of its own beside the policy's screen: it moves
//! no amount and decides nothing; a licensed adjuster does.

use super::desk::Desk;
use super::screen::{Comparison, compared};
use super::{Recorder, Rule, Screen, ScreenFigures, Totals, Unscreened};
use crate::claim::words::folded;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::TitleRule;

/// What is missing to say whether a title note follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TitleLacks {
    /// The cause of the loss, where the law leaves some causes out.
    Cause,
    /// The market value.
    MarketValue,
    /// The salvage value.
    Salvage,
}

/// Whether a title note follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TitleAnswer {
    /// The law leaves this cause of loss out.
    CauseLeftOut,
    /// It cannot be told.
    Lacks(TitleLacks),
    /// Not reached.
    Below(ScreenFigures),
    /// Not reached yet, but panels or items are open.
    Open(ScreenFigures),
    /// Reached.
    Reached(ScreenFigures),
}

/// One rule of the place of registration, looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TitleFinding {
    /// The rule, by its number in the schedule's list (from 0).
    pub rule: usize,
    /// What follows.
    pub answer: TitleAnswer,
}

/// Looks at every rule of the vehicle's place of registration that is valid on the claim's date.
pub(super) fn titles<R: Recorder>(
    desk: &mut Desk<'_, R>,
    totals: &Totals,
    date: Date,
    is_open: bool,
) -> Result<Vec<TitleFinding>, Problem> {
    let Some(place) = &desk.claim.vehicle.registered_in else { return Ok(Vec::new()) };
    let place = folded(&place.value);
    let schedule = desk.schedule;
    let holds = |rule: &TitleRule| {
        folded(&rule.place.value) == place
            && rule.valid_from.value <= date
            && rule.valid_to.is_none_or(|to| date <= to.value)
    };
    let mut found = Vec::new();
    for (number, rule) in schedule.titles.iter().enumerate().filter(|(_, rule)| holds(rule)) {
        found.push(TitleFinding { rule: number, answer: answer(desk, rule, totals, is_open)? });
    }
    Ok(found)
}

fn answer<R: Recorder>(
    desk: &mut Desk<'_, R>,
    rule: &TitleRule,
    totals: &Totals,
    is_open: bool,
) -> Result<TitleAnswer, Problem> {
    if !rule.not_from.is_empty() {
        let Some(cause) = &desk.claim.event.cause else { return Ok(TitleAnswer::Lacks(TitleLacks::Cause)) };
        let cause = folded(&cause.value);
        if rule.not_from.iter().any(|left_out| folded(left_out) == cause) {
            return Ok(TitleAnswer::CauseLeftOut);
        }
    }
    let &TitleRule { rule, comparator, share, with_tax, .. } = rule;
    let steps = (Rule::TitleCost, Rule::TitleLimit(comparator.value));
    let screen = compared(desk, Comparison { rule, comparator, share, with_tax, steps }, totals, is_open)?;
    Ok(match screen {
        Screen::Below(figures) => TitleAnswer::Below(figures),
        Screen::Open(figures) => TitleAnswer::Open(figures),
        Screen::Reached(figures) => TitleAnswer::Reached(figures),
        Screen::Not(Unscreened::NoSalvage) => TitleAnswer::Lacks(TitleLacks::Salvage),
        Screen::Not(_) => TitleAnswer::Lacks(TitleLacks::MarketValue),
    })
}

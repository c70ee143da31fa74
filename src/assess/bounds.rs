//! Floor, then cap of a panel's paintless amount, and no amount below zero, as lines of their own.

use super::desk::{Desk, OrStop};
use super::draft::{Draft, sum_of};
use super::{Formula, Line, LineKind, Recorder, Rule, StepId};
use crate::claim::{Located, Place};
use crate::problem::Problem;
use crate::quantity::Money;
use crate::schedule::{PanelTerms, TaxOn};

/// Adds what is missing to the floor, then what goes beyond the cap, then what is missing to nothing. Without any line of
/// dents or marks there is nothing to bound.
pub(super) fn bounds<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    terms: &PanelTerms,
    place: Place,
) -> Result<(), Problem> {
    if draft.lines.is_empty() {
        return Ok(());
    }
    if let Some(floor) = terms.floor {
        let sum = draft.sum(desk, place)?;
        let missing = sum.at_least(floor.value).and_then(|bound| bound.minus(sum)).or_stop(floor.place)?;
        bound(desk, draft, LineKind::Floor, floor, (sum, missing), |floor, amount| Formula::UpTo {
            floor,
            amount,
        });
    }
    if let Some(cap) = terms.cap {
        let sum = draft.sum(desk, place)?;
        let beyond = sum.at_most(cap.value).and_then(|bound| bound.minus(sum)).or_stop(cap.place)?;
        bound(desk, draft, LineKind::Cap, cap, (sum, beyond), |cap, amount| Formula::DownTo { cap, amount });
    }
    let sum = draft.sum(desk, place)?;
    if sum.minor() < 0 {
        up_to_nothing(desk, draft, sum, place)?;
    }
    Ok(())
}

/// Fixed amounts and percentages that take off more than there is leave nothing.
fn up_to_nothing<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    below: Money,
    place: Place,
) -> Result<(), Problem> {
    let amount = below.negated().or_stop(place)?;
    let before = desk.step(Rule::MethodAmount, below, || sum_of(&draft.lines));
    let step = desk.step(Rule::UpToNothing, amount, || Formula::Negative(before));
    let (kind, tax) = (LineKind::UpToNothing, desk.tax_rate(TaxOn::Labour));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: None, step });
    Ok(())
}

fn bound<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    kind: LineKind,
    stated: Located<Money>,
    (before, amount): (Money, Money),
    formula: impl FnOnce(StepId, StepId) -> Formula,
) {
    if amount.is_zero() {
        return;
    }
    let rule = if kind == LineKind::Floor { Rule::FloorTopUp } else { Rule::CapTakeOff };
    let before = desk.step(Rule::MethodAmount, before, || sum_of(&draft.lines));
    let bound = desk.term(stated.place, stated.value);
    let step = desk.step(rule, amount, || formula(bound, before));
    let tax = desk.tax_rate(TaxOn::Labour);
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: Some(stated.place), step });
}

//! Floor, then cap of a panel's paintless amount, as lines of their own.

use super::desk::{Desk, OrStop};
use super::draft::{Draft, sum_of};
use super::{Formula, Line, LineKind, Recorder, Rule, StepId};
use crate::claim::{Located, Place};
use crate::problem::Problem;
use crate::quantity::Money;
use crate::schedule::{PanelTerms, TaxOn};

/// Adds what is missing to the floor, then what goes beyond the cap. Without any line of dents or marks there is
/// nothing to bound.
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

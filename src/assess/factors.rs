//! Factors in their order, each a line of its own, rounded when it is made.

use super::count::exclusion;
use super::desk::{Desk, OrStop};
use super::draft::Draft;
use super::{Formula, Line, LineKind, Recorder, Rule, StepId};
use crate::claim::{PanelCount, words::folded};
use crate::problem::Problem;
use crate::quantity::Money;
use crate::schedule::{AppliesTo, Factor, FactorEffect, FactorTest, PanelTerms, PercentOf, TaxOn};

/// Adds the lines of the factors that hold for a panel.
pub(super) fn factors<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    panel: &PanelCount,
    terms: &PanelTerms,
) -> Result<(), Problem> {
    for (index, factor) in desk.schedule.factors.iter().enumerate() {
        if factor.scope.holds_for(terms) && holds(desk, factor, panel) {
            line(desk, draft, index, factor)?;
        }
    }
    Ok(())
}

/// Whether what a factor waits for is so: on the panel, or for depth and position on a mark that is paid.
fn holds<R>(desk: &Desk<'_, R>, factor: &Factor, panel: &PanelCount) -> bool {
    let paid = || panel.marks.iter().filter(|mark| exclusion(mark).is_none());
    match &factor.test {
        FactorTest::Always => true,
        FactorTest::Material(is) => panel.material.is_some_and(|material| material.value == *is),
        FactorTest::Access(is) => panel.access.is_some_and(|access| access.value == *is),
        FactorTest::Paint(is) => panel.paint.is_some_and(|paint| paint.value == *is),
        FactorTest::Depth(is) => {
            panel.depth.is_some_and(|depth| depth.value == *is)
                || paid().any(|mark| mark.depth.is_some_and(|depth| depth.value == *is))
        }
        FactorTest::Position(is) => {
            panel.position.is_some_and(|position| position.value == *is)
                || paid().any(|mark| mark.position.is_some_and(|position| position.value == *is))
        }
        FactorTest::VehicleClass(is) => desk.class.as_ref().is_some_and(|class| *class == folded(is)),
    }
}

/// Whether a line is part of what a factor is taken of.
fn is_under(line: &Line, factor: &Factor, of: PercentOf, all: &[Factor]) -> bool {
    match line.kind {
        LineKind::Dents { .. } | LineKind::Equivalents { .. } => factor.applies_to != AppliesTo::Marks,
        LineKind::Mark(_) | LineKind::FurtherMark { .. } => factor.applies_to != AppliesTo::Dents,
        LineKind::Factor(earlier) => {
            of == PercentOf::Running
                && (factor.applies_to == AppliesTo::Both || all[earlier].applies_to == factor.applies_to)
        }
        _ => false,
    }
}

fn line<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    index: usize,
    factor: &Factor,
) -> Result<(), Problem> {
    let all = &desk.schedule.factors;
    let place = factor.place;
    let of = match factor.effect {
        FactorEffect::Percent(_, of) => of,
        FactorEffect::Amount(_) => PercentOf::Base,
    };
    let under = || draft.lines.iter().filter(|line| is_under(line, factor, of, all));
    let base = Money::sum(desk.currency(), under().map(|line| line.amount)).or_stop(place)?;
    if base.is_zero() {
        return Ok(());
    }
    let (amount, step) = match factor.effect {
        FactorEffect::Percent(percent, _) => {
            let amount = base.percent(percent, desk.rounding()).or_stop(place)?;
            let steps = || under().map(|line| line.step);
            let base = match (steps().next(), steps().nth(1)) {
                (Some(only), None) => only,
                _ => desk.step(Rule::FactorBase, base, || Formula::Sum(steps().collect::<Vec<StepId>>())),
            };
            let percent = desk.term(place, percent);
            (amount, desk.step(Rule::FactorAmount, amount, || Formula::PercentOf { percent, of: base }))
        }
        FactorEffect::Amount(amount) => {
            (amount, desk.step_at(Rule::FactorAmount, &[place], amount, || Formula::Read))
        }
    };
    let (kind, tax) = (LineKind::Factor(index), desk.tax_rate(TaxOn::Labour));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: Some(place), step });
    Ok(())
}

//! Factors in their order, each a line of its own, rounded when it is made.

use super::count::exclusion;
use super::desk::{Desk, OrStop};
use super::draft::Draft;
use super::{Formula, Line, LineKind, Recorder, Rule, StepId};
use crate::claim::{Located, PanelCount, Place, words::folded};
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
        if !factor.scope.holds_for(terms) {
            continue;
        }
        if let Some(cell) = holds(desk, factor, panel) {
            line(desk, draft, index, factor, cell)?;
        }
    }
    Ok(())
}

/// Whether what a factor waits for is so: on the panel, or for depth and position on a mark that is paid. Gives the cell
/// that says it, if one does.
fn holds<R>(desk: &Desk<'_, R>, factor: &Factor, panel: &PanelCount) -> Option<Option<Place>> {
    let paid = || panel.marks.iter().filter(|mark| exclusion(mark).is_none());
    let cell = match &factor.test {
        FactorTest::Always => return Some(None),
        FactorTest::Material(is) => place_where(panel.material, *is),
        FactorTest::Access(is) => place_where(panel.access, *is),
        FactorTest::Paint(is) => place_where(panel.paint, *is),
        FactorTest::Depth(is) => {
            place_where(panel.depth.into_iter().chain(paid().filter_map(|mark| mark.depth)), *is)
        }
        FactorTest::Position(is) => {
            place_where(panel.position.into_iter().chain(paid().filter_map(|mark| mark.position)), *is)
        }
        FactorTest::VehicleClass(is) => {
            let vehicle = &desk.claim.vehicle;
            let written = vehicle.class.as_ref().map(|class| class.place);
            let written = written.or_else(|| vehicle.body.map(|body| body.place));
            written.filter(|_| desk.class.as_ref().is_some_and(|class| *class == folded(is)))
        }
    };
    cell.map(Some)
}

/// The cell of the first of these that is the wanted one.
fn place_where<T: PartialEq>(written: impl IntoIterator<Item = Located<T>>, wanted: T) -> Option<Place> {
    written.into_iter().find(|written| written.value == wanted).map(|written| written.place)
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
    cell: Option<Place>,
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
            let cells: Vec<Place> = cell.into_iter().collect();
            let formula = || Formula::PercentOf { percent, of: base };
            (amount, desk.step_at(Rule::FactorAmount, &cells, amount, formula))
        }
        FactorEffect::Amount(amount) => {
            let cells: Vec<Place> = std::iter::once(place).chain(cell).collect();
            (amount, desk.step_at(Rule::FactorAmount, &cells, amount, || Formula::Read))
        }
    };
    let (kind, tax) = (LineKind::Factor(index), desk.tax_rate(TaxOn::Labour));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: Some(place), step });
    Ok(())
}

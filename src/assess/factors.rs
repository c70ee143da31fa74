//! Factors in their order, each a line of its own, rounded when it is made.

use super::count::exclusion;
use super::desk::{Desk, OrStop};
use super::draft::{Draft, Labour};
use super::{Formula, Line, LineKind, Recorder, Rule, StepId, Unpriced};
use crate::claim::{Located, PanelCount, Place, words::folded};
use crate::problem::Problem;
use crate::quantity::Money;
use crate::schedule::{
    AppliesTo, Factor, FactorEffect, FactorTest, LabourClass, PanelTerms, PercentOf, TaxOn,
};

/// Adds the lines of the factors that hold for a panel.
pub(super) fn factors<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    panel: &PanelCount,
    terms: &PanelTerms,
) -> Result<(), Problem> {
    for (index, factor) in desk.schedule.factors.iter().enumerate() {
        let is_excluded =
            |line: &Line| matches!(line.kind, LineKind::Factor(it) if factor.not_with.contains(&it));
        let is_left_out = draft.missing.is_some() || draft.lines.iter().any(is_excluded);
        if is_left_out || !factor.scope.holds_for(terms) {
            continue;
        }
        if let Some(cells) = holds(desk, factor, panel, terms) {
            line(desk, draft, index, factor, &cells)?;
        }
    }
    if draft.missing.is_none() {
        ceiling(desk, draft)?;
    }
    Ok(())
}

/// Takes the factors together down to the most that they add, as a line of its own.
fn ceiling<R: Recorder>(desk: &mut Desk<'_, R>, draft: &mut Draft) -> Result<(), Problem> {
    let Some(most) = desk.schedule.terms.factors_at_most else { return Ok(()) };
    let is_factor = |line: &&Line| matches!(line.kind, LineKind::Factor(_));
    let (factors, base): (Vec<&Line>, Vec<&Line>) = draft.lines.iter().partition(is_factor);
    let sum = |lines: &[&Line]| Money::sum(desk.currency(), lines.iter().map(|line| line.amount));
    let (base_sum, factor_sum) = (sum(&base).or_stop(most.place)?, sum(&factors).or_stop(most.place)?);
    let ceiling = base_sum.percent(most.value, desk.rounding()).or_stop(most.place)?;
    let amount = factor_sum.at_most(ceiling).and_then(|bound| bound.minus(factor_sum)).or_stop(most.place)?;
    if amount.is_zero() {
        return Ok(());
    }
    let steps = |lines: &[&Line]| Formula::Sum(lines.iter().map(|line| line.step).collect());
    let of = desk.step(Rule::FactorBase, base_sum, || steps(&base));
    let percent = desk.term(most.place, most.value);
    let cap = desk.step(Rule::FactorCeiling, ceiling, || Formula::PercentOf { percent, of });
    let all = desk.step(Rule::FactorSum, factor_sum, || steps(&factors));
    let step = desk.step(Rule::FactorTakeOff, amount, || Formula::DownTo { cap, amount: all });
    let (kind, tax) = (LineKind::FactorCeiling, desk.tax_rate(TaxOn::Labour));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: Some(most.place), step });
    Ok(())
}

/// Whether what a factor waits for is so: on the panel, or for depth and position on a mark that is paid. Gives the cell
/// that says it; none where it always holds.
fn holds<R>(
    desk: &Desk<'_, R>,
    factor: &Factor,
    panel: &PanelCount,
    terms: &PanelTerms,
) -> Option<Vec<Place>> {
    let paid = || panel.marks.iter().filter(|mark| exclusion(mark).is_none());
    let cell = match &factor.test {
        FactorTest::Always => return Some(Vec::new()),
        FactorTest::Material(is) => place_where(panel.material, *is),
        FactorTest::Access(is) => place_where(panel.access, *is),
        FactorTest::Paint(is) => place_where(panel.paint, *is),
        FactorTest::Depth(is) => {
            place_where(panel.depth.into_iter().chain(paid().filter_map(|mark| mark.depth)), *is)
        }
        FactorTest::Position(is) => {
            place_where(panel.position.into_iter().chain(paid().filter_map(|mark| mark.position)), *is)
        }
        FactorTest::PanelClass(is) => {
            let class = terms.class.as_ref().filter(|class| folded(&class.value) == *is);
            class.map(|class| class.place)
        }
        FactorTest::VehicleClass(is) => {
            let vehicle = &desk.claim.vehicle;
            let written = vehicle.class.as_ref().map(|class| class.place);
            let written = written.or_else(|| vehicle.body.map(|body| body.place));
            written.filter(|_| desk.class.as_ref().is_some_and(|class| *class == folded(is)))
        }
    };
    cell.map(|cell| vec![cell])
}

/// The cell of the first of these that is the wanted one.
fn place_where<T: Copy + PartialEq>(
    written: impl IntoIterator<Item = Located<T>>,
    wanted: T,
) -> Option<Place> {
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
    cells: &[Place],
) -> Result<(), Problem> {
    let all = &desk.schedule.factors;
    let place = factor.place;
    let of = match factor.effect {
        FactorEffect::Percent(_, of) => of,
        FactorEffect::Amount(_) | FactorEffect::Time(_) => PercentOf::Base,
    };
    let under = || draft.lines.iter().filter(|line| is_under(line, factor, of, all));
    let base = Money::sum(desk.currency(), under().map(|line| line.amount)).or_stop(place)?;
    if base.is_zero() {
        return Ok(());
    }
    let kind = LineKind::Factor(index);
    let (amount, step) = match factor.effect {
        FactorEffect::Percent(percent, _) => {
            let amount = base.percent(percent, desk.rounding()).or_stop(place)?;
            let steps = || under().map(|line| line.step);
            let base = match (steps().next(), steps().nth(1)) {
                (Some(only), None) => only,
                _ => desk.step(Rule::FactorBase, base, || Formula::Sum(steps().collect::<Vec<StepId>>())),
            };
            let percent = desk.term(place, percent);
            let formula = || Formula::PercentOf { percent, of: base };
            (amount, desk.step_at(Rule::FactorAmount, cells, amount, formula))
        }
        FactorEffect::Amount(amount) => {
            let cells: Vec<Place> = std::iter::once(place).chain(cells.iter().copied()).collect();
            (amount, desk.step_at(Rule::FactorAmount, &cells, amount, || Formula::Read))
        }
        FactorEffect::Time(hours) => {
            let class = LabourClass::Paintless;
            let Some(rate) = desk.labour(class) else {
                draft.miss(Unpriced::NoLabourRate);
                return Ok(());
            };
            let cells: Vec<Place> = std::iter::once(place).chain(cells.iter().copied()).collect();
            let step = desk.step_at(Rule::Term, &cells, hours, || Formula::Read);
            let labour = Labour { class, rate, hours, place, step };
            // What is agreed for the factor is its time.
            let line = labour.line(desk, kind, Rule::FactorAmount)?;
            draft.lines.push(Line { cite: Some(place), ..line });
            return Ok(());
        }
    };
    let tax = desk.tax_rate(TaxOn::Labour);
    draft.lines.push(Line { kind, amount, hours: None, tax, cite: Some(place), step });
    Ok(())
}

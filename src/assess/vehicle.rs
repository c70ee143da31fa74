//! The vehicle's own lines: operations, items, the minimum, the discount.

use super::desk::{Desk, OrStop};
use super::items::items;
use super::operations::operations;
use super::tax::rates;
use super::{Formula, Line, LineKind, Note, OpenItem, PanelAssessment, Recorder, Rule, StepId};
use crate::claim::{Located, Place};
use crate::problem::Problem;
use crate::quantity::{Money, Percent, largest_remainder};
use crate::schedule::{DiscountOn, DiscountTaken, TaxOn};

/// The lines of the panels that enter the totals.
pub(super) fn panel_lines(panels: &[PanelAssessment]) -> impl Iterator<Item = &Line> + Clone {
    panels
        .iter()
        .filter(|panel| panel.open.is_none())
        .filter_map(PanelAssessment::chosen)
        .flat_map(|chosen| &chosen.lines)
}

/// The vehicle's lines in their order, and the items that are not priced.
pub(super) fn lines<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
) -> Result<(Vec<Line>, Vec<OpenItem>), Problem> {
    let mut lines = Vec::new();
    operations(desk, panels, &mut lines)?;
    let open = items(desk, &mut lines)?;
    let terms = &desk.schedule.terms;
    let is_discount_first =
        terms.discount_taken.is_some_and(|taken| taken.value == DiscountTaken::BeforeMinimum);
    if let Some(discount) = terms.discount.filter(|_| is_discount_first) {
        take_off(desk, panels, &mut lines, discount)?;
    }
    if let Some(minimum) = terms.minimum {
        let is_open = !open.is_empty() || panels.iter().any(|panel| panel.open.is_some());
        top_up(desk, panels, &mut lines, minimum, is_open)?;
    }
    if let Some(discount) = terms.discount.filter(|_| !is_discount_first) {
        take_off(desk, panels, &mut lines, discount)?;
    }
    Ok((lines, open))
}

/// The sum of all lines so far, with its step.
fn so_far<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    lines: &[Line],
    place: Place,
) -> Result<(Money, StepId), Problem> {
    let all = panel_lines(panels).chain(lines);
    let sum = Money::sum(desk.currency(), all.clone().map(|line| line.amount)).or_stop(place)?;
    let formula = || Formula::Sum(all.map(|line| line.step).collect());
    Ok((sum, desk.step(Rule::NetBeforeMinimum, sum, formula)))
}

/// What is missing to the minimum, as labour, if there is any line at all. While something is open nobody knows whether
/// anything is missing.
fn top_up<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    lines: &mut Vec<Line>,
    minimum: Located<Money>,
    is_open: bool,
) -> Result<(), Problem> {
    if panel_lines(panels).next().is_none() && lines.is_empty() && !is_open {
        return Ok(());
    }
    let sum = Money::sum(desk.currency(), panel_lines(panels).chain(&*lines).map(|line| line.amount));
    let missing = sum.and_then(|sum| sum.at_least(minimum.value)?.minus(sum)).or_stop(minimum.place)?;
    if missing.is_zero() {
        return Ok(());
    }
    if is_open {
        desk.notes.push(Note::MinimumWaits(minimum.value));
        return Ok(());
    }
    let (_, amount) = so_far(desk, panels, lines, minimum.place)?;
    let floor = desk.term(minimum.place, minimum.value);
    let step = desk.step(Rule::MinimumTopUp, missing, || Formula::UpTo { floor, amount });
    let (kind, tax) = (LineKind::Minimum, desk.tax_rate(TaxOn::Labour));
    lines.push(Line { kind, amount: missing, hours: None, tax, cite: Some(minimum.place), step });
    Ok(())
}

/// The lines that the discount is taken of.
fn discounted<'l>(
    panels: &'l [PanelAssessment],
    lines: &'l [Line],
    on: DiscountOn,
) -> impl Iterator<Item = &'l Line> + Clone {
    panel_lines(panels).chain(lines).filter(move |line| match on {
        DiscountOn::All => true,
        DiscountOn::Labour => line.kind.is_labour(),
    })
}

/// The stated discount, split over the tax rates by largest remainder: a negative line per rate.
fn take_off<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    lines: &mut Vec<Line>,
    discount: Located<Percent>,
) -> Result<(), Problem> {
    let place = discount.place;
    let (stated_on, taken) = (desk.schedule.terms.discount_on, desk.schedule.terms.discount_taken);
    let on = stated_on.map_or(DiscountOn::All, |on| on.value);
    let all = discounted(panels, lines, on);
    let sum = Money::sum(desk.currency(), all.clone().map(|line| line.amount)).or_stop(place)?;
    let whole = sum.percent(discount.value, desk.rounding()).or_stop(place)?;
    let formula = || Formula::Sum(all.clone().map(|line| line.step).collect());
    let of = match stated_on {
        Some(on) => desk.step_at(Rule::Discounted, &[on.place], sum, formula),
        None => desk.step(Rule::NetBeforeMinimum, sum, formula),
    };
    if whole.is_zero() {
        return Ok(());
    }
    let rates = rates(desk.currency(), all.clone()).or_stop(place)?;
    let weights: Vec<u64> =
        rates.iter().map(|(_, taxable)| u64::try_from(taxable.minor()).unwrap_or(0)).collect();
    let percent = desk.term(place, discount.value);
    let order: Vec<Place> = taken.iter().map(|taken| taken.place).collect();
    let total = desk.step_at(Rule::DiscountTotal, &order, whole, || Formula::PercentOf { percent, of });
    let off = whole.negated().or_stop(place)?;
    let total = desk.step(Rule::DiscountTotal, off, || Formula::Negative(total));
    let mut weight_steps = Vec::new();
    if R::KEEPS {
        for (rate, taxable) in &rates {
            let of_rate = all.clone().filter(|line| line.tax == *rate);
            let formula = || Formula::Sum(of_rate.map(|line| line.step).collect());
            weight_steps.push(desk.step(Rule::Taxable, *taxable, formula));
        }
    }
    let parts = largest_remainder(off.minor(), &weights);
    let mut made = Vec::new();
    for (index, ((rate, _), part)) in rates.iter().zip(parts).enumerate().filter(|(_, (_, part))| *part != 0)
    {
        let amount = Money::from_minor(part, desk.currency());
        let formula = || Formula::Part { total, weights: weight_steps.clone(), index };
        let step = desk.step(Rule::DiscountPart, amount, formula);
        let kind = LineKind::Discount(*rate);
        made.push(Line { kind, amount, hours: None, tax: *rate, cite: Some(place), step });
    }
    drop(all);
    lines.extend(made);
    Ok(())
}

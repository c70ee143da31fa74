//! Net, tax and gross. Tax is the percentage of the sum of a rate's lines, rounded once, as EN 16931 adds up an
//! invoice (BR-CO-10, 14, 15 and 17).

use super::desk::{Desk, OrStop};
use super::vehicle::panel_lines;
use super::{Formula, Line, PanelAssessment, Recorder, Rule, StepId, TaxLine, Totals};
use crate::claim::Place;
use crate::problem::Problem;
use crate::quantity::{Currency, Money, Percent, QuantityFault, Rounding};

/// Amounts by tax rate, from low to high: each rate with the sum of what it is on.
pub fn taxable_by_rate(
    currency: Currency,
    amounts: impl Iterator<Item = (Percent, Money)>,
) -> Result<Vec<(Percent, Money)>, QuantityFault> {
    let mut rates: Vec<(Percent, Money)> = Vec::new();
    for (rate, amount) in amounts {
        match rates.binary_search_by_key(&rate, |(known, _)| *known) {
            Ok(at) => rates[at].1 = rates[at].1.plus(amount)?,
            Err(at) => rates.insert(at, (rate, Money::zero(currency).plus(amount)?)),
        }
    }
    Ok(rates)
}

/// The tax of one rate on the sum of its lines.
pub fn tax_on(taxable: Money, rate: Percent, rounding: Rounding) -> Result<Money, QuantityFault> {
    taxable.percent(rate, rounding)
}

pub(super) fn rates<'l>(
    currency: Currency,
    lines: impl Iterator<Item = &'l Line>,
) -> Result<Vec<(Percent, Money)>, QuantityFault> {
    taxable_by_rate(currency, lines.map(|line| (line.tax, line.amount)))
}

/// Adds everything up.
pub(super) fn totals<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    vehicle: &[Line],
) -> Result<Totals, Problem> {
    let place = desk.schedule.terms.place;
    let all = panel_lines(panels).chain(vehicle);
    let net = Money::sum(desk.currency(), all.clone().map(|line| line.amount)).or_stop(place)?;
    let net_step = desk.step(Rule::Net, net, || Formula::Sum(all.clone().map(|line| line.step).collect()));
    let mut taxes = Vec::new();
    for (percent, taxable) in rates(desk.currency(), all.clone()).or_stop(place)? {
        let lines = all.clone().filter(|line| line.tax == percent);
        let taxable_step =
            desk.step(Rule::Taxable, taxable, || Formula::Sum(lines.map(|line| line.step).collect()));
        taxes.push(tax_line(desk, percent, taxable, taxable_step)?);
    }
    let tax = Money::sum(desk.currency(), taxes.iter().map(|tax| tax.tax)).or_stop(place)?;
    let exact = net.plus(tax).or_stop(place)?;
    let parts = || std::iter::once(net_step).chain(taxes.iter().map(|tax| tax.step));
    let (rounding, rounding_step) = match desk.schedule.terms.total_step {
        Some(to) => {
            let rounded = exact.to_step(to.value, desk.rounding()).or_stop(to.place)?;
            let rounding = rounded.minus(exact).or_stop(to.place)?;
            let amount = desk.step(Rule::Gross, exact, || Formula::Sum(parts().collect()));
            let step = desk.term(to.place, to.value);
            let id = desk.step(Rule::TotalRounding, rounding, || Formula::ToStep { amount, step });
            ((!rounding.is_zero()).then_some(rounding), Some(id))
        }
        None => (None, None),
    };
    let gross = exact.plus(rounding.unwrap_or(desk.nothing())).or_stop(place)?;
    let gross_step = desk.step(Rule::Gross, gross, || Formula::Sum(parts().chain(rounding_step).collect()));
    Ok(Totals { net, taxes, tax, rounding, gross, net_step, rounding_step, gross_step })
}

fn tax_line<R: Recorder>(
    desk: &mut Desk<'_, R>,
    percent: Percent,
    taxable: Money,
    taxable_step: StepId,
) -> Result<TaxLine, Problem> {
    let stated = desk.schedule.taxes.iter().filter(|rate| rate.percent.value == percent);
    let cells: Vec<Place> = stated.map(|rate| rate.percent.place).collect();
    let place = cells.first().copied().unwrap_or(desk.schedule.terms.place);
    let tax = tax_on(taxable, percent, desk.rounding()).or_stop(place)?;
    let rate = desk.term(place, percent);
    let step = desk.step(Rule::Tax, tax, || Formula::PercentOf { percent: rate, of: taxable_step });
    Ok(TaxLine { percent, taxable, tax, cells, step })
}

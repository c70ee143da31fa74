use crate::claim::{Located, Method};
use crate::problem::{Problem, catalogue::outlook as words};
use crate::quantity::{Hours, Money, QuantityFault};
use crate::schedule::check::amounts::cell_amount;
use crate::schedule::{LabourClass, Limit, Measure, MixedRule, PanelTerms, Schedule, Typical};

/// A panel on which the dent that crosses a limit costs less than those before it.
struct Turn<'s> {
    panel: &'s PanelTerms,
    size: usize,
    amounts: [Money; 2],
}

impl Turn<'_> {
    /// By how many minor units the amount falls.
    fn fall(&self) -> i64 {
        self.amounts[0].minor().saturating_sub(self.amounts[1].minor())
    }
}

/// Tells where a limit on dents brings a panel to a method that costs less than the paintless work before it, by the typical
/// prices for any class of vehicle, without factors: for each limit the panel on which the amount falls furthest.
pub(super) fn check(schedule: &Schedule, problems: &mut Vec<Problem>) {
    for limit in &schedule.limits {
        let Measure::DentsOver(dents) = limit.measure else { continue };
        let panels = schedule.panels.iter().filter(|panel| limit.scope.holds_for(panel));
        let turns = panels.flat_map(|panel| turns(schedule, limit, panel, dents));
        // Of falls alike the first.
        let furthest = turns.reduce(|best, next| if next.fall() > best.fall() { next } else { best });
        if let Some(Turn { panel, size, amounts: [before, after] }) = furthest {
            let size = &schedule.sizes[size].name;
            let problem = words::falls_at_limit(
                (&limit.name, limit.then.name()),
                (panel.kind.name(), dents, size),
                [before, after],
            );
            problems.push(problem.at(limit.place).and(panel.place));
        }
    }
}

fn turns<'s>(schedule: &Schedule, limit: &Limit, panel: &'s PanelTerms, dents: u32) -> Vec<Turn<'s>> {
    let Some(after) = typical_amount(schedule, panel, limit.then) else { return Vec::new() };
    let Some(count) = schedule.count_band(dents) else { return Vec::new() };
    let sizes = (0..schedule.sizes.len())
        .filter(|size| !matches!(schedule.terms.mixed.value, MixedRule::Equivalents(band) if band != *size));
    let turn = |size| {
        let before = cell_amount(schedule, panel.group, size, count, dents)?;
        let before = panel.cap.map_or(Ok(before), |cap| before.at_most(cap.value)).ok()?;
        let decides_before = |other: &Limit| is_crossed(schedule, other, panel, (size, dents), before);
        let is_paid = !schedule.limits.iter().any(decides_before);
        (is_paid && after.minor() < before.minor()).then_some(Turn { panel, size, amounts: [before, after] })
    };
    sizes.filter_map(turn).collect()
}

/// Whether so many dents of one size on a panel cross a limit by their number or by what they cost.
fn is_crossed(
    schedule: &Schedule,
    limit: &Limit,
    panel: &PanelTerms,
    (size, dents): (usize, u32),
    paintless: Money,
) -> bool {
    let is_above = |method, share| {
        let other = typical_amount(schedule, panel, method);
        let bound = other.and_then(|other| other.percent(share, schedule.terms.rounding.value).ok());
        bound.is_some_and(|bound| paintless.minor() > bound.minor())
    };
    limit.scope.holds_for(panel)
        && match limit.measure {
            Measure::DentsOver(most) => dents > most,
            Measure::DentsOfSizeOver(band, most) => size >= band && dents > most,
            Measure::ShareOfReplacing(share) => is_above(Method::Replace, share),
            Measure::ShareOfConventional(share) => is_above(Method::Conventional, share),
            _ => false,
        }
}

/// What conventional repair or replacing comes to by the typical prices for any class; `None` for other methods, and where
/// something has no price.
fn typical_amount(schedule: &Schedule, panel: &PanelTerms, method: Method) -> Option<Money> {
    let prices = Prices { schedule, panel };
    let nothing = Money::zero(schedule.terms.currency.value);
    let own = match method {
        Method::Replace => {
            let fitting = prices.labour(LabourClass::Refit, prices.value(|row| row.fitting)?)?;
            prices.value(|row| row.part)?.plus(fitting).ok()?
        }
        Method::Conventional => {
            prices.labour(LabourClass::Conventional, prices.value(|row| row.conventional)?)?
        }
        _ => return None,
    };
    let refinish = prices.labour(LabourClass::Refinish, prices.value(|row| row.refinish)?)?;
    let blend = prices.value(|row| row.blend).unwrap_or(Hours::ZERO);
    let blend = prices.labour(LabourClass::Refinish, blend)?;
    let material = prices.value(|row| row.paint_material).unwrap_or(nothing);
    let all: Result<Money, QuantityFault> =
        [refinish, blend, material].into_iter().try_fold(own, Money::plus);
    all.ok()
}

struct Prices<'s> {
    schedule: &'s Schedule,
    panel: &'s PanelTerms,
}

impl Prices<'_> {
    /// Of the rows for any class that hold and state a value the most particular.
    fn value<T>(&self, of: impl Fn(&Typical) -> Option<Located<T>>) -> Option<T> {
        let rows = self.schedule.typical.iter().filter(|row| row.class.is_none());
        let holding = rows.filter(|row| row.scope.holds_for(self.panel));
        let stated = holding.filter_map(|row| Some((row.scope.rank(), of(row)?.value)));
        stated.reduce(|best, next| if next.0 > best.0 { next } else { best }).map(|(_, value)| value)
    }

    fn labour(&self, class: LabourClass, hours: Hours) -> Option<Money> {
        let rate = self.schedule.labour.iter().find(|rate| rate.class == class)?;
        hours.at(rate.per_hour.value, self.schedule.terms.rounding.value).ok()
    }
}

//! Work that goes with panels, charged once per vehicle, side or panel, however many panels ask for it.

use super::desk::{Desk, OrStop};
use super::draft::Labour;
use super::{Formula, Line, LineKind, PanelAssessment, Recorder, Rule};
use crate::claim::{Method, PanelId, Side};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::schedule::{Once, Operation, Schedule, Scope, TaxOn};

/// The lines of all operations that the panels ask for, in the order of the schedule's rows.
pub(super) fn operations<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    lines: &mut Vec<Line>,
) -> Result<(), Problem> {
    let schedule = desk.schedule;
    for (index, operation) in schedule.operations.iter().enumerate() {
        let mut asking =
            panels.iter().filter(|panel| asks(desk, panel, operation)).map(|panel| panel.panel).peekable();
        if asking.peek().is_none() {
            continue;
        }
        match operation.once {
            Once::Vehicle => charge(desk, lines, index, (None, None))?,
            Once::Side => {
                let asking: Vec<PanelId> = asking.collect();
                for side in [None, Some(Side::Left), Some(Side::Right)] {
                    if asking.iter().any(|panel| panel.side == side) {
                        charge(desk, lines, index, (None, side))?;
                    }
                }
            }
            Once::Panel => {
                let asking: Vec<PanelId> = asking.collect();
                for panel in asking {
                    charge(desk, lines, index, (Some(panel), None))?;
                }
            }
        }
    }
    Ok(())
}

/// Whether a panel that enters the totals asks for an operation.
fn asks<R>(desk: &Desk<'_, R>, panel: &PanelAssessment, operation: &Operation) -> bool {
    let is_worked_on = panel.open.is_none() && panel.method != Method::NoRepair;
    is_worked_on
        && is_in(desk.schedule, operation.scope, panel.panel)
        && operation.method.is_none_or(|method| method == panel.method)
        && operation.access.is_none_or(|wanted| {
            let inspection = desk.claim.inspections.get(panel.inspection);
            let written = inspection.and_then(|inspection| inspection.panels.get(panel.index));
            written.and_then(|written| written.access).is_some_and(|access| access.value == wanted)
        })
}

/// Whether a scope holds for a panel; of one that the schedule does not list only its kind is known.
pub(super) fn is_in(schedule: &Schedule, scope: Scope, panel: PanelId) -> bool {
    match schedule.panels.iter().find(|terms| terms.kind == panel.kind) {
        Some(terms) => scope.holds_for(terms),
        None => scope == Scope::Any || scope == Scope::Kind(panel.kind),
    }
}

/// Labour and parts of an operation, a line each.
fn charge<R: Recorder>(
    desk: &mut Desk<'_, R>,
    lines: &mut Vec<Line>,
    operation: usize,
    (panel, side): (Option<PanelId>, Option<Side>),
) -> Result<(), Problem> {
    let row = &desk.schedule.operations[operation];
    if let Some(hours) = row.hours {
        let class = row.class;
        let Some(rate) = desk.labour(class) else {
            return Err(wording::rate_missing(&format!("rate for {class} labour"), row.place));
        };
        let step = desk.term(hours.place, hours.value);
        let labour = Labour { class, rate, hours: hours.value, place: hours.place, step };
        let kind = LineKind::OperationLabour { operation, panel, side };
        lines.push(labour.line(desk, kind, Rule::OperationAmount)?);
    }
    if let Some(parts) = row.parts {
        let step = desk.step_at(Rule::OperationAmount, &[parts.place], parts.value, || Formula::Read);
        let kind = LineKind::OperationParts { operation, panel, side };
        let tax = desk.tax_rate(TaxOn::Parts);
        // An amount of another currency has no place among these lines.
        let amount = desk.nothing().plus(parts.value).or_stop(parts.place)?;
        lines.push(Line { kind, amount, hours: None, tax, cite: Some(parts.place), step });
    }
    Ok(())
}

use super::Filling;
use crate::assess::{PanelAssessment, PanelState};
use crate::claim::{Method, PanelId};
use crate::report::wording;
use serde::Serialize;
use std::time::Duration;

/// What a customer is offered: what is in it, what is not, until when, and what to expect.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Offer {
    /// Until when it holds; none where the schedule does not say how long, or no date is known.
    pub valid_until: Option<String>,
    /// What will be done, a sentence each.
    pub included: Vec<String>,
    /// What will not, a sentence each.
    pub not_included: Vec<String>,
    /// What paintless repair can and cannot do.
    pub promise: &'static str,
    /// What the customer signs.
    pub acceptance: String,
}

pub(super) fn offer(filling: &Filling<'_>) -> Offer {
    let subject = &filling.subject;
    Offer {
        valid_until: valid_until(filling),
        included: included(filling),
        not_included: not_included(filling),
        promise: wording::NO_PROMISE,
        acceptance: wording::acceptance(subject.assessment.totals.gross),
    }
}

/// Counted from the day of the document, else from that of the inspection; without either no day is invented.
fn valid_until(filling: &Filling<'_>) -> Option<String> {
    let days = filling.subject.schedule.terms.quotation_days?.value;
    let (from, origin) = filling.day()?;
    let until = from.checked_add(Duration::from_secs(u64::from(days) * 86_400)).ok()?;
    Some(wording::valid_until(until, from, origin))
}

/// Whether something was found on a panel and decided.
fn is_assessed(panel: &PanelAssessment) -> bool {
    panel.open.is_none() && panel.state == PanelState::Assessed
}

fn included(filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let mut out = Vec::new();
    for panel in &subject.assessment.panels {
        if is_assessed(panel) && panel.method != Method::NoRepair {
            out.push(wording::included_panel(panel, subject));
        }
    }
    for line in &subject.assessment.vehicle_lines {
        // Labour and parts of one work stand one behind the other.
        out.extend(wording::included_work(line, subject).filter(|work| out.last() != Some(work)));
    }
    out
}

fn not_included(filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let assessment = subject.assessment;
    let mut out: Vec<String> = assessment
        .open_panels()
        .map(|panel| wording::open_panel(panel, subject, |place| filling.cell(place)))
        .collect();
    let left =
        assessment.panels.iter().filter(|panel| is_assessed(panel) && panel.method == Method::NoRepair);
    out.extend(left.map(|panel| wording::included_panel(panel, subject)));
    out.extend(wording::open_items(subject));
    out.extend(assessment.excluded.iter().map(|excluded| wording::excluded_mark(excluded, subject)));
    let missed: Vec<PanelId> = assessment
        .panels
        .iter()
        .filter(|panel| panel.state == PanelState::NotInspected)
        .map(|panel| panel.panel)
        .collect();
    out.extend(wording::not_inspected(&missed, subject.words));
    let painted = assessment.panels.iter().any(|panel| {
        panel.open.is_none()
            && matches!(panel.method, Method::RefinishAfter | Method::Conventional | Method::Replace)
    });
    if !painted {
        out.push(wording::no_paint_work().to_owned());
    }
    out.push(subject.words.text("not-seen-yet"));
    out
}

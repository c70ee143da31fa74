//! What is to be done with a panel: the limits, then a person, then whether it can enter a total.

use super::desk::{Desk, OrStop};
use super::inspection::Seen;
use super::panels::is_undamaged;
use super::{Alternative, Crossing, Finding, OpenReason, Overruled, PanelAssessment, Recorder, Unpriced};
use crate::claim::{Method, Overrule, PanelId};
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::Money;

/// A person's decision on a panel, if there is one.
pub(super) fn overrule<'a, R: Recorder>(desk: &Desk<'a, R>, panel: PanelId) -> Option<(usize, &'a Overrule)> {
    desk.claim.overrules.iter().enumerate().find(|(_, overrule)| overrule.panel == panel)
}

/// A decision on a panel of which nothing is known stops the claim.
pub(super) fn refuse_unseen<R: Recorder>(
    desk: &mut Desk<'_, R>,
    overrule: Option<(usize, &Overrule)>,
    panel: PanelId,
) {
    if let Some((_, overrule)) = overrule {
        desk.problems.push(wording::overrule_not_seen(&panel.to_string(), overrule.place));
    }
}

/// Of the limits crossed, the one furthest from paintless; of equal ones the earlier row.
fn furthest(findings: &[Finding], then: impl Fn(&Finding) -> Method) -> Option<(usize, Method)> {
    findings
        .iter()
        .enumerate()
        .filter(|(_, finding)| finding.crossing == Crossing::Yes)
        .map(|(index, finding)| (index, then(finding)))
        .filter(|(_, method)| *method > Method::Paintless)
        .reduce(|best, next| if next.1 > best.1 { next } else { best })
}

/// Sets the panel's method, who decided it, and why it is open.
pub(super) fn decide<R: Recorder>(
    desk: &mut Desk<'_, R>,
    seen: &Seen<'_>,
    panel: &mut PanelAssessment,
    overrule: Option<(usize, &Overrule)>,
) -> Result<(), Problem> {
    let limits = &desk.schedule.limits;
    let decided = furthest(&panel.findings, |finding| limits[finding.limit].then);
    panel.decided_by = decided.map(|(index, _)| index);
    let is_listed = panel.group.is_some();
    let is_damaged = !is_undamaged(seen, panel.dents, &panel.marks);
    let pushes_nothing = |paintless: &Alternative| paintless.lines.is_empty() && paintless.amount.is_ok();
    panel.method = match decided {
        _ if !is_damaged => Method::NoRepair,
        _ if !is_listed => Method::Refer,
        Some((_, method)) => method,
        // Broken paint alone: nothing to push, and no limit that says what follows.
        None if panel.alternatives.first().is_some_and(pushes_nothing) => Method::Refer,
        None => Method::Paintless,
    };
    if let Some((number, overrule)) = overrule {
        let schedule_says = std::mem::replace(&mut panel.method, overrule.method.value);
        let (before, after) = (amount(desk, panel, schedule_says), amount(desk, panel, panel.method));
        let difference = match (before, after) {
            (Some(before), Some(after)) => Some(after.minus(before).or_stop(overrule.place)?),
            _ => None,
        };
        panel.overruled = Some(Overruled { overrule: number, schedule_says, difference });
    }
    panel.open = open(panel, is_listed);
    Ok(())
}

/// The amount of a method; doing nothing costs nothing.
fn amount<R: Recorder>(desk: &Desk<'_, R>, panel: &PanelAssessment, method: Method) -> Option<Money> {
    match method {
        Method::NoRepair => Some(desk.nothing()),
        _ => panel.alternatives.iter().find(|other| other.method == method)?.amount.ok(),
    }
}

fn open(panel: &PanelAssessment, is_listed: bool) -> Option<OpenReason> {
    match (panel.method, panel.chosen()) {
        (Method::NoRepair, _) => None,
        (Method::Refer, _) if !is_listed => Some(OpenReason::NotPriced(Unpriced::NoPanelTerms)),
        (Method::Refer, _) | (_, None) => Some(OpenReason::Referred),
        (_, Some(chosen)) => chosen.amount.err().map(OpenReason::NotPriced),
    }
}

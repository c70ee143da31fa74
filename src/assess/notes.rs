//! How the claim was understood; none of it moves an amount.

use super::base::amount_of_all;
use super::desk::Desk;
use super::inspection::Inspected;
use super::{Note, PanelAssessment, Recorder};
use crate::claim::PanelId;
use crate::schedule::MixedRule;

/// Notes that one more dent, in any one band, would lower the panel's base. Only where one rule rates all dents
/// together can it.
pub(super) fn could_be_less<R: Recorder>(desk: &mut Desk<'_, R>, panel: &PanelAssessment) {
    let schedule = desk.schedule;
    if !matches!(schedule.terms.mixed.value, MixedRule::MostFrequent | MixedRule::LargestShare(_)) {
        return;
    }
    let (Some(group), true) = (panel.group, panel.dents > 0) else { return };
    let dents = |size: usize| panel.counts[size].dents();
    let Some(now) = amount_of_all(schedule, group, dents) else { return };
    let would_lower = |added: usize| {
        let more = |size: usize| dents(size).saturating_add(u32::from(size == added));
        amount_of_all(schedule, group, more).is_some_and(|more| more.minor() < now.minor())
    };
    if (0..panel.counts.len()).any(would_lower) {
        desk.notes.push(Note::MoreCouldBeLess(panel.panel));
    }
}

/// Notes about the claim as a whole, before those of its panels.
pub(super) fn of_claim<R: Recorder>(desk: &mut Desk<'_, R>, inspected: &Inspected<'_>) {
    let mut first: Vec<Note> = inspected.others.iter().map(|other| Note::SecondInspection(*other)).collect();
    if let Some(body) = desk.claim.vehicle.body {
        let mentioned = |panel: &PanelId| {
            desk.claim.inspections.iter().flat_map(|seen| &seen.panels).any(|there| there.panel == *panel)
        };
        let mut missing = body.value.usual_panels();
        missing.retain(|panel| !mentioned(panel));
        if !missing.is_empty() {
            first.push(Note::PanelsNotListed(missing));
        }
    }
    if desk.blanks > 0 {
        first.push(Note::NoneWritten(desk.blanks));
    }
    desk.notes.splice(0..0, first);
}

//! Parts of a claim by themselves, for comparing: one person's look, and one panel of which parts were exchanged.

use super::desk::Desk;
use super::inspection::{Seen, alone};
use super::{Assessment, DateOrigin, PanelAssessment, Silent, finished, panels, written};
use crate::claim::{Claim, Inspection, PanelCount};
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::Schedule;

/// Assesses one look at a car as if it were the claim's only one, with the claim's vehicle, parties, prices and overrules.
/// The look may be written in another claim. Panels that it did not inspect are left out, so that a person's decision
/// on one of them does not stop the look.
pub fn assess_look(
    claim: &Claim,
    look: &Inspection,
    schedule: &Schedule,
    index: usize,
    dated: (Date, DateOrigin),
) -> Result<Assessment, Vec<Problem>> {
    let mut recorder = Silent;
    let mut desk = Desk::new(claim, schedule, &mut recorder);
    written::check(&mut desk);
    match alone(look, &claim.items) {
        Ok(inspected) => finished(desk, inspected, index, dated),
        Err(problem) => {
            desk.problems.push(problem);
            Err(desk.told())
        }
    }
}

/// Assesses one panel by itself; none where something stops it. Nothing of the claim but the panel is looked at again.
pub fn panel_alone(claim: &Claim, panel: &PanelCount, schedule: &Schedule) -> Option<PanelAssessment> {
    let mut recorder = Silent;
    let mut desk = Desk::new(claim, schedule, &mut recorder);
    let seen = [Seen { panel, inspection: 0, index: 0 }];
    let assessed = panels::assessed(&mut desk, &seen).pop();
    if desk.is_stopped() { None } else { assessed }
}

//! What counting a car again could move: its own count, repriced with a few dents more and fewer.

use super::hybrid::recounted;
use crate::assess::{Assessment, panel_alone};
use crate::claim::Claim;
use crate::quantity::{Money, QuantityFault};
use crate::schedule::Schedule;

/// A second count of a panel is taken to lie within one dent in so many of the first, and at least one. Ours; common
/// practice has no number.
pub const ONE_IN: u32 = 10;

/// The most that a second count within [`ONE_IN`] could move: for each panel with dents the larger change of its amount
/// with so many dents more or fewer in the same shares of sizes, added up. A panel that would then be open counts with
/// all its amount; one that is open already counts with nothing.
pub fn could_move(
    claim: &Claim,
    assessment: &Assessment,
    schedule: &Schedule,
) -> Result<Money, QuantityFault> {
    let nothing = Money::zero(schedule.terms.currency.value);
    let mut sum = nothing;
    for panel in assessment.panels.iter().filter(|panel| panel.open.is_none()) {
        let written = claim.inspections.get(panel.inspection).and_then(|seen| seen.panels.get(panel.index));
        let Some(written) = written else { continue };
        let paid = panel.amount().unwrap_or(nothing);
        let by = panel.dents.div_ceil(ONE_IN);
        let mut most = nothing;
        for dents in [panel.dents.saturating_sub(by), panel.dents.saturating_add(by)] {
            let Some(again) = recounted(written, panel, claim, dents, schedule) else { continue };
            let other = panel_alone(claim, &again, schedule).filter(|panel| panel.open.is_none());
            let other = other.map_or(nothing, |other| other.amount().unwrap_or(nothing));
            let moved = other.minus(paid)?;
            let moved = if moved.minor() < 0 { moved.negated()? } else { moved };
            most = if moved.minor() > most.minor() { moved } else { most };
        }
        sum = sum.plus(most)?;
    }
    Ok(sum)
}

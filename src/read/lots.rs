//! What the claims of one lot share: the cap of its excess for one event.

use crate::claim::words::folded;
use crate::claim::{Claim, Intake, Located, WrittenAmount};
use crate::problem::catalogue::claim as say;
use std::collections::BTreeMap;

/// The insurer, the lot and the event, compared without case and spacing; none where there is no insurer or no lot. The
/// event is its name, else the day of the loss.
fn key(claim: &Claim) -> Option<(String, String, String)> {
    let parties = &claim.parties;
    let name = claim.event.name.as_ref().map(|name| folded(&name.value));
    let event = name.or_else(|| claim.event.date.map(|date| date.value.to_string()));
    Some((
        folded(&parties.insurer.as_ref()?.value),
        folded(&parties.lot.as_ref()?.value),
        event.unwrap_or_default(),
    ))
}

/// A cap that is written once holds for every claim of its lot; two that differ are told, and so is one without a lot.
pub(super) fn share_caps(mut intakes: Vec<&mut Intake>) {
    let mut caps: BTreeMap<(String, String, String), Located<WrittenAmount>> = BTreeMap::new();
    for Intake { claim, problems } in intakes.iter_mut().map(|intake| &mut **intake) {
        let Some(cap) = claim.parties.lot_cap else { continue };
        let told = match key(claim) {
            None => say::lot_cap_idle(cap.place),
            Some(key) => match caps.get(&key) {
                None => {
                    caps.insert(key, cap);
                    continue;
                }
                Some(first) if first.value == cap.value => continue,
                Some(first) => say::lot_caps_disagree(first.place, cap.place),
            },
        };
        problems.push(told.of_claim(claim.key.text.clone()));
    }
    for Intake { claim, .. } in intakes {
        if claim.parties.lot_cap.is_none() {
            claim.parties.lot_cap = key(claim).and_then(|key| caps.get(&key).copied());
        }
    }
}

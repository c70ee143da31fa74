//! A claim without what names a person or a car, for sharing: the same counts, marks, prices and terms, so the same
//! amounts.

use super::{Claim, Inspection, JobKey, KeyKind, Located};

/// In place of a text that is left out where something has to stand.
pub const LEFT_OUT: &str = "(left out)";
/// Letters and digits from which on a hidden text is looked for inside others; shorter ones would hit words.
const LEAST: usize = 4;
/// Characters of a VIN that stay: maker, type, year and plant, which thousands of cars share.
const VIN_SHOWN: usize = 11;
const VIN_LENGTH: usize = 17;

/// Letters and digits alone, in lower case.
fn squeezed(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// What has to be found nowhere in what is left of a claim.
struct Hidden(Vec<String>);

impl Hidden {
    fn of(claim: &Claim) -> Self {
        let (parties, vehicle) = (&claim.parties, &claim.vehicle);
        let people = claim.inspections.iter().filter_map(|inspection| inspection.assessor.as_ref());
        let named = [&parties.owner, &vehicle.registration, &vehicle.vin, &parties.policy_number];
        let texts = named.into_iter().flatten().chain(people).map(|text| text.value.as_str());
        let mut hidden: Vec<String> = texts.map(squeezed).collect();
        // A surname alone names its bearer, and the last characters of a VIN the car.
        let owner = parties.owner.iter().flat_map(|owner| owner.value.split_whitespace());
        hidden.extend(owner.map(squeezed));
        hidden.extend(vehicle.vin.iter().filter_map(|vin| {
            let vin = squeezed(&vin.value);
            (vin.chars().count() == VIN_LENGTH).then(|| vin.chars().skip(VIN_SHOWN).collect())
        }));
        hidden.retain(|text| text.chars().count() >= LEAST);
        Self(hidden)
    }

    fn stands_in(&self, text: &str) -> bool {
        let text = squeezed(text);
        self.0.iter().any(|hidden| text.contains(hidden))
    }

    /// A text that stays, unless it says what is hidden.
    fn scrub(&self, field: &mut Option<Located<String>>) {
        if let Some(text) = field.as_mut().filter(|text| self.stands_in(&text.value)) {
            LEFT_OUT.clone_into(&mut text.value);
        }
    }
}

fn blot(field: &mut Option<Located<String>>) {
    if let Some(text) = field {
        LEFT_OUT.clone_into(&mut text.value);
    }
}

/// The claim without names, plates and free text. `number` is its place in the batch, from 1, by which a key that could
/// say who or which car it is goes.
///
/// Left out are owner, policy and job number, registration, the last six characters of the VIN (all of one that has not
/// 17), places of loss and inspection, odometer, lot, remarks, photographs, and sources of prices. Assessors become
/// letters, claim by claim. Of the claim number and other texts that stay, one that says a hidden text is left out as well.
pub fn redacted(claim: &Claim, number: usize) -> Claim {
    let hidden = Hidden::of(claim);
    let mut claim = claim.clone();
    let stays = claim.key.kind == KeyKind::ClaimNumber && !hidden.stands_in(&claim.key.text);
    if !stays {
        claim.key = JobKey::new(KeyKind::JobNumber, format!("job {number}"));
        claim.parties.claim_number = None;
    }
    let parties = &mut claim.parties;
    hidden.scrub(&mut parties.claim_number);
    for left_out in
        [&mut parties.owner, &mut parties.policy_number, &mut parties.job_number, &mut parties.lot]
    {
        *left_out = None;
    }
    parties.lot_cap = None;
    hidden.scrub(&mut parties.insurer);
    claim.event.location = None;
    hidden.scrub(&mut claim.event.name);
    hidden.scrub(&mut claim.event.cause);
    vehicle(&mut claim, &hidden);
    people(&mut claim.inspections);
    for item in &mut claim.items {
        if hidden.stands_in(&item.name.value) {
            LEFT_OUT.clone_into(&mut item.name.value);
        }
        (item.source, item.remark) = (None, None);
    }
    for part in &mut claim.parts {
        part.source = None;
    }
    for overrule in &mut claim.overrules {
        blot(&mut overrule.by);
        blot(&mut overrule.reason);
    }
    for paid in &mut claim.paid_before {
        hidden.scrub(&mut paid.event);
    }
    claim.photographs.clear();
    claim.enclosures.clear();
    claim.remarks.clear();
    claim
}

fn vehicle(claim: &mut Claim, hidden: &Hidden) {
    let vehicle = &mut claim.vehicle;
    vehicle.registration = None;
    vehicle.odometer = None;
    vehicle.vin = vehicle.vin.take().filter(|vin| vin.value.chars().count() == VIN_LENGTH).map(|vin| {
        let shown: String = vin.value.chars().take(VIN_SHOWN).collect();
        Located::new(format!("{shown}{}", "*".repeat(VIN_LENGTH - VIN_SHOWN)), vin.place)
    });
    for field in [
        &mut vehicle.make,
        &mut vehicle.model,
        &mut vehicle.class,
        &mut vehicle.registered_in,
        &mut vehicle.market,
        &mut vehicle.colour,
        &mut vehicle.paint_kind,
        &mut vehicle.roof_equipment,
        &mut vehicle.driver_assistance,
    ] {
        hidden.scrub(field);
    }
}

/// Assessors by letters, in the order in which the claim names them; places and remarks left out.
fn people(inspections: &mut [Inspection]) {
    let mut known: Vec<String> = Vec::new();
    for inspection in inspections {
        if let Some(assessor) = &mut inspection.assessor {
            let name = super::words::folded(&assessor.value);
            let index = known.iter().position(|other| *other == name).unwrap_or_else(|| {
                known.push(name);
                known.len() - 1
            });
            assessor.value = lettered(index);
        }
        inspection.location = None;
        for panel in &mut inspection.panels {
            panel.remarks.clear();
            for mark in &mut panel.marks {
                mark.remark = None;
            }
        }
    }
}

/// `A`, `B`, and from the 27th on a number.
fn lettered(index: usize) -> String {
    match u8::try_from(index) {
        Ok(index) if index < 26 => char::from(b'A' + index).to_string(),
        _ => (index + 1).to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Place, SourceId};

    fn text(value: &str) -> Located<String> {
        Located::new(value.to_owned(), Place { source: SourceId(0), row: 2, column: 3 })
    }

    #[test]
    fn a_key_that_says_the_plate_or_the_owner_becomes_a_number_and_another_stays() {
        let key = |kind, key: &str| {
            let mut claim = Claim::new(JobKey::new(kind, key));
            claim.vehicle.registration = Some(text("DEMO 117"));
            claim.parties.owner = Some(text("Corbin Athelwray"));
            redacted(&claim, 4).key.text
        };
        assert_eq!(key(KeyKind::ClaimNumber, "A-17"), "A-17");
        assert_eq!(key(KeyKind::ClaimNumber, "2026/demo-117"), "job 4");
        assert_eq!(key(KeyKind::ClaimNumber, "Athelwray 2"), "job 4");
        assert_eq!(key(KeyKind::Registration, "DEMO 117"), "job 4");
        assert_eq!(key(KeyKind::JobNumber, "the neighbour's estate"), "job 4");
    }

    #[test]
    fn a_vin_keeps_what_thousands_of_cars_share() {
        let mut claim = Claim::new(JobKey::new(KeyKind::ClaimNumber, "A-17"));
        claim.vehicle.vin = Some(text("ABCDEFGHJKL123456"));
        claim.vehicle.model = Some(text("Finch 123456"));
        let left = redacted(&claim, 1).vehicle;
        assert_eq!(left.vin.unwrap().value, "ABCDEFGHJKL******");
        assert_eq!(left.model.unwrap().value, LEFT_OUT);
        claim.vehicle.vin = Some(text("123456"));
        assert_eq!(redacted(&claim, 1).vehicle.vin, None);
    }
}

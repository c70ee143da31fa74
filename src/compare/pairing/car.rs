use crate::claim::words::folded;
use crate::claim::{Inspection, Intake, Role};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// By what two claims were found to speak of one car.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JoinedBy {
    /// One claim holds all the looks.
    Claim,
    /// Different claim numbers, the same VIN.
    Vin,
    /// Different claim numbers, the same registration.
    Registration,
}

/// One person's count of one car.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Look {
    /// The claim it is written in, by its number in the batch.
    pub claim: usize,
    /// The inspection, by its number in that claim.
    pub inspection: usize,
    /// Who, as first written; a nameless look goes by its role.
    pub assessor: Arc<str>,
}

/// One car with the looks that can be compared: one for each assessor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Car {
    /// The claim whose vehicle, parties and prices hold for every look: the first of them in the batch.
    pub claim: usize,
    /// How its claims were joined.
    pub joined: JoinedBy,
    /// The first look of each assessor, in the order of the batch.
    pub looks: Vec<Look>,
    /// Further looks of an assessor who already has one: repeat counts.
    pub repeats: Vec<Look>,
}

/// A look that is not compared, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Aside {
    /// Agreed or supplementary: made knowing the others.
    Overlay(Look),
    /// The car has no second look.
    Alone(Look),
    /// Reading its claim found an error.
    Stopped(Look),
}

impl Aside {
    /// The look.
    pub const fn look(&self) -> &Look {
        match self {
            Self::Overlay(look) | Self::Alone(look) | Self::Stopped(look) => look,
        }
    }
}

/// Gathers the looks of every car with at least two assessors, in the order of the batch, and lists the others.
pub fn cars(intakes: &[Intake]) -> (Vec<Car>, Vec<Aside>) {
    let mut aside = Vec::new();
    let mut cars: Vec<Car> = Vec::new();
    let mut names = BTreeSet::new();
    for (first, members, joined) in joined(intakes) {
        let mut car = Car { claim: first, joined, looks: Vec::new(), repeats: Vec::new() };
        for claim in members {
            for look in looks(&intakes[claim], claim, &mut names) {
                let (look, role) = look;
                if intakes[claim].is_stopped() {
                    aside.push(Aside::Stopped(look));
                } else if matches!(role, Role::Agreed | Role::Supplement) {
                    aside.push(Aside::Overlay(look));
                } else if car.looks.iter().any(|other| folded(&other.assessor) == folded(&look.assessor)) {
                    car.repeats.push(look);
                } else {
                    car.looks.push(look);
                }
            }
        }
        if car.looks.len() >= 2 || !car.repeats.is_empty() {
            cars.push(car);
        } else {
            aside.extend(car.looks.into_iter().map(Aside::Alone));
        }
    }
    (cars, aside)
}

/// The batch's claims as cars: the first claim, all claims of the car in order, and how they were joined.
fn joined(intakes: &[Intake]) -> Vec<(usize, Vec<usize>, JoinedBy)> {
    let mut by_vin: BTreeMap<String, usize> = BTreeMap::new();
    let mut by_plate: BTreeMap<String, usize> = BTreeMap::new();
    let mut cars: Vec<(usize, Vec<usize>, JoinedBy)> = Vec::new();
    for (number, intake) in intakes.iter().enumerate() {
        let vin = plain(intake.claim.vehicle.vin.as_ref().map(|vin| vin.value.as_str()));
        let plate = plain(intake.claim.vehicle.registration.as_ref().map(|plate| plate.value.as_str()));
        let known = |index: &BTreeMap<String, usize>, key: &Option<String>| {
            key.as_ref().and_then(|key| index.get(key)).copied()
        };
        let (car, joined) = match (known(&by_vin, &vin), known(&by_plate, &plate)) {
            (Some(car), _) => (car, JoinedBy::Vin),
            // Two cars with different VINs can have carried one plate; the VIN decides.
            (None, Some(car)) if vin.is_none() || !has_vin(intakes, &cars[car].1) => {
                (car, JoinedBy::Registration)
            }
            (None, _) => {
                cars.push((number, Vec::new(), JoinedBy::Claim));
                (cars.len() - 1, JoinedBy::Claim)
            }
        };
        cars[car].1.push(number);
        cars[car].2 = cars[car].2.max(joined);
        for (index, key) in [(&mut by_vin, vin), (&mut by_plate, plate)] {
            if let Some(key) = key {
                index.entry(key).or_insert(car);
            }
        }
    }
    cars
}

fn has_vin(intakes: &[Intake], members: &[usize]) -> bool {
    members.iter().any(|member| intakes[*member].claim.vehicle.vin.is_some())
}

/// A VIN or plate as it is compared: letters and digits in capitals; nothing left is nothing.
fn plain(text: Option<&str>) -> Option<String> {
    let plain: String = text?.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect();
    (!plain.is_empty()).then_some(plain)
}

/// A claim's looks. A name is kept once, however often it is written.
fn looks(intake: &Intake, claim: usize, names: &mut BTreeSet<Arc<str>>) -> Vec<(Look, Role)> {
    let look = |(number, inspection): (usize, &Inspection)| {
        let role = inspection.role();
        let assessor: Arc<str> = inspection
            .assessor
            .as_ref()
            .map_or_else(|| format!("{role} count without a name").into(), |name| name.value.as_str().into());
        let assessor = if let Some(known) = names.get(&assessor) {
            Arc::clone(known)
        } else {
            names.insert(Arc::clone(&assessor));
            assessor
        };
        (Look { claim, inspection: number, assessor }, role)
    };
    intake.claim.inspections.iter().enumerate().map(look).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Claim, JobKey, KeyKind, Located, Place, SourceId};

    fn place() -> Place {
        Place::whole(SourceId(0))
    }

    fn intake(key: &str, vin: Option<&str>, plate: Option<&str>, assessors: &[&str]) -> Intake {
        let mut claim = Claim::new(JobKey::new(KeyKind::ClaimNumber, key));
        let text = |text: &str| Located::new(text.to_owned(), place());
        claim.vehicle.vin = vin.map(text);
        claim.vehicle.registration = plate.map(text);
        claim.inspections = assessors
            .iter()
            .map(|name| Inspection {
                assessor: Some(text(name)),
                date: None,
                location: None,
                pass: None,
                role: None,
                panels: Vec::new(),
            })
            .collect();
        Intake { claim, problems: Vec::new() }
    }

    #[test]
    fn one_claim_with_two_assessors_is_one_car() {
        let (cars, aside) =
            cars(&[intake("A", None, None, &["Ada", "Bo"]), intake("B", None, None, &["Ada"])]);
        assert_eq!(cars.len(), 1);
        assert_eq!(cars[0].joined, JoinedBy::Claim);
        assert!(matches!(aside[..], [Aside::Alone(_)]));
    }

    #[test]
    fn claims_with_one_vin_are_one_car_however_it_is_written() {
        let batch = [intake("A", Some("zz9 x1"), None, &["Ada"]), intake("B", Some("ZZ9-X1"), None, &["Bo"])];
        let (cars, _) = cars(&batch);
        assert_eq!(cars[0].joined, JoinedBy::Vin);
        assert_eq!(cars[0].looks.len(), 2);
    }

    #[test]
    fn one_plate_on_two_vins_is_two_cars() {
        let batch =
            [intake("A", Some("X1"), Some("P 1"), &["Ada"]), intake("B", Some("X2"), Some("P1"), &["Bo"])];
        let (cars, aside) = cars(&batch);
        assert!(cars.is_empty());
        assert_eq!(aside.len(), 2);
    }

    #[test]
    fn a_second_pass_of_one_person_is_a_repeat_and_not_a_second_look() {
        let (cars, _) = cars(&[intake("A", None, None, &["Ada", "ada", "Bo"])]);
        assert_eq!((cars[0].looks.len(), cars[0].repeats.len()), (2, 1));
    }
}

use crate::claim::words::folded;
use crate::claim::{Inspection, Intake, JobKey, Role};
use crate::problem::Problem;
use crate::problem::catalogue::claim::CLAIM_WITHOUT_VEHICLE;
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
    /// Its claims by their numbers in the batch. The vehicle, parties and prices of the first hold for every look.
    pub claims: Vec<usize>,
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

/// What is kept of a claim until every car is found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    /// The claim's key.
    pub key: JobKey,
    /// Its VIN as it is compared.
    vin: Option<Box<str>>,
    /// Its registration as it is compared.
    plate: Option<Box<str>>,
    /// Whether reading it found an error.
    is_stopped: bool,
    looks: Box<[(Look, Role)]>,
}

impl Card {
    /// Of a claim by its number in the batch. A name is kept once, however often it is written.
    pub fn of(intake: &Intake, claim: usize, names: &mut BTreeSet<Arc<str>>) -> Self {
        let vehicle = &intake.claim.vehicle;
        Self {
            key: intake.claim.key.clone(),
            vin: plain(vehicle.vin.as_ref().map(|vin| vin.value.as_str())),
            plate: plain(vehicle.registration.as_ref().map(|plate| plate.value.as_str())),
            is_stopped: is_stopped(intake),
            looks: looks(intake, claim, names),
        }
    }

    /// The car of this claim alone, where it holds anything to compare.
    pub fn car(&self, claim: usize) -> Option<Car> {
        car([(claim, self)].into_iter(), JoinedBy::Claim, &mut Vec::new())
    }
}

/// Gathers the looks of every car with at least two assessors, in the order of the batch, and lists the others.
pub fn cars(batch: &[Card]) -> (Vec<Car>, Vec<Aside>) {
    let mut aside = Vec::new();
    let mut cars: Vec<Car> = Vec::new();
    for (members, joined) in joined(batch) {
        cars.extend(car(members.into_iter().map(|claim| (claim, &batch[claim])), joined, &mut aside));
    }
    (cars, aside)
}

/// The car of some claims, the first of them first; those of its looks that are not compared are put aside, all of them where
/// nothing faces anything.
fn car<'c>(
    members: impl Iterator<Item = (usize, &'c Card)>,
    joined: JoinedBy,
    aside: &mut Vec<Aside>,
) -> Option<Car> {
    let mut car = Car { claims: Vec::new(), joined, looks: Vec::new(), repeats: Vec::new() };
    for (claim, card) in members {
        car.claims.push(claim);
        for (look, role) in card.looks.iter().cloned() {
            if card.is_stopped {
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
        Some(car)
    } else {
        aside.extend(car.looks.into_iter().map(Aside::Alone));
        None
    }
}

/// The batch's claims as cars: all claims of each in order, and how they were joined.
fn joined(batch: &[Card]) -> Vec<(Vec<usize>, JoinedBy)> {
    let mut by_vin: BTreeMap<&str, usize> = BTreeMap::new();
    let mut by_plate: BTreeMap<&str, usize> = BTreeMap::new();
    let mut cars: Vec<(Vec<usize>, JoinedBy)> = Vec::new();
    for (number, card) in batch.iter().enumerate() {
        let (vin, plate) = (card.vin.as_deref(), card.plate.as_deref());
        let known =
            |index: &BTreeMap<&str, usize>, key: Option<&str>| key.and_then(|key| index.get(key)).copied();
        let (car, joined) = match (known(&by_vin, vin), known(&by_plate, plate)) {
            (Some(car), _) => (car, JoinedBy::Vin),
            // Two cars with different VINs can have carried one plate; the VIN decides.
            (None, Some(car)) if vin.is_none() || !has_vin(batch, &cars[car].0) => {
                (car, JoinedBy::Registration)
            }
            (None, _) => {
                cars.push((Vec::new(), JoinedBy::Claim));
                (cars.len() - 1, JoinedBy::Claim)
            }
        };
        cars[car].0.push(number);
        cars[car].1 = cars[car].1.max(joined);
        for (index, key) in [(&mut by_vin, vin), (&mut by_plate, plate)] {
            if let Some(key) = key {
                index.entry(key).or_insert(car);
            }
        }
    }
    cars
}

fn has_vin(batch: &[Card], members: &[usize]) -> bool {
    members.iter().any(|member| batch[*member].vin.is_some())
}

/// The problem of a claim that no table of vehicles lists: nobody knows what it is priced by, and its counts stand all the
/// same.
pub fn without_vehicle(intake: &Intake) -> Option<&Problem> {
    intake.problems.iter().find(|problem| problem.code.id == CLAIM_WITHOUT_VEHICLE.id)
}

/// Whether reading a claim found an error that its counts suffer from.
fn is_stopped(intake: &Intake) -> bool {
    let known = without_vehicle(intake);
    let others =
        intake.problems.iter().filter(|problem| !known.is_some_and(|known| std::ptr::eq(known, *problem)));
    others.into_iter().any(|problem| problem.severity().stops_the_claim())
}

/// A VIN or plate as it is compared: letters and digits in capitals; nothing left is nothing.
fn plain(text: Option<&str>) -> Option<Box<str>> {
    let plain: String = text?.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect();
    (!plain.is_empty()).then(|| plain.into())
}

/// A claim's looks.
fn looks(intake: &Intake, claim: usize, names: &mut BTreeSet<Arc<str>>) -> Box<[(Look, Role)]> {
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
    use crate::claim::{Claim, KeyKind, Located, Place, SourceId};

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

    fn cars(batch: &[Intake]) -> (Vec<Car>, Vec<Aside>) {
        let mut names = BTreeSet::new();
        let cards: Vec<Card> =
            (0..).zip(batch).map(|(number, intake)| Card::of(intake, number, &mut names)).collect();
        super::cars(&cards)
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

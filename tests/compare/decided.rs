//! Decisions of people on panels: whose claim they stand in, and what they do to the money.

use super::whole::read_all;
use stipple::compare::comparison::{CarComparison, Options, Recount, compare};
use stipple::compare::money::Cause;
use stipple::compare::pairing::JoinedBy;

/// One car under two claim numbers, joined by its VIN: the hood and the roof as two people counted them.
const COUNTS: &str = "job,vin,date of inspection,assessor,panel,0-10 mm,10-20 mm,20-40 mm\n\
     A-1,ZZ9EXAMPLE0000001,2026-06-20,Ada,hood,8,0,0\n\
     A-1,ZZ9EXAMPLE0000001,2026-06-20,Ada,roof,20,0,0\n\
     B-7,ZZ9EXAMPLE0000001,2026-06-21,Bo,hood,20,0,0\n\
     B-7,ZZ9EXAMPLE0000001,2026-06-21,Bo,roof,20,0,0\n";

fn car(tables: &[(&str, &str)]) -> CarComparison {
    let (intakes, schedules) = read_all(tables);
    compare(&intakes[..], &schedules, &Options::default()).unwrap().cars.remove(0)
}

fn parts(car: &CarComparison, panel: usize) -> Vec<(Cause, i64)> {
    let panel = car.panels(&car.pairs[0]).nth(panel).unwrap();
    panel.split.unwrap().iter().map(|(cause, part)| (cause, part.minor())).collect()
}

#[test]
fn a_decision_in_one_of_two_joined_claims_is_a_cause_beside_the_number() {
    let decided = "job,panel,method,decided by\nB-7,hood,no repair,Cy\n";
    let car = car(&[("counts.csv", COUNTS), ("decided.csv", decided)]);
    assert_eq!(car.joined, JoinedBy::Vin);
    // Eight dents come to 45.01, twenty to 90.07, and what is not repaired to nothing. Exchanging the number adds 45.06
    // before the decision and nothing after it: on average 22.53. Exchanging the decision takes 45.01 before the number
    // and 90.07 after it: on average 67.54. First minus second turns the signs.
    assert_eq!(parts(&car, 0), [(Cause::Number, -2253), (Cause::Overrule, 6754)]);
    assert_eq!(parts(&car, 1), []);
    let hood = car.disputed().next().unwrap();
    assert_eq!(hood.recount, Recount::Overrule);
    assert_eq!(hood.at_stake.unwrap().minor(), 4501);
}

#[test]
fn the_same_decision_in_both_claims_is_no_cause() {
    let decided = "job,panel,method,decided by\nA-1,hood,no repair,Cy\nB-7,hood,no repair,Cy\n";
    let car = car(&[("counts.csv", COUNTS), ("decided.csv", decided)]);
    assert_eq!(parts(&car, 0), [(Cause::Number, 0)]);
    assert_eq!(car.disputed().count(), 0);
}

#[test]
fn a_decision_in_the_one_claim_of_a_car_holds_for_every_look() {
    let counts = COUNTS.replace("B-7", "A-1");
    let decided = "job,panel,method,decided by\nA-1,hood,no repair,Cy\n";
    let car = car(&[("counts.csv", counts.as_str()), ("decided.csv", decided)]);
    assert_eq!(car.joined, JoinedBy::Claim);
    assert!(car.panels(&car.pairs[0]).all(|panel| panel.first.amount == panel.second.amount));
}

#[test]
fn swapping_the_claims_flips_the_signs_of_the_decision() {
    let decided = "job,panel,method,decided by\nB-7,hood,no repair,Cy\n";
    let swapped = COUNTS.replace("Ada", "Di");
    let car = car(&[("counts.csv", swapped.as_str()), ("decided.csv", decided)]);
    assert_eq!(parts(&car, 0), [(Cause::Number, 2253), (Cause::Overrule, -6754)]);
}

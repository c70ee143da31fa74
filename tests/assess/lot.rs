//! The statement of a lot, by hand.

use crate::assessed;
use crate::builder::*;
use stipple::assess::{Assessment, LotMember, LotRow, LotStatement, lot_statement};
use stipple::claim::{Claim, PanelCount};
use stipple::quantity::{Currency, Money, QuantityFault};

/// A vehicle with an excess and perhaps a policy limit.
fn vehicle(panels: Vec<PanelCount>, excess: &str, limit: Option<&str>) -> (Claim, Assessment) {
    let mut claim = claim_with(panels);
    claim.parties.excess = Some(amount(excess));
    claim.parties.policy_limit = limit.map(amount);
    let assessment = assessed(&claim, &schedule());
    (claim, assessment)
}

fn statement(lot: &[(Claim, Assessment)], cap: &str) -> LotStatement {
    let member = |(claim, assessment): &(Claim, Assessment)| LotMember::of(claim, assessment).unwrap();
    let lot: Vec<_> = lot.iter().map(member).collect();
    lot_statement(&lot, money(cap)).unwrap()
}

/// 48.00 gross with 20.00 excess, 90.00 with 40.00, and 48.00 with an excess that is larger than the damage.
fn lot() -> Vec<(Claim, Assessment)> {
    vec![
        vehicle(vec![dents(hood(), 5, 0, 0)], "20.00", None),
        vehicle(vec![dents(hood(), 9, 0, 0)], "40.00", None),
        vehicle(vec![dents(hood(), 5, 0, 0)], "100.00", None),
    ]
}

fn columns(statement: &LotStatement, of: impl Fn(&LotRow) -> Money) -> Vec<String> {
    statement.rows.iter().map(|row| of(row).to_string()).collect()
}

#[test]
fn excesses_below_the_cap_stay_as_they_are() {
    let lot = lot();
    for cap in ["108.00", "5000.00"] {
        let statement = statement(&lot, cap);
        assert_eq!(columns(&statement, |row| row.excess), ["20.00", "40.00", "48.00"]);
        assert_eq!((statement.own_excess, statement.excess), (money("108.00"), money("108.00")));
        for (row, (_, own)) in statement.rows.iter().zip(&lot) {
            assert_eq!(
                (row.insurer_pays, row.owner_bears),
                (own.settled.insurer_pays, own.settled.owner_bears)
            );
        }
    }
}

#[test]
fn the_cap_is_applied_once_and_split_by_largest_remainder() {
    let statement = statement(&lot(), "50.00");
    // 50.00 x 20/108 = 9.259..., x 40/108 = 18.518..., x 48/108 = 22.222...: two cents are left over.
    assert_eq!(columns(&statement, |row| row.excess), ["9.26", "18.52", "22.22"]);
    assert_eq!(columns(&statement, |row| row.insurer_pays), ["38.74", "71.48", "25.78"]);
    assert_eq!(columns(&statement, |row| row.owner_bears), ["9.26", "18.52", "22.22"]);
    assert_eq!((statement.own_excess, statement.excess), (money("108.00"), money("50.00")));
    assert_eq!((statement.insurer_pays, statement.owner_bears), (money("136.00"), money("50.00")));
}

#[test]
fn what_the_cap_gives_back_beyond_a_policy_limit_stays_with_the_owner() {
    let lot = [vehicle(vec![dents(hood(), 9, 0, 0)], "40.00", Some("60.00"))];
    let statement = statement(&lot, "0.00");
    // 90.00 without an excess, of which the policy pays 60.00.
    let row = statement.rows[0];
    assert_eq!((row.own_excess, row.excess), (money("40.00"), money("0.00")));
    assert_eq!(
        (row.over_limit, row.insurer_pays, row.owner_bears),
        (money("30.00"), money("60.00"), money("30.00"))
    );
}

#[test]
fn a_lot_without_claims_or_without_an_excess_bears_none() {
    assert_eq!(statement(&[], "50.00").excess, money("0.00"));
    let lot = [vehicle(vec![dents(hood(), 5, 0, 0)], "0.00", None)];
    assert_eq!(columns(&statement(&lot, "50.00"), |row| row.insurer_pays), ["48.00"]);
}

#[test]
fn currencies_of_a_lot_never_meet() {
    let (claim, assessment) = vehicle(vec![dents(hood(), 5, 0, 0)], "20.00", None);
    let yen = Money::from_minor(50, Currency::from_code("JPY").unwrap());
    let fault = lot_statement(&[LotMember::of(&claim, &assessment).unwrap()], yen).unwrap_err();
    assert!(matches!(fault, QuantityFault::Currencies(..)), "{fault:?}");
}

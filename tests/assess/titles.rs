//! What the law of the place of registration notes on the title: a finding beside the policy's screen.

use crate::assessed;
use crate::builder::{amount, claim_with, date, item, percent, schedule, stated, written};
use stipple::assess::{Assessment, Outcome, Screen, TitleAnswer, TitleLacks};
use stipple::claim::Claim;
use stipple::schedule::{Comparator, LossRule, Schedule, TitleRule};

/// Repair above the value, tax not counted, hail left out: the shape of Colorado's rule (C.R.S. 42-6-102(17)).
fn with_rule(comparator: Comparator, not_from: &[&str]) -> Schedule {
    let mut schedule = schedule();
    schedule.titles.push(TitleRule {
        place: stated("Invented State".to_owned()),
        note: stated("salvage".to_owned()),
        rule: stated(LossRule::Repair),
        comparator: stated(comparator),
        share: stated(percent("100")),
        with_tax: stated(false),
        not_from: not_from.iter().map(|cause| (*cause).to_owned()).collect(),
        valid_from: stated(date("2015-01-01")),
        valid_to: None,
        source: stated("invented for tests".to_owned()),
        row: crate::builder::cell(crate::builder::SCHEDULE),
    });
    schedule
}

/// A claim of one item at this price on a vehicle worth 1000.00.
fn costing(price: &str) -> Claim {
    let mut claim = claim_with(Vec::new());
    claim.items.push(item("lamp", Some(price), None));
    claim.parties.market_value = Some(amount("1000.00"));
    claim.vehicle.registered_in = Some(written("invented state".to_owned()));
    claim
}

fn answer(assessment: &Assessment) -> TitleAnswer {
    assert_eq!(assessment.titles.len(), 1);
    assessment.titles[0].answer
}

#[test]
fn a_title_note_follows_over_or_at_least_as_its_law_says_and_moves_nothing() {
    let (over, at_least) = (with_rule(Comparator::Over, &[]), with_rule(Comparator::AtLeast, &[]));
    let at_the_edge = costing("1000.00");
    assert!(matches!(answer(&assessed(&at_the_edge, &over)), TitleAnswer::Below(_)));
    assert!(matches!(answer(&assessed(&at_the_edge, &at_least)), TitleAnswer::Reached(_)));
    let beyond = assessed(&costing("1000.01"), &over);
    assert!(matches!(answer(&beyond), TitleAnswer::Reached(_)));
    // Two findings, never one: the policy has no screen, and the outcome is a repair.
    assert!(matches!(beyond.screen, Screen::Not(_)));
    assert_eq!(beyond.outcome, Outcome::Repair);
    let without = assessed(&costing("1000.01"), &schedule());
    assert_eq!(
        (&beyond.totals.gross, &beyond.settled.amount),
        (&without.totals.gross, &without.settled.amount)
    );
}

#[test]
fn a_cause_that_the_law_leaves_out_is_no_title_note_and_without_a_cause_nothing_can_be_told() {
    let schedule = with_rule(Comparator::Over, &["hail"]);
    let mut claim = costing("5000.00");
    assert_eq!(answer(&assessed(&claim, &schedule)), TitleAnswer::Lacks(TitleLacks::Cause));
    claim.event.cause = Some(written("Hail".to_owned()));
    assert_eq!(answer(&assessed(&claim, &schedule)), TitleAnswer::CauseLeftOut);
    claim.event.cause = Some(written("flood".to_owned()));
    assert!(matches!(answer(&assessed(&claim, &schedule)), TitleAnswer::Reached(_)));
    claim.parties.market_value = None;
    assert_eq!(answer(&assessed(&claim, &schedule)), TitleAnswer::Lacks(TitleLacks::MarketValue));
}

#[test]
fn a_rule_holds_for_its_place_on_its_days_only() {
    let mut schedule = with_rule(Comparator::Over, &[]);
    let mut claim = costing("5000.00");
    schedule.titles[0].valid_to = Some(stated(date("2016-01-01")));
    assert!(assessed(&claim, &schedule).titles.is_empty());
    schedule.titles[0].valid_to = None;
    claim.vehicle.registered_in = Some(written("Another State".to_owned()));
    assert!(assessed(&claim, &schedule).titles.is_empty());
    claim.vehicle.registered_in = None;
    assert!(assessed(&claim, &schedule).titles.is_empty());
}

#[test]
fn a_salvage_value_that_the_law_counts_and_nobody_wrote_is_missed() {
    let mut schedule = with_rule(Comparator::Over, &[]);
    schedule.titles[0].rule = stated(LossRule::RepairPlusSalvage);
    let mut claim = costing("900.00");
    assert_eq!(answer(&assessed(&claim, &schedule)), TitleAnswer::Lacks(TitleLacks::Salvage));
    claim.parties.salvage = Some(amount("100.01"));
    assert!(matches!(answer(&assessed(&claim, &schedule)), TitleAnswer::Reached(_)));
}

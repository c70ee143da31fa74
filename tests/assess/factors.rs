//! Factors that exclude each other, that are a time, and that add no more together than the schedule says.

use crate::builder::*;
use crate::{assessed, line_amounts, paintless, panel, way};
use stipple::assess::{LineKind, Unpriced};
use stipple::claim::{Claim, Material, Method};
use stipple::schedule::{FactorEffect, FactorTest, LabourClass, Schedule};

/// Five small dents on an aluminium hood: a base of 40.00.
fn claim() -> Claim {
    let mut hood = dents(hood(), 5, 0, 0);
    hood.material = Some(written(Material::Aluminium));
    claim_with(vec![hood])
}

fn amounts(schedule: &Schedule) -> Vec<String> {
    line_amounts(panel(&assessed(&claim(), schedule), hood()), Method::Paintless)
}

#[test]
fn of_factors_that_are_not_with_each_other_the_first_that_gives_a_line_counts() {
    let mut schedule = schedule();
    schedule.factors = vec![
        factor("steel", FactorTest::Material(Material::MildSteel), of_base("10")),
        factor("aluminium", FactorTest::Material(Material::Aluminium), of_base("25")),
        factor("always", FactorTest::Always, of_base("5")),
        factor("also", FactorTest::Always, of_base("1")),
    ];
    assert_eq!(amounts(&schedule), ["40.00", "10.00", "2.00", "0.40"]);
    schedule.factors[2].not_with = vec![0];
    assert_eq!(amounts(&schedule), ["40.00", "10.00", "2.00", "0.40"], "one without a line excludes nothing");
    schedule.factors[2].not_with = vec![0, 1];
    schedule.factors[3].not_with = vec![2];
    assert_eq!(amounts(&schedule), ["40.00", "10.00", "0.40"], "nor does one that was left out itself");
}

#[test]
fn a_fixed_time_is_charged_at_the_paintless_rate_and_stated_with_its_line() {
    let mut schedule = schedule();
    schedule.factors = vec![factor("set up", FactorTest::Always, FactorEffect::Time(hours("0.3")))];
    // 0.3 h at 60.00.
    assert_eq!(amounts(&schedule), ["40.00", "18.00"]);
    let assessment = assessed(&claim(), &schedule);
    let line = &way(panel(&assessment, hood()), Method::Paintless).lines[1];
    assert_eq!(line.hours, Some((LabourClass::Paintless, hours("0.3"))));
}

#[test]
fn a_fixed_time_without_a_paintless_rate_is_not_priced_and_nothing_is_made_of_the_rest() {
    let mut schedule = schedule();
    schedule.factors = vec![
        factor("set up", FactorTest::Always, FactorEffect::Time(hours("0.3"))),
        factor("later", FactorTest::Always, of_base("10")),
    ];
    schedule.terms.factors_at_most = Some(stated(percent("1")));
    schedule.labour.retain(|rate| rate.class != LabourClass::Paintless);
    panel_terms(&mut schedule, hood().kind).floor = Some(stated(money("90.00")));
    let assessment = assessed(&claim(), &schedule);
    assert_eq!(paintless(&assessment, hood()), format!("{:?}", Unpriced::NoLabourRate));
    assert_eq!(line_amounts(panel(&assessment, hood()), Method::Paintless), ["40.00"]);
}

#[test]
fn all_factors_together_add_no_more_than_the_schedule_says() {
    let mut schedule = schedule();
    schedule.factors = vec![
        factor("aluminium", FactorTest::Material(Material::Aluminium), of_base("25")),
        factor("set up", FactorTest::Always, FactorEffect::Amount(money("7.77"))),
    ];
    let with = |schedule: &Schedule, most| {
        let mut schedule = schedule.clone();
        schedule.terms.factors_at_most = Some(stated(percent(most)));
        amounts(&schedule)
    };
    // 10.00 and 7.77 are 17.77; of 40.00 that is 44.425 %.
    assert_eq!(with(&schedule, "44.425"), ["40.00", "10.00", "7.77"]);
    // 44.4 % is 17.76, 30 % is 12.00.
    assert_eq!(with(&schedule, "44.4"), ["40.00", "10.00", "7.77", "-0.01"]);
    assert_eq!(with(&schedule, "30"), ["40.00", "10.00", "7.77", "-5.77"]);
    assert_eq!(with(&schedule, "0"), ["40.00", "10.00", "7.77", "-17.77"]);
    panel_terms(&mut schedule, hood().kind).floor = Some(stated(money("60.00")));
    assert_eq!(
        with(&schedule, "30"),
        ["40.00", "10.00", "7.77", "-5.77", "8.00"],
        "the floor comes after it"
    );
    schedule.terms.factors_at_most = Some(stated(percent("30")));
    let assessment = assessed(&claim(), &schedule);
    assert_eq!(way(panel(&assessment, hood()), Method::Paintless).lines[3].kind, LineKind::FactorCeiling);
}

//! The paintless amount of a panel: base, factors, floor and cap.

use crate::builder::{
    SCHEDULE, cell, claim_with, decimal, dents, factor, hood, hours, left, limit, mark, mm, money, of_base,
    panel_terms, percent, put, rate, schedule, stated, written,
};
use crate::{assessed, line_amounts, paintless, panel, way};
use stipple::assess::{LineKind, Note, Rule};
use stipple::claim::{
    Access, BodyType, Depth, MarkKind, Material, Method, Paint, PanelCount, PanelKind, Position,
};
use stipple::quantity::{Rounding, TimeUnit};
use stipple::schedule::{
    AppliesTo, FactorEffect, FactorTest, MarkRate, Measure, MixedRule, Per, PercentOf, Plane, Price,
    Schedule, Scope,
};

fn with_rule(rule: MixedRule) -> Schedule {
    let mut schedule = schedule();
    schedule.terms.mixed = stated(rule);
    for (band, weight) in schedule.sizes.iter_mut().zip(["0.5", "1", "2.25"]) {
        band.weight = Some(decimal(weight));
    }
    schedule
}

/// The paintless amount of a hood with these dents.
fn of_hood(schedule: &Schedule, small: u32, medium: u32, large: u32) -> String {
    paintless(&assessed(&claim_with(vec![dents(hood(), small, medium, large)]), schedule), hood())
}

#[test]
fn each_band_is_rated_by_itself_and_added() {
    let schedule = with_rule(MixedRule::EachBand);
    assert_eq!(of_hood(&schedule, 5, 0, 0), "40.00");
    assert_eq!(of_hood(&schedule, 6, 0, 0), "75.00");
    assert_eq!(of_hood(&schedule, 6, 16, 1), "350.00"); // 75 + 180 + 95
    let assessment = assessed(&claim_with(vec![dents(hood(), 6, 16, 1)]), &schedule);
    assert_eq!(line_amounts(panel(&assessment, hood()), Method::Paintless), ["75.00", "180.00", "95.00"]);
    assert_eq!(panel(&assessment, hood()).rated_at, None);
}

#[test]
fn the_whole_count_is_rated_at_the_most_frequent_band_and_a_tie_goes_to_the_larger() {
    let schedule = with_rule(MixedRule::MostFrequent);
    assert_eq!(of_hood(&schedule, 6, 2, 1), "75.00"); // 9 dents at small
    assert_eq!(of_hood(&schedule, 4, 4, 1), "110.00"); // 9 dents at medium
    let assessment = assessed(&claim_with(vec![dents(hood(), 4, 4, 1)]), &schedule);
    assert_eq!(panel(&assessment, hood()).rated_at, Some((1, 1)));
    let kinds: Vec<_> =
        way(panel(&assessment, hood()), Method::Paintless).lines.iter().map(|l| &l.kind).collect();
    assert_eq!(kinds, [&LineKind::Dents { size: 1, count: 1, dents: 9 }]);
}

#[test]
fn the_whole_count_is_rated_at_the_largest_band_with_enough_dents_in_it_or_larger() {
    let largest_present = with_rule(MixedRule::LargestShare(percent("0")));
    assert_eq!(of_hood(&largest_present, 30, 9, 1), "260.00"); // 40 dents at large
    assert_eq!(of_hood(&largest_present, 6, 0, 0), "75.00"); // larger bands without dents do not count
    let fifth = with_rule(MixedRule::LargestShare(percent("20")));
    assert_eq!(of_hood(&fifth, 8, 0, 2), "170.00"); // exactly a fifth of 10
    assert_eq!(of_hood(&fifth, 9, 0, 2), "75.00"); // 2 of 11 are less: small
    assert_eq!(of_hood(&fifth, 7, 1, 1), "110.00"); // 1 of 9 is less, 2 of 9 are enough: medium
    let never = with_rule(MixedRule::LargestShare(percent("150")));
    assert_eq!(of_hood(&never, 1, 0, 2), "40.00", "a share beyond all dents ends at the smallest band");
}

#[test]
fn dents_weighted_into_equivalents_fall_into_the_first_band_whose_top_is_not_below_them() {
    let schedule = with_rule(MixedRule::Equivalents(1));
    assert_eq!(of_hood(&schedule, 10, 0, 0), "60.00"); // 5 equivalents
    assert_eq!(of_hood(&schedule, 11, 0, 0), "110.00"); // 5.5
    assert_eq!(of_hood(&schedule, 0, 4, 1), "110.00"); // 6.25
    assert_eq!(of_hood(&schedule, 1, 0, 0), "60.00"); // 0.5
    assert_eq!(of_hood(&schedule, 81, 0, 0), "BeyondCounts"); // 40.5
    let assessment = assessed(&claim_with(vec![dents(hood(), 0, 4, 1)]), &schedule);
    let kind = &way(panel(&assessment, hood()), Method::Paintless).lines[0].kind;
    assert_eq!(*kind, LineKind::Equivalents { size: 1, count: 1, equivalents: decimal("6.25") });
    assert_eq!(panel(&assessment, hood()).dents, 5);
}

#[test]
fn a_rate_per_dent_is_multiplied_and_rounded_once() {
    let mut schedule = with_rule(MixedRule::EachBand);
    put(&mut schedule, 0, 0, 0, Price::Amount(rate("3.3333")), Per::Dent);
    assert_eq!(of_hood(&schedule, 4, 0, 0), "13.33"); // 13.3332
    schedule.terms.rounding = stated(Rounding::Up);
    assert_eq!(of_hood(&schedule, 4, 0, 0), "13.34");
    let mut weighted = with_rule(MixedRule::Equivalents(1));
    put(&mut weighted, 0, 1, 1, Price::Amount(rate("3.3333")), Per::Dent);
    assert_eq!(of_hood(&weighted, 0, 4, 1), "20.83"); // 3.3333 x 6.25 = 20.833125
}

#[test]
fn a_time_is_priced_at_the_paintless_rate_and_a_time_per_dent_is_first_rounded_to_the_unit() {
    let mut schedule = with_rule(MixedRule::EachBand);
    put(&mut schedule, 0, 0, 0, Price::Time(hours("1.5")), Per::Panel);
    put(&mut schedule, 0, 1, 0, Price::Time(hours("0.05")), Per::Dent);
    assert_eq!(of_hood(&schedule, 4, 0, 0), "90.00");
    assert_eq!(of_hood(&schedule, 0, 3, 0), "12.00"); // 0.15 h is 0.2 h
    schedule.terms.time_unit = stated(TimeUnit::Minutes);
    assert_eq!(of_hood(&schedule, 0, 3, 0), "9.00"); // 9 minutes
    let assessment = assessed(&claim_with(vec![dents(hood(), 4, 3, 0)]), &schedule);
    assert_eq!(assessment.hours, [(stipple::schedule::LabourClass::Paintless, hours("1.65"))]);
    schedule.labour.remove(0);
    assert_eq!(of_hood(&schedule, 4, 0, 0), "NoLabourRate");
}

#[test]
fn factors_that_take_off_more_than_there_is_leave_nothing_and_a_line_says_so() {
    let mut schedule = with_rule(MixedRule::EachBand);
    schedule.factors = vec![factor("fixed", FactorTest::Always, FactorEffect::Amount(money("-100")))];
    let claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    let of_hood = |schedule: &Schedule| {
        let assessment = assessed(&claim, schedule);
        line_amounts(panel(&assessment, hood()), Method::Paintless)
    };
    assert_eq!(of_hood(&schedule), ["40.00", "-100.00", "60.00"]);
    assert_eq!(assessed(&claim, &schedule).totals.gross.to_string(), "0.00");
    panel_terms(&mut schedule, PanelKind::Hood).floor = Some(stated(money("25")));
    assert_eq!(of_hood(&schedule), ["40.00", "-100.00", "85.00"]);
}

#[test]
fn a_factor_cites_the_cell_that_it_waits_for() {
    let mut schedule = with_rule(MixedRule::EachBand);
    schedule.factors = vec![
        factor("aluminium", FactorTest::Material(Material::Aluminium), of_base("10")),
        factor("edge", FactorTest::Position(Position::Edge), FactorEffect::Amount(money("5"))),
        factor("van", FactorTest::VehicleClass("van".to_owned()), of_base("5")),
        factor("always", FactorTest::Always, of_base("1")),
    ];
    let mut hit = dents(hood(), 1, 0, 0);
    let (material, position) = (written(Material::Aluminium), written(Position::Edge));
    hit.material = Some(material);
    let mut dent = mark(MarkKind::Dent, Some("5"));
    dent.position = Some(position);
    hit.marks.push(dent);
    let mut claim = claim_with(vec![hit]);
    let class = written("Van".to_owned());
    claim.vehicle.class = Some(class.clone());
    let assessment = assessed(&claim, &schedule);
    let steps = assessment.working.as_ref().unwrap();
    let lines = &way(panel(&assessment, hood()), Method::Paintless).lines;
    let factors = lines.iter().filter(|line| matches!(line.kind, LineKind::Factor(_)));
    let cells: Vec<_> = factors.map(|line| steps.get(line.step).cells.clone()).collect();
    let edge = schedule.factors[1].place;
    assert_eq!(cells, [vec![material.place], vec![edge, position.place], vec![class.place], vec![]]);
}

#[test]
fn the_size_of_the_largest_with_share_cites_the_rule_and_the_share() {
    let mut schedule = with_rule(MixedRule::LargestShare(percent("30")));
    let share = cell(SCHEDULE);
    schedule.terms.mixed_share = Some(share);
    let steps = assessed(&claim_with(vec![dents(hood(), 3, 2, 0)]), &schedule).working.unwrap().steps;
    let rated = steps.iter().find(|step| step.rule == Rule::RatedSize).unwrap();
    assert_eq!(rated.cells, [schedule.terms.mixed.place, share]);
}

#[test]
fn a_size_of_which_nothing_was_written_is_no_step() {
    for rule in [MixedRule::EachBand, MixedRule::MostFrequent, MixedRule::LargestShare(percent("30"))] {
        let mut written = dents(hood(), 0, 4, 0);
        written.tally.drain(..1);
        let assessment = assessed(&claim_with(vec![written]), &with_rule(rule));
        let steps = assessment.working.unwrap().steps;
        let of_sizes = steps.iter().filter(|step| step.rule == Rule::DentsOfSize).count();
        assert_eq!(of_sizes, 0, "{rule:?}");
    }
}

#[test]
fn without_a_cell_or_beyond_the_last_count_band_paintless_is_not_priced() {
    let schedule = with_rule(MixedRule::EachBand);
    assert_eq!(of_hood(&schedule, 41, 0, 0), "BeyondCounts");
    let mut gap = schedule.clone();
    gap.grid = stipple::schedule::Grid::new(2, 3, 3);
    put(&mut gap, 0, 0, 0, Price::Amount(rate("40")), Per::Panel);
    assert_eq!(of_hood(&gap, 1, 6, 1), "NoGridCell { size: 1, count: 1 }");
    gap.factors.push(factor("always", FactorTest::Always, of_base("10")));
    let assessment = assessed(&claim_with(vec![dents(hood(), 1, 6, 0)]), &gap);
    assert_eq!(line_amounts(panel(&assessment, hood()), Method::Paintless), ["40.00"]);
    let mut open_ended = schedule;
    open_ended.counts[2].to = None;
    assert_eq!(of_hood(&open_ended, 99_999, 0, 0), "120.00");
}

#[test]
fn one_more_dent_that_would_lower_the_base_is_noted() {
    let lowers = |rule, small, medium| {
        let claim = claim_with(vec![dents(hood(), small, medium, 0)]);
        assessed(&claim, &with_rule(rule)).notes.contains(&Note::MoreCouldBeLess(hood()))
    };
    assert!(lowers(MixedRule::MostFrequent, 3, 3)); // medium 60 or 110; one more small: 7 at small, 75
    assert!(!lowers(MixedRule::MostFrequent, 5, 0));
    assert!(!lowers(MixedRule::MostFrequent, 1, 0), "the same amount is not less");
    assert!(lowers(MixedRule::LargestShare(percent("25")), 9, 3));
    assert!(!lowers(MixedRule::EachBand, 3, 3));
}

fn aluminium(id: stipple::claim::PanelId) -> PanelCount {
    let mut panel_count = dents(id, 5, 0, 0);
    panel_count.material = Some(written(Material::Aluminium));
    panel_count
}

fn running(share: &str) -> FactorEffect {
    FactorEffect::Percent(percent(share), PercentOf::Running)
}

#[test]
fn factors_are_lines_of_their_own_of_base_or_of_the_running_amount() {
    let mut schedule = schedule();
    schedule.factors = vec![
        factor("aluminium", FactorTest::Material(Material::Aluminium), of_base("25")),
        factor("again", FactorTest::Always, of_base("10")),
        factor("compounded", FactorTest::Always, running("10")),
        factor("fixed", FactorTest::Always, FactorEffect::Amount(money("7.50"))),
        factor("steel only", FactorTest::Material(Material::MildSteel), of_base("99")),
        factor("less", FactorTest::Always, of_base("-12.5")),
    ];
    let assessment = assessed(&claim_with(vec![aluminium(hood())]), &schedule);
    let lines = line_amounts(panel(&assessment, hood()), Method::Paintless);
    assert_eq!(lines, ["40.00", "10.00", "4.00", "5.40", "7.50", "-5.00"]);
    assert_eq!(paintless(&assessment, hood()), "61.90");
}

#[test]
fn a_factor_works_on_the_part_it_names_and_on_earlier_factors_of_that_part() {
    let mut schedule = schedule();
    let on = |name: &str, part, effect| {
        let mut made = factor(name, FactorTest::Always, effect);
        made.applies_to = part;
        made
    };
    schedule.mark_rates = vec![MarkRate {
        mark: MarkKind::Crease,
        scope: Scope::Any,
        over: mm("0"),
        up_to: None,
        price: Price::Amount(rate("100")),
        place: cell(SCHEDULE),
    }];
    schedule.factors = vec![
        on("dents", AppliesTo::Dents, of_base("50")),
        on("marks", AppliesTo::Marks, of_base("10")),
        on("both", AppliesTo::Both, of_base("10")),
        on("dents, running", AppliesTo::Dents, running("10")),
        on("marks, running", AppliesTo::Marks, running("10")),
        on("both, running", AppliesTo::Both, running("10")),
    ];
    let mut panel_count = dents(hood(), 5, 0, 0);
    panel_count.marks = vec![mark(MarkKind::Crease, Some("80"))];
    let assessment = assessed(&claim_with(vec![panel_count]), &schedule);
    let lines = line_amounts(panel(&assessment, hood()), Method::Paintless);
    // 40 + 100; 50 % of 40; 10 % of 100; 10 % of 140; 10 % of 60; 10 % of 110; 10 % of 201
    assert_eq!(lines, ["40.00", "100.00", "20.00", "10.00", "14.00", "6.00", "11.00", "20.10"]);
    let only_dents = assessed(&claim_with(vec![dents(hood(), 5, 0, 0)]), &schedule);
    let lines = line_amounts(panel(&only_dents, hood()), Method::Paintless);
    assert_eq!(lines, ["40.00", "20.00", "4.00", "6.00", "7.00"], "a factor of nothing gives no line");
}

#[test]
fn a_factor_holds_for_its_panels_and_what_it_waits_for() {
    let holds = |test: FactorTest, scope: Scope, claim: &stipple::claim::Claim| {
        let mut schedule = schedule();
        let mut made = factor("x", test, of_base("100"));
        made.scope = scope;
        schedule.factors.push(made);
        let assessment = assessed(claim, &schedule);
        way(&assessment.panels[0], Method::Paintless).lines.len() > 1
    };
    let mut written_so = dents(hood(), 5, 0, 0);
    written_so.access = Some(written(Access::GlueOnly));
    written_so.paint = Some(written(Paint::Filler));
    written_so.depth = Some(written(Depth::Deep));
    written_so.position = Some(written(Position::Edge));
    let mut by_mark = dents(hood(), 5, 0, 0);
    by_mark.marks = vec![mark(MarkKind::Dent, Some("5"))];
    by_mark.marks[0].depth = Some(written(Depth::Deep));
    by_mark.marks[0].position = Some(written(Position::Edge));
    by_mark.marks[0].access = Some(written(Access::GlueOnly));
    let [by_panel, by_mark, plain] =
        [written_so, by_mark, dents(hood(), 5, 0, 0)].map(|panel| claim_with(vec![panel]));
    for (test, counts_on_marks) in [
        (FactorTest::Access(Access::GlueOnly), false),
        (FactorTest::Paint(Paint::Filler), false),
        (FactorTest::Depth(Depth::Deep), true),
        (FactorTest::Position(Position::Edge), true),
    ] {
        assert!(holds(test.clone(), Scope::Any, &by_panel), "{test:?}");
        assert_eq!(holds(test.clone(), Scope::Any, &by_mark), counts_on_marks, "{test:?}");
        assert!(!holds(test.clone(), Scope::Any, &plain), "{test:?}");
    }
    let always = || FactorTest::Always;
    assert!(holds(always(), Scope::Plane(Plane::Horizontal), &plain));
    assert!(!holds(always(), Scope::Plane(Plane::Vertical), &plain));
    let class = || FactorTest::VehicleClass("pick up".to_owned());
    let mut pick_up = plain.clone();
    pick_up.vehicle.body = Some(written(BodyType::PickUp));
    assert!(holds(class(), Scope::Any, &pick_up) && !holds(class(), Scope::Any, &plain));
    pick_up.vehicle.class = Some(written("Small car".to_owned()));
    assert!(!holds(class(), Scope::Any, &pick_up), "a class that is written goes before the body type");
}

#[test]
fn floor_and_cap_are_lines_and_the_cap_has_the_last_word() {
    let door = left(PanelKind::FrontDoor);
    let mut schedule = schedule();
    let terms = panel_terms(&mut schedule, PanelKind::FrontDoor);
    terms.floor = Some(stated(money("50")));
    terms.cap = Some(stated(money("80")));
    let lines = |small, medium| {
        let assessment = assessed(&claim_with(vec![dents(door, small, medium, 0)]), &schedule);
        line_amounts(panel(&assessment, door), Method::Paintless)
    };
    assert_eq!(lines(5, 0), ["30.00", "20.00"]);
    assert_eq!(lines(5, 5), ["30.00", "45.00"]);
    assert_eq!(lines(5, 6), ["30.00", "85.00", "-35.00"]);
    panel_terms(&mut schedule, PanelKind::FrontDoor).floor = Some(stated(money("100")));
    let assessment = assessed(&claim_with(vec![dents(door, 5, 0, 0)]), &schedule);
    assert_eq!(line_amounts(panel(&assessment, door), Method::Paintless), ["30.00", "70.00", "-20.00"]);
}

#[test]
fn broken_paint_alone_is_referred_unless_a_limit_says_what_follows() {
    let mut panel_count = dents(hood(), 0, 0, 0);
    panel_count.paint = Some(written(Paint::Broken));
    let claim = claim_with(vec![panel_count]);
    let mut schedule = schedule();
    assert_eq!(panel(&assessed(&claim, &schedule), hood()).method, Method::Refer);
    schedule.limits = vec![limit(Measure::Paint(Paint::Broken), Method::RefinishAfter)];
    assert_eq!(panel(&assessed(&claim, &schedule), hood()).method, Method::RefinishAfter);
}

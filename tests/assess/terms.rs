//! Terms that a schedule may have: rates between count bands, the date of an edition, betterment, the order of excess and
//! policy limit, classes of panels.

use crate::builder::*;
use crate::{assessed, line_amounts, paintless, panel, refused};
use stipple::assess::{
    DateOrigin, LineKind, LotMember, Rule, Silent, Working, assess, choose_schedule, lot_statement,
};
use stipple::claim::{Claim, Method, PanelKind, Settlement};
use stipple::quantity::{Money, TimeUnit};
use stipple::schedule::{
    BetterOf, Betterment, BetweenCounts, EditionBy, ExcessTaken, FactorTest, MixedRule, Per, Price, Schedule,
    Scope,
};

fn interpolated() -> Schedule {
    let mut schedule = schedule();
    schedule.terms.between_counts = Some(stated(BetweenCounts::Interpolated));
    schedule
}

fn of_small(schedule: &Schedule, dents_of_small: u32) -> String {
    paintless(&assessed(&claim_with(vec![dents(hood(), dents_of_small, 0, 0)]), schedule), hood())
}

#[test]
fn rates_rise_evenly_from_the_first_count_of_a_band_to_that_of_the_next() {
    let schedule = interpolated();
    // 40.00 at 1, 75.00 at 6, 120.00 at 16 and beyond.
    let expected = [(1, "40.00"), (2, "47.00"), (5, "68.00"), (6, "75.00"), (7, "79.50"), (15, "115.50")];
    for (dents, amount) in expected.into_iter().chain([(16, "120.00"), (40, "120.00")]) {
        assert_eq!(of_small(&schedule, dents), amount, "{dents}");
    }
    let claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    let mut working = Working::default();
    let assessment = assess(&claim, &schedule, 0, None, &mut working).unwrap();
    let steps = assessment.working.unwrap().steps;
    assert!(steps.iter().any(|step| step.rule == Rule::Base && step.result == money("54.00").into()));
    let kinds: Vec<_> = assessment.panels[0].alternatives[0].lines.iter().map(|line| &line.kind).collect();
    assert_eq!(kinds, [&LineKind::Dents { size: 0, count: 0, dents: 3 }]);
}

#[test]
fn rates_per_dent_rise_between_what_the_panel_costs_at_both_counts() {
    let mut schedule = interpolated();
    put(&mut schedule, 0, 0, 0, Price::Amount(rate("10")), Per::Dent);
    // 10.00 for one dent, 75.00 at 6: 10 + 65 x 2 / 5.
    assert_eq!(of_small(&schedule, 3), "36.00");
    put(&mut schedule, 0, 0, 1, Price::Amount(rate("9")), Per::Dent);
    // 54.00 at 6 dents.
    assert_eq!(of_small(&schedule, 3), "27.60");
}

#[test]
fn times_rise_between_times_and_are_rounded_to_their_unit_before_they_are_priced() {
    let mut schedule = interpolated();
    put(&mut schedule, 0, 0, 0, Price::Time(hours("0.5")), Per::Panel);
    // The next cell is an amount: nothing lies between.
    assert_eq!(of_small(&schedule, 3), "30.00");
    put(&mut schedule, 0, 0, 1, Price::Time(hours("1.2")), Per::Panel);
    // 0.5 + 0.7 x 2 / 5 = 0.78 h, 0.8 in tenths, at 60.00.
    assert_eq!(of_small(&schedule, 3), "48.00");
    schedule.terms.time_unit = stated(TimeUnit::Minutes);
    // 46.8 minutes, 47 of them.
    assert_eq!(of_small(&schedule, 3), "47.00");
}

#[test]
fn equivalents_lie_between_counts_as_exactly_as_they_are() {
    let mut schedule = interpolated();
    schedule.terms.mixed = stated(MixedRule::Equivalents(1));
    for (band, weight) in schedule.sizes.iter_mut().zip(["0.5", "1", "2"]) {
        band.weight = Some(decimal(weight));
    }
    // 2.5 equivalents of medium: 60.00 + 50.00 x 1.5 / 5.
    assert_eq!(of_small(&schedule, 5), "75.00");
    // 0.5 is not above the first count: the cell as it stands.
    assert_eq!(of_small(&schedule, 1), "60.00");
    // 5.5 lies in the band that begins at 6, below it.
    assert_eq!(of_small(&schedule, 11), "110.00");
}

#[test]
fn stepped_is_what_holds_without_the_term() {
    let mut schedule = schedule();
    assert_eq!(of_small(&schedule, 3), "40.00");
    schedule.terms.between_counts = Some(stated(BetweenCounts::Stepped));
    assert_eq!(of_small(&schedule, 3), "40.00");
}

/// One edition by each date, the first for the days before July.
fn by(first: Option<EditionBy>, second: Option<EditionBy>) -> [Schedule; 2] {
    let mut both = [schedule(), schedule()];
    both[0].terms.valid_to = Some(stated(date("2026-06-30")));
    both[1].terms.valid_from = stated(date("2026-07-01"));
    both[0].terms.edition_by = first.map(stated);
    both[1].terms.edition_by = second.map(stated);
    both
}

/// Lost in June, inspected in July.
fn june() -> Claim {
    let mut claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    claim.inspections[0].date = Some(written(date("2026-07-03")));
    claim
}

#[test]
fn an_edition_is_chosen_by_the_date_its_terms_name() {
    let (loss, inspection) = (Some(EditionBy::Loss), Some(EditionBy::Inspection));
    assert_eq!(choose_schedule(&june(), &by(None, None), None), Ok(0));
    assert_eq!(choose_schedule(&june(), &by(loss, loss), None), Ok(0));
    assert_eq!(choose_schedule(&june(), &by(inspection, inspection), None), Ok(1));
    let both = choose_schedule(&june(), &by(loss, inspection), None).unwrap_err();
    assert_eq!(both.code.id, "two-schedules");
    assert!(both.message.contains("2026-06-14 and 2026-07-03"), "{}", both.message);
    let neither = choose_schedule(&june(), &by(inspection, loss), None).unwrap_err();
    assert_eq!(neither.code.id, "no-schedule-holds");
    assert!(neither.help.unwrap().contains("by the date of inspection"));
    let [_, second] = by(inspection, inspection);
    let dated = assess(&june(), &second, 1, None, &mut Silent).unwrap().dated;
    assert_eq!(dated, (date("2026-07-03"), DateOrigin::Inspection));
}

#[test]
fn no_other_date_is_put_in_for_the_one_that_is_named_but_the_runs() {
    let inspection = Some(EditionBy::Inspection);
    let schedules = by(inspection, inspection);
    let mut claim = june();
    claim.inspections[0].date = None;
    let problem = choose_schedule(&claim, &schedules, None).unwrap_err();
    assert_eq!(
        (problem.code.id, problem.place),
        ("no-date", Some(schedules[0].terms.edition_by.unwrap().place))
    );
    assert!(problem.message.contains("no date of inspection"), "{}", problem.message);
    assert_eq!(refused(&claim, &schedules[1]), ["no-date"]);
    assert_eq!(choose_schedule(&claim, &schedules, Some(date("2026-07-09"))), Ok(1));
    let mut unlost = june();
    unlost.event.date = None;
    assert_eq!(choose_schedule(&unlost, &by(Some(EditionBy::Loss), None), None), Ok(1));
    let loss = Some(EditionBy::Loss);
    assert_eq!(choose_schedule(&unlost, &by(loss, loss), None).unwrap_err().code.id, "no-date");
}

fn better(on: BetterOf, share: &str, years: (u32, Option<u32>)) -> Betterment {
    Betterment {
        on,
        scope: Scope::Any,
        item: None,
        from_years: years.0,
        to_years: years.1,
        share: stated(percent(share)),
        place: cell(SCHEDULE),
    }
}

/// A soft top of 1000.00 (1200.00 with tax) on a vehicle of 2018, eight years old.
fn soft_top() -> Claim {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.items = vec![item("soft top", Some("1000"), None)];
    claim.vehicle.year = Some(written(2018));
    claim
}

/// Betterment, excess, insurer, owner.
fn parts(claim: &Claim, schedule: &Schedule) -> [String; 4] {
    let settled = assessed(claim, schedule).settled;
    let all = settled.insurer_pays.plus(settled.owner_bears).unwrap().plus(settled.salvage_kept).unwrap();
    assert_eq!(all, settled.amount);
    [settled.betterment, settled.excess, settled.insurer_pays, settled.owner_bears]
        .map(|amount: Money| amount.to_string())
}

#[test]
fn the_owner_bears_the_share_of_the_vehicles_age_of_new_items() {
    let mut schedule = schedule();
    schedule.betterment =
        vec![better(BetterOf::Items, "10", (3, Some(7))), better(BetterOf::Items, "25.5", (8, None))];
    let mut claim = soft_top();
    assert_eq!(parts(&claim, &schedule), ["255.00", "0.00", "945.00", "255.00"]);
    claim.parties.excess = Some(amount("1000"));
    assert_eq!(parts(&claim, &schedule), ["255.00", "945.00", "0.00", "1200.00"]);
    claim.parties.excess = None;
    claim.vehicle.year = Some(written(2019));
    assert_eq!(parts(&claim, &schedule)[0], "100.00");
    claim.vehicle.year = Some(written(2024));
    assert_eq!(parts(&claim, &schedule)[0], "0.00");
    claim.vehicle.year = Some(written(2027));
    assert_eq!(parts(&claim, &schedule)[0], "0.00", "a vehicle of the coming year is new");
    claim.parties.insurer = None;
    assert_eq!(parts(&claim, &schedule), ["0.00", "0.00", "0.00", "1200.00"]);
}

#[test]
fn a_row_that_names_the_item_goes_before_one_for_any() {
    let mut schedule = schedule();
    let mut named = better(BetterOf::Items, "40", (0, None));
    named.item = Some(stated("Soft-top".to_owned()));
    schedule.betterment = vec![named, better(BetterOf::Items, "5", (0, None))];
    let mut claim = soft_top();
    claim.vehicle.year = None;
    claim.items.push(item("lamp", Some("200"), None));
    assert_eq!(parts(&claim, &schedule)[0], "410.00"); // 400.00 and 10.00
}

#[test]
fn only_parts_that_are_paid_are_better_and_each_share_is_rounded() {
    let mut schedule = schedule();
    let mut of_doors = better(BetterOf::Parts, "50", (0, None));
    of_doors.scope = Scope::Kind(PanelKind::FrontDoor);
    schedule.betterment = vec![of_doors, better(BetterOf::Parts, "12.5", (0, None))];
    schedule.typical = vec![typical(Scope::Any)];
    schedule.typical[0].part = Some(stated(money("100.20")));
    schedule.typical[0].fitting = Some(stated(hours("1")));
    schedule.typical[0].refinish = Some(stated(hours("1")));
    let panels = [hood(), left(PanelKind::FrontDoor), left(PanelKind::Fender)];
    let mut claim = claim_with(panels.iter().map(|panel| dents(*panel, 1, 0, 0)).collect());
    assert_eq!(parts(&claim, &schedule)[0], "0.00", "paintless work puts nothing new on a car");
    for panel in &panels[..2] {
        claim.overrules.push(overrule(*panel, Method::Replace));
    }
    assert_eq!(parts(&claim, &schedule)[0], "62.63"); // 12.525 and 50.10
    claim.parties.settlement = Some(written(Settlement::TotalLoss));
    claim.parties.market_value = Some(amount("900"));
    assert_eq!(parts(&claim, &schedule)[0], "0.00", "a market value holds nothing new");
}

fn overrule(panel: stipple::claim::PanelId, method: Method) -> stipple::claim::Overrule {
    stipple::claim::Overrule {
        place: cell(CLAIM),
        panel,
        method: written(method),
        by: Some(written("A. Sample".to_owned())),
        reason: Some(written("seen".to_owned())),
        date: None,
    }
}

#[test]
fn betterment_by_age_without_the_vehicles_year_is_a_question() {
    let mut schedule = schedule();
    schedule.betterment = vec![better(BetterOf::Items, "10", (3, None))];
    let mut claim = soft_top();
    claim.vehicle.year = None;
    assert_eq!(refused(&claim, &schedule), ["year-missing"]);
    claim.items.clear();
    claim.inspections[0].panels = vec![dents(hood(), 1, 0, 0)];
    assert_eq!(parts(&claim, &schedule)[0], "0.00", "nothing is new, so nothing is asked");
}

#[test]
fn the_excess_comes_before_or_after_the_policy_limit() {
    let mut schedule = schedule();
    let mut claim = soft_top();
    claim.parties.excess = Some(amount("300"));
    claim.parties.policy_limit = Some(amount("1000"));
    // 1200.00 less 300.00 is within the limit.
    assert_eq!(parts(&claim, &schedule), ["0.00", "300.00", "900.00", "300.00"]);
    schedule.terms.excess_taken = Some(stated(ExcessTaken::BeforeLimit));
    assert_eq!(parts(&claim, &schedule), ["0.00", "300.00", "900.00", "300.00"]);
    schedule.terms.excess_taken = Some(stated(ExcessTaken::AfterLimit));
    // 1000.00 of 1200.00, less 300.00.
    assert_eq!(parts(&claim, &schedule), ["0.00", "300.00", "700.00", "500.00"]);
    let assessment = assessed(&claim, &schedule);
    let member = LotMember::of(&claim, &assessment).unwrap();
    let row = lot_statement(&[member], money("50")).unwrap().rows[0];
    assert_eq!(
        (row.over_limit, row.insurer_pays, row.owner_bears),
        (money("200.00"), money("950.00"), money("250.00"))
    );
}

#[test]
fn a_factor_may_look_at_the_size_class_of_the_panel() {
    let mut schedule = schedule();
    schedule.factors = vec![factor("large panel", FactorTest::PanelClass("large".to_owned()), of_base("15"))];
    let amounts = |schedule: &Schedule| {
        let claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
        line_amounts(panel(&assessed(&claim, schedule), hood()), Method::Paintless)
    };
    assert_eq!(amounts(&schedule), ["40.00"]);
    panel_terms(&mut schedule, hood().kind).class = Some(stated("Large".to_owned()));
    assert_eq!(amounts(&schedule), ["40.00", "6.00"]);
}

//! Alternatives side by side, limits, a person's decision, and what stays open.

use crate::builder::{
    SCHEDULE, amount, cell, claim_with, dents, hood, hours, limit, mark, money, percent, rate, right, roof,
    schedule, stated, typical, written,
};
use crate::{assessed, line_amounts, panel, refused, way};
use stipple::assess::{Crossing, Measured, OpenReason, Outcome, Unpriced};
use stipple::claim::{
    Access, Claim, MarkKind, Material, Method, Overrule, Paint, PanelId, PanelKind, PartPrice,
};
use stipple::quantity::{Currency, Money};
use stipple::schedule::{LabourClass, Measure, Schedule, Scope, Typical};

/// Typical values of every kind, of any panel.
fn all_typical() -> Typical {
    Typical {
        part: Some(stated(money("300"))),
        fitting: Some(stated(hours("2"))),
        conventional: Some(stated(hours("3"))),
        refinish: Some(stated(hours("1.5"))),
        blend: Some(stated(hours("0.5"))),
        paint_material: Some(stated(money("40"))),
        ..typical(Scope::Any)
    }
}

fn with_typical() -> Schedule {
    let mut schedule = schedule();
    schedule.typical.push(all_typical());
    schedule
}

fn part(panel: PanelId) -> PartPrice {
    PartPrice {
        place: cell(crate::builder::CLAIM),
        panel,
        price: None,
        fitting: None,
        conventional: None,
        refinish: None,
        paint_material: None,
        source: None,
        date: None,
    }
}

fn one_hood() -> Claim {
    claim_with(vec![dents(hood(), 5, 0, 0)])
}

fn overrule(panel: PanelId, method: Method) -> Overrule {
    Overrule {
        place: cell(crate::builder::CLAIM),
        panel,
        method: written(method),
        by: Some(written("A. Sample".to_owned())),
        reason: Some(written("seen in daylight".to_owned())),
        date: None,
    }
}

#[test]
fn every_way_of_repair_stands_side_by_side_with_its_lines() {
    let mut schedule = with_typical();
    let assessment = assessed(&one_hood(), &schedule);
    let hood_of = |assessment| panel(assessment, hood());
    let order: Vec<Method> = hood_of(&assessment).alternatives.iter().map(|a| a.method).collect();
    assert_eq!(order, [Method::Paintless, Method::RefinishAfter, Method::Conventional, Method::Replace]);
    let lines = |method| line_amounts(hood_of(&assessment), method);
    assert_eq!(lines(Method::Paintless), ["40.00"]);
    assert_eq!(lines(Method::RefinishAfter), ["40.00", "99.00", "40.00", "33.00"]);
    assert_eq!(lines(Method::Conventional), ["186.00", "99.00", "40.00", "33.00"]);
    assert_eq!(lines(Method::Replace), ["300.00", "109.00", "99.00", "40.00", "33.00"]);
    schedule.terms.readying = Some(stated(percent("62.5")));
    let assessment = assessed(&one_hood(), &schedule);
    assert_eq!(line_amounts(hood_of(&assessment), Method::RefinishAfter)[0], "25.00");
}

#[test]
fn each_value_comes_from_the_claims_parts_table_else_from_the_most_particular_typical_row() {
    let mut schedule = with_typical();
    let of_kind = Typical { part: Some(stated(money("250"))), ..typical(Scope::Kind(PanelKind::Hood)) };
    let of_class = Typical {
        class: Some("Small Car".to_owned()),
        part: Some(stated(money("222"))),
        fitting: Some(stated(hours("1"))),
        ..typical(Scope::Any)
    };
    let of_kind_and_class =
        Typical { class: Some("van".to_owned()), part: Some(stated(money("999"))), ..of_kind.clone() };
    schedule.typical.extend([of_kind, of_class, of_kind_and_class]);
    let mut claim = one_hood();
    claim.vehicle.class = Some(written("small car".to_owned()));
    let replacing = |claim: &Claim| {
        let assessment = assessed(claim, &schedule);
        let replace = way(panel(&assessment, hood()), Method::Replace);
        (replace.lines[0].amount.to_string(), replace.lines[1].amount.to_string(), replace.typical)
    };
    assert_eq!(replacing(&claim), ("250.00".into(), "54.50".into(), true));
    claim.vehicle.class = Some(written("van".to_owned()));
    assert_eq!(replacing(&claim), ("999.00".into(), "109.00".into(), true));
    claim.parts.push(PartPrice { price: Some(amount("410.10")), ..part(hood()) });
    claim.parts.push(PartPrice { fitting: Some(written(hours("3"))), ..part(hood()) });
    claim.parts.push(PartPrice { price: Some(amount("1")), ..part(roof()) });
    assert_eq!(replacing(&claim), ("410.10".into(), "163.50".into(), true));
    claim.parts[1].refinish = Some(written(hours("1")));
    claim.parts[1].paint_material = Some(amount("0"));
    schedule.typical.clear();
    let assessment = assessed(&claim, &schedule);
    let replace = way(panel(&assessment, hood()), Method::Replace);
    assert_eq!((replace.amount.unwrap().to_string(), replace.typical), ("639.60".into(), false));
}

#[test]
fn an_alternative_with_any_typical_value_says_so() {
    let mut schedule = schedule();
    let times = Typical { conventional: Some(stated(hours("1"))), ..typical(Scope::Any) };
    schedule.typical = vec![times.clone(), Typical { conventional: Some(stated(hours("9"))), ..times }];
    let mut claim = one_hood();
    claim.parts = vec![PartPrice { refinish: Some(written(hours("1"))), ..part(hood()) }];
    let assessment = assessed(&claim, &schedule);
    let conventional = way(panel(&assessment, hood()), Method::Conventional);
    assert_eq!((conventional.amount, conventional.typical), (Ok(money("128.00")), true));
    assert!(!way(panel(&assessment, hood()), Method::RefinishAfter).typical);
}

#[test]
fn what_is_not_known_is_not_priced_and_the_first_missing_value_is_named() {
    let missing = |schedule: &Schedule, method| {
        let assessment = assessed(&one_hood(), schedule);
        way(panel(&assessment, hood()), method).amount
    };
    let bare = schedule();
    assert_eq!(missing(&bare, Method::RefinishAfter), Err(Unpriced::NoRefinish));
    assert_eq!(missing(&bare, Method::Conventional), Err(Unpriced::NoConventional));
    assert_eq!(missing(&bare, Method::Replace), Err(Unpriced::NoPart));
    let mut without_fitting = with_typical();
    without_fitting.typical[0].fitting = None;
    assert_eq!(missing(&without_fitting, Method::Replace), Err(Unpriced::NoFitting));
    let mut without_rate = with_typical();
    without_rate.labour.retain(|rate| rate.class != LabourClass::Conventional);
    assert_eq!(missing(&without_rate, Method::Conventional), Err(Unpriced::NoLabourRate));
    let mut bare_paint = with_typical();
    bare_paint.typical[0].blend = None;
    bare_paint.typical[0].paint_material = None;
    assert_eq!(missing(&bare_paint, Method::RefinishAfter).unwrap().to_string(), "139.00");
}

#[test]
fn every_limit_is_listed_and_the_furthest_from_paintless_decides() {
    let mut schedule = with_typical();
    schedule.limits = vec![
        limit(Measure::Paint(Paint::Broken), Method::RefinishAfter),
        limit(Measure::DentsOver(4), Method::Conventional),
        limit(Measure::DentsOfSizeOver(1, 0), Method::Replace),
        limit(Measure::Material(Material::Plastic), Method::Refer),
        limit(Measure::DentsOver(3), Method::Conventional),
        limit(Measure::Access(Access::NoAccess), Method::Replace),
    ];
    let mut panel_count = dents(hood(), 5, 0, 0);
    panel_count.paint = Some(written(Paint::Broken));
    let assessment = assessed(&claim_with(vec![panel_count.clone()]), &schedule);
    let hood_now = panel(&assessment, hood());
    let crossed: Vec<bool> = hood_now.findings.iter().map(|f| f.crossing == Crossing::Yes).collect();
    assert_eq!(crossed, [true, true, false, false, true, false]);
    assert_eq!((hood_now.method, hood_now.decided_by), (Method::Conventional, Some(1)));
    assert_eq!(hood_now.findings[1].measured, Measured::Dents(5));
    assert_eq!(hood_now.findings[1].cells.len(), 3);
    assert_eq!(hood_now.findings[3].measured, Measured::Nothing);
    panel_count.marks = vec![mark(MarkKind::Dent, Some("15"))];
    panel_count.marks[0].access = Some(written(Access::NoAccess));
    let assessment = assessed(&claim_with(vec![panel_count]), &schedule);
    assert_eq!(panel(&assessment, hood()).decided_by, Some(2), "of two that replace, the earlier row");
}

#[test]
fn none_crossed_is_paintless() {
    let mut schedule = schedule();
    schedule.limits = vec![limit(Measure::DentsOver(5), Method::Replace)];
    let assessment = assessed(&one_hood(), &schedule);
    assert_eq!(
        (panel(&assessment, hood()).method, panel(&assessment, hood()).decided_by),
        (Method::Paintless, None)
    );
}

#[test]
fn a_share_limit_is_crossed_above_the_share_and_cannot_be_told_without_both_amounts() {
    // Conventional repair comes to 358.00.
    let finding = |share: &str, schedule: &Schedule| {
        let mut schedule = schedule.clone();
        schedule.limits = vec![limit(Measure::ShareOfConventional(percent(share)), Method::Conventional)];
        let assessment = assessed(&one_hood(), &schedule);
        let hood = panel(&assessment, hood());
        (hood.findings[0].crossing, hood.findings[0].measured, hood.method)
    };
    let with = with_typical();
    let amounts = |threshold| Measured::Amounts {
        paintless: money("40"),
        other: money("358"),
        threshold: money(threshold),
    };
    assert_eq!(finding("11.17", &with), (Crossing::Yes, amounts("39.99"), Method::Conventional));
    assert_eq!(finding("11.173", &with), (Crossing::No, amounts("40.00"), Method::Paintless));
    assert_eq!(finding("1", &schedule()), (Crossing::CannotTell, Measured::Nothing, Method::Paintless));
}

#[test]
fn one_price_taken_away_leaves_a_decision_by_amounts_untold() {
    let mut schedule = with_typical();
    schedule.limits = vec![limit(Measure::ShareOfReplacing(percent("5")), Method::Replace)];
    assert_eq!(panel(&assessed(&one_hood(), &schedule), hood()).method, Method::Replace);
    schedule.typical[0].part = None;
    let assessment = assessed(&one_hood(), &schedule);
    assert_eq!(panel(&assessment, hood()).findings[0].crossing, Crossing::CannotTell);
    assert_eq!((panel(&assessment, hood()).method, assessment.outcome), (Method::Paintless, Outcome::Repair));
}

#[test]
fn a_panel_that_is_referred_or_not_priced_is_open_and_enters_no_total() {
    let mut schedule = schedule();
    schedule.limits = vec![
        limit(Measure::Material(Material::Plastic), Method::Refer),
        limit(Measure::Material(Material::Glass), Method::Replace),
    ];
    let open = |material| {
        let mut made = dents(hood(), 5, 0, 0);
        made.material = Some(written(material));
        let assessment = assessed(&claim_with(vec![made, dents(roof(), 1, 0, 0)]), &schedule);
        assert_eq!(assessment.totals.net.to_string(), "40.00");
        assert_eq!(assessment.outcome, Outcome::NeedsAPerson);
        panel(&assessment, hood()).open
    };
    assert_eq!(open(Material::Plastic), Some(OpenReason::Referred));
    assert_eq!(open(Material::Glass), Some(OpenReason::NotPriced(Unpriced::NoPart)));
}

#[test]
fn a_panel_that_the_schedule_does_not_list_is_referred() {
    let mirror = right(PanelKind::MirrorCap);
    let mut claim = claim_with(vec![dents(mirror, 1, 0, 0)]);
    let assessment = assessed(&claim, &with_typical());
    assert_eq!(panel(&assessment, mirror).method, Method::Refer);
    assert_eq!(panel(&assessment, mirror).open, Some(OpenReason::NotPriced(Unpriced::NoPanelTerms)));
    claim.overrules.push(overrule(mirror, Method::Replace));
    claim.parts.push(PartPrice {
        price: Some(amount("80")),
        fitting: Some(written(hours("0.2"))),
        refinish: Some(written(hours("0"))),
        ..part(mirror)
    });
    assert_eq!(assessed(&claim, &with_typical()).totals.net.to_string(), "90.90");
}

#[test]
fn a_persons_method_replaces_the_decided_one_and_the_difference_is_shown() {
    let mut claim = one_hood();
    claim.overrules.push(overrule(hood(), Method::Conventional));
    let overruled = |claim: &Claim, schedule: &Schedule| {
        let assessment = assessed(claim, schedule);
        let hood = panel(&assessment, hood());
        let overruled = hood.overruled.clone().unwrap();
        (hood.method, overruled.schedule_says, overruled.difference.map(|money| money.to_string()))
    };
    let schedule = with_typical();
    let (now, before, difference) = overruled(&claim, &schedule);
    assert_eq!(
        (now, before, difference.as_deref()),
        (Method::Conventional, Method::Paintless, Some("318.00"))
    );
    claim.overrules[0].method.value = Method::NoRepair;
    assert_eq!(overruled(&claim, &schedule).2.as_deref(), Some("-40.00"));
    assert!(assessed(&claim, &schedule).totals.net.is_zero());
    claim.overrules[0].method.value = Method::Refer;
    assert_eq!(overruled(&claim, &schedule).2, None);
    assert_eq!(panel(&assessed(&claim, &schedule), hood()).open, Some(OpenReason::Referred));
}

#[test]
fn a_person_may_find_damage_where_nothing_was_counted() {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.overrules.push(overrule(hood(), Method::Conventional));
    let assessment = assessed(&claim, &with_typical());
    let overruled = panel(&assessment, hood()).overruled.clone().unwrap();
    assert_eq!((overruled.schedule_says, overruled.difference), (Method::NoRepair, Some(money("358"))));
}

#[test]
fn overrules_that_cannot_be_shown_or_disagree_are_told() {
    let mut claim = one_hood();
    claim.inspections[0].panels.push(stipple::claim::PanelCount::new(roof(), cell(SCHEDULE)));
    claim.overrules =
        vec![overrule(roof(), Method::Replace), overrule(right(PanelKind::Fender), Method::Replace)];
    assert_eq!(refused(&claim, &schedule()), ["overrule-not-seen", "overrule-not-seen"]);
    claim.overrules = vec![overrule(hood(), Method::Replace), overrule(hood(), Method::Refer)];
    assert_eq!(refused(&claim, &schedule()), ["overrules-disagree"]);
    claim.overrules.pop();
    claim.overrules[0].by = None;
    claim.overrules[0].reason = None;
    let assessment = assessed(&claim, &schedule());
    assert_eq!(assessment.problems[0].code.id, "overrule-unsigned");
    assert!(assessment.problems[0].message.contains("name and reason"));
}

#[test]
fn prices_of_one_part_that_disagree_stop_the_claim_and_both_cells_are_named() {
    let mut claim = one_hood();
    claim.parts = vec![
        PartPrice { price: Some(amount("80")), ..part(hood()) },
        PartPrice { price: Some(amount("90")), fitting: Some(written(hours("1"))), ..part(hood()) },
    ];
    assert_eq!(refused(&claim, &schedule()), ["part-prices-disagree"]);
}

#[test]
fn an_amount_of_another_currency_in_the_schedule_meets_no_other() {
    let mut schedule = with_typical();
    let dollars = Money::from_minor(100, Currency::from_code("USD").unwrap());
    schedule.typical[0].part = Some(stated(dollars));
    assert_eq!(refused(&one_hood(), &schedule), ["currencies-meet"]);
    assert_eq!(rate("1").currency(), money("1").currency());
}

//! Operations, items, minimum, discount, tax, rounding, hours.

use crate::builder::{
    SCHEDULE, amount, cell, claim_with, dents, factor, hood, hours, item, left, limit, mark, mm, money,
    of_base, operation, panel_terms, percent, rate, right, roof, schedule, stated, typical, written,
};
use crate::{assessed, panel, refused};
use stipple::assess::{Assessment, ItemUnpriced, LineKind, Note, OpenItem, Outcome};
use stipple::claim::{Access, Claim, MarkKind, Material, Method, PanelKind, Side};
use stipple::quantity::Rounding;
use stipple::schedule::{
    DiscountOn, DiscountTaken, FactorTest, LabourClass, MarkRate, Measure, Once, Plane, Price, Schedule,
    Scope, Typical,
};

/// The vehicle's lines: what for, and how much.
fn vehicle_lines(assessment: &Assessment) -> Vec<(LineKind, String)> {
    assessment.vehicle_lines.iter().map(|line| (line.kind.clone(), line.amount.to_string())).collect()
}

fn two_doors() -> Claim {
    claim_with(vec![
        dents(left(PanelKind::FrontDoor), 1, 0, 0),
        dents(right(PanelKind::FrontDoor), 1, 0, 0),
        dents(right(PanelKind::Fender), 1, 0, 0),
        dents(roof(), 1, 0, 0),
        dents(hood(), 0, 0, 0),
    ])
}

#[test]
fn operations_are_charged_once_per_vehicle_side_or_panel() {
    let mut schedule = schedule();
    let doors = Scope::Kind(PanelKind::FrontDoor);
    schedule.operations = vec![
        operation("headliner", Scope::Any, Some("2"), None, Once::Vehicle),
        operation("side trim", Scope::Any, None, Some("5"), Once::Side),
        operation("door card", doors, Some("0.4"), Some("3.20"), Once::Panel),
        operation("bonnet liner", Scope::Kind(PanelKind::Hood), Some("1"), None, Once::Vehicle),
    ];
    let labour = |operation, panel, side| LineKind::OperationLabour { operation, panel, side };
    let parts = |operation, panel, side| LineKind::OperationParts { operation, panel, side };
    let door = |side| Some(stipple::claim::PanelId::new(PanelKind::FrontDoor, Some(side)));
    let expected = [
        (labour(0, None, None), "109.00"),
        (parts(1, None, None), "5.00"),
        (parts(1, None, Some(Side::Left)), "5.00"),
        (parts(1, None, Some(Side::Right)), "5.00"),
        (labour(2, door(Side::Left), None), "21.80"),
        (parts(2, door(Side::Left), None), "3.20"),
        (labour(2, door(Side::Right), None), "21.80"),
        (parts(2, door(Side::Right), None), "3.20"),
    ];
    let expected: Vec<_> = expected.map(|(kind, amount)| (kind, amount.to_owned())).to_vec();
    assert_eq!(vehicle_lines(&assessed(&two_doors(), &schedule)), expected);
}

#[test]
fn an_operation_waits_for_its_panel_access_and_method() {
    let charged = |change: &dyn Fn(&mut stipple::schedule::Operation)| {
        let mut schedule = schedule();
        let mut made = operation("x", Scope::Plane(Plane::Horizontal), Some("1"), None, Once::Vehicle);
        change(&mut made);
        schedule.operations.push(made);
        schedule.limits = vec![limit(Measure::Material(Material::Plastic), Method::Refer)];
        let mut plain = dents(hood(), 1, 0, 0);
        plain.access = Some(written(Access::WindowGap));
        let mut referred = dents(roof(), 1, 0, 0);
        referred.material = Some(written(Material::Plastic));
        !assessed(&claim_with(vec![plain, referred]), &schedule).vehicle_lines.is_empty()
    };
    assert!(charged(&|_| {}));
    assert!(charged(&|made| made.access = Some(Access::WindowGap)));
    assert!(!charged(&|made| made.access = Some(Access::Open)));
    assert!(charged(&|made| made.method = Some(Method::Paintless)));
    assert!(!charged(&|made| made.method = Some(Method::Replace)));
    assert!(!charged(&|made| made.scope = Scope::Kind(PanelKind::Roof)), "an open panel asks for nothing");
    assert!(!charged(&|made| made.scope = Scope::Plane(Plane::Vertical)));
}

#[test]
fn an_operation_without_its_labour_rate_is_a_problem_of_the_schedule() {
    let mut schedule = schedule();
    schedule.operations = vec![operation("x", Scope::Any, Some("1"), None, Once::Vehicle)];
    schedule.labour.retain(|rate| rate.class != LabourClass::Refit);
    assert_eq!(refused(&two_doors(), &schedule), ["rate-missing"]);
}

#[test]
fn items_have_a_price_and_labour_and_are_open_without_either() {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.items = vec![
        item("windscreen", Some("412.30"), Some("2.5")),
        item("badge", None, None),
        item("moulding", None, Some("0.3")),
    ];
    let mut schedule = schedule();
    let assessment = assessed(&claim, &schedule);
    let amounts: Vec<String> = vehicle_lines(&assessment).into_iter().map(|(_, amount)| amount).collect();
    assert_eq!(amounts, ["412.30", "136.25", "16.35"]);
    let unwritten = OpenItem { item: 1, why: ItemUnpriced::NothingWritten };
    assert_eq!(assessment.open_items, [unwritten]);
    assert_eq!(assessment.outcome, Outcome::NeedsAPerson);
    schedule.labour.retain(|rate| rate.class != LabourClass::Refit);
    let no_rate = |item| OpenItem { item, why: ItemUnpriced::NoLabourRate };
    assert_eq!(assessed(&claim, &schedule).open_items, [no_rate(0), unwritten, no_rate(2)]);
}

#[test]
fn labour_cites_its_rate_and_its_step_the_time() {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.items = vec![item("moulding", None, Some("0.3"))];
    let schedule = schedule();
    let assessment = assessed(&claim, &schedule);
    let line = &assessment.vehicle_lines[0];
    let refit = schedule.labour.iter().find(|rate| rate.class == LabourClass::Refit).unwrap();
    assert_eq!(line.cite, Some(refit.per_hour.place));
    let step = assessment.working.as_ref().unwrap().get(line.step);
    assert_eq!(step.cells, [claim.items[0].hours.unwrap().place]);
}

#[test]
fn the_minimum_tops_up_a_vehicle_that_has_any_line() {
    let mut schedule = schedule();
    schedule.terms.minimum = Some(stated(money("75")));
    let claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    let assessment = assessed(&claim, &schedule);
    assert_eq!(vehicle_lines(&assessment), [(LineKind::Minimum, "35.00".to_owned())]);
    let untouched = claim_with(vec![dents(hood(), 0, 0, 0)]);
    assert!(assessed(&untouched, &schedule).vehicle_lines.is_empty());
    assert_eq!(assessed(&untouched, &schedule).outcome, Outcome::NothingFound);
    schedule.terms.minimum = Some(stated(money("40")));
    assert!(assessed(&claim, &schedule).vehicle_lines.is_empty());
}

#[test]
fn the_minimum_waits_while_a_panel_or_an_item_is_open() {
    let mut schedule = schedule();
    let minimum = money("75");
    schedule.terms.minimum = Some(stated(minimum));
    let mut with_item = claim_with(vec![dents(hood(), 1, 0, 0)]);
    with_item.items = vec![item("badge", None, None)];
    let with_panel = claim_with(vec![dents(hood(), 1, 0, 0), dents(left(PanelKind::APillar), 1, 0, 0)]);
    for claim in [with_item, with_panel] {
        let assessment = assessed(&claim, &schedule);
        assert!(assessment.vehicle_lines.is_empty());
        assert!(assessment.notes.contains(&Note::MinimumWaits(minimum)));
    }
}

#[test]
fn the_discount_is_split_over_the_tax_rates_by_largest_remainder() {
    let mut schedule = schedule();
    for (tax, share) in schedule.taxes.iter_mut().zip(["19", "7", "0"]) {
        tax.percent.value = percent(share);
    }
    schedule.terms.discount = Some(stated(percent("5")));
    let mut claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    claim.items = vec![item("lamp", Some("0.30"), None)];
    let assessment = assessed(&claim, &schedule);
    // 5 % of 40.30 is 2.015, so 2.02: 0.0150... to the parts, 2.0049... to labour.
    let lines: Vec<_> = vehicle_lines(&assessment).split_off(1);
    let part = |share, amount: &str| (LineKind::Discount(percent(share)), amount.to_owned());
    assert_eq!(lines, [part("7", "-0.02"), part("19", "-2.00")]);
    assert_eq!(assessment.totals.net.to_string(), "38.28");
    let taxes: Vec<_> =
        assessment.totals.taxes.iter().map(|t| (t.taxable.to_string(), t.tax.to_string())).collect();
    assert_eq!(taxes, [("0.28".to_owned(), "0.02".to_owned()), ("38.00".to_owned(), "7.22".to_owned())]);
}

#[test]
fn a_discount_on_labour_leaves_prices_alone_even_at_an_equal_rate_of_tax() {
    let mut schedule = schedule();
    schedule.terms.discount = Some(stated(percent("5")));
    schedule.terms.discount_on = Some(stated(DiscountOn::Labour));
    let mut claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    claim.items = vec![item("lamp", Some("100"), None)];
    let discount = |schedule: &Schedule| vehicle_lines(&assessed(&claim, schedule)).split_off(1)[0].1.clone();
    assert_eq!(discount(&schedule), "-2.00"); // of 40.00
    schedule.terms.discount_on = Some(stated(DiscountOn::All));
    assert_eq!(discount(&schedule), "-7.00"); // of 140.00
}

#[test]
fn a_discount_before_the_minimum_never_takes_a_vehicle_below_it() {
    let mut schedule = schedule();
    schedule.terms.minimum = Some(stated(money("75")));
    schedule.terms.discount = Some(stated(percent("10")));
    let claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    let amounts = |schedule: &Schedule| {
        let lines = vehicle_lines(&assessed(&claim, schedule));
        lines.into_iter().map(|(_, amount)| amount).collect::<Vec<_>>()
    };
    assert_eq!(amounts(&schedule), ["35.00", "-7.50"]);
    schedule.terms.discount_taken = Some(stated(DiscountTaken::BeforeMinimum));
    assert_eq!(amounts(&schedule), ["-4.00", "39.00"]); // 40.00 less 4.00, and 39.00 more is 75.00
    assert_eq!(assessed(&claim, &schedule).totals.net.to_string(), "75.00");
    schedule.terms.discount_taken = Some(stated(DiscountTaken::AfterMinimum));
    assert_eq!(amounts(&schedule), ["35.00", "-7.50"]);
}

#[test]
fn the_gross_amount_is_brought_to_its_step_by_a_line() {
    let mut schedule = schedule();
    schedule.terms.total_step = Some(stated(money("0.05")));
    let gross = |schedule: &Schedule, price| {
        let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
        claim.items = vec![item("lamp", Some(price), None)];
        let totals = assessed(&claim, schedule).totals;
        (totals.rounding.map(|amount| amount.to_string()), totals.gross.to_string())
    };
    assert_eq!(gross(&schedule, "10.01"), (Some("-0.01".into()), "12.00".into())); // 12.012, so 12.01
    assert_eq!(gross(&schedule, "10.03"), (Some("0.01".into()), "12.05".into())); // 12.04
    assert_eq!(gross(&schedule, "10.00"), (None, "12.00".into()));
    schedule.terms.rounding = stated(Rounding::Up);
    assert_eq!(gross(&schedule, "10.01"), (Some("0.03".into()), "12.05".into())); // 12.02
}

#[test]
fn hours_are_added_up_by_class_over_the_lines_that_enter_the_totals() {
    let mut schedule = schedule();
    schedule.operations = vec![operation("x", Scope::Any, Some("1.2"), None, Once::Side)];
    let mut claim = two_doors();
    claim.items = vec![item("lamp", None, Some("0.3"))];
    assert_eq!(assessed(&claim, &schedule).hours, [(LabourClass::Refit, hours("3.9"))]);
}

#[test]
fn printed_lines_are_numbered_panel_by_panel_then_the_vehicles() {
    let mut schedule = schedule();
    schedule.factors = vec![factor("x", FactorTest::Always, of_base("10"))];
    schedule.terms.minimum = Some(stated(money("500")));
    let assessment = assessed(&two_doors(), &schedule);
    let numbers: Vec<_> = assessment.lines().map(|line| line.number).collect();
    assert_eq!(numbers, (1..=9).collect::<Vec<_>>());
    assert_eq!(assessment.lines().last().unwrap().line.kind, LineKind::Minimum);
    assert_eq!(panel(&assessment, hood()).amount(), None);
}

#[test]
fn a_schedule_without_a_tax_rate_prices_nothing() {
    let mut schedule = schedule();
    schedule.taxes.pop();
    assert_eq!(refused(&two_doors(), &schedule), ["rate-missing"]);
}

#[test]
fn absurd_amounts_are_a_located_problem_and_no_panic() {
    let mut schedule = schedule();
    schedule.labour[0].per_hour.value = rate("900000000000");
    schedule.factors = vec![factor("x", FactorTest::Always, of_base("9000000000000"))];
    let claim = claim_with(vec![dents(hood(), 5, 0, 0), dents(roof(), 5, 0, 0)]);
    assert_eq!(assessed(&claim, &schedule).totals.net.to_string(), "7200000000080.00");
    schedule.factors[0] = factor("x", FactorTest::Always, of_base("9000000000000"));
    schedule.factors.push(factor("y", FactorTest::Always, of_base("9000000000000")));
    let mut with_item = claim.clone();
    with_item.items = vec![item("lamp", Some("90000000000000000"), None)];
    let codes = refused(&with_item, &schedule);
    assert_eq!(codes, ["amount-too-large"]);
    with_item.items[0].price = Some(amount("900000000000000000000000"));
    assert_eq!(refused(&with_item, &schedule), ["amount-too-large"]);
}

#[test]
fn every_line_carries_the_tax_of_its_kind() {
    let mut schedule = schedule();
    for (tax, rate) in schedule.taxes.iter_mut().zip(["20", "15", "10"]) {
        tax.percent.value = percent(rate);
    }
    panel_terms(&mut schedule, PanelKind::Hood).floor = Some(stated(money("900")));
    panel_terms(&mut schedule, PanelKind::Hood).cap = Some(stated(money("800")));
    schedule.factors = vec![factor("x", FactorTest::Always, of_base("10"))];
    schedule.mark_rates = vec![MarkRate {
        mark: MarkKind::Crease,
        scope: Scope::Any,
        over: mm("0"),
        up_to: None,
        price: Price::Amount(rate("30")),
        place: cell(SCHEDULE),
    }];
    schedule.typical = vec![Typical {
        part: Some(stated(money("300"))),
        fitting: Some(stated(hours("2"))),
        conventional: Some(stated(hours("3"))),
        refinish: Some(stated(hours("1.5"))),
        blend: Some(stated(hours("0.5"))),
        paint_material: Some(stated(money("40"))),
        ..typical(Scope::Any)
    }];
    schedule.operations = vec![operation("x", Scope::Any, Some("1"), Some("2"), Once::Vehicle)];
    schedule.terms.minimum = Some(stated(money("5000")));
    let mut panel_count = dents(hood(), 5, 0, 0);
    panel_count.marks = vec![mark(MarkKind::Crease, Some("80"))];
    let mut claim = claim_with(vec![panel_count]);
    claim.items = vec![item("lamp", Some("50"), Some("1"))];
    let assessment = assessed(&claim, &schedule);
    let alternatives = panel(&assessment, hood()).alternatives.iter().flat_map(|way| &way.lines);
    let mut seen = 0;
    for line in alternatives.chain(&assessment.vehicle_lines) {
        let expected = match line.kind {
            LineKind::Part | LineKind::OperationParts { .. } | LineKind::ItemPrice(_) => "15",
            LineKind::PaintMaterial => "10",
            _ => "20",
        };
        assert_eq!(line.tax, percent(expected), "{line:?}");
        seen += 1;
    }
    // 5 paintless, 4 to refinish, 4 conventional, 5 to replace, 2 of the operation, 2 of the item, the minimum.
    assert_eq!(seen, 23);
}

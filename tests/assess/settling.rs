//! The total-loss screen and who pays what.

use crate::builder::{
    amount, claim_with, decimal, dents, hood, item, money, percent, right, roof, schedule, stated, written,
};
use crate::{assessed, refused};
use stipple::assess::{Outcome, Rule, Screen, Settled, Unscreened};
use stipple::claim::{
    Claim, PaidBefore, PanelId, PanelKind, PartPrice, Settlement, TaxPosition, WrittenAmount,
};
use stipple::quantity::Currency;
use stipple::schedule::{Comparator, LossRule, Schedule, TotalLossTerms};

fn with_screen(rule: LossRule, comparator: Comparator, share: &str, with_tax: bool) -> Schedule {
    let mut schedule = schedule();
    schedule.terms.total_loss = Some(TotalLossTerms {
        rule: stated(rule),
        comparator: stated(comparator),
        share: stated(percent(share)),
        with_tax: stated(with_tax),
    });
    schedule
}

/// A claim of one item at this price, with market value and salvage.
fn costing(price: &str, value: &str, salvage: &str) -> Claim {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.items = vec![item("glass roof", Some(price), None)];
    claim.parties.market_value = Some(amount(value));
    claim.parties.salvage = Some(amount(salvage));
    claim
}

fn is_reached(claim: &Claim, schedule: &Schedule) -> bool {
    let assessment = assessed(claim, schedule);
    let is_reached = matches!(assessment.screen, Screen::Reached(_));
    assert_eq!(assessment.outcome == Outcome::ProbableTotalLoss, is_reached);
    is_reached
}

#[test]
fn the_screen_agrees_with_published_boundary_cases() {
    let text = include_str!("../published/total_loss_boundary_cases.csv");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let mut checked = 0;
    for row in rows.records().map(Result::unwrap) {
        let claim = costing(&row[1], &row[0], &row[2]);
        let over_value_less_salvage = LossRule::RepairPlusSalvage;
        let cases = [
            (LossRule::Repair, Comparator::Over, "70", &row[4]),
            (LossRule::Repair, Comparator::AtLeast, "80", &row[5]),
            (LossRule::Repair, Comparator::Over, "100", &row[6]),
            (over_value_less_salvage, Comparator::Over, "100", &row[7]),
            (over_value_less_salvage, Comparator::AtLeast, "100", &row[8]),
        ];
        for (rule, comparator, share, expected) in cases {
            let schedule = with_screen(rule, comparator, share, false);
            assert_eq!(is_reached(&claim, &schedule), expected == "1", "{row:?} {rule} {comparator} {share}");
            checked += 1;
        }
        // The ratio itself, where it is finer than the smallest unit.
        let over_80 = with_screen(LossRule::Repair, Comparator::Over, "80", false);
        assert_eq!(is_reached(&claim, &over_80), decimal(&row[3]) > decimal("0.8"), "{row:?}");
    }
    assert_eq!(checked, 55);
}

#[test]
fn tax_counts_as_cost_where_the_terms_say_so() {
    let claim = costing("7000", "10000", "0"); // 8400 with tax
    assert!(!is_reached(&claim, &with_screen(LossRule::Repair, Comparator::AtLeast, "84", false)));
    assert!(is_reached(&claim, &with_screen(LossRule::Repair, Comparator::AtLeast, "84", true)));
}

#[test]
fn what_is_missing_is_said_and_nothing_is_screened() {
    let screened = |claim: &Claim, schedule: &Schedule| assessed(claim, schedule).screen;
    let mut claim = costing("7000", "10000", "0");
    assert_eq!(screened(&claim, &schedule()), Screen::Not(Unscreened::NoTerms));
    claim.parties.salvage = None;
    let with_salvage = with_screen(LossRule::RepairPlusSalvage, Comparator::Over, "100", false);
    assert_eq!(screened(&claim, &with_salvage), Screen::Not(Unscreened::NoSalvage));
    claim.parties.market_value = None;
    let without = with_screen(LossRule::Repair, Comparator::Over, "100", false);
    assert_eq!(screened(&claim, &without), Screen::Not(Unscreened::NoMarketValue));
}

#[test]
fn below_is_open_while_something_is_not_priced_and_reached_stays_reached() {
    let schedule = with_screen(LossRule::Repair, Comparator::Over, "50", false);
    let mut claim = costing("1000", "10000", "0");
    assert!(matches!(assessed(&claim, &schedule).screen, Screen::Below(_)));
    claim.items.push(item("badge", None, None));
    assert!(matches!(assessed(&claim, &schedule).screen, Screen::Open(_)));
    assert_eq!(assessed(&claim, &schedule).outcome, Outcome::NeedsAPerson);
    claim.items[0].price = Some(amount("5000.01"));
    assert!(is_reached(&claim, &schedule));
}

fn settled(claim: &Claim, schedule: &Schedule) -> Settled {
    let settled = assessed(claim, schedule).settled;
    let sum = settled.insurer_pays.plus(settled.owner_bears).unwrap().plus(settled.salvage_kept).unwrap();
    assert_eq!(sum, settled.amount, "insurer, owner and salvage kept sum to the settlement amount");
    settled
}

/// Amount, tax reclaimed, paid before, excess, beyond the limit, insurer, owner, salvage.
fn figures(claim: &Claim, schedule: &Schedule) -> [String; 8] {
    let s = settled(claim, schedule);
    let all = [
        s.amount,
        s.tax_reclaimed,
        s.paid_before,
        s.excess,
        s.over_limit,
        s.insurer_pays,
        s.owner_bears,
        s.salvage_kept,
    ];
    all.map(|amount| amount.to_string())
}

/// 100.00 net, 120.00 gross.
fn hundred() -> Claim {
    let mut claim = costing("60", "5000", "1000");
    claim.inspections[0].panels.push(dents(roof(), 5, 0, 0));
    claim
}

fn paid(panel: PanelId, before: &str) -> PaidBefore {
    PaidBefore { place: amount("0").place, panel, amount: amount(before), event: None, date: None }
}

#[test]
fn the_insurer_pays_the_gross_less_excess_and_the_owner_bears_the_rest() {
    let mut claim = hundred();
    assert_eq!(
        figures(&claim, &schedule()),
        ["120.00", "0.00", "0.00", "0.00", "0.00", "120.00", "0.00", "0.00"]
    );
    claim.parties.excess = Some(amount("45.50"));
    assert_eq!(
        figures(&claim, &schedule()),
        ["120.00", "0.00", "0.00", "45.50", "0.00", "74.50", "45.50", "0.00"]
    );
    claim.parties.excess = Some(amount("500"));
    let all_excess = ["120.00", "0.00", "0.00", "120.00", "0.00", "0.00", "120.00", "0.00"];
    assert_eq!(figures(&claim, &schedule()), all_excess, "the excess is never more than the part");
}

#[test]
fn an_owner_who_reclaims_tax_bears_it() {
    let mut claim = hundred();
    claim.parties.tax_position = Some(written(TaxPosition::Reclaims));
    claim.parties.excess = Some(amount("30"));
    assert_eq!(
        figures(&claim, &schedule()),
        ["120.00", "20.00", "0.00", "30.00", "0.00", "70.00", "50.00", "0.00"]
    );
    claim.parties.tax_share = Some(written(percent("33.33")));
    assert_eq!(figures(&claim, &schedule())[1], "6.67"); // 6.666
    claim.parties.tax_position = None;
    assert_eq!(figures(&claim, &schedule())[1], "6.67");
}

#[test]
fn what_was_paid_before_for_a_panel_that_is_paid_now_comes_off() {
    let mut claim = hundred();
    claim.paid_before = vec![paid(roof(), "15"), paid(roof(), "2.25"), paid(hood(), "99")];
    assert_eq!(
        figures(&claim, &schedule()),
        ["120.00", "0.00", "17.25", "0.00", "0.00", "102.75", "17.25", "0.00"]
    );
    claim.paid_before.push(paid(roof(), "500"));
    assert_eq!(figures(&claim, &schedule())[2], "120.00", "never more than is left");
}

#[test]
fn what_was_paid_before_for_a_panel_on_no_sheet_is_asked_about() {
    let mut claim = hundred();
    claim.paid_before = vec![paid(right(PanelKind::FrontDoor), "15"), paid(roof(), "15")];
    assert_eq!(refused(&claim, &schedule()), ["paid-before-not-seen"]);
}

#[test]
fn what_does_not_come_off_and_parts_without_a_use_are_warned_about() {
    let mut claim = hundred();
    claim.inspections[0].panels.push(dents(right(PanelKind::APillar), 1, 0, 0)); // open
    let idle = [hood(), right(PanelKind::APillar)];
    claim.paid_before = idle.iter().map(|panel| paid(*panel, "15")).chain([paid(roof(), "15")]).collect();
    for panel in [hood(), roof(), right(PanelKind::Fender)] {
        let place = amount("0").place;
        claim.parts.push(PartPrice {
            place,
            panel,
            price: Some(amount("99")),
            fitting: None,
            conventional: None,
            refinish: None,
            paint_material: None,
            source: None,
            date: None,
        });
    }
    let assessment = assessed(&claim, &schedule());
    let told: Vec<_> = assessment.problems.iter().map(|told| (told.code.id, told.place)).collect();
    let paid = |index: usize| ("paid-before-idle", Some(claim.paid_before[index].place));
    let part = |index: usize| ("part-idle", Some(claim.parts[index].place));
    assert_eq!(told, [part(0), part(2), paid(0), paid(1)]);
    assert_eq!(assessment.settled.paid_before.to_string(), "15.00");
}

#[test]
fn what_goes_beyond_the_policy_limit_is_the_owners() {
    let mut claim = hundred();
    claim.parties.excess = Some(amount("20"));
    claim.parties.policy_limit = Some(amount("60"));
    assert_eq!(
        figures(&claim, &schedule()),
        ["120.00", "0.00", "0.00", "20.00", "40.00", "60.00", "60.00", "0.00"]
    );
    claim.parties.policy_limit = Some(amount("100"));
    assert_eq!(figures(&claim, &schedule())[4], "0.00");
}

#[test]
fn cash_in_place_of_repair_leaves_out_tax_unless_the_schedule_includes_it() {
    let mut claim = hundred();
    claim.parties.settlement = Some(written(Settlement::Cash));
    claim.parties.tax_position = Some(written(TaxPosition::Reclaims));
    let mut schedule = schedule();
    assert_eq!(
        figures(&claim, &schedule),
        ["100.00", "0.00", "0.00", "0.00", "0.00", "100.00", "0.00", "0.00"]
    );
    schedule.terms.cash_with_tax = Some(stated(true));
    assert_eq!(figures(&claim, &schedule)[..2], ["120.00", "20.00"]);
    schedule.terms.cash_with_tax = Some(stated(false));
    assert_eq!(figures(&claim, &schedule)[0], "100.00");
}

#[test]
fn the_rounding_of_the_total_belongs_to_the_gross_and_not_to_cash_without_tax() {
    let mut claim = hundred();
    claim.items[0].price = Some(amount("65.02"));
    claim.parties.settlement = Some(written(Settlement::Cash));
    let mut schedule = schedule();
    schedule.terms.total_step = Some(stated(money("0.05")));
    let net = assessed(&claim, &schedule).totals.net.to_string();
    assert_eq!(net, "105.02"); // 126.02 with tax, so 126.00
    assert_eq!(figures(&claim, &schedule)[0], net);
    schedule.terms.cash_with_tax = Some(stated(true));
    assert_eq!(figures(&claim, &schedule)[0], "126.00");
}

#[test]
fn the_settlement_amount_cites_what_the_claim_sheet_and_the_schedule_say_of_it() {
    let mut claim = hundred();
    let said = written(Settlement::Cash);
    claim.parties.settlement = Some(said);
    let mut schedule = schedule();
    let with_tax = stated(true);
    schedule.terms.cash_with_tax = Some(with_tax);
    let assessment = assessed(&claim, &schedule);
    let step = assessment.working.as_ref().unwrap().get(assessment.settled.amount_step);
    assert_eq!(step.cells, [said.place, with_tax.place]);
    let position = written(TaxPosition::Reclaims);
    claim.parties.tax_position = Some(position);
    claim.parties.tax_share = Some(written(percent("50")));
    let working = assessed(&claim, &schedule).working.unwrap();
    let reclaimed = working.steps.iter().find(|step| step.rule == Rule::TaxReclaimed).unwrap();
    assert_eq!(reclaimed.cells, [position.place]);
    claim.parties.settlement = Some(written(Settlement::TotalLossKept));
    let working = assessed(&claim, &schedule).working.unwrap();
    assert_eq!(working.steps.iter().filter(|step| step.rule == Rule::SalvageKept).count(), 1);
}

#[test]
fn a_total_loss_is_settled_at_the_market_value_and_a_kept_wreck_counts() {
    let mut claim = hundred();
    claim.parties.excess = Some(amount("300"));
    claim.parties.settlement = Some(written(Settlement::TotalLoss));
    claim.paid_before = vec![paid(roof(), "100"), paid(hood(), "7")];
    claim.parties.tax_position = Some(written(TaxPosition::Reclaims));
    let whole = ["5000.00", "0.00", "100.00", "300.00", "0.00", "4600.00", "400.00", "0.00"];
    assert_eq!(figures(&claim, &schedule()), whole);
    let mut with_open = claim.clone();
    with_open.inspections[0].panels.push(dents(right(PanelKind::MirrorCap), 1, 0, 0));
    with_open.paid_before.push(paid(right(PanelKind::MirrorCap), "50"));
    assert_eq!(figures(&with_open, &schedule())[2], "150.00", "damaged, though no repair is priced");
    claim.parties.settlement = Some(written(Settlement::TotalLossKept));
    let kept = ["5000.00", "0.00", "100.00", "300.00", "0.00", "3600.00", "400.00", "1000.00"];
    assert_eq!(figures(&claim, &schedule()), kept);
    claim.parties.insurer = None;
    let own = ["5000.00", "0.00", "0.00", "0.00", "0.00", "0.00", "4000.00", "1000.00"];
    assert_eq!(figures(&claim, &schedule()), own);
}

#[test]
fn an_amount_below_zero_leaves_nothing_for_the_insurer() {
    let mut schedule = schedule();
    schedule.terms.discount = Some(stated(percent("150")));
    let mut claim = hundred();
    claim.parties.excess = Some(amount("10"));
    assert_eq!(figures(&claim, &schedule)[3..7], ["0.00", "0.00", "0.00", "-60.00"]);
}

#[test]
fn a_total_loss_without_its_values_is_a_question() {
    let mut claim = hundred();
    claim.parties.settlement = Some(written(Settlement::TotalLossKept));
    claim.parties.salvage = None;
    assert_eq!(refused(&claim, &schedule()), ["settlement-needs-value"]);
    claim.parties.settlement = Some(written(Settlement::TotalLoss));
    assert_eq!(settled(&claim, &schedule()).amount.to_string(), "5000.00");
    claim.parties.market_value = None;
    assert_eq!(refused(&claim, &schedule()), ["settlement-needs-value"]);
}

#[test]
fn amounts_that_cannot_be_taken_as_written_are_told_all_at_once() {
    let mut claim = hundred();
    claim.parties.excess = Some(amount("10.005"));
    claim.parties.policy_limit = Some(amount("-1"));
    let dollars = WrittenAmount { amount: decimal("5"), currency: Currency::from_code("USD") };
    claim.items[0].price = Some(written(dollars));
    claim.items[0].hours = Some(written(crate::builder::hours("-1")));
    claim.paid_before = vec![paid(roof(), "999999999999999999999")];
    let codes = refused(&claim, &schedule());
    let expected =
        ["amount-too-fine", "amount-negative", "amount-currency", "amount-too-large", "amount-negative"];
    assert_eq!(codes, expected);
    let mut same = hundred();
    same.items[0].price = Some(written(WrittenAmount { currency: Currency::from_code("EUR"), ..dollars }));
    assert_eq!(assessed(&same, &schedule()).totals.net.to_string(), "45.00");
}

#[test]
fn values_that_do_not_fit_together_are_asked_about() {
    let mut claim = hundred();
    claim.parties.market_value = Some(amount("0"));
    assert_eq!(refused(&claim, &schedule()), ["value-odd"]);
    claim.parties.market_value = Some(amount("1000"));
    assert_eq!(settled(&claim, &schedule()).amount.to_string(), "120.00");
    claim.parties.market_value = Some(amount("999.99"));
    assert_eq!(refused(&claim, &schedule()), ["value-odd"]);
    let mut claim = hundred();
    claim.parties.tax_share = Some(written(percent("101")));
    assert_eq!(refused(&claim, &schedule()), ["tax-share-odd"]);
    claim.parties.tax_share = Some(written(percent("50")));
    claim.parties.tax_position = Some(written(TaxPosition::Bears));
    assert_eq!(refused(&claim, &schedule()), ["tax-share-odd"]);
}

//! What holds for every claim and schedule, tried on random ones.

use crate::builder::{claim_with, dents, hood, schedule, stated, written};
use crate::random::{Dice, random_claim, random_schedule};
use crate::recompute::Sheets;
use crate::{try_assess, without_steps};
use proptest::prelude::*;
use stipple::assess::{Assessment, OpenReason, Silent, assess};
use stipple::claim::{Claim, Counted, Method, WrittenAmount};
use stipple::quantity::{Currency, Decimal, Money, Percent, UnitRate};
use stipple::schedule::{FactorEffect, Grid, MixedRule, Per, Price, Schedule};

/// A random schedule and claim, and the assessment if the claim can be priced.
fn drawn(seed: u64) -> (Schedule, Claim, Option<Assessment>) {
    let dice = &mut Dice::new(seed);
    let schedule = random_schedule(dice);
    let claim = random_claim(dice, &schedule);
    let assessment = try_assess(&claim, &schedule).ok();
    (schedule, claim, assessment)
}

fn sum(currency: Currency, amounts: impl IntoIterator<Item = Money>) -> Money {
    Money::sum(currency, amounts).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_step_can_be_recomputed_from_its_operands_alone(seed in any::<u64>()) {
        let (schedule, claim, assessment) = drawn(seed);
        if let Some(assessment) = assessment {
            Sheets::new(&claim, &schedule).check(assessment.working.as_ref().unwrap());
        }
    }

    #[test]
    fn every_amount_is_the_result_of_its_step(seed in any::<u64>()) {
        let (_, _, Some(assessment)) = drawn(seed) else { return Ok(()) };
        let working = assessment.working.as_ref().unwrap();
        let result = |id| working.get(id).result.clone();
        let alternatives = assessment.panels.iter().flat_map(|panel| &panel.alternatives);
        let lines = alternatives.clone().flat_map(|alternative| &alternative.lines);
        for line in lines.chain(&assessment.vehicle_lines) {
            prop_assert_eq!(result(line.step), line.amount.into(), "{:?}", line);
        }
        for alternative in alternatives {
            if let Ok(amount) = alternative.amount {
                prop_assert_eq!(result(alternative.step), amount.into());
            }
        }
        let (totals, settled) = (&assessment.totals, &assessment.settled);
        prop_assert_eq!(result(totals.net_step), totals.net.into());
        prop_assert_eq!(result(totals.gross_step), totals.gross.into());
        for tax in &totals.taxes {
            prop_assert_eq!(result(tax.step), tax.tax.into());
        }
        prop_assert_eq!(result(settled.amount_step), settled.amount.into());
        prop_assert_eq!(result(settled.excess_step), settled.excess.into());
        prop_assert_eq!(result(settled.insurer_step), settled.insurer_pays.into());
        prop_assert_eq!(result(settled.owner_step), settled.owner_bears.into());
    }

    #[test]
    fn printed_lines_sum_to_printed_totals(seed in any::<u64>()) {
        let (_, _, Some(assessment)) = drawn(seed) else { return Ok(()) };
        let currency = assessment.currency;
        let totals = &assessment.totals;
        prop_assert_eq!(sum(currency, assessment.lines().map(|line| line.line.amount)), totals.net);
        prop_assert_eq!(sum(currency, totals.taxes.iter().map(|tax| tax.taxable)), totals.net);
        prop_assert_eq!(sum(currency, totals.taxes.iter().map(|tax| tax.tax)), totals.tax);
        let gross = [totals.net, totals.tax].into_iter().chain(totals.rounding);
        prop_assert_eq!(sum(currency, gross), totals.gross);
        for alternative in assessment.panels.iter().flat_map(|panel| &panel.alternatives) {
            if let Ok(amount) = alternative.amount {
                prop_assert_eq!(sum(currency, alternative.lines.iter().map(|line| line.amount)), amount);
            }
        }
        let settled = &assessment.settled;
        let parts = [settled.insurer_pays, settled.owner_bears, settled.salvage_kept];
        prop_assert_eq!(sum(currency, parts), settled.amount);
        for part in parts {
            prop_assert!(part.minor() >= 0, "{settled:?}");
        }
    }

    #[test]
    fn the_order_of_rows_does_not_matter(seed in any::<u64>()) {
        let (schedule, claim, Some(assessment)) = drawn(seed) else { return Ok(()) };
        let mut turned = claim.clone();
        for panels in turned.inspections.iter_mut().map(|inspection| &mut inspection.panels) {
            panels.reverse();
            for panel in panels.iter_mut() {
                panel.tally.reverse();
            }
        }
        turned.paid_before.reverse();
        turned.parts.reverse();
        let again = try_assess(&turned, &schedule).unwrap();
        prop_assert_eq!(&assessment.totals.gross, &again.totals.gross);
        prop_assert_eq!(&assessment.settled.insurer_pays, &again.settled.insurer_pays);
        let decided = |assessment: &Assessment| -> Vec<_> {
            assessment.panels.iter().map(|panel| (panel.panel, panel.method, panel.amount())).collect()
        };
        prop_assert_eq!(decided(&assessment), decided(&again));
    }

    #[test]
    fn open_panels_enter_no_total(seed in any::<u64>()) {
        let (mut schedule, mut claim, Some(_)) = drawn(seed) else { return Ok(()) };
        // The minimum waits for what is open, so it would tell the two apart.
        schedule.terms.minimum = None;
        let assessment = try_assess(&claim, &schedule).unwrap();
        let open: Vec<_> = assessment.open_panels().map(|panel| panel.panel).collect();
        for panel in &assessment.panels {
            prop_assert!(panel.method != Method::Refer || panel.open.is_some());
            prop_assert!(panel.open != Some(OpenReason::Referred) || panel.method == Method::Refer);
            prop_assert!(panel.open.is_none() || panel.amount().is_none());
        }
        claim.overrules.retain(|overrule| !open.contains(&overrule.panel));
        claim.paid_before.retain(|paid| !open.contains(&paid.panel));
        for panels in claim.inspections.iter_mut().map(|inspection| &mut inspection.panels) {
            panels.retain(|panel| !open.contains(&panel.panel));
        }
        if let Ok(without) = try_assess(&claim, &schedule) {
            prop_assert_eq!(without.totals.gross, assessment.totals.gross);
        }
    }

    #[test]
    fn every_amount_is_in_the_schedules_currency(seed in any::<u64>()) {
        let (schedule, claim, Some(assessment)) = drawn(seed) else { return Ok(()) };
        let text = without_steps(&assessment);
        for other in ["EUR", "USD", "JPY", "KWD"].into_iter().filter(|code| *code != assessment.currency.code()) {
            prop_assert!(!text.contains(&format!("{other} ")), "{other} in {text}");
        }
        prop_assert_eq!(assess(&claim, &schedule, 0, None, &mut Silent).unwrap().working, None);
    }

    #[test]
    fn absurd_values_end_in_an_amount_or_a_problem_and_never_in_a_panic(seed in any::<u64>()) {
        let dice = &mut Dice::new(seed);
        let mut schedule = random_schedule(dice);
        let mut claim = random_claim(dice, &schedule);
        make_absurd(dice, &mut schedule, &mut claim);
        if let Ok(assessment) = try_assess(&claim, &schedule) {
            let totals = &assessment.totals;
            let gross = [totals.net, totals.tax].into_iter().chain(totals.rounding);
            prop_assert_eq!(sum(assessment.currency, gross), totals.gross);
        }
    }

    #[test]
    fn on_a_rising_grid_one_more_dent_never_lowers_the_base(
        counts in [0_u32..45, 0..45, 0..45], steps in [[1_u32..40, 1..40, 1..40], [1..40, 1..40, 1..40], [1..40, 1..40, 1..40]],
        by_weights in any::<bool>(), added in 0_usize..3,
    ) {
        let mut schedule = schedule();
        schedule.counts[2].to = None;
        if by_weights {
            schedule.terms.mixed.value = MixedRule::Equivalents(1);
            for (band, weight) in schedule.sizes.iter_mut().zip(["0.5", "1", "2.75"]) {
                band.weight = Some(crate::builder::decimal(weight));
            }
        }
        let mut row = [0_u32; 3];
        for (size, steps) in steps.iter().enumerate() {
            let mut amount = 0;
            for (count, step) in steps.iter().enumerate() {
                amount = (amount + step).max(row[count] + step);
                row[count] = amount;
                let price = UnitRate::from_decimal(amount.into(), crate::builder::eur()).unwrap();
                crate::builder::put(&mut schedule, 0, size, count, Price::Amount(price), Per::Panel);
            }
        }
        let base = |counts: [u32; 3]| {
            let claim = claim_with(vec![dents(hood(), counts[0], counts[1], counts[2])]);
            try_assess(&claim, &schedule).unwrap().totals.net.minor()
        };
        let mut more = counts;
        more[added] += 1;
        prop_assert!(base(more) >= base(counts), "{counts:?} and one more of {added}");
    }
}

/// Puts a few values that no sheet should hold: the ends of what types can hold, and rows that are missing.
fn make_absurd(dice: &mut Dice, schedule: &mut Schedule, claim: &mut Claim) {
    let currency = schedule.terms.currency.value;
    let ends = [i64::MIN, i64::MIN + 1, -1, 0, 1, i64::MAX - 1, i64::MAX];
    for _ in 0..=dice.below(4) {
        let end = dice.pick(&ends);
        let decimal = Decimal::new(end, dice.pick(&[0, 2, 6]));
        let money = Money::from_minor(end, currency);
        match dice.below(13) {
            0 => claim.inspections[0].panels[0].tally[0].count = Counted::Counted(u32::MAX),
            1 => schedule.labour.iter_mut().for_each(|rate| {
                rate.per_hour.value =
                    UnitRate::from_decimal(decimal, currency).unwrap_or(rate.per_hour.value);
            }),
            2 => schedule.taxes[0].percent.value = Percent::from_decimal(decimal).unwrap_or_default(),
            3 => schedule.terms.discount = Some(stated(Percent::from_decimal(decimal).unwrap_or_default())),
            4 => schedule.terms.minimum = Some(stated(money)),
            5 => schedule.terms.total_step = Some(stated(money)),
            6 => schedule.panels[0].cap = Some(stated(money)),
            7 => {
                claim.parties.market_value = Some(written(WrittenAmount { amount: decimal, currency: None }));
            }
            8 => claim.parties.excess = Some(written(WrittenAmount { amount: decimal, currency: None })),
            9 => schedule.factors.iter_mut().for_each(|factor| factor.effect = FactorEffect::Amount(money)),
            10 => schedule.counts.clear(),
            11 => schedule.sizes.iter_mut().for_each(|band| band.weight = Some(decimal)),
            _ => {
                schedule.sizes.clear();
                schedule.grid = Grid::new(2, 0, 0);
            }
        }
    }
}

/// The random claims are worth something only if most can be priced and everything happens among them.
#[test]
fn most_random_claims_can_be_priced_and_every_outcome_is_among_them() {
    let all: Vec<Option<Assessment>> = (0..300).map(|seed| drawn(seed).2).collect();
    let priced: Vec<&Assessment> = all.iter().flatten().collect();
    assert!(priced.len() > 200, "{} of 300 can be priced", priced.len());
    for outcome in stipple::assess::Outcome::ALL {
        let is_there = priced.iter().any(|assessment| assessment.outcome == outcome);
        assert!(is_there || outcome == stipple::assess::Outcome::NothingFound, "{outcome:?}");
    }
    for method in Method::ALL {
        assert!(priced.iter().any(|a| a.panels_by(*method).next().is_some()), "{method}");
    }
}

//! The fewest dents that change a decision, against every spread of dents over the whole claim.

use crate::assessed;
use crate::builder::*;
use crate::random::Dice;
use crate::recount::rewritten;
use stipple::assess::{
    Assessment, Change, Direction, Distance, Fewest, PanelAssessment, Screen, Silent, assess, distances,
    fewest,
};
use stipple::claim::{Claim, Counted, Method, PanelKind};
use stipple::schedule::{Comparator, LossRule, Measure, Once, Schedule, Scope, TotalLossTerms};

/// Every claim with so many dents counted otherwise, spread over all bands of all assessed panels.
fn every_spread(claim: &Claim, schedule: &Schedule, panels: &[PanelAssessment], dents: u32) -> Vec<Claim> {
    let mut all = vec![(claim.clone(), dents)];
    for panel in panels.iter().filter(|panel| !panel.alternatives.is_empty()) {
        for size in 0..panel.counts.len() {
            let before = panel.counts[size].dents() - panel.counts[size].from_marks;
            let one = |(claim, left): (Claim, u32)| {
                let otherwise = |(direction, dents)| {
                    let row = Distance {
                        panel: panel.panel,
                        size,
                        direction,
                        dents,
                        change: Change::Band,
                        gross: money("0"),
                        method: panel.method,
                        is_open: false,
                    };
                    (rewritten(&claim, &row, schedule, before), left - dents)
                };
                let more = (1..=left).map(|dents| (Direction::More, dents));
                let fewer = (1..=left.min(before)).map(|dents| (Direction::Fewer, dents));
                let mut ways: Vec<(Claim, u32)> = more.chain(fewer).map(otherwise).collect();
                ways.push((claim, left));
                ways
            };
            all = all.into_iter().flat_map(one).collect();
        }
    }
    all.into_iter().filter(|(_, left)| *left == 0).map(|(claim, _)| claim).collect()
}

fn is_reached(assessment: &Assessment) -> bool {
    matches!(assessment.screen, Screen::Reached(_))
}

/// The fewest dents by trying all of them, up to `most`.
fn by_trial(claim: &Claim, schedule: &Schedule, as_counted: &Assessment, most: u32) -> Option<u32> {
    (1..=most).find(|dents| {
        every_spread(claim, schedule, &as_counted.panels, *dents).iter().any(|other| {
            let Ok(again) = assess(other, schedule, 0, None, &mut Silent) else { return false };
            let methods = |it: &Assessment| it.panels.iter().map(|panel| panel.method).collect::<Vec<_>>();
            methods(&again) != methods(as_counted) || is_reached(&again) != is_reached(as_counted)
        })
    })
}

fn found(claim: &Claim, schedule: &Schedule) -> Option<Fewest> {
    let as_counted = assessed(claim, schedule);
    let distances = distances(claim, schedule, None, &as_counted, 4);
    fewest(claim, schedule, None, &as_counted, &distances)
}

fn screened(schedule: &mut Schedule, with_tax: bool) {
    schedule.terms.total_loss = Some(TotalLossTerms {
        rule: stated(LossRule::Repair),
        comparator: stated(Comparator::AtLeast),
        share: stated(percent("60")),
        with_tax: stated(with_tax),
    });
}

#[test]
fn two_panels_together_reach_the_screen_with_fewer_dents_than_one() {
    let mut schedule = schedule();
    screened(&mut schedule, false);
    let door = left(PanelKind::FrontDoor);
    let mut claim = claim_with(vec![dents(hood(), 4, 0, 0), dents(door, 4, 0, 0)]);
    let net = assessed(&claim, &schedule).totals.net;
    // Two more small dents on either panel bring it to its next band. The screen asks for both steps at once.
    let more = |panel: usize, by: u32| {
        let mut claim = claim.clone();
        claim.inspections[0].panels[panel].tally[0].count = Counted::Counted(4 + by);
        assessed(&claim, &schedule).totals.net.minus(net).unwrap()
    };
    let both = net.plus(more(0, 2)).unwrap().plus(more(1, 2)).unwrap();
    claim.parties.market_value = Some(amount(&(both.to_decimal() / decimal("0.6")).floor().to_string()));
    let found = found(&claim, &schedule);
    let as_counted = assessed(&claim, &schedule);
    let trial = by_trial(&claim, &schedule, &as_counted, 4);
    assert_eq!(found.map(|found| (found.dents, found.is_exact)), trial.map(|dents| (dents, true)));
}

#[test]
fn the_fewest_dents_are_those_of_a_trial_of_all_or_a_bound_that_says_so() {
    let (mut exact, mut bounds) = (0, 0);
    for seed in 0..60 {
        let mut dice = Dice::new(seed);
        let mut schedule = schedule();
        screened(&mut schedule, dice.once_in(2));
        schedule.limits = vec![
            limit(Measure::DentsOver(4 + dice.below(6)), Method::Refer),
            limit(Measure::DentsOfSizeOver(1, dice.below(4)), Method::Replace),
        ];
        if dice.once_in(3) {
            schedule.operations = vec![operation("trim", Scope::Any, Some("0.4"), None, Once::Vehicle)];
        }
        schedule.terms.minimum = dice.once_in(3).then(|| stated(money("150")));
        schedule.terms.discount = dice.once_in(3).then(|| stated(percent("7.5")));
        let door = left(PanelKind::FrontDoor);
        let mut claim = claim_with(vec![
            dents(hood(), 1 + dice.below(7), dice.below(3), 0),
            dents(door, dice.below(6), dice.below(2), 0),
        ]);
        claim.parties.market_value = Some(amount(&(80 + dice.below(600)).to_string()));
        let Some(found) = found(&claim, &schedule) else { continue };
        let trial = by_trial(&claim, &schedule, &assessed(&claim, &schedule), found.dents).unwrap();
        if found.is_exact {
            assert_eq!(found.dents, trial, "seed {seed}");
            exact += 1;
        } else {
            assert!(found.dents >= trial, "seed {seed}: {found:?} {trial}");
            bounds += 1;
        }
    }
    assert!(exact > 20, "{exact} exact, {bounds} bounds");
}

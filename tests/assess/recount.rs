//! What a recount could change: hand-made cases, and every answer against the assessment of a sheet written that way.

use crate::builder::*;
use crate::random::{Dice, random_claim, random_schedule};
use crate::{assessed, panel};
use stipple::assess::{Change, Direction, Distance, Silent, assess, distances, nearest_decision};
use stipple::claim::{Claim, Counted, MarkKind, Method, PanelCount};
use stipple::schedule::{Comparator, LossRule, Measure, Schedule, TotalLossTerms};

fn found(claim: &Claim, schedule: &Schedule, most: u32) -> Vec<Distance> {
    distances(claim, schedule, None, &assessed(claim, schedule), most)
}

/// Direction, dents, change and gross of what was found in one band.
fn of_size(found: &[Distance], size: usize) -> Vec<(Direction, u32, Change, String)> {
    let row = |it: &Distance| (it.direction, it.dents, it.change, it.gross.to_string());
    found.iter().filter(|it| it.size == size).map(row).collect()
}

#[test]
fn the_distance_to_the_next_band_is_exact_in_dents_and_in_gross_money() {
    let claim = claim_with(vec![dents(hood(), 4, 0, 0)]);
    let found = found(&claim, &schedule(), 12);
    // Small dents on a hood are 40.00 up to 5, 75.00 up to 15; nothing without any. The tax is 20 %.
    let expected = [
        (Direction::Fewer, 4, Change::Band, "-48.00".to_owned()),
        (Direction::Fewer, 4, Change::Method, "-48.00".to_owned()),
        (Direction::More, 2, Change::Band, "42.00".to_owned()),
    ];
    assert_eq!(of_size(&found, 0), expected);
    // One medium dent is a band of its own at 60.00.
    assert_eq!(of_size(&found, 1), [(Direction::More, 1, Change::Band, "72.00".to_owned())]);
}

#[test]
fn nothing_is_said_beyond_the_stated_number_of_dents() {
    let claim = claim_with(vec![dents(hood(), 4, 0, 0)]);
    assert_eq!(of_size(&found(&claim, &schedule(), 1), 0), []);
    assert_eq!(found(&claim, &schedule(), 0), []);
}

#[test]
fn limits_methods_and_the_screen_each_have_their_own_distance() {
    let mut schedule = schedule();
    schedule.limits =
        vec![limit(Measure::DentsOver(7), Method::Refer), limit(Measure::DentsOver(2), Method::Paintless)];
    let mut claim = claim_with(vec![dents(hood(), 4, 0, 0)]);
    let with_limits = found(&claim, &schedule, 9);
    let more: Vec<_> = of_size(&with_limits, 0).into_iter().filter(|it| it.0 == Direction::More).collect();
    let expected = [
        (Direction::More, 2, Change::Band, "42.00".to_owned()),
        // Referred at 8 dents: the panel is open and enters no total.
        (Direction::More, 4, Change::Limit, "-48.00".to_owned()),
        (Direction::More, 4, Change::Method, "-48.00".to_owned()),
    ];
    assert_eq!(more, expected);
    let fewer: Vec<_> = of_size(&with_limits, 0).into_iter().filter(|it| it.0 == Direction::Fewer).collect();
    assert_eq!(fewer[0], (Direction::Fewer, 2, Change::Limit, "0.00".to_owned()));
    schedule.limits.clear();
    schedule.terms.total_loss = Some(TotalLossTerms {
        rule: stated(LossRule::Repair),
        comparator: stated(Comparator::AtLeast),
        share: stated(percent("60")),
        with_tax: stated(false),
    });
    claim.parties.market_value = Some(amount("100"));
    let screened = found(&claim, &schedule, 9);
    let nearest = nearest_decision(&screened).unwrap();
    // One medium dent brings the cost to 100.00, two small ones to 75.00; the screen says yes from 60.00.
    assert_eq!((nearest.size, nearest.dents, nearest.change), (1, 1, Change::Screen));
    let small = (Direction::More, 2, Change::Screen, "42.00".to_owned());
    assert!(of_size(&screened, 0).contains(&small), "{screened:?}");
}

#[test]
fn dents_that_were_measured_one_by_one_are_not_counted_away() {
    let mut hood = dents(hood(), 2, 0, 0);
    hood.marks = vec![mark(MarkKind::Dent, Some("6"))];
    let found = found(&claim_with(vec![hood]), &schedule(), 9);
    // Two can be counted away and one stays, so the panel is never without damage; the band ends at 5.
    assert_eq!(of_size(&found, 0), [(Direction::More, 3, Change::Band, "42.00".to_owned())]);
}

/// The claim with one band of one panel written as one number.
pub fn rewritten(claim: &Claim, distance: &Distance, schedule: &Schedule, before: u32) -> Claim {
    let mut claim = claim.clone();
    let count = match distance.direction {
        Direction::Fewer => before - distance.dents,
        Direction::More => before + distance.dents,
    };
    let band = &schedule.sizes[distance.size];
    let is_panel = |panel: &&mut PanelCount| panel.panel == distance.panel;
    for panel in claim.inspections.iter_mut().flat_map(|seen| &mut seen.panels).filter(is_panel) {
        panel.tally.retain(|entry| {
            entry
                .size
                .interval
                .is_none_or(|size| size.low < band.low || size.high.is_none_or(|it| it > band.high))
        });
        let mut entry = entry(heading(&band.name, "0", None), None);
        entry.size =
            std::sync::Arc::new(stipple::claim::SizeHeading { text: band.name.clone(), interval: None });
        entry.count = Counted::Counted(count);
        panel.tally.push(entry);
    }
    claim
}

#[test]
fn every_answer_is_the_assessment_of_a_sheet_written_that_way() {
    let mut compared = 0;
    for seed in 0..16 {
        let mut dice = Dice::new(seed);
        let schedule = random_schedule(&mut dice);
        let claim = random_claim(&mut dice, &schedule);
        let Ok(as_counted) = assess(&claim, &schedule, 0, None, &mut Silent) else { continue };
        for distance in distances(&claim, &schedule, None, &as_counted, 4) {
            let before = &panel(&as_counted, distance.panel).counts[distance.size];
            let claim = rewritten(&claim, &distance, &schedule, before.dents() - before.from_marks);
            let again = assess(&claim, &schedule, 0, None, &mut Silent).unwrap();
            let moved = again.totals.gross.minus(as_counted.totals.gross).unwrap();
            assert_eq!(moved, distance.gross, "seed {seed}: {distance:?}");
            compared += 1;
        }
    }
    assert!(compared > 100, "only {compared} were compared");
}

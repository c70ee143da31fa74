//! From cells to dents per band, and what becomes of marks.

use crate::builder::{
    SCHEDULE, cell, claim_with, counted, decimal, dents, entry, heading, hood, mark, mm, rate, roof,
    schedule, stated, written,
};
use crate::{assessed, paintless, panel, refused, try_assess};
use std::sync::Arc;
use stipple::assess::{ExclusionReason, MarkAssessment, Note, PanelState, Working, assess};
use stipple::claim::{Cause, Claim, Counted, Depth, MarkKind, Method, Paint, PanelCount, SizeHeading};
use stipple::problem::Severity;
use stipple::quantity::{Area, Rounding};
use stipple::schedule::{Limit, MarkRate, MixedRule, Price, Schedule, Scope};

fn with_entry(heading: Arc<SizeHeading>, dents: u32) -> PanelCount {
    let mut panel = counted(hood(), [Some(1), None, None]);
    panel.tally.push(entry(heading, Some(dents)));
    panel
}

#[test]
fn a_panel_without_number_and_mark_was_not_inspected() {
    let claim = claim_with(vec![counted(hood(), [None; 3]), dents(roof(), 0, 0, 0)]);
    let assessment = assessed(&claim, &schedule());
    assert_eq!(panel(&assessment, hood()).state, PanelState::NotInspected);
    assert_eq!(panel(&assessment, hood()).counts.len(), 3);
    assert_eq!(panel(&assessment, roof()).state, PanelState::NoDamage);
    assert_eq!(panel(&assessment, roof()).method, Method::NoRepair);
    assert!(assessment.totals.gross.is_zero());
}

#[test]
fn a_blank_beside_a_number_is_none_written_and_counted_in_a_note() {
    let claim = claim_with(vec![counted(hood(), [Some(3), None, None]), counted(roof(), [None; 3])]);
    let assessment = assessed(&claim, &schedule());
    let hood = panel(&assessment, hood());
    assert_eq!(hood.counts[1].count, Counted::NoneWritten);
    assert!(hood.counts[1].cells.is_empty());
    assert!(assessment.notes.contains(&Note::NoneWritten(2)));
}

#[test]
fn several_columns_inside_one_band_are_added_and_said() {
    let claim = claim_with(vec![with_entry(heading("3-8 mm", "3", Some("8")), 4)]);
    let assessment = assessed(&claim, &schedule());
    let small = &panel(&assessment, hood()).counts[0];
    assert_eq!((small.dents(), small.cells.len()), (5, 2));
    let said = assessment.notes.iter().filter(|note| matches!(note, Note::SizeTakenAs { .. })).count();
    assert_eq!(said, 1);
}

#[test]
fn edges_one_last_printed_digit_apart_are_one_edge() {
    let claim = claim_with(vec![with_entry(heading("11-20", "11", Some("20")), 4)]);
    assert_eq!(panel(&assessed(&claim, &schedule()), hood()).counts[1].dents(), 4);
}

#[test]
fn a_count_above_zero_in_a_size_that_fits_no_band_stops_the_claim() {
    let cases = [
        (heading("5-15 mm", "5", Some("15")), "size-straddles", Severity::Error),
        (heading("over 40 mm", "40", None), "size-beyond", Severity::Error),
        (Arc::new(SizeHeading { text: "walnut".into(), interval: None }), "size-unknown", Severity::Question),
    ];
    for (heading, code, severity) in cases {
        let claim = claim_with(vec![with_entry(heading.clone(), 1)]);
        assert_eq!(refused(&claim, &schedule()), [code]);
        let found = stipple::problem::find_code(code).unwrap();
        assert_eq!(found.severity, severity);
        let harmless = claim_with(vec![with_entry(heading, 0)]);
        assert_eq!(panel(&assessed(&harmless, &schedule()), hood()).dents, 1);
    }
}

#[test]
fn a_heading_that_fits_no_band_is_told_once_with_all_its_counts() {
    let walnut = Arc::new(SizeHeading { text: "walnut".into(), interval: None });
    let mut on_the_roof = dents(roof(), 1, 0, 0);
    on_the_roof.tally.push(entry(walnut.clone(), Some(3)));
    let claim = claim_with(vec![with_entry(walnut, 2), on_the_roof]);
    let told = try_assess(&claim, &schedule()).unwrap_err();
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!((told[0].code.id, told[0].also.len()), ("size-unknown", 2));
}

#[test]
fn a_heading_that_a_band_goes_by_is_that_band() {
    let mut schedule = schedule();
    schedule.sizes[2].goes_by.push("WALNUT".to_owned());
    let walnut = Arc::new(SizeHeading { text: "walnut".into(), interval: None });
    let claim = claim_with(vec![with_entry(walnut, 2)]);
    let assessment = assessed(&claim, &schedule);
    assert_eq!(panel(&assessment, hood()).counts[2].dents(), 2);
    assert!(!assessment.notes.iter().any(|note| matches!(note, Note::SizeTakenAs { .. })));
}

#[test]
fn dents_counted_in_a_frame_are_not_taken_for_those_of_the_whole_panel() {
    let mut framed = dents(hood(), 7, 0, 0);
    framed.frame = Some(written(Area::from_square_metres(decimal("0.09")).unwrap()));
    assert_eq!(refused(&claim_with(vec![framed.clone()]), &schedule()), ["frame-not-scaled"]);
    framed.tally.iter_mut().for_each(|entry| entry.count = Counted::Counted(0));
    assert_eq!(panel(&assessed(&claim_with(vec![framed]), &schedule()), hood()).dents, 0);
}

/// A hood of 1.4 m2 in a schedule that scales counts, and dents on it that were counted in a frame.
fn framed(frame: &str, small: u32, medium: u32) -> (Claim, Schedule) {
    let mut schedule = schedule();
    schedule.terms.scaled_counts = Some(stated(Rounding::HalfAway));
    let area = |text: &str| Area::from_square_metres(decimal(text)).unwrap();
    for terms in &mut schedule.panels {
        terms.area = Some(stated(area("1.4")));
    }
    let mut counted = dents(hood(), small, medium, 0);
    counted.frame = Some(written(area(frame)));
    (claim_with(vec![counted]), schedule)
}

#[test]
fn dents_counted_in_a_frame_are_scaled_and_say_between_what_they_lie() {
    let (claim, schedule) = framed("0.4", 4, 0);
    let assessment = assessed(&claim, &schedule);
    let hood = panel(&assessment, hood());
    // Four in 0.4 m2 of 1.4 m2 are 14. Source of the limits: tests/published/poisson_limits.csv, 4: 1.089865 and
    // 10.241589; times 3.5: 3.81 and 35.85.
    let how = "4 in 0.4 m\u{b2} of 1.4 m\u{b2}".to_owned();
    let expected = Counted::Estimated { low: 4, best: Some(14), high: Some(36), how };
    assert_eq!((&hood.counts[0].count, hood.dents), (&expected, 14));
    let range = assessment.range.clone().unwrap();
    // The bands 1-5, 6-15 and 16-40 of the schedule.
    let (low, high) = (range.low.unwrap(), range.high.unwrap());
    for (end, counted) in [(&low, 4), (&high, 36)] {
        let mut whole = claim_with(vec![dents(self::hood(), counted, 0, 0)]);
        whole.parties = claim.parties.clone();
        let whole = assessed(&whole, &schedule);
        assert_eq!(
            (end.gross, end.insurer_pays),
            (Some(whole.totals.gross), Some(whole.settled.insurer_pays))
        );
        assert_eq!(
            end.panels,
            [(self::hood(), panel(&whole, self::hood()).method, panel(&whole, self::hood()).amount())]
        );
    }
    assert!(low.gross.unwrap().minor() < assessment.totals.gross.minor());
    assert!(assessment.totals.gross.minor() < high.gross.unwrap().minor());
}

#[test]
fn marks_are_not_scaled_with_the_count_and_nothing_is_made_of_a_zero() {
    let (mut claim, schedule) = framed("0.7", 3, 0);
    claim.inspections[0].panels[0].marks.push(mark(MarkKind::Dent, Some("5")));
    let assessment = assessed(&claim, &schedule);
    let counts = &panel(&assessment, hood()).counts;
    assert_eq!((counts[0].dents(), counts[0].from_marks), (7, 1));
    assert_eq!(counts[1].count, Counted::Counted(0));
}

#[test]
fn a_frame_as_large_as_the_panel_is_no_estimate_and_a_larger_one_names_both_cells() {
    let (claim, schedule) = framed("1.4", 3, 2);
    let assessment = assessed(&claim, &schedule);
    assert_eq!(panel(&assessment, hood()).counts[0].count, Counted::Counted(3));
    assert_eq!(assessment.range, None);
    let (claim, schedule) = framed("1.6", 3, 2);
    let told = try_assess(&claim, &schedule).unwrap_err();
    assert_eq!((told[0].code.id, told[0].also.len()), ("frame-beyond-panel", 1));
}

#[test]
fn a_frame_on_a_panel_of_unknown_area_and_dents_beyond_counting_are_not_scaled() {
    let (claim, mut schedule) = framed("0.7", 3, 2);
    schedule.panels.iter_mut().for_each(|terms| terms.area = None);
    assert_eq!(refused(&claim, &schedule), ["frame-not-scaled"]);
    let (claim, mut schedule) = framed("0.000001", 2000, 0);
    let large = Area::from_square_metres(decimal("100")).unwrap();
    schedule.panels.iter_mut().for_each(|terms| terms.area = Some(stated(large)));
    assert_eq!(refused(&claim, &schedule), ["amount-too-large"]);
}

#[test]
fn an_estimate_is_rated_at_its_best_number_and_stays_an_estimate() {
    let mut panel_count = dents(hood(), 0, 7, 0);
    let estimate =
        |low, best, high: Option<u32>| Counted::Estimated { low, best, high, how: format!("{low}+") };
    panel_count.tally[0].count = estimate(2, Some(4), None);
    let mut more = entry(heading("0-10 mm", "0", Some("10")), Some(1));
    more.count = Counted::Counted(1);
    panel_count.tally.push(more);
    let claim = claim_with(vec![panel_count.clone()]);
    let assessment = assessed(&claim, &schedule());
    let small = &panel(&assessment, hood()).counts[0];
    let expected = Counted::Estimated { low: 3, best: Some(5), high: None, how: "2+ + 1".into() };
    assert_eq!((&small.count, small.dents()), (&expected, 5));
    panel_count.tally[0].count = estimate(100, None, None);
    assert_eq!(refused(&claim_with(vec![panel_count.clone()]), &schedule()), ["count-not-known"]);
    panel_count.tally[0].count = Counted::Open;
    assert_eq!(refused(&claim_with(vec![panel_count]), &schedule()), ["count-not-known"]);
}

#[test]
fn dents_measured_one_by_one_are_counted_in_the_band_of_their_length() {
    let mut panel_count = dents(hood(), 3, 0, 0);
    panel_count.marks = vec![
        mark(MarkKind::Dent, Some("10")),
        mark(MarkKind::Dent, Some("10.1")),
        mark(MarkKind::OversizeDent, Some("40")),
    ];
    let assessment = assessed(&claim_with(vec![panel_count]), &schedule());
    let hood = panel(&assessment, hood());
    assert_eq!(
        hood.counts.iter().map(|c| (c.dents(), c.from_marks)).collect::<Vec<_>>(),
        [(4, 1), (1, 1), (1, 1)]
    );
    assert_eq!(hood.marks[2], MarkAssessment::Counted(2));
    assert!(assessment.notes.contains(&Note::NotOversize(hood.panel, 2)));
}

#[test]
fn a_mark_that_is_rated_by_its_length_must_have_one() {
    for kind in
        [MarkKind::Dent, MarkKind::OversizeDent, MarkKind::Crease, MarkKind::Crown, MarkKind::BraceMark]
    {
        let mut panel_count = dents(hood(), 3, 0, 0);
        panel_count.marks = vec![mark(kind, None), mark(kind, Some("0"))];
        let codes = refused(&claim_with(vec![panel_count]), &schedule());
        assert_eq!(codes, ["mark-without-length", "mark-without-length"]);
    }
}

#[test]
fn what_is_not_this_events_damage_is_listed_and_priced_at_nothing() {
    let mut panel_count = dents(hood(), 0, 0, 0);
    let with = |kind, cause: Option<Cause>| {
        let mut made = mark(kind, None);
        made.cause = cause.map(written);
        made
    };
    panel_count.marks = vec![
        with(MarkKind::NotDamage, None),
        with(MarkKind::Crease, Some(Cause::NotDamage)),
        with(MarkKind::Crease, Some(Cause::OtherEvent)),
        with(MarkKind::BrokenPaint, Some(Cause::Earlier)),
    ];
    let assessment = assessed(&claim_with(vec![panel_count]), &schedule());
    let reasons: Vec<ExclusionReason> = assessment.excluded.iter().map(|excluded| excluded.reason).collect();
    let not_damage = ExclusionReason::NotDamage;
    let expected = [not_damage, not_damage, ExclusionReason::OtherEvent, ExclusionReason::Earlier];
    assert_eq!(reasons, expected);
    assert_eq!(panel(&assessment, hood()).state, PanelState::NoDamage);
    assert!(assessment.totals.gross.is_zero());
}

#[test]
fn broken_paint_without_a_dent_is_damage_without_a_paintless_amount() {
    let mut by_mark = dents(hood(), 0, 0, 0);
    by_mark.marks = vec![mark(MarkKind::BrokenPaint, None)];
    let mut by_panel = dents(roof(), 0, 0, 0);
    by_panel.paint = Some(written(Paint::Broken));
    let mut schedule = schedule();
    schedule.panels[0].floor = Some(stated(crate::builder::money("50")));
    let assessment = assessed(&claim_with(vec![by_mark, by_panel]), &schedule);
    for id in [hood(), roof()] {
        assert_eq!(panel(&assessment, id).state, PanelState::Assessed);
        assert_eq!(paintless(&assessment, id), "0.00", "a floor tops up work, not the absence of it");
    }
}

fn oversize_rate(scope: Scope, over: &str, up_to: Option<&str>, price: Price) -> MarkRate {
    let (over, up_to) = (mm(over), up_to.map(mm));
    MarkRate { mark: MarkKind::OversizeDent, scope, over, up_to, price, place: cell(SCHEDULE) }
}

fn marked(kind: MarkKind, length: &str) -> PanelCount {
    let mut panel_count = dents(hood(), 3, 0, 0);
    panel_count.marks = vec![mark(kind, Some(length))];
    panel_count
}

fn with_mark_rates() -> Schedule {
    let mut schedule = schedule();
    schedule.mark_rates = vec![
        oversize_rate(Scope::Any, "40", Some("60"), Price::Amount(rate("35"))),
        oversize_rate(Scope::Kind(hood().kind), "40", Some("60"), Price::Amount(rate("38.50"))),
        oversize_rate(Scope::Any, "60", None, Price::Time(crate::builder::hours("1.5"))),
    ];
    schedule
}

#[test]
fn a_dent_beyond_the_largest_band_is_rated_by_its_length_at_the_most_particular_row() {
    let schedule = with_mark_rates();
    for (kind, length, amount) in [
        (MarkKind::Dent, "40.5", "78.50"),
        (MarkKind::OversizeDent, "60", "78.50"),
        (MarkKind::OversizeDent, "60.1", "130.00"),
    ] {
        let assessment = assessed(&claim_with(vec![marked(kind, length)]), &schedule);
        assert_eq!(paintless(&assessment, hood()), amount, "{kind} {length}");
        assert_eq!(panel(&assessment, hood()).marks, [MarkAssessment::Rated]);
    }
    let assessment = assessed(&claim_with(vec![marked(MarkKind::Crease, "50")]), &schedule);
    assert_eq!(paintless(&assessment, hood()), "NoMarkRate(0)");
    assert_eq!(panel(&assessment, hood()).marks, [MarkAssessment::NotPriced]);
}

#[test]
fn a_limit_on_marks_measures_the_longest_paid_one_of_its_kind() {
    use stipple::schedule::Measure;
    let mut schedule = with_mark_rates();
    let limit = |kind, over: &str| -> Limit {
        crate::builder::limit(Measure::MarkLength(kind, mm(over)), Method::Replace)
    };
    schedule.limits = vec![limit(MarkKind::OversizeDent, "50"), limit(MarkKind::Crease, "10")];
    let mut panel_count = marked(MarkKind::Dent, "50");
    let mut earlier = mark(MarkKind::OversizeDent, Some("90"));
    earlier.cause = Some(written(Cause::Earlier));
    panel_count.marks.push(earlier);
    let method = |panel_count: &PanelCount| {
        panel(&assessed(&claim_with(vec![panel_count.clone()]), &schedule), hood()).method
    };
    assert_eq!(method(&panel_count), Method::Paintless, "exactly at the limit is not beyond it");
    panel_count.marks.push(mark(MarkKind::Dent, Some("50.1")));
    assert_eq!(method(&panel_count), Method::Replace);
}

#[test]
fn depth_and_access_of_a_paid_mark_count_for_limits() {
    use stipple::schedule::Measure;
    let mut schedule = with_mark_rates();
    schedule.limits = vec![crate::builder::limit(Measure::Depth(Depth::Sharp), Method::Conventional)];
    let mut panel_count = marked(MarkKind::Dent, "50");
    panel_count.depth = Some(written(Depth::Normal));
    panel_count.marks[0].depth = Some(written(Depth::Sharp));
    let assessment = assessed(&claim_with(vec![panel_count]), &schedule);
    assert_eq!(panel(&assessment, hood()).method, Method::Conventional);
}

#[test]
fn the_same_counts_written_in_another_order_are_the_same_assessment() {
    let forward = claim_with(vec![dents(hood(), 3, 2, 1), dents(roof(), 9, 1, 0)]);
    let mut backward = forward.clone();
    backward.inspections[0].panels.reverse();
    for panel in &mut backward.inspections[0].panels {
        panel.tally.reverse();
    }
    let totals = |claim| assessed(claim, &schedule()).totals.gross;
    assert_eq!(totals(&forward), totals(&backward));
}

#[test]
fn dents_beyond_all_counting_are_a_problem_and_no_overflow() {
    let claim = claim_with(vec![dents(hood(), u32::MAX, 1, 0)]);
    assert_eq!(refused(&claim, &schedule()), ["amount-too-large"]);
}

#[test]
fn weights_that_are_missing_are_named_before_anything_is_rated() {
    let mut schedule = schedule();
    schedule.terms.mixed = stated(MixedRule::Equivalents(0));
    schedule.sizes[0].weight = Some(decimal("1"));
    let claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    let problems = assess(&claim, &schedule, 0, None, &mut Working::default()).unwrap_err();
    let places: Vec<_> = problems.iter().map(|problem| (problem.code.id, problem.place)).collect();
    assert_eq!(places, [1, 2].map(|size: usize| ("rate-missing", Some(schedule.sizes[size].place))));
}

#[test]
fn panels_that_the_body_type_usually_has_and_no_sheet_mentions_are_noted() {
    use stipple::claim::{BodyType, PanelKind, Role, Side};
    let mut claim =
        claim_with(vec![dents(hood(), 1, 0, 0), dents(crate::builder::left(PanelKind::Fender), 0, 0, 0)]);
    let mut second = crate::builder::inspection(Some(Role::Second));
    second.panels.push(dents(crate::builder::right(PanelKind::Fender), 0, 0, 0));
    claim.inspections.push(second);
    let missing = |claim: &Claim| {
        assessed(claim, &schedule()).notes.into_iter().find_map(|note| match note {
            Note::PanelsNotListed(panels) => Some(panels),
            _ => None,
        })
    };
    assert_eq!(missing(&claim), None, "without a body type nothing is missing");
    claim.vehicle.body = Some(written(BodyType::Convertible));
    let both = |kind| [Side::Left, Side::Right].map(|side| stipple::claim::PanelId::new(kind, Some(side)));
    let expected = [both(PanelKind::FrontDoor), both(PanelKind::QuarterPanel)].concat();
    assert_eq!(missing(&claim), Some(expected));
}

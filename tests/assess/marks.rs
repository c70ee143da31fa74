//! Several marks on one panel, each rated by its own length.

use crate::builder::*;
use crate::{assessed, line_amounts, paintless, panel, way};
use stipple::assess::{LineKind, Unpriced};
use stipple::claim::{Claim, MarkKind, Method};
use stipple::quantity::Percent;
use stipple::schedule::{AppliesTo, FactorTest, LabourClass, MarkRate, Price, Schedule, Scope, SeveralMarks};

/// A crease is 100.05, a crown 0.5 h (30.00), a brace mark 100.05; a factor adds a tenth of the marks.
fn with_rule(rule: Option<SeveralMarks>) -> Schedule {
    let mut schedule = schedule();
    schedule.terms.several_marks = rule.map(stated);
    for (mark, price) in [
        (MarkKind::Crease, Price::Amount(rate("100.05"))),
        (MarkKind::Crown, Price::Time(hours("0.5"))),
        (MarkKind::BraceMark, Price::Amount(rate("100.05"))),
    ] {
        let (over, place) = (mm("0"), cell(SCHEDULE));
        schedule.mark_rates.push(MarkRate { mark, scope: Scope::Any, over, up_to: None, price, place });
    }
    let mut tenth = factor("on marks", FactorTest::Always, of_base("10"));
    tenth.applies_to = AppliesTo::Marks;
    schedule.factors = vec![tenth];
    schedule
}

/// Five small dents (40.00), a crown, and two marks that cost the same.
fn marked(kinds: &[MarkKind]) -> Claim {
    let mut hood = dents(hood(), 5, 0, 0);
    hood.marks = kinds.iter().map(|kind| mark(*kind, Some("80"))).collect();
    claim_with(vec![hood])
}

#[test]
fn several_marks_are_added_or_count_a_share_beside_the_dearest_by_the_schedule_s_rule() {
    let claim = marked(&[MarkKind::Crown, MarkKind::Crease, MarkKind::BraceMark]);
    let amounts = |rule| {
        let assessment = assessed(&claim, &with_rule(rule));
        line_amounts(panel(&assessment, hood()), Method::Paintless)
    };
    // Dents, crown, crease, brace mark, a tenth of the marks.
    assert_eq!(amounts(None), ["40.00", "30.00", "100.05", "100.05", "23.01"]);
    assert_eq!(amounts(Some(SeveralMarks::Add)), amounts(None));
    let share = |share| Some(SeveralMarks::Further(percent(share)));
    // Of two that cost the same the first counts in full: 30.00, and half of 100.05 away from zero.
    assert_eq!(amounts(share("50")), ["40.00", "15.00", "100.05", "50.03", "16.51"]);
    assert_eq!(amounts(share("0")), ["40.00", "0.00", "100.05", "0.00", "10.01"]);
    assert_eq!(amounts(share("100")), amounts(None));
}

#[test]
fn one_mark_is_no_several_marks() {
    let further = Some(SeveralMarks::Further(Percent::default()));
    let assessment = assessed(&marked(&[MarkKind::Crown]), &with_rule(further));
    assert_eq!(line_amounts(panel(&assessment, hood()), Method::Paintless), ["40.00", "30.00", "3.00"]);
}

#[test]
fn a_mark_that_counts_a_share_says_so_and_states_no_time_that_is_not_charged() {
    let half = percent("50");
    let assessment = assessed(
        &marked(&[MarkKind::Crown, MarkKind::Crease]),
        &with_rule(Some(SeveralMarks::Further(half))),
    );
    let lines = &way(panel(&assessment, hood()), Method::Paintless).lines;
    assert_eq!(lines[1].kind, LineKind::FurtherMark { mark: 0, share: half });
    assert_eq!((lines[1].hours, lines[2].kind.clone()), (None, LineKind::Mark(1)));
    let alone = assessed(&marked(&[MarkKind::Crown]), &with_rule(None));
    let alone = &way(panel(&alone, hood()), Method::Paintless).lines[1];
    assert_eq!(alone.hours, Some((LabourClass::Paintless, hours("0.5"))));
}

#[test]
fn beside_a_mark_without_a_rate_nothing_is_taken_off() {
    let mut schedule = with_rule(Some(SeveralMarks::Further(Percent::default())));
    schedule.mark_rates.retain(|rate| rate.mark != MarkKind::Crown);
    let claim = marked(&[MarkKind::Crown, MarkKind::Crease, MarkKind::BraceMark]);
    let assessment = assessed(&claim, &schedule);
    assert_eq!(paintless(&assessment, hood()), format!("{:?}", Unpriced::NoMarkRate(0)));
    assert_eq!(line_amounts(panel(&assessment, hood()), Method::Paintless), ["40.00", "100.05", "100.05"]);
}

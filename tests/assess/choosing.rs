//! Which schedule, which date, which inspection.

use crate::builder::{
    amount, claim, claim_with, counted, date, dents, hood, inspection, item, left, mark, roof, schedule,
    stated, written,
};
use crate::{assessed, paintless, panel, refused};
use stipple::assess::{DateOrigin, JobKind, Note, Silent, assess, choose_schedule};
use stipple::claim::{Access, Claim, MarkKind, Material, Paint, PanelCount, PanelKind, Role};
use stipple::problem::Severity;
use stipple::schedule::{Fit, Schedule};

fn for_whom(fits: &[Fit]) -> Schedule {
    let mut made = schedule();
    made.terms.fits = fits.iter().cloned().map(stated).collect();
    made
}

fn insurer(name: &str) -> Fit {
    Fit::Insurer(name.to_owned())
}

#[test]
fn the_schedule_that_names_the_insurer_is_taken_before_one_for_anybody() {
    let schedules = [for_whom(&[Fit::Anyone]), for_whom(&[Fit::NoInsurer, insurer("invented  MUTUAL")])];
    assert_eq!(choose_schedule(&claim(), &schedules, None), Ok(1));
    let mut stranger = claim();
    stranger.parties.insurer = Some(written("Somebody Else".to_owned()));
    assert_eq!(choose_schedule(&stranger, &schedules, None), Ok(0));
    stranger.parties.insurer = None;
    assert_eq!(choose_schedule(&stranger, &schedules, None), Ok(1));
}

#[test]
fn a_schedule_holds_from_its_first_to_its_last_day() {
    let mut schedules = [schedule(), schedule()];
    schedules[0].terms.valid_to = Some(stated(date("2026-06-14")));
    schedules[1].terms.valid_from = stated(date("2026-06-15"));
    let mut dated = claim();
    assert_eq!(choose_schedule(&dated, &schedules, None), Ok(0));
    dated.event.date = Some(written(date("2026-06-15")));
    assert_eq!(choose_schedule(&dated, &schedules, None), Ok(1));
    dated.event.date = Some(written(date("2025-12-31")));
    let problem = choose_schedule(&dated, &schedules, None).unwrap_err();
    assert_eq!((problem.code.id, problem.severity()), ("no-schedule-holds", Severity::Error));
    assert!(problem.message.contains("Invented Mutual") && problem.message.contains("2025-12-31"));
    assert!(problem.help.unwrap().contains("Invented terms, edition 1"));
}

#[test]
fn two_schedules_that_fit_alike_stop_the_claim_and_are_both_named() {
    let schedules = [schedule(), schedule()];
    let problem = choose_schedule(&claim(), &schedules, None).unwrap_err();
    assert_eq!(problem.code.id, "two-schedules");
    assert_eq!(problem.place, Some(schedules[0].terms.name.place));
    assert_eq!(problem.also, [schedules[1].terms.name.place]);
    assert_eq!(problem.claim.as_deref(), Some("K-1"));
}

#[test]
fn the_date_is_that_of_loss_else_of_inspection_else_of_the_run() {
    let schedule = schedule();
    let mut undated = claim_with(vec![dents(hood(), 1, 0, 0)]);
    let dated = |claim: &Claim, run| assess(claim, &schedule, 0, run, &mut Silent).unwrap().dated;
    assert_eq!(dated(&undated, None), (date("2026-06-14"), DateOrigin::Loss));
    undated.event.date = None;
    undated.inspections[0].date = Some(written(date("2026-06-20")));
    assert_eq!(dated(&undated, Some(date("2026-07-01"))), (date("2026-06-20"), DateOrigin::Inspection));
    undated.inspections[0].date = None;
    assert_eq!(dated(&undated, Some(date("2026-07-01"))), (date("2026-07-01"), DateOrigin::Run));
    assert_eq!(refused(&undated, &schedule), ["no-date"]);
    assert_eq!(choose_schedule(&undated, &[], None).unwrap_err().code.id, "no-date");
}

#[test]
fn seconds_are_named_and_never_added() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    let mut second = inspection(Some(Role::Second));
    second.panels = vec![dents(hood(), 9, 9, 9), dents(roof(), 9, 9, 9)];
    claim.inspections.insert(0, second);
    let assessment = assessed(&claim, &schedule());
    assert_eq!(assessment.inspection, Some(1));
    assert_eq!(assessment.panels.len(), 1);
    assert_eq!(paintless(&assessment, hood()), "40.00");
    assert!(assessment.notes.contains(&Note::SecondInspection(0)));
}

#[test]
fn a_single_second_is_assessed_where_there_is_no_own() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    claim.inspections[0].role = Some(written(Role::Second));
    assert_eq!(assessed(&claim, &schedule()).inspection, Some(0));
}

#[test]
fn two_candidates_are_an_error_that_says_how_to_choose() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    claim.inspections.push(claim.inspections[0].clone());
    assert_eq!(refused(&claim, &schedule()), ["two-inspections"]);
    claim.event.date = None;
    assert_eq!(refused(&claim, &schedule()), ["two-inspections"]);
    let problem = choose_schedule(&claim, &[schedule()], None).unwrap_err();
    assert!(problem.help.unwrap().contains("role"));
}

#[test]
fn panels_of_agreed_and_supplementary_inspections_replace_the_same_panels() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0), dents(roof(), 3, 0, 0)]);
    let mut supplement = inspection(Some(Role::Supplement));
    supplement.panels = vec![
        dents(hood(), 7, 0, 0),
        dents(left(PanelKind::FrontDoor), 1, 0, 0),
        PanelCount::new(roof(), dents(roof(), 0, 0, 0).place),
    ];
    let mut agreed = inspection(Some(Role::Agreed));
    agreed.panels = vec![dents(hood(), 20, 0, 0)];
    claim.inspections.extend([supplement, agreed]);
    let assessment = assessed(&claim, &schedule());
    assert_eq!(assessment.overlays, [1, 2]);
    assert!(assessment.problems.is_empty(), "{:?}", assessment.problems);
    assert_eq!((panel(&assessment, hood()).inspection, panel(&assessment, hood()).dents), (2, 20));
    assert_eq!(panel(&assessment, left(PanelKind::FrontDoor)).inspection, 1);
    assert_eq!(panel(&assessment, roof()).dents, 3, "a panel without a number replaces nothing");
}

#[test]
fn a_panel_that_leaves_out_what_it_replaces_is_warned_about() {
    let mut own = dents(roof(), 3, 2, 0);
    own.material = Some(written(Material::Aluminium));
    own.access = Some(written(Access::BehindBrace));
    own.paint = Some(written(Paint::Intact));
    own.marks = vec![mark(MarkKind::Crease, Some("60"))];
    let own_place = own.place;
    let mut claim = claim_with(vec![own]);
    let mut agreed = inspection(Some(Role::Agreed));
    agreed.panels = vec![counted(roof(), [Some(4), None, None])];
    let place = agreed.panels[0].place;
    claim.inspections.push(agreed);
    let problems = assessed(&claim, &schedule()).problems;
    let [problem] = &problems[..] else { panic!("{problems:?}") };
    assert_eq!((problem.code.id, problem.place), ("overlay-leaves-out", Some(place)));
    assert_eq!(problem.also, [own_place]);
    let message = "the agreed roof replaces an earlier one and leaves out its material, access, paint, marks, dents of \
                   10-20 mm";
    assert_eq!(problem.message, message);
}

#[test]
fn an_inspection_of_which_no_panel_stands_replaces_nothing_and_is_named() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    for number in [7, 9] {
        let mut agreed = inspection(Some(Role::Agreed));
        agreed.panels = vec![dents(hood(), number, 0, 0)];
        claim.inspections.push(agreed);
    }
    let assessment = assessed(&claim, &schedule());
    assert_eq!(assessment.overlays, [2]);
    assert!(assessment.notes.contains(&Note::SecondInspection(1)));
}

#[test]
fn nothing_can_be_said_of_a_claim_without_any_count() {
    let mut claim = claim();
    assert_eq!(refused(&claim, &schedule()), ["no-inspection"]);
    claim.items.push(item("windscreen", Some("400"), None));
    assert_eq!(assessed(&claim, &schedule()).totals.net.to_string(), "400.00");
    claim.inspections.clear();
    assert_eq!(refused(&claim, &schedule()), ["no-inspection"]);
}

#[test]
fn a_job_without_an_insurer_is_a_quotation_and_the_owner_bears_all_of_it() {
    let mut claim = claim_with(vec![dents(hood(), 3, 0, 0)]);
    claim.parties.insurer = None;
    claim.parties.excess = Some(amount("20"));
    let assessment = assessed(&claim, &schedule());
    assert_eq!(assessment.kind, JobKind::Quotation);
    assert_eq!(assessment.settled.owner_bears, assessment.totals.gross);
    assert!(assessment.settled.insurer_pays.is_zero() && assessment.settled.excess.is_zero());
}

use crate::sample::{assessment, euros, intake, stopped};
use std::convert::Infallible;
use stipple::assess::Outcome;
use stipple::batch::{Done, Sink, Stopped, Totals, run_with};
use stipple::claim::{Intake, Method};
use stipple::problem::Severity;
use stipple::quantity::{Currency, QuantityFault};

/// Keeps what it accepts, and refuses from the claim of a number on.
struct Keep {
    taken: Vec<(usize, String)>,
    totals: Totals,
    refuses_at: usize,
}

impl Sink for Keep {
    type Piece = (usize, String, Totals);
    type Error = usize;

    fn draw(&self, done: &Done<'_>) -> Self::Piece {
        (done.number, done.intake.claim.key.text.clone(), Totals::of(done))
    }

    fn accept(&mut self, (number, key, totals): Self::Piece) -> Result<(), usize> {
        if number >= self.refuses_at {
            return Err(number);
        }
        self.taken.push((number, key));
        self.totals.add(&totals);
        Ok(())
    }
}

fn batch(claims: usize) -> Vec<Intake> {
    (0..claims)
        .map(|i| if i % 5 == 4 { stopped(&format!("C-{i}")) } else { intake(&format!("C-{i}")) })
        .collect()
}

fn taken(
    intakes: &[Intake],
    threads: usize,
    refuses_at: usize,
) -> (Keep, Result<(), Stopped<Infallible, usize>>) {
    let mut keep = Keep { taken: Vec::new(), totals: Totals::default(), refuses_at };
    let assess = |intake: &Intake| {
        if intake.is_stopped() { Err(intake.problems.clone()) } else { Ok(assessment(intake)) }
    };
    let ended = run_with(intakes, Some(threads), assess, &mut keep);
    (keep, ended)
}

#[test]
fn claims_are_accepted_in_input_order_whatever_the_number_of_threads() {
    let intakes = batch(300);
    let (one, ended) = taken(&intakes, 1, usize::MAX);
    let (four, _) = taken(&intakes, 4, usize::MAX);
    assert_eq!(ended, Ok(()));
    assert_eq!(one.taken.len(), 300);
    assert!(one.taken.iter().enumerate().all(|(i, (number, key))| i == *number && *key == format!("C-{i}")));
    assert_eq!(one.taken, four.taken);
    assert_eq!(one.totals, four.totals);
}

#[test]
fn a_run_stops_at_the_first_claim_that_cannot_be_accepted() {
    let (keep, ended) = taken(&batch(300), 4, 7);
    assert_eq!(ended, Err(Stopped::Sink(7)));
    assert_eq!(keep.taken.len(), 7);
}

#[test]
fn a_stopped_claim_is_counted_and_takes_nothing_from_the_others() {
    let (keep, _) = taken(&batch(10), 2, usize::MAX);
    let totals = keep.totals;
    assert_eq!((totals.claims, totals.not_priced), (10, 2));
    assert_eq!(totals.outcomes.get(&Outcome::NeedsAPerson), Some(&8));
    assert_eq!(totals.panels.get(&Method::Refer), Some(&8));
    assert_eq!((totals.panels_not_inspected, totals.open_panels, totals.dents), (8, 8, 8 * 180));
    assert_eq!(totals.problems_of(Severity::Error), 2, "each problem of a stopped claim is counted once");
    assert!(totals.is_incomplete());
    let money = &totals.money[&Currency::from_code("EUR").unwrap()];
    assert_eq!(money.net, Ok(euros(96_000)));
    assert_eq!(money.insurer_pays, Ok(euros(8 * 9_280)));
    assert_eq!(money.owner_bears, Ok(euros(8 * 5_000)));
}

#[test]
fn currencies_are_kept_apart() {
    let intakes = batch(1);
    let in_yen = |intake: &Intake| {
        let mut assessed = assessment(intake);
        assessed.currency = Currency::from_code("JPY").unwrap();
        Ok(assessed)
    };
    let mut keep = Keep { taken: Vec::new(), totals: Totals::default(), refuses_at: 9 };
    run_with(&*intakes, Some(1), in_yen, &mut keep).unwrap();
    run_with(&*intakes, Some(1), |intake| Ok(assessment(intake)), &mut keep).unwrap();
    assert_eq!(keep.totals.money.len(), 2);
    assert!(keep.totals.money.values().all(|money| money.claims == 1));
}

#[test]
fn a_sum_that_does_not_fit_is_a_fault_and_no_number() {
    let intakes = batch(2);
    let huge = |intake: &Intake| {
        let mut assessed = assessment(intake);
        assessed.totals.net = euros(i64::MAX);
        Ok(assessed)
    };
    let mut keep = Keep { taken: Vec::new(), totals: Totals::default(), refuses_at: 9 };
    run_with(&*intakes, Some(1), huge, &mut keep).unwrap();
    let money = keep.totals.money.values().next().unwrap();
    assert_eq!(money.net, Err(QuantityFault::Overflow));
    assert_eq!(money.tax, Ok(euros(2 * 2_280)));
}

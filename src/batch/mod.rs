//! A whole run: every claim assessed on all cores, handed on in input order. One bad claim never stops the others.

mod moved;
mod recounts;
mod totals;

pub use moved::{ByKind, Dates, Difference, Moved, MovedTotals, Part, Shift, Way, moved};
pub use recounts::{Recount, Worth, recounts, worth_counting};
pub use totals::{CurrencyTotals, Totals};

use crate::assess::{self, Assessment, Silent, Working};
use crate::claim::Intake;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::Schedule;
use rayon::prelude::*;

/// Claims that are drawn before the first of them is accepted: memory holds so many pieces and no more.
const CHUNK: usize = 128;

/// What became of one claim.
#[derive(Debug)]
pub struct Done<'a> {
    /// Its number in the batch, from 0.
    pub number: usize,
    /// What was written, with the problems of reading it.
    pub intake: &'a Intake,
    /// Its assessment, or why there is none (problems of reading and assessing that stop it).
    pub result: Result<Assessment, Vec<Problem>>,
}

impl Done<'_> {
    /// Every problem of the claim once: those of reading it, then those of assessing it.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let assessing: &[Problem] = match &self.result {
            Ok(assessment) => &assessment.problems,
            // A claim that reading stopped was not assessed: its result repeats problems of its intake.
            Err(_) if self.intake.is_stopped() => &[],
            Err(problems) => problems,
        };
        self.intake.problems.iter().chain(assessing)
    }
}

/// Where a run's claims go. Drawing happens on all cores, accepting on one, in input order.
pub trait Sink: Sync {
    /// What is drawn of one claim.
    type Piece: Send;
    /// Why nothing more can be accepted.
    type Error: Send;

    /// Draws one claim. Runs on any core.
    fn draw(&self, done: &Done<'_>) -> Self::Piece;

    /// Takes the pieces, one after the other in input order.
    fn accept(&mut self, piece: Self::Piece) -> Result<(), Self::Error>;
}

/// How a run is done.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// The date for claims that carry none.
    pub run_date: Option<Date>,
    /// Threads to use; none is one per core.
    pub threads: Option<usize>,
    /// Whether workings are kept.
    pub working: bool,
}

/// Assesses every claim and hands it to the sink in input order; stops at the first one it cannot accept.
pub fn run<S: Sink>(
    intakes: &[Intake],
    schedules: &[Schedule],
    options: Options,
    sink: &mut S,
) -> Result<(), S::Error> {
    run_with(intakes, options.threads, |intake| assess_one(intake, schedules, options), sink)
}

/// The course of a run, whatever it is that assesses its claims.
pub fn run_with<S: Sink>(
    intakes: &[Intake],
    threads: Option<usize>,
    assess: impl Fn(&Intake) -> Result<Assessment, Vec<Problem>> + Sync,
    sink: &mut S,
) -> Result<(), S::Error> {
    let draw = |sink: &S, number: usize| {
        let intake = &intakes[number];
        sink.draw(&Done { number, intake, result: assess(intake) })
    };
    // Where the system gives no threads, the same work is done on this one.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads.unwrap_or(0)).build().ok();
    for start in (0..intakes.len()).step_by(CHUNK) {
        let numbers = start..intakes.len().min(start + CHUNK);
        let pieces: Vec<S::Piece> = match &pool {
            Some(pool) => {
                let sink = &*sink;
                pool.install(|| numbers.into_par_iter().map(|number| draw(sink, number)).collect())
            }
            None => numbers.map(|number| draw(sink, number)).collect(),
        };
        for piece in pieces {
            sink.accept(piece)?;
        }
    }
    Ok(())
}

/// Assesses one claim as a run does: by the schedule that holds for it, every problem under the claim's key.
pub fn assess_one(
    intake: &Intake,
    schedules: &[Schedule],
    options: Options,
) -> Result<Assessment, Vec<Problem>> {
    if intake.is_stopped() {
        return Err(intake.problems.iter().filter(|p| p.severity().stops_the_claim()).cloned().collect());
    }
    let claim = &intake.claim;
    let named = |mut problem: Problem| {
        problem.claim.get_or_insert_with(|| claim.key.text.clone());
        problem
    };
    let assessed = assess::choose_schedule(claim, schedules, options.run_date)
        .map_err(|problem| vec![problem])
        .and_then(|index| {
            let schedule = &schedules[index];
            if options.working {
                assess::assess(claim, schedule, index, options.run_date, &mut Working::default())
            } else {
                assess::assess(claim, schedule, index, options.run_date, &mut Silent)
            }
        });
    match assessed {
        Ok(mut assessment) => {
            assessment.problems = assessment.problems.into_iter().map(named).collect();
            Ok(assessment)
        }
        Err(problems) => Err(problems.into_iter().map(named).collect()),
    }
}

//! A whole run: every claim assessed on all cores, handed on in input order. One bad claim never stops the others.

mod assessed;
mod moved;
mod ready;
mod recounts;
mod repeats;
mod totals;

pub use assessed::assessed;
pub use moved::{ByKind, Dates, Difference, Moved, MovedTotals, Part, Shift, Way, moved};
pub use ready::Readiness;
pub use recounts::{Recount, Worth, recounts, worth_counting};
pub use repeats::{Carried, EarlierCars, Repeats, names_of_car};
pub use totals::{CurrencyTotals, Totals};

use crate::assess::{self, Assessment, Silent, Working};
use crate::claim::Intake;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::Schedule;
use rayon::prelude::*;
use std::borrow::Cow;
use std::convert::Infallible;
use std::ops::Range;

/// Groups of claims that are drawn before the first of them is accepted, for each thread: memory holds so many pieces
/// and no more.
const GROUPS: usize = 2;
/// Claims of a group, where they are held anyhow.
const TOGETHER: usize = 32;

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

    /// Sees claims that are drawn next, all of them in input order.
    fn expect<'i>(&mut self, _claims: impl Iterator<Item = &'i Intake>) {}

    /// Draws one claim. Runs on any core.
    fn draw(&self, done: &Done<'_>) -> Self::Piece;

    /// Takes the pieces, one after the other in input order.
    fn accept(&mut self, piece: Self::Piece) -> Result<(), Self::Error>;
}

/// Where a run's claims come from: groups of them, in input order, each of which any core may ask for.
pub trait Source: Sync {
    /// Why a group cannot be had.
    type Error: Send;

    /// How many groups there are.
    fn groups(&self) -> usize;

    /// The claims of a group.
    fn group(&self, number: usize) -> Result<Vec<Cow<'_, Intake>>, Self::Error>;
}

impl Source for [Intake] {
    type Error = Infallible;

    fn groups(&self) -> usize {
        self.len().div_ceil(TOGETHER)
    }

    fn group(&self, number: usize) -> Result<Vec<Cow<'_, Intake>>, Infallible> {
        let start = number * TOGETHER;
        Ok(self[start..self.len().min(start + TOGETHER)].iter().map(Cow::Borrowed).collect())
    }
}

/// Why a run ended early.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stopped<Source, Sink> {
    /// Its claims could not be had.
    Source(Source),
    /// They could not be accepted.
    Sink(Sink),
}

/// Does something with so many threads, or one per core.
pub fn on_threads<T: Send>(threads: Option<usize>, what: impl FnOnce() -> T + Send) -> T {
    match rayon::ThreadPoolBuilder::new().num_threads(threads.unwrap_or(0)).build() {
        Ok(pool) => pool.install(what),
        Err(_) => what(),
    }
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
pub fn run<I: Source + ?Sized, S: Sink>(
    claims: &I,
    schedules: &[Schedule],
    options: Options,
    sink: &mut S,
) -> Result<(), Stopped<I::Error, S::Error>> {
    run_with(claims, options.threads, |intake| assess_one(intake, schedules, options), sink)
}

/// The course of a run, whatever it is that assesses its claims.
pub fn run_with<I: Source + ?Sized, S: Sink>(
    claims: &I,
    threads: Option<usize>,
    assess: impl Fn(&Intake) -> Result<Assessment, Vec<Problem>> + Sync,
    sink: &mut S,
) -> Result<(), Stopped<I::Error, S::Error>> {
    // Where the system gives no threads, the same work is done on this one.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads.unwrap_or(0)).build().ok();
    let at_once = pool.as_ref().map_or(1, rayon::ThreadPool::current_num_threads) * GROUPS;
    let mut number = 0;
    for start in (0..claims.groups()).step_by(at_once) {
        let groups = start..claims.groups().min(start + at_once);
        let loaded = on_all(pool.as_ref(), groups, |group| claims.group(group));
        let mut numbered = Vec::with_capacity(loaded.len());
        for group in loaded {
            let group = group.map_err(Stopped::Source)?;
            let first = number;
            number += group.len();
            sink.expect(group.iter().map(AsRef::as_ref));
            numbered.push((first, group));
        }
        let drawn = {
            let sink = &*sink;
            on_all(pool.as_ref(), 0..numbered.len(), |group| {
                let (first, intakes) = &numbered[group];
                let done = |(number, intake): (usize, &Cow<'_, Intake>)| {
                    sink.draw(&Done { number, intake, result: assess(intake) })
                };
                (*first..).zip(intakes).map(done).collect::<Vec<_>>()
            })
        };
        for piece in drawn.into_iter().flatten() {
            sink.accept(piece).map_err(Stopped::Sink)?;
        }
    }
    Ok(())
}

/// Does something for each of some numbers, on all cores; the results in order.
fn on_all<T: Send>(
    pool: Option<&rayon::ThreadPool>,
    numbers: Range<usize>,
    what: impl Fn(usize) -> T + Sync,
) -> Vec<T> {
    match pool {
        Some(pool) => pool.install(|| numbers.into_par_iter().map(&what).collect()),
        None => numbers.map(what).collect(),
    }
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

//! A whole run: every claim assessed on all cores, handed on in input order. One bad claim never stops the others.

use crate::assess::Assessment;
use crate::claim::Intake;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::schedule::Schedule;

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
    let _ = (intakes, schedules, options, sink);
    todo!()
}

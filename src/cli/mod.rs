//! The command line: one file per command, its arguments (whose comments are the help) and its run. Nothing else in the
//! crate prints, reads the clock or the environment.

mod aligned;
mod assess;
mod check;
mod compare;
mod comparison_screen;
mod completions;
mod earlier;
mod explain;
mod form;
mod heard;
mod links;
mod man;
mod moved_screen;
mod outcome;
mod plan;
mod plan_screen;
mod printing;
mod problem;
mod progress;
mod read_apart;
mod reception;
mod recount;
mod redact;
mod register;
mod sample;
pub mod schedule;
mod schedule_diff;
mod schedule_new;
mod screen;
mod terminal;
mod understood;
mod what_if;
mod wrap;

use crate::problem::{Problem, Sources};
use crate::report::json::ProblemView;
use crate::report::workbook::WRITE_PANIC;
use clap::{Parser, Subcommand};
pub use outcome::Ended;
use reception::Received;
use screen::Summary;
use std::process::ExitCode;

/// Assess hail and multi-dent damage from spreadsheets of dent counts.
///
/// Reads counts, vehicles and an agreed schedule from spreadsheets, rates and decides every panel, and writes claim-ready
/// documents and tables in which every amount can be followed to the cell it came from.
#[derive(Debug, Parser)]
#[command(version, arg_required_else_help = true, max_term_width = 100, after_help = EXIT_CODES)]
pub struct Cli {
    #[command(subcommand)]
    command: Command,
}

/// In the path of the workbook reader's sources.
const READER: &str = "calamine";

const EXIT_CODES: &str = "Exit codes: 0 done, there may be warnings; 1 done, but some claims, files or schedules had \
                          problems; 2 nothing could be done, or wrong use.";

#[derive(Debug, Subcommand)]
enum Command {
    Assess(assess::AssessArgs),
    Check(check::CheckArgs),
    Understood(understood::UnderstoodArgs),
    Compare(compare::CompareArgs),
    Sample(sample::SampleArgs),
    Register(register::RegisterArgs),
    Explain(explain::ExplainArgs),
    Recount(recount::RecountArgs),
    WhatIf(what_if::WhatIfArgs),
    Plan(plan::PlanArgs),
    Schedule(schedule::ScheduleArgs),
    Form(form::FormArgs),
    Problem(problem::ProblemArgs),
    Completions(completions::CompletionsArgs),
    Man(man::ManArgs),
    /// Reads one old workbook from the standard input: the program starts itself for that.
    #[command(name = crate::read::READ_APART, hide = true)]
    ReadApart,
}

/// Parses the arguments and runs the command; help, version and wrong use end the program by themselves.
pub fn main() -> ExitCode {
    keep_expected_panics_quiet();
    // Where the system does not say which program this is, old workbooks are refused with that reason.
    if let Ok(program) = std::env::current_exe() {
        crate::read::read_apart_with(program);
    }
    let ended = match Cli::parse().command {
        Command::Assess(args) => assess::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Understood(args) => understood::run(&args),
        Command::Compare(args) => compare::run(&args),
        Command::Sample(args) => sample::run(&args),
        Command::Register(args) => register::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Recount(args) => recount::run(&args),
        Command::WhatIf(args) => what_if::run(&args),
        Command::Plan(args) => plan::run(&args),
        Command::Schedule(args) => schedule(&args),
        Command::Form(args) => form::run(&args),
        Command::Problem(args) => problem::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Man(args) => man::run(&args),
        Command::ReadApart => read_apart::run(),
    };
    match ended {
        Ok(ended) => ended.into(),
        Err(error) => {
            terminal::tell(&format!("error: {error:#}\n"));
            Ended::Nothing.into()
        }
    }
}

/// Runs `schedule`, which leaves printing to its caller.
fn schedule(args: &schedule::ScheduleArgs) -> anyhow::Result<Ended> {
    let (mut out, mut aside) = (Vec::new(), Vec::new());
    let ended = schedule::run(args, &mut out, &mut aside)?;
    terminal::tell(&String::from_utf8_lossy(&aside));
    terminal::print_bytes(&out)?;
    Ok(ended)
}

/// The workbook writer panics where the disk is full, the workbook reader on some damaged files. Both are caught and told as
/// problems; the panic itself would only be noise before them.
fn keep_expected_panics_quiet() {
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        let text = panic.payload().downcast_ref::<String>();
        let is_reader = panic.location().is_some_and(|place| place.file().contains(READER));
        if !is_reader && !text.is_some_and(|text| text.starts_with(WRITE_PANIC)) {
            usual(panic);
        }
    }));
}

/// Tells the first problems that stop a claim, a file or a schedule, of a command that shows something else.
fn tell_stopping(received: &Received) {
    let stops = |problem: &&Problem| problem.severity().stops_the_claim();
    for problem in received.all_problems().filter(stops).take(screen::MOST_PROBLEMS) {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
}

/// Tells why nothing could be done, after everything that reading found.
fn nothing_done(why: &Problem, received: Option<&Received>, json: bool) -> anyhow::Result<Ended> {
    let none = Sources::new();
    let sources = received.map_or(&none, |received| &received.sources);
    if json {
        let found = received.into_iter().flat_map(Received::all_problems);
        let problems = found.chain([why]).map(|problem| ProblemView::new(problem, None, sources)).collect();
        terminal::print(&Summary::nothing(problems).to_text()?)?;
    } else {
        for problem in received.into_iter().flat_map(Received::all_problems) {
            terminal::tell_problem(problem, sources, |place| received?.row(place));
        }
        terminal::tell_problem(why, sources, |_| None);
    }
    Ok(Ended::Nothing)
}

use super::outcome::Ended;
use super::plan_screen::PlanScreen;
use super::reception::{InputArgs, receive};
use super::terminal;
use crate::batch::{Options, assessed};
use crate::claim::{Arrival, JobKey, RegisterRow, Step};
use crate::plan::{Car, plan};
use crate::problem::catalogue;
use crate::report::folder::OutputFolder;
use crate::report::plan::{PlanOf, output::write};
use clap::Args;
use std::path::PathBuf;

/// Plan the work: who works on which car on which day, from the hours of the assessments.
///
/// Beside what `assess` reads, the paths hold tables of the workshop: technicians with their skills and hours a day, and if
/// you like bays, days off, the week, and the arrival of parts. `--date` is the first day. Claims that are open, not priced or
/// a total loss are listed and not planned. It is a plan, not a promise: a simple rule that is printed with it, not the best
/// plan there is.
#[derive(Debug, Args)]
pub struct PlanArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Where the output goes: a folder. Without it, the name of the first path with "-planned" in the current folder.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

/// Runs it.
pub fn run(args: &PlanArgs) -> anyhow::Result<Ended> {
    let Some(first) = args.input.date else {
        return super::nothing_done(&catalogue::plan::no_first_day(), None, false);
    };
    let out = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-planned", args.input.name())));
    // Before anything is read: what stands in the way is told at once.
    let folder = match OutputFolder::begin(&out, std::process::id()) {
        Ok(folder) => folder,
        Err(problem) => return super::nothing_done(&problem, None, false),
    };
    let received = receive(&args.input);
    let (mut workshop, problems) = received.workshop.clone();
    workshop.arrivals.extend(received.register.iter().filter_map(parts_in));
    let tell = || {
        for problem in &problems {
            terminal::tell_problem(problem, &received.sources, |place| received.row(place));
        }
    };
    if let Some(lacking) = received.lacking() {
        tell();
        return super::nothing_done(&lacking, Some(&received), false);
    }
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let assessed = assessed(received.intakes(), &received.schedules, options);
    let cars: Vec<Car<'_>> = received
        .intakes()
        .iter()
        .zip(&assessed)
        .map(|(intake, result)| Car { intake, assessment: result.as_ref().ok() })
        .collect();
    let plan = match plan(&cars, &received.schedules, &workshop, first) {
        Ok(plan) => plan,
        Err(problem) => {
            tell();
            return super::nothing_done(&problem, None, false);
        }
    };
    let of = PlanOf { plan: &plan, intakes: received.intakes(), assessed: &assessed, run: received.run() };
    if let Err(problem) = write(folder, &of, first) {
        return super::nothing_done(&problem, Some(&received), false);
    }
    tell();
    for problem in &plan.problems {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
    super::tell_stopping(&received);
    terminal::print(&PlanScreen { of: &of, out: &out }.text(terminal::width()))?;
    let stops = |problem: &crate::problem::Problem| problem.severity().stops_the_claim();
    let is_stopped = problems.iter().chain(received.all_problems()).any(stops);
    let all_priced = assessed.iter().all(Result::is_ok);
    Ok(if all_priced && !is_stopped { Ended::Done } else { Ended::Incomplete })
}

/// A row of a register by which parts are in.
fn parts_in(row: &RegisterRow) -> Option<Arrival> {
    let (kind, text) = row.names.first().filter(|_| row.step.value == Step::PartsIn)?;
    let key = JobKey::new(*kind, text.as_str());
    Some(Arrival { place: row.place, key, panel: None, day: row.date.value, by_register: true })
}

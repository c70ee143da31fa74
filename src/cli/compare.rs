use super::comparison_screen::ComparisonScreen;
use super::heard::Heard;
use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive_for_claims};
use super::terminal;
use crate::batch;
use crate::claim::words::folded;
use crate::compare::comparison::{Comparison, NoComparison, Options, SetAside, compare};
use crate::problem::{Problem, Severity, catalogue::output, nearest};
use crate::report::comparison::json::ComparisonView;
use crate::report::comparison::{Compared, output::write};
use crate::report::folder::OutputFolder;
use clap::Args;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Compare the counts of several people: how well they agree, where the money differs, what to agree on.
///
/// Cars are joined by claim, VIN or registration; people are told apart by the column assessor. Both counts go through the
/// same schedule; without one, and where it cannot price a count, counts alone are compared. The output folder is swapped in
/// when it is complete.
#[derive(Debug, Args)]
pub struct CompareArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Where the output goes: a folder. Without it, the name of the first path with "-compared" in the current folder.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,

    /// Compare everybody with this assessor; without it nobody is taken as right.
    #[arg(long, value_name = "NAME")]
    reference: Option<String>,

    /// Write letters for the names of assessors.
    #[arg(long)]
    letters: bool,

    /// Threads to use; one per core if absent. The output is the same.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=256))]
    threads: Option<u16>,

    /// Print what comparison.json holds, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &CompareArgs) -> anyhow::Result<Ended> {
    let out = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-compared", args.input.name())));
    // Before anything is read: what stands in the way is told at once.
    let folder = match OutputFolder::begin(&out, std::process::id()) {
        Ok(folder) => folder,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let threads = args.threads.map(usize::from);
    let mut received = batch::on_threads(threads, || receive_for_claims(&args.input, None));
    // Without a schedule counts alone are compared.
    if let Some(lacking) = received.claimless() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let options = Options {
        run_date: args.input.date,
        threads,
        reference: args.reference.clone(),
        letters: args.letters,
    };
    let heard = Heard::new(&received);
    let compared = compare(&heard, &received.schedules, &options);
    received.passed = heard.into_problems();
    let compared = compared.map_err(|none| nothing_to_compare(none, &options));
    let comparison = match compared.and_then(|compared| received.claims.check().map(|()| compared)) {
        Ok(comparison) => comparison,
        Err(problem) => return super::nothing_done(&problem, Some(&received), args.json),
    };
    let compared = Compared { comparison: &comparison, run: received.run() };
    let written = batch::on_threads(threads, || write(folder, &compared, args.input.date, args.letters));
    if let Err(problem) = written {
        return super::nothing_done(&problem, Some(&received), args.json);
    }
    if args.json {
        let mut bytes = Vec::new();
        ComparisonView(&compared).write_to(&mut bytes)?;
        terminal::print_bytes(&bytes)?;
    } else {
        tell_problems(&received);
        terminal::print(
            &ComparisonScreen { compared: &compared, received: &received, out: &out }.text(terminal::width()),
        )?;
    }
    Ok(ended(&received, &comparison))
}

fn nothing_to_compare(none: NoComparison<Problem>, options: &Options) -> Problem {
    match none {
        NoComparison::NotRead(problem) => problem,
        NoComparison::NoPairs(aside) => output::no_two_looks(most_frequent(&aside).as_deref()),
        NoComparison::NoReference(names) => {
            let wanted = options.reference.as_deref().unwrap_or_default();
            output::no_such_reference(wanted, &nearest(&folded(wanted), names.iter().map(String::as_str)))
        }
    }
}

/// Why most looks were put aside.
fn most_frequent(aside: &[SetAside]) -> Option<String> {
    let mut reasons: BTreeMap<String, usize> = BTreeMap::new();
    for look in aside {
        *reasons.entry(look.why.words()).or_default() += 1;
    }
    reasons.into_iter().max_by_key(|(_, times)| *times).map(|(reason, _)| reason)
}

/// Problems that keep something from being compared, the first few in full.
fn tell_problems(received: &Received) {
    let stops = |problem: &&Problem| problem.severity() > Severity::Warning;
    for problem in received.all_problems().filter(stops).take(super::screen::MOST_PROBLEMS) {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
}

/// Whether something that could be compared was left out by a problem.
fn ended(received: &Received, comparison: &Comparison) -> Ended {
    let is_stopped = received.all_problems().any(|problem| problem.severity().stops_the_claim());
    let is_left_out = comparison.aside.iter().any(|aside| aside.why.is_a_problem());
    if is_stopped || is_left_out { Ended::Incomplete } else { Ended::Done }
}

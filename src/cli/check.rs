use super::outcome::Ended;
use super::progress::Progressing;
use super::reception::{InputArgs, receive};
use super::screen::{Place, Screen};
use crate::batch::{self, Options, Stopped};
use crate::report::overview::{Keep, Overview};
use clap::Args;

/// Read and assess everything and report all problems, without writing anything.
#[derive(Debug, Args)]
pub struct CheckArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Print the report as JSON, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &CheckArgs) -> anyhow::Result<Ended> {
    let received = receive(&args.input);
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let mut overview = Overview::new(received.run(), Keep::ALL);
    for problem in &received.problems {
        overview.report(problem);
    }
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let mut progressing = Progressing::new(&mut overview, received.intakes().len());
    let Ok(()) =
        batch::run(received.intakes(), &received.schedules, options, &mut progressing).map_err(|stopped| {
            match stopped {
                Stopped::Source(never) | Stopped::Sink(never) => never,
            }
        });
    drop(progressing);
    Screen { received: &received, overview: &overview, place: Place::Checked }
        .show(args.json, args.input.date)
}

use super::earlier::EarlierArgs;
use super::outcome::Ended;
use super::progress::Progressing;
use super::reception::{InputArgs, Received, receive, receive_for_claims};
use super::screen::{Place, Screen};
use super::understood::save;
use crate::batch::{self, Options, Stopped};
use crate::problem::Problem;
use crate::read;
use crate::report::overview::{Keep, Overview};
use crate::report::workbook::map::MapRow;
use clap::Args;
use std::path::PathBuf;

/// Read and assess everything and report all problems, without writing anything.
#[derive(Debug, Args)]
pub struct CheckArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Write what only you know as a workbook of questions with drop-downs. Filled in and kept beside the files it is
    /// read as answers, for these files and for others of the same shape.
    #[arg(long, value_name = "FILE")]
    questions: Option<PathBuf>,

    #[command(flatten)]
    earlier: EarlierArgs,

    /// Print the report as JSON, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &CheckArgs) -> anyhow::Result<Ended> {
    let earlier = match args.earlier.cars() {
        Ok(earlier) => earlier,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    // What questions are asked about stands in the tables, which are then held.
    let mut received = match args.questions {
        Some(_) => receive(&args.input),
        None => receive_for_claims(&args.input, None),
    };
    received.look_at_photographs(args.input.date);
    if let Some(lacking) = received.lacking() {
        if let Some(path) = &args.questions {
            save(path, &asked(received.all_problems(), &received), "question", QUESTIONS)?;
        }
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let mut overview = Overview::new(received.run(), Keep::ALL);
    for problem in &received.problems {
        overview.report(problem);
    }
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let mut progressing = Progressing::new(&mut overview, received.claims.len());
    let ended = batch::run(&received, &received.schedules, options, &mut progressing);
    drop(progressing);
    let ended = ended.map_err(|stopped| match stopped {
        Stopped::Source(problem) => problem,
        Stopped::Sink(never) => match never {},
    });
    if let Err(problem) = ended.and_then(|()| received.claims.check()) {
        return super::nothing_done(&problem, Some(&received), args.json);
    }
    for problem in overview.repeats(&earlier) {
        overview.report(&problem);
    }
    if let Some(path) = &args.questions {
        let rows = asked(overview.problems(), &received);
        save(path, &rows, "question", QUESTIONS)?;
    }
    Screen { received: &received, overview: &overview, place: Place::Checked }
        .show(args.json, args.input.date)
}

/// The name of the sheet of questions.
const QUESTIONS: &str = "Questions";

/// The questions among problems that a row of a column map answers.
fn asked<'p>(problems: impl Iterator<Item = &'p Problem>, received: &Received) -> Vec<MapRow> {
    // A range means the same under every schedule, a band's name does not.
    let mut bands: Vec<(String, String)> = Vec::new();
    for schedule in &received.schedules {
        for band in &schedule.sizes {
            let range = format!("{} to {}", band.low, band.high);
            match bands.iter_mut().find(|(other, _)| *other == range) {
                Some((_, names)) if !names.split(", ").any(|name| name == band.name) => {
                    names.push_str(", ");
                    names.push_str(&band.name);
                }
                Some(_) => {}
                None => bands.push((range, band.name.clone())),
            }
        }
    }
    let lists = |heading: &str| {
        received.schedules.iter().flat_map(|schedule| &schedule.sizes).any(|band| band.is_called(heading))
    };
    let questions = received.with_tables(|tables| {
        read::questions(
            problems,
            received.intakes(),
            tables,
            (&received.sheets, &received.sources),
            &bands,
            lists,
        )
    });
    questions
        .into_iter()
        .map(|question| MapRow {
            says: question.ask,
            place: received.sources.short(question.place),
            cells: question.cells.to_string(),
            heading: question.heading.unwrap_or_default(),
            word: question.word.unwrap_or_default(),
            means: String::new(),
            choices: question.choices,
            beside: question.beside,
            of: question.of.unwrap_or_default(),
        })
        .collect()
}

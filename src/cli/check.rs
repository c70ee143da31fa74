use super::outcome::Ended;
use super::progress::Progressing;
use super::reception::{InputArgs, Received, receive};
use super::screen::{Place, Screen};
use super::understood::save;
use crate::batch::{self, Options};
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

    /// Print the report as JSON, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &CheckArgs) -> anyhow::Result<Ended> {
    let received = receive(&args.input);
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
    let mut progressing = Progressing::new(&mut overview, received.intakes.len());
    let Ok(()) = batch::run(&received.intakes, &received.schedules, options, &mut progressing);
    drop(progressing);
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
    let mut bands: Vec<String> = Vec::new();
    for band in received.schedules.iter().flat_map(|schedule| &schedule.sizes) {
        if !bands.contains(&band.name) {
            bands.push(band.name.clone());
        }
    }
    let questions = received
        .with_tables(|tables| read::questions(problems, &received.intakes, tables, &received.sheets, &bands));
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
        })
        .collect()
}

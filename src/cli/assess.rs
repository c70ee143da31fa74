use super::links::links;
use super::outcome::Ended;
use super::progress::Progressing;
use super::reception::{InputArgs, Received, receive};
use super::screen::{Place, Screen};
use crate::batch::{self, Options};
use crate::problem::{Problem, catalogue::output};
use crate::report::Subject;
use crate::report::batch_page::BatchOverview;
use crate::report::document::{Imprint, fill, owner_sheet, work_order};
use crate::report::folder::OutputFolder;
use crate::report::html::Pages;
use crate::report::output::{Draw, Order, Output, Paper, Part};
use crate::report::overview::{Keep, Overview};
use crate::report::run_record::VERSION;
use crate::report::workbook;
use clap::builder::PossibleValue;
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Assess every claim, and write documents, listings and tables.
///
/// The output folder is written beside its place and swapped in when it is complete; an earlier output is kept until then.
/// A folder that holds anything else is left alone.
#[derive(Debug, Args)]
pub struct AssessArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Where the output goes: a folder. Without it, the name of the first path with "-assessed" in the current folder.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,

    /// What is written, parted by commas; all of it if absent. Exceptions and run.json are always written.
    #[arg(long, value_name = "PARTS", value_delimiter = ',')]
    write: Option<Vec<Part>>,

    /// Threads to use; one per core if absent. The output is the same.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=256))]
    threads: Option<u16>,

    /// Print the summary as JSON, for programs.
    #[arg(long)]
    json: bool,
}

impl ValueEnum for Part {
    fn value_variants<'a>() -> &'a [Self] {
        &Self::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        let (name, writes) = self.words();
        Some(PossibleValue::new(name).help(writes))
    }
}

impl AssessArgs {
    fn parts(&self) -> BTreeSet<Part> {
        self.write.as_deref().unwrap_or(&Part::ALL).iter().copied().collect()
    }

    fn out(&self) -> PathBuf {
        self.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-assessed", self.input.name())))
    }
}

/// Runs it.
pub fn run(args: &AssessArgs) -> anyhow::Result<Ended> {
    let out = args.out();
    // Before anything is read: what stands in the way is told at once.
    let folder = match OutputFolder::begin(&out, std::process::id()) {
        Ok(folder) => folder,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let received = receive(&args.input);
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    match write(args, &received, folder, &out) {
        Ok(overview) => {
            let screen = Screen { received: &received, overview: &overview, place: Place::Written(&out) };
            screen.show(args.json, args.input.date)
        }
        Err(problem) => super::nothing_done(&problem, Some(&received), args.json),
    }
}

/// Assesses and writes everything; the output stands when this comes back.
fn write<'a>(
    args: &AssessArgs,
    received: &'a Received,
    folder: OutputFolder,
    out: &Path,
) -> Result<Overview<'a>, Problem> {
    let parts = args.parts();
    let links = links(out, &received.files).unwrap_or_default();
    let keep = if args.json { Keep::ALL } else { super::screen::KEEP };
    let pages = Pages::new().map_err(|fault| output::not_drawn("any document", &fault.to_string()))?;
    let imprint = Imprint { tool_version: VERSION, run_date: args.input.date };
    let draw = Drawing { pages, imprint };
    let rest_on_working = [Part::Documents, Part::Assessments, Part::ClaimWorkbooks];
    let working = rest_on_working.iter().any(|part| parts.contains(part));
    let order = Order { folder, parts, date: args.input.date, links, draw: &draw, keep };
    let mut written = Output::begin(order, &received.intakes, received.run())?;
    for problem in &received.problems {
        written.report(problem)?;
    }
    let options = Options { run_date: args.input.date, threads: args.threads.map(usize::from), working };
    let mut progressing = Progressing::new(&mut written, received.intakes.len());
    batch::run(&received.intakes, &received.schedules, options, &mut progressing)?;
    drop(progressing);
    written.finish().map(|(overview, _)| overview)
}

/// Draws what the run writes with the templates that come with the tool.
struct Drawing {
    pages: Pages,
    imprint: Imprint<'static>,
}

impl Draw for Drawing {
    fn paper(&self, paper: Paper, subject: &Subject<'_>) -> Result<String, Problem> {
        let drawn = match paper {
            Paper::Claim => self.pages.claim(&fill(subject, &self.imprint)),
            Paper::WorkOrder => self.pages.work_order(&work_order(subject, &self.imprint)),
            Paper::Owner => self.pages.owner_sheet(&owner_sheet(subject, &self.imprint)),
        };
        drawn.map_err(|fault| output::not_drawn(&subject.claim.key.text, &fault.to_string()))
    }

    fn claim_workbook(&self, subject: &Subject<'_>) -> Result<Vec<u8>, Problem> {
        workbook::claim::draw(subject, &self.imprint)
            .map_err(|fault| output::not_drawn(&subject.claim.key.text, &fault.to_string()))
    }

    fn overview(&self, overview: &BatchOverview) -> Result<String, Problem> {
        self.pages.overview(overview).map_err(|fault| output::not_drawn("the overview", &fault.to_string()))
    }
}

use super::earlier::EarlierArgs;
use super::links::links;
use super::outcome::Ended;
use super::printing::{Printing, PrintingArgs};
use super::progress::Progressing;
use super::reception::{InputArgs, Received, receive_for_claims};
use super::redact::Redacted;
use super::screen::{Place, Screen};
use crate::batch::{self, EarlierCars, Options, Stopped};
use crate::problem::{
    Problem,
    catalogue::{agreed, output},
};
use crate::read;
use crate::report::Subject;
use crate::report::batch_page::BatchOverview;
use crate::report::bordereau_page::BordereauPage;
use crate::report::document::{Imprint, SupplementPage, fill, owner_sheet, work_order};
use crate::report::folder::{Earlier, OutputFolder, Written};
use crate::report::html::Pages;
use crate::report::lot_page::LotPage;
use crate::report::output::{Draw, Order, Output, Paper, Part};
use crate::report::overview::{Keep, Overview};
use crate::report::run_record::VERSION;
use crate::report::supplement::Agreed;
use crate::report::workbook::{self, Links};
use clap::builder::PossibleValue;
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io;
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

    /// What was agreed: the assessments.jsonl of an earlier run. Each claim then has a supplement, with what changed
    /// since and nothing else.
    #[arg(long, value_name = "FILE")]
    agreed: Option<PathBuf>,

    /// Leave out what names a person or a car, for sharing a batch: owner, plate, end of the VIN, policy, people, places,
    /// remarks, photographs, names of files and sheets. The screen still shows them.
    #[arg(long, conflicts_with_all = ["agreed", "earlier", "reuse"])]
    redact: bool,

    /// An earlier output: documents and workbooks of claims of which nothing changed are taken over from it.
    ///
    /// Everything is read and assessed anew. Where the files with rows of a claim, its schedule and what came out are the
    /// same, its documents need not be drawn again. The output is byte for byte the same as without.
    #[arg(long, value_name = "DIR")]
    reuse: Option<PathBuf>,

    #[command(flatten)]
    printing: PrintingArgs,

    #[command(flatten)]
    earlier: EarlierArgs,

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
    let reused = match args.reuse.as_deref().map(Earlier::open).transpose() {
        Ok(reused) => reused,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let printing = match args.printing.printing(args.threads.map(usize::from)) {
        Ok(printing) => printing,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let agreed = match args.agreed.as_deref().map(agreed_version).transpose() {
        Ok(agreed) => agreed,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let earlier = match args.earlier.cars() {
        Ok(earlier) => earlier,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let kept = match keep_standard_input(args, &folder) {
        Ok(kept) => kept,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let received = batch::on_threads(args.threads.map(usize::from), || {
        let mut received = receive_for_claims(&args.input, kept.as_deref());
        received.look_at_photographs(args.input.date);
        received
    });
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let redacted = args.redact.then(|| Redacted::new(&received));
    let redacted = redacted.as_ref();
    let from = From { received: &received, redacted, kept: kept.as_deref(), reused: reused.as_ref() };
    let ready = Ready { printing, agreed, earlier, folder };
    match write(args, from, ready, &out) {
        Ok(overview) => {
            let place = Place::Written(&out, args.reuse.as_deref());
            let screen = Screen { received: &received, overview: &overview, place };
            screen.show(args.json, args.input.date)
        }
        Err(problem) => super::nothing_done(&problem, Some(&received), args.json),
    }
}

/// Standard input is read twice, so it is kept in a file beside what is written; a killed run leaves nothing else to mend.
fn keep_standard_input(args: &AssessArgs, folder: &OutputFolder) -> Result<Option<PathBuf>, Problem> {
    if !args.input.has_standard_input() {
        return Ok(None);
    }
    let kept = folder.path().join("standard-input");
    let copied = File::create_new(&kept).and_then(|mut file| io::copy(&mut io::stdin().lock(), &mut file));
    copied.map_err(|error| folder.refused("standard-input", &error))?;
    Ok(Some(kept))
}

/// The version that was agreed.
fn agreed_version(path: &Path) -> Result<Agreed, Problem> {
    let shown = path.display().to_string();
    let refused = |error: io::Error| agreed::refused(&shown, &error);
    let bytes = fs::read(path).map_err(refused)?;
    let file = Written::of_file(path, &shown).map_err(refused)?;
    Agreed::read(file, &bytes)
}

/// What was made ready before anything was read.
struct Ready {
    printing: Option<Printing>,
    agreed: Option<Agreed>,
    earlier: EarlierCars,
    folder: OutputFolder,
}

/// What an output is made from.
#[derive(Clone, Copy)]
struct From<'a> {
    received: &'a Received,
    /// The same, redacted, where that was asked for.
    redacted: Option<&'a Redacted<'a>>,
    /// Where standard input is kept.
    kept: Option<&'a Path>,
    /// An earlier output whose documents are used again.
    reused: Option<&'a Earlier>,
}

/// Assesses and writes everything; the output stands when this comes back.
fn write<'a>(args: &AssessArgs, from: From<'a>, ready: Ready, out: &Path) -> Result<Overview<'a>, Problem> {
    let From { received, redacted, kept, reused } = from;
    let Ready { printing, agreed, earlier, folder } = ready;
    let parts = args.parts();
    let links = match redacted {
        Some(_) => Links::new(),
        None => links(out, &received.files).unwrap_or_default(),
    };
    let keep = if args.json { Keep::ALL } else { super::screen::KEEP };
    let pages = Pages::new().map_err(|fault| output::not_drawn("any document", &fault.to_string()))?;
    let imprint = Imprint { tool_version: VERSION, run_date: args.input.date };
    let draw = Drawing { pages, imprint, printing };
    let rest_on_working = [Part::Documents, Part::Assessments, Part::ClaimWorkbooks];
    let working = rest_on_working.iter().any(|part| parts.contains(part));
    let for_all = read::for_all(&received.sheets);
    let order = Order {
        folder,
        parts,
        date: args.input.date,
        links,
        draw: &draw,
        keep,
        agreed: agreed.as_ref(),
        earlier,
        reused,
        for_all,
    };
    let run = redacted.map_or_else(|| received.run(), Redacted::run);
    let mut written = Output::begin(order, run)?;
    for problem in redacted.map_or(received.problems.as_slice(), Redacted::problems) {
        written.report(problem)?;
    }
    let options = Options { run_date: args.input.date, threads: args.threads.map(usize::from), working };
    let mut progressing = Progressing::new(&mut written, received.claims.len());
    let ended = match redacted {
        Some(redacted) => batch::run(redacted, &received.schedules, options, &mut progressing),
        None => batch::run(received, &received.schedules, options, &mut progressing),
    };
    drop(progressing);
    ended.map_err(|stopped| match stopped {
        Stopped::Source(problem) | Stopped::Sink(problem) => problem,
    })?;
    received.claims.check()?;
    if let Some(kept) = kept {
        fs::remove_file(kept).map_err(|error| output::not_written(&kept.display().to_string(), &error))?;
    }
    written.finish().map(|(overview, _)| overview)
}

/// Draws what the run writes with the templates that come with the tool.
struct Drawing {
    pages: Pages,
    imprint: Imprint<'static>,
    printing: Option<Printing>,
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

    fn lot(&self, statement: &LotPage) -> Result<String, Problem> {
        self.pages
            .lot(statement)
            .map_err(|fault| output::not_drawn("the statement of a lot", &fault.to_string()))
    }

    fn print(&self, paper: Paper, subject: &Subject<'_>) -> Option<Result<Vec<u8>, Vec<Problem>>> {
        self.printing.as_ref().map(|printing| printing.print(paper, subject, &self.imprint))
    }

    fn supplement(&self, page: &SupplementPage) -> Result<String, Problem> {
        let drawn = self.pages.supplement(page);
        drawn.map_err(|fault| output::not_drawn(&page.head.key, &fault.to_string()))
    }

    fn print_supplement(
        &self,
        page: &SupplementPage,
        subject: &Subject<'_>,
    ) -> Option<Result<Vec<u8>, Vec<Problem>>> {
        self.printing.as_ref().map(|printing| printing.print_supplement(page, subject, &self.imprint))
    }

    fn claim_workbook(&self, subject: &Subject<'_>) -> Result<Vec<u8>, Problem> {
        workbook::claim::draw(subject, &self.imprint)
            .map_err(|fault| output::not_drawn(&subject.claim.key.text, &fault.to_string()))
    }

    fn bordereau(&self, page: &BordereauPage) -> Result<String, Problem> {
        self.pages.bordereau(page).map_err(|fault| output::not_drawn("the bordereau", &fault.to_string()))
    }

    fn overview(&self, overview: &BatchOverview) -> Result<String, Problem> {
        self.pages.overview(overview).map_err(|fault| output::not_drawn("the overview", &fault.to_string()))
    }
}

use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive};
use super::terminal;
use crate::claim::BodyType;
use crate::claim::words::{find, suggest};
use crate::problem::{Problem, Severity, catalogue::output, visible};
use crate::report::form::CountForm;
use crate::report::html::{Pages, TemplateFault};
use crate::report::workbook::form as workbook;
use crate::schedule::Schedule;
use clap::{Args, ValueEnum};
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// Write a form to count on: a workbook, a tally sheet for print, or a page for a tablet.
///
/// Its columns are the schedule's size bands, its panels those of the body types named. What comes back of it (the
/// workbook, or the CSV file that the page gives) is read by assess as it is.
#[derive(Debug, Args)]
pub struct FormArgs {
    /// What to write.
    #[arg(value_name = "KIND")]
    kind: Kind,

    /// The schedule: a workbook, or a folder of CSV files.
    #[arg(required = true, value_name = "SCHEDULE")]
    schedule: Vec<PathBuf>,

    /// A body type whose panels are listed (sedan if absent); may be given several times. The page knows all of them.
    #[arg(long, value_name = "TYPE", value_parser = body)]
    body: Vec<BodyType>,

    /// Blank sheets for each body type.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=100))]
    cars: u16,

    /// The file to write, which must not be there yet. Without it, the name of the kind in the current folder.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Kind {
    /// A workbook with a sheet for each car.
    Sheets,
    /// A workbook with many cars in one table.
    List,
    /// A sheet to print and fill in by pencil, with a size gauge.
    Tally,
    /// A page for a tablet at the car, which needs no network.
    Page,
}

impl Kind {
    /// Where it goes if nothing else is said.
    const fn file(self) -> &'static str {
        match self {
            Self::Sheets => "sheets.xlsx",
            Self::List => "list.xlsx",
            Self::Tally => "tally.html",
            Self::Page => "page.html",
        }
    }

    /// What the person does with it next.
    const fn next(self) -> &'static str {
        match self {
            Self::Sheets | Self::List => "fill it in, and give it to assess with the schedule",
            Self::Tally => "print it at 100 %, and check the line of 100 mm with a rule",
            Self::Page => "open it in a browser at the car; assess reads the CSV file that it gives back",
        }
    }
}

fn body(text: &str) -> Result<BodyType, String> {
    find(text).ok_or_else(|| {
        let near = suggest::<BodyType>(text);
        let names = if near.is_empty() {
            BodyType::ALL.iter().map(|body| body.name().to_owned()).collect()
        } else {
            near
        };
        format!("no body type is called so; there are: {}", names.join(", "))
    })
}

/// Runs it.
pub fn run(args: &FormArgs) -> anyhow::Result<Ended> {
    let input = InputArgs { paths: args.schedule.clone(), schedule: Vec::new(), date: None };
    let received = receive(&input);
    let schedule = match only(&received) {
        Ok(schedule) => schedule,
        Err(problem) => return super::nothing_done(&problem, Some(&received), false),
    };
    let bodies = match &args.body[..] {
        _ if args.kind == Kind::Page => BodyType::ALL,
        [] => &[BodyType::Sedan],
        named => named,
    };
    let form = CountForm::new(schedule, bodies, args.cars);
    let out = args.out.clone().unwrap_or_else(|| PathBuf::from(args.kind.file()));
    let written = drawn(args.kind, &form).and_then(|bytes| write_new(&out, &bytes));
    if let Err(problem) = written {
        return super::nothing_done(&problem, Some(&received), false);
    }
    let is_broken = |problem: &&Problem| problem.severity() == Severity::Error;
    let broken: Vec<&Problem> = received.problems.iter().filter(is_broken).collect();
    for problem in &broken {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
    let (file, schedule) = (out.display().to_string(), visible(&form.schedule));
    terminal::print(&format!(
        "Written  {}, for {schedule}\nNext     {}\n",
        visible(&file),
        args.kind.next()
    ))?;
    Ok(if broken.is_empty() { Ended::Done } else { Ended::Incomplete })
}

/// The schedule of the form; of several with the same bands the first.
fn only(received: &Received) -> Result<&Schedule, Problem> {
    let Some((first, others)) = received.schedules.split_first() else { return Err(output::no_schedule()) };
    match others.iter().find(|other| CountForm::headings(other) != CountForm::headings(first)) {
        Some(other) => Err(output::form_bands(&first.terms.name.value, &other.terms.name.value)),
        None => Ok(first),
    }
}

fn drawn(kind: Kind, form: &CountForm) -> Result<Vec<u8>, Problem> {
    let page = |draw: fn(&Pages, &CountForm) -> Result<String, TemplateFault>| {
        let page = Pages::new().and_then(|pages| draw(&pages, form));
        page.map(String::into_bytes).map_err(|fault| output::not_drawn(kind.file(), &fault.to_string()))
    };
    let refused = |error| output::not_written(kind.file(), &error);
    match kind {
        Kind::Sheets => workbook::sheets(form).map_err(refused),
        Kind::List => workbook::list(form).map_err(refused),
        Kind::Tally => page(Pages::tally),
        Kind::Page => page(Pages::counting),
    }
}

/// Writes a form into a new file. A file that is there already may be filled in, so that it is never replaced.
fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let shown = path.display().to_string();
    let mut file = File::create_new(path).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => output::form_exists(&shown),
        _ => output::not_written(&shown, &error),
    })?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|error| {
        // Half a form is none; what cannot be removed is told as not written all the same.
        let _ = fs::remove_file(path);
        output::not_written(&shown, &error)
    })
}

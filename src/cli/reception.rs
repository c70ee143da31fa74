//! From paths to claims and schedules: opens files, recognises their tables, parts claims from schedules.

use crate::batch::Source;
use crate::claim::{InputFile, Intake, RegisterRow, Requirement, Workshop};
use crate::problem::{Place, Problem, QuotedRow, Sources, catalogue::output};
use crate::quantity::{Date, parse_date};
use crate::read::{self, Claims, Longs, Opened, photographs};
use crate::report::tables::Run;
use crate::schedule::{self, Schedule};
use crate::table::{Form, Sheet, Table, recognise, unrecognised};
use clap::Args;
use std::borrow::Cow;
use std::fs;
use std::path::{Path, PathBuf};

/// What is read, and by which date.
#[derive(Debug, Args)]
pub struct InputArgs {
    /// Files and folders to read: counts, vehicles, schedules, in any number of spreadsheets (XLSX, ODS, XLS, XLSB or CSV).
    ///
    /// `-` is standard input, for `assess` alone. What a table is follows from its headings. Folders are searched with all folders below them; outputs of earlier
    /// runs are left out.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,

    /// A further schedule: a workbook, or a folder of CSV files.
    #[arg(long, value_name = "PATH")]
    pub schedule: Vec<PathBuf>,

    /// The date for claims that carry neither a date of loss nor one of inspection, as YYYY-MM-DD.
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub date: Option<Date>,
}

impl InputArgs {
    /// Whether standard input is among the paths.
    pub fn has_standard_input(&self) -> bool {
        self.paths.iter().any(|path| path.as_os_str() == read::STANDARD_INPUT.0)
    }

    fn all_paths(&self) -> Vec<PathBuf> {
        self.paths.iter().chain(&self.schedule).cloned().collect()
    }

    /// The name of the first path, without the ending of a file.
    pub fn name(&self) -> String {
        let Some(path) = self.paths.first() else { return "claims".to_owned() };
        if path.as_os_str() == read::STANDARD_INPUT.0 {
            return "standard_input".to_owned();
        }
        let real = fs::canonicalize(path).unwrap_or_else(|_| path.clone());
        let name = if real.is_dir() { real.file_name() } else { real.file_stem() };
        name.map_or_else(|| "claims".to_owned(), |name| name.to_string_lossy().into_owned())
    }
}

/// A day, as an argument.
pub fn day(text: &str) -> Result<Date, String> {
    parse_date(text).map_err(|fault| format!("{fault}; write it as 2026-06-14"))
}

/// Columns of a row that are quoted, unless the one in question stands beyond.
const MOST_QUOTED: u16 = 64;

/// Everything that was read.
pub struct Received {
    /// Claims in the order of their first rows.
    pub claims: Claims,
    /// Why they cannot be had, if so.
    fault: Option<Problem>,
    /// Schedules that stand.
    pub schedules: Vec<Schedule>,
    /// What belongs to no claim: problems of files, tables and schedules.
    pub problems: Vec<Problem>,
    /// Problems of claims that were read and are not held, where a command keeps them.
    pub passed: Vec<Problem>,
    /// The files with their digests.
    pub files: Vec<InputFile>,
    /// What places refer to.
    pub sources: Sources,
    /// The sheets that are held.
    pub sheets: Vec<Sheet>,
    /// What was written about a workshop, and what is wrong with it: for a plan alone.
    pub workshop: (Workshop, Vec<Problem>),
    /// What insurers want a submission to hold.
    pub required: Vec<Requirement>,
    /// What happened to claims, by the rows of registers.
    pub register: Vec<RegisterRow>,
    /// Whether the files of photographs are looked at, and by which day.
    looking: Option<Looking>,
}

/// That files of photographs are looked at, by the date of the run where it has one.
#[derive(Debug, Clone, Copy)]
struct Looking {
    run_date: Option<Date>,
}

impl Received {
    /// What rows and documents cite.
    pub fn run(&self) -> Run<'_> {
        Run {
            schedules: &self.schedules,
            sources: &self.sources,
            files: &self.files,
            required: &self.required,
        }
    }

    /// The claims that are held: all of them, unless those of long files are read when they are asked for.
    pub fn intakes(&self) -> &[Intake] {
        self.claims.held()
    }

    /// Looks at the files of photographs: now at those of claims that are held, and at the others when they are read.
    pub fn look_at_photographs(&mut self, date: Option<Date>) {
        self.looking = Some(Looking { run_date: date });
        photographs::look_at_all(self.claims.held_mut(), &self.sources, date);
    }

    /// Whether standard input was read.
    pub fn has_standard_input(&self) -> bool {
        self.files.iter().any(|file| file.path == read::STANDARD_INPUT.1)
    }

    /// How many sheets and text files were read.
    pub fn number_of_sheets(&self) -> usize {
        self.sheets.len() + self.claims.files().len()
    }

    /// The row of a place as it was written.
    pub fn row(&self, place: Place) -> Option<QuotedRow> {
        let row = match self.sheets.iter().find(|sheet| sheet.source == place.source) {
            Some(sheet) => Cow::Borrowed(sheet.row(place.row)?),
            None => Cow::Owned(self.claims.row(place)?),
        };
        // Blank cells are quoted too, so that a number can be told from its neighbour; far ones are not.
        let last = row.cells.last().map_or(0, |cell| cell.column).min(MOST_QUOTED.max(place.column));
        let columns = row.cells.first().map_or(1, |cell| cell.column)..=last;
        let marked = columns.clone().position(|column| column == place.column);
        let text = |column| row.cell(column).map_or_else(String::new, crate::table::Cell::text);
        Some(QuotedRow { cells: columns.map(text).collect(), marked })
    }

    /// The tables of claims, as they were recognised.
    pub fn with_tables<T>(&self, step: impl FnOnce(&[Table<'_>]) -> T) -> T {
        let forms = forms();
        let arranged = read::arrange(&self.sheets, &self.sources, &forms);
        let tables = arranged.sheets.iter().flat_map(|sheet| recognise(sheet, &forms).tables);
        let tables: Vec<Table<'_>> = tables.filter(|table| read::forms().contains(&table.form)).collect();
        step(&tables)
    }

    /// Why nothing can be assessed, if so: no claim, or no schedule.
    pub fn lacking(&self) -> Option<Problem> {
        self.claimless().or_else(|| self.schedules.is_empty().then(output::no_schedule))
    }

    /// Why there is no claim, if so.
    pub fn claimless(&self) -> Option<Problem> {
        self.fault.clone().or_else(|| self.claims.is_empty().then(output::no_claims))
    }

    /// Every problem that reading found: of files, tables and schedules, then those of claims.
    pub fn all_problems(&self) -> impl Iterator<Item = &Problem> {
        let held = self.intakes().iter().flat_map(|intake| &intake.problems);
        self.problems.iter().chain(held).chain(&self.passed)
    }
}

/// Reads everything. Never fails as a whole: what cannot be read or understood is a problem.
pub fn receive(input: &InputArgs) -> Received {
    receive_paths(&input.all_paths())
}

/// Reads everything at some paths.
pub fn receive_paths(paths: &[PathBuf]) -> Received {
    understood(read::open(paths), Longs::default())
}

/// The same where claims are taken one after the other: rows of long files are left where they are, and read with their claims.
/// Standard input is what `kept` holds.
pub fn receive_for_claims(input: &InputArgs, kept: Option<&Path>) -> Received {
    let (opened, longs) = read::open_for_claims(&input.all_paths(), kept, &forms());
    understood(opened, longs)
}

/// The same for the listing of an earlier run.
pub fn receive_listing(path: &Path) -> Received {
    let (opened, longs) = read::open_for_claims(&[path.to_owned()], None, &forms());
    understood(opened, longs)
}

/// The forms of all tables that are known.
fn forms() -> Vec<&'static Form> {
    read::forms().iter().chain(schedule::forms()).chain(read::workshop_forms()).copied().collect()
}

/// Makes claims and schedules of what was opened.
fn understood(opened: Opened, longs: Longs) -> Received {
    let forms = forms();
    let mut problems = opened.problems;
    let mut of_claims = Vec::new();
    let mut of_schedules = Vec::new();
    let mut of_workshops = Vec::new();
    let arranged = read::arrange(&opened.sheets, &opened.sources, &forms);
    problems.extend(arranged.problems);
    for sheet in &arranged.sheets {
        let recognition = recognise(sheet, &forms);
        problems.extend(unrecognised(sheet, &recognition, &forms));
        let (claims, schedules): (Vec<_>, Vec<_>) =
            recognition.tables.into_iter().partition(|table| read::forms().contains(&table.form));
        let (workshops, schedules): (Vec<_>, Vec<_>) =
            schedules.into_iter().partition(|table: &Table<'_>| read::workshop_forms().contains(&table.form));
        of_claims.extend(claims);
        of_schedules.extend(schedules);
        of_workshops.extend(workshops);
    }
    let mut schedules = Vec::new();
    for tables in schedule::groups(&of_schedules, &opened.sources) {
        match schedule::read(&tables, &opened.files, &opened.sources) {
            Ok((schedule, warnings)) => {
                schedules.push(schedule);
                problems.extend(warnings);
            }
            Err(errors) => problems.extend(errors),
        }
    }
    problems.extend(schedule::editions(&schedules));
    let (required, of_required) = read::requirements(&of_claims);
    problems.extend(of_required);
    let (register, of_register) = read::register_rows(&of_claims);
    problems.extend(of_register);
    let (claims, fault) = match read::plan(longs, &of_claims, &opened.sources) {
        Ok((claims, of_no_claim)) => {
            problems.extend(of_no_claim);
            (claims, None)
        }
        Err(fault) => (Claims::default(), Some(fault)),
    };
    drop(of_claims);
    let workshop = read::workshop(&of_workshops);
    let (files, sources) = (opened.files, opened.sources);
    Received {
        claims,
        fault,
        schedules,
        problems,
        passed: Vec::new(),
        files,
        sources,
        sheets: opened.sheets,
        required,
        register,
        looking: None,
        workshop,
    }
}

impl Source for Received {
    type Error = Problem;

    fn groups(&self) -> usize {
        self.claims.groups()
    }

    fn group(&self, number: usize) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let mut group = self.claims.group(number, &self.sources)?;
        if let Some(Looking { run_date: date }) = self.looking {
            for intake in &mut group {
                // Those that are held were looked at already.
                if let Cow::Owned(intake) = intake {
                    photographs::look_at(intake, &self.sources, date);
                }
            }
        }
        Ok(group)
    }
}

//! `schedule check` and `schedule show`: what is wrong with a schedule, and what was understood of it.

use super::outcome::Ended;
use super::sample::percent;
use super::schedule_diff::DiffArgs;
use super::schedule_new::NewArgs;
use crate::problem::catalogue::schedule::no_tables;
use crate::problem::{Problem, Severity, Sources, render_text, worst};
use crate::quantity::Percent;
use crate::read::{self, Opened};
use crate::report::terms;
use crate::schedule::{self, Schedule};
use crate::table::{Form, Table, recognise};
use clap::{Args, Subcommand};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::io::Write;
use std::path::PathBuf;

/// Warnings and notes of a kind that are printed.
const FIRST: usize = 5;

/// Begin, check, show and compare schedules.
#[derive(Debug, Args)]
pub struct ScheduleArgs {
    #[command(subcommand)]
    command: ScheduleCommand,
}

#[derive(Debug, Subcommand)]
enum ScheduleCommand {
    /// Check schedules whole and print everything that is wrong or worth knowing.
    ///
    /// Gaps and overlaps, missing rates, amounts that fall as dents become more or larger, unknown names with the nearest
    /// right ones, two cells for one rate: all at once, each with its file, sheet and cell. Then what follows from it: counts
    /// at which one more dent moves much, cells that nothing reaches, limits that decide nothing, and between several editions
    /// days that two or none of them hold for.
    Check {
        /// Schedules: workbooks, or folders of CSV files.
        #[arg(required = true, value_name = "PATH")]
        paths: Vec<PathBuf>,

        /// Tell counts at which one more dent adds more than so many percent of a panel's amount.
        #[arg(long, value_name = "PERCENT", default_value = "100", value_parser = percent)]
        cliff: Percent,

        /// Print every warning and note; without it the first 5 of each kind. Errors are always printed.
        #[arg(long)]
        all: bool,
    },
    /// Print what was understood of schedules, each value with the cell it came from.
    Show {
        /// Schedules: workbooks, or folders of CSV files.
        #[arg(required = true, value_name = "PATH")]
        paths: Vec<PathBuf>,

        /// Print as JSON, for programs.
        #[arg(long)]
        json: bool,
    },
    Diff(DiffArgs),
    New(NewArgs),
}

/// What is printed of a schedule that stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Printed {
    /// Its problems and a verdict.
    Verdict {
        /// One more dent that adds more than this is told.
        cliff: Percent,
        /// Whether every warning and note is printed.
        all: bool,
    },
    /// Its tables as text.
    Tables,
    /// Its tables as JSON.
    Data,
}

/// Runs it; results go to `out`, problems of schedules that are shown to `aside`. The exit code: 0 every schedule stands, 1
/// something does not, 2 there is none.
pub fn run(args: &ScheduleArgs, out: &mut impl Write, aside: &mut impl Write) -> anyhow::Result<Ended> {
    let (paths, printed) = match &args.command {
        ScheduleCommand::Check { paths, cliff, all } => {
            (paths, Printed::Verdict { cliff: *cliff, all: *all })
        }
        ScheduleCommand::Show { paths, json: false } => (paths, Printed::Tables),
        ScheduleCommand::Show { paths, json: true } => (paths, Printed::Data),
        // These print by themselves.
        ScheduleCommand::Diff(args) => return super::schedule_diff::run(args),
        ScheduleCommand::New(args) => return super::schedule_new::run(args),
    };
    // With the forms of claims beside them no table of a claim is taken for one of a schedule.
    let forms: Vec<&'static Form> = read::forms().iter().chain(schedule::forms()).copied().collect();
    report(&read::open(paths), &forms, printed, out, aside)
}

/// Reports on every schedule among what was opened.
pub fn report(
    opened: &Opened,
    forms: &[&'static Form],
    printed: Printed,
    out: &mut impl Write,
    aside: &mut impl Write,
) -> anyhow::Result<Ended> {
    let sources = &opened.sources;
    let tables: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, forms).tables).collect();
    let groups = schedule::groups(&tables, sources);
    let shown = if matches!(printed, Printed::Verdict { all: false, .. }) { FIRST } else { usize::MAX };
    let mut told = in_full(&opened.problems, sources, shown);
    let mut standing: Vec<Schedule> = Vec::new();
    for tables in &groups {
        let read = schedule::read(tables, &opened.files, sources);
        let (Ok((_, problems)) | Err(problems)) = &read;
        let mut problems = problems.clone();
        if let (Printed::Verdict { cliff, .. }, Ok((schedule, _))) = (printed, &read) {
            problems.extend(schedule::outlook(schedule, cliff));
        }
        told.push_str(&in_full(&problems, sources, shown));
        let home = name_of(tables, sources);
        let _ = writeln!(
            told,
            "{home}: {}\n",
            verdict(read.as_ref().ok().map(|(schedule, _)| schedule), &problems)
        );
        standing.extend(read.ok().map(|(schedule, _)| schedule));
    }
    if groups.is_empty() {
        told.push_str(&in_full(&[no_tables()], sources, shown));
    }
    told.push_str(&in_full(&schedule::editions(&standing), sources, shown));
    match printed {
        Printed::Verdict { .. } => out.write_all(told.as_bytes())?,
        Printed::Tables => {
            aside.write_all(told.as_bytes())?;
            let tables: Vec<String> =
                standing.iter().map(|schedule| terms::text(schedule, sources)).collect();
            out.write_all(tables.join("\n\n").as_bytes())?;
        }
        Printed::Data => {
            aside.write_all(told.as_bytes())?;
            let data: Vec<_> = standing.iter().map(|schedule| terms::data(schedule, sources)).collect();
            writeln!(out, "{}", serde_json::to_string_pretty(&data)?)?;
        }
    }
    let all_opened = worst(&opened.problems) < Some(Severity::Error);
    Ok(if groups.is_empty() {
        Ended::Nothing
    } else if standing.len() < groups.len() || !all_opened {
        Ended::Incomplete
    } else {
        Ended::Done
    })
}

/// Problems in full, a blank line after each: every error and question, of warnings and notes the first so many of each
/// kind, the others counted.
fn in_full(problems: &[Problem], sources: &Sources, first: usize) -> String {
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    let mut text = String::new();
    for problem in problems {
        let seen = kinds.entry(problem.code.id).or_default();
        *seen += 1;
        if *seen <= first || problem.severity() > Severity::Warning {
            text.push_str(&render_text(problem, sources));
            text.push('\n');
        }
    }
    let left_out =
        problems.iter().map(|problem| problem.code).filter(|code| code.severity <= Severity::Warning);
    let mut told: Vec<&str> = Vec::new();
    for code in left_out {
        let seen = kinds.get(code.id).copied().unwrap_or(0);
        if seen > first && !told.contains(&code.id) {
            told.push(code.id);
            let _ = writeln!(text, "and {} more {}: --all prints them\n", seen - first, code.id);
        }
    }
    text
}

/// What a schedule is called in a verdict: its workbook or folder; the file itself where there is but one.
fn name_of<'s>(tables: &[&Table<'_>], sources: &'s Sources) -> &'s str {
    let files: BTreeSet<&str> =
        tables.iter().map(|table| sources.get(table.sheet.source).file.as_str()).collect();
    match (files.first(), tables.first()) {
        (Some(only), _) if files.len() == 1 => only,
        (_, Some(table)) => match schedule::home(sources.get(table.sheet.source)) {
            "" => ".",
            home => home,
        },
        _ => "",
    }
}

/// One line: `Name, edition 2 stands; 2 warnings, 1 note`.
fn verdict(schedule: Option<&Schedule>, problems: &[Problem]) -> String {
    let stands = match schedule {
        Some(schedule) => {
            format!("{}, edition {} stands", schedule.terms.name.value, schedule.terms.edition.value)
        }
        None => "the schedule does not stand".to_owned(),
    };
    let counted: Vec<String> = [Severity::Error, Severity::Question, Severity::Warning, Severity::Note]
        .into_iter()
        .map(|severity| (severity, problems.iter().filter(|problem| problem.severity() == severity).count()))
        .filter(|(_, number)| *number > 0)
        .map(|(severity, number)| format!("{number} {severity}{}", if number == 1 { "" } else { "s" }))
        .collect();
    if counted.is_empty() {
        format!("{stands}; nothing to say about it")
    } else {
        format!("{stands}; {}", counted.join(", "))
    }
}

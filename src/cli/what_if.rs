use super::moved_screen::moved_screen;
use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive_paths};
use super::screen::block;
use super::terminal;
use crate::batch::{self, Options, Shift};
use crate::problem::catalogue::output;
use crate::problem::{Problem, visible};
use crate::quantity::{Decimal, DecimalMark, parse_decimal};
use crate::read;
use crate::report::moved::{MovedBatch, edition_words};
use crate::report::run_record::FORMAT;
use crate::schedule::{self, Asked, Schedule};
use crate::table::{Form, Table, recognise};
use clap::Args;
use serde_json::json;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Assess every claim as it is and once more by other terms, and say what moves.
///
/// Nothing is written. A term is named as the schedule names it; what it is changed to is checked like any value of a
/// schedule. Several changes hold together.
#[derive(Debug, Args)]
pub struct WhatIfArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Another value of a term, such as "mixed sizes=largest present". Without a value the term is taken away.
    #[arg(long, value_name = "TERM=VALUE", value_parser = term)]
    term: Vec<Asked>,

    /// Another labour rate per hour in the schedule's currency, such as "paintless=88.50".
    #[arg(long, value_name = "CLASS=AMOUNT", value_parser = labour)]
    labour: Vec<Asked>,

    /// Another tax rate in percent, such as "parts=19".
    #[arg(long, value_name = "ON=PERCENT", value_parser = tax)]
    tax: Vec<Asked>,

    /// Only in the schedule of this name; without it in all of them.
    #[arg(long, value_name = "SCHEDULE")]
    only: Option<String>,

    /// Another edition, whatever its dates: a workbook, or a folder of CSV files. It takes the place of the schedule that
    /// holds, for the insurers that it is meant for.
    #[arg(long, value_name = "PATH")]
    instead: Vec<PathBuf>,

    /// Print every claim as CSV.
    #[arg(long, conflicts_with = "json")]
    csv: bool,

    /// Print everything as JSON, for programs.
    #[arg(long)]
    json: bool,
}

fn split(text: &str) -> Result<(String, String), String> {
    let (name, value) = text.split_once('=').ok_or("write a name, an equals sign and a value")?;
    match name.trim() {
        "" => Err("write a name before the equals sign".to_owned()),
        name => Ok((name.to_owned(), value.trim().to_owned())),
    }
}

fn number(text: &str) -> Result<Decimal, String> {
    let plain = text.strip_suffix('%').unwrap_or(text).trim_end();
    parse_decimal(plain, DecimalMark::Point).map_err(|_| format!("{text} is no number such as 88.50"))
}

fn term(text: &str) -> Result<Asked, String> {
    split(text).map(|(name, value)| Asked::Term { name, value })
}

fn labour(text: &str) -> Result<Asked, String> {
    let (class, amount) = split(text)?;
    Ok(Asked::Labour { class, per_hour: number(&amount)? })
}

fn tax(text: &str) -> Result<Asked, String> {
    let (on, percent) = split(text)?;
    Ok(Asked::Tax { on, percent: number(&percent)? })
}

impl WhatIfArgs {
    fn asked(&self) -> Vec<Asked> {
        self.term.iter().chain(&self.labour).chain(&self.tax).cloned().collect()
    }

    /// What was asked for, as it was typed.
    fn asked_words(&self) -> Vec<String> {
        let mut said: Vec<String> = self.asked().iter().map(words).collect();
        if let Some(only) = &self.only {
            said.push(format!("only in {only}"));
        }
        said.extend(self.instead.iter().map(|path| format!("instead: {}", path.display())));
        said
    }
}

fn words(asked: &Asked) -> String {
    match asked {
        Asked::Term { name, value } if value.is_empty() => format!("without the term {name}"),
        Asked::Term { name, value } => format!("{name} = {value}"),
        Asked::Labour { class, per_hour } => format!("labour {class} = {per_hour} per hour"),
        Asked::Tax { on, percent } => format!("tax on {on} = {percent} %"),
    }
}

/// Runs it.
pub fn run(args: &WhatIfArgs) -> anyhow::Result<Ended> {
    let asked = args.asked();
    if asked.is_empty() && args.instead.is_empty() {
        return super::nothing_done(&output::nothing_asked(), None, args.json);
    }
    let (mut received, instead) = receive(args);
    let all = std::mem::take(&mut received.schedules);
    let (mut others, first) = all.into_iter().partition(|schedule| is_of(schedule, &instead));
    received.schedules = first;
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    if args.instead.is_empty() {
        others.clone_from(&received.schedules);
    } else if others.is_empty() {
        return super::nothing_done(&output::no_schedule(), Some(&received), args.json);
    }
    if let Err(problem) = ask(args, &asked, &mut others, &mut received) {
        return super::nothing_done(&problem, Some(&received), args.json);
    }
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let moved = batch::moved(received.intakes(), &received.schedules, &others, batch::Dates::Hold, options);
    let batch = MovedBatch {
        intakes: received.intakes(),
        moved: &moved,
        schedules: &received.schedules,
        others: &others,
    };
    show(args, &batch, &received)?;
    let is_left_out = moved.iter().any(|moved| matches!(moved.shift, Shift::Neither(_)));
    let is_stopped = received.all_problems().any(|problem| problem.severity().stops_the_claim());
    Ok(if is_left_out || is_stopped { Ended::Incomplete } else { Ended::Done })
}

/// Reads everything at once, so that all places refer to one list of sources; and the files of the other edition.
fn receive(args: &WhatIfArgs) -> (Received, BTreeSet<String>) {
    let input = &args.input;
    let paths: Vec<PathBuf> =
        input.paths.iter().chain(&input.schedule).chain(&args.instead).cloned().collect();
    let instead = read::open(&args.instead).files.into_iter().map(|file| file.path).collect();
    (receive_paths(&paths), instead)
}

fn is_of(schedule: &Schedule, files: &BTreeSet<String>) -> bool {
    schedule.files.iter().any(|file| files.contains(&file.path))
}

/// Reads the schedules that are meant once more with what was asked for.
fn ask(
    args: &WhatIfArgs,
    asked: &[Asked],
    others: &mut [Schedule],
    received: &mut Received,
) -> Result<(), Problem> {
    let name = args.only.as_deref().map(crate::claim::words::folded);
    let is_meant = |schedule: &Schedule| {
        name.as_ref().is_none_or(|name| crate::claim::words::folded(&schedule.terms.name.value) == *name)
    };
    let meant: Vec<usize> = (0..others.len()).filter(|index| is_meant(&others[*index])).collect();
    if meant.is_empty() {
        let names: Vec<&str> = others.iter().map(|schedule| schedule.terms.name.value.as_str()).collect();
        return Err(output::no_such_schedule(args.only.as_deref().unwrap_or_default(), &names));
    }
    let currencies: BTreeSet<_> = meant.iter().map(|index| others[*index].terms.currency.value).collect();
    if let (true, Some(amount)) = (currencies.len() > 1, asked.iter().find(|asked| asked.is_amount())) {
        let codes: Vec<&str> = currencies.iter().map(|currency| currency.code()).collect();
        return Err(output::amount_in_currencies(&words(amount), &codes));
    }
    if asked.is_empty() {
        return Ok(());
    }
    let forms: Vec<&'static Form> = read::forms().iter().chain(schedule::forms()).copied().collect();
    let tables: Vec<Table<'_>> =
        received.sheets.iter().flat_map(|sheet| recognise(sheet, &forms).tables).collect();
    let groups = schedule::groups(&tables, &received.sources);
    for index in meant {
        let home = others[index].place.source;
        let Some(tables) = groups.iter().find(|tables| tables.iter().any(|it| it.sheet.source == home))
        else {
            continue;
        };
        match schedule::read_asked(tables, &received.files, &received.sources, asked) {
            Ok((schedule, _)) => others[index] = schedule,
            Err(mut problems) => {
                let name = edition_words(&others[index]);
                problems.retain(|problem| problem.severity().stops_the_claim());
                received.problems = problems;
                return Err(output::asked_does_not_stand(&name, &args.asked_words().join("; ")));
            }
        }
    }
    Ok(())
}

fn show(args: &WhatIfArgs, batch: &MovedBatch<'_>, received: &Received) -> anyhow::Result<()> {
    if args.json {
        let mut data = json!({ "format": FORMAT, "asked": args.asked_words() });
        if let (Some(all), serde_json::Value::Object(moved)) = (data.as_object_mut(), batch.data()) {
            all.extend(moved);
        }
        return terminal::print(&(serde_json::to_string_pretty(&data)? + "\n"));
    }
    super::tell_stopping(received);
    if args.csv {
        return terminal::print_bytes(&batch.csv()?);
    }
    let mut text = String::new();
    let asked: Vec<String> = args.asked_words().iter().map(|line| visible(line)).collect();
    block(&mut text, "What if", &asked, terminal::width());
    moved_screen(&mut text, batch, ["as it is", "then"], terminal::width());
    terminal::print(&text)
}

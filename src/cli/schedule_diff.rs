use super::aligned::aligned;
use super::moved_screen::moved_screen;
use super::outcome::Ended;
use super::reception::{Received, day, receive_paths};
use super::screen::{block, so_many};
use super::terminal;
use crate::batch::{self, Dates, Options, Shift};
use crate::problem::{Place, Problem, Sources, catalogue::output, visible};
use crate::quantity::Date;
use crate::read;
use crate::report::csv::CsvTable;
use crate::report::moved::{MovedBatch, edition_words};
use crate::report::run_record::FORMAT;
use crate::report::tables::Field;
use crate::report::terms::difference::{Change, changes};
use crate::schedule::Schedule;
use clap::Args;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What differs between two editions, and what that moves on a batch.
#[derive(Debug, Args)]
pub struct DiffArgs {
    /// The first edition: a workbook, or a folder of CSV files.
    #[arg(value_name = "A")]
    first: PathBuf,

    /// The second edition.
    #[arg(value_name = "B")]
    second: PathBuf,

    /// Claims: each is assessed by both editions, whatever their dates, if they are meant for its insurer.
    #[arg(long, value_name = "PATH", num_args = 1..)]
    on: Vec<PathBuf>,

    /// The date for claims that carry neither a date of loss nor one of inspection, as YYYY-MM-DD.
    #[arg(long, value_name = "DATE", value_parser = day, requires = "on")]
    date: Option<Date>,

    /// Print as CSV: what differs, or, with --on, every claim.
    #[arg(long, conflicts_with = "json")]
    csv: bool,

    /// Print everything as JSON, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &DiffArgs) -> anyhow::Result<Ended> {
    let paths: Vec<PathBuf> = [&args.first, &args.second].into_iter().chain(&args.on).cloned().collect();
    let received = receive_paths(&paths);
    let both = edition(&args.first, &received)
        .and_then(|first| edition(&args.second, &received).map(|second| [first, second]));
    let [first, second] = match both {
        Ok(both) => both,
        Err(problem) => return super::nothing_done(&problem, Some(&received), args.json),
    };
    let changes = changes(first, second);
    let (first, second) = (std::slice::from_ref(first), std::slice::from_ref(second));
    if args.on.is_empty() {
        show(args, &changes, (&first[0], &second[0]), None, &received.sources)?;
        return Ok(Ended::Done);
    }
    if received.intakes().is_empty() {
        return super::nothing_done(&output::no_claims(), Some(&received), args.json);
    }
    let options = Options { run_date: args.date, threads: None, working: false };
    let moved = batch::moved(received.intakes(), first, second, Dates::Aside, options);
    let batch = MovedBatch { intakes: received.intakes(), moved: &moved, schedules: first, others: second };
    if !args.json {
        super::tell_stopping(&received);
    }
    show(args, &changes, (&first[0], &second[0]), Some(&batch), &received.sources)?;
    let is_left_out = moved.iter().any(|moved| matches!(moved.shift, Shift::Neither(_)));
    let is_stopped = received.all_problems().any(|problem| problem.severity().stops_the_claim());
    Ok(if is_left_out || is_stopped { Ended::Incomplete } else { Ended::Done })
}

/// The one schedule that stands at a path.
fn edition<'r>(path: &Path, received: &'r Received) -> Result<&'r Schedule, Problem> {
    let files: BTreeSet<String> =
        read::open(&[path.to_owned()]).files.into_iter().map(|file| file.path).collect();
    let here = |schedule: &&Schedule| schedule.files.iter().any(|file| files.contains(&file.path));
    let all: Vec<&Schedule> = received.schedules.iter().filter(here).collect();
    if let [only] = all[..] {
        return Ok(only);
    }
    let names: Vec<String> = all.iter().map(|schedule| edition_words(schedule)).collect();
    Err(output::not_one_edition(&path.display().to_string(), &names))
}

fn show(
    args: &DiffArgs,
    changes: &[Change],
    (first, second): (&Schedule, &Schedule),
    batch: Option<&MovedBatch<'_>>,
    sources: &Sources,
) -> anyhow::Result<()> {
    if args.json {
        let mut data = json!({
            "format": FORMAT,
            "first": { "schedule": edition_words(first), "sha256": first.digest },
            "second": { "schedule": edition_words(second), "sha256": second.digest },
            "changes": changes.iter().map(|change| data(change, sources)).collect::<Vec<_>>(),
        });
        if let (Some(all), Some(Value::Object(moved))) = (data.as_object_mut(), batch.map(MovedBatch::data)) {
            all.extend(moved);
        }
        return terminal::print(&(serde_json::to_string_pretty(&data)? + "\n"));
    }
    if args.csv {
        let bytes = match batch {
            Some(batch) => batch.csv()?,
            None => csv(changes, sources)?,
        };
        return terminal::print_bytes(&bytes);
    }
    let width = terminal::width();
    let mut text = String::new();
    block(&mut text, "First", &[visible(&edition_words(first))], width);
    block(&mut text, "Second", &[visible(&edition_words(second))], width);
    let lines = match changes.len() {
        0 => vec!["nothing".to_owned()],
        many => vec![so_many(many as u64, "difference")],
    };
    block(&mut text, "Differs", &lines, width);
    let mut rest = changes;
    while let Some(change) = rest.first() {
        let of_table = rest.iter().take_while(|other| other.table == change.table).count();
        let (table, others) = rest.split_at(of_table);
        text.push('\n');
        text.push_str(&visible(&titled(table, sources)));
        text.push('\n');
        for line in aligned(&table.iter().map(row).collect::<Vec<_>>(), &[]) {
            for part in super::wrap::wrapped(&format!("  {line}"), width) {
                text.push_str(&part);
                text.push('\n');
            }
        }
        rest = others;
    }
    if let Some(batch) = batch {
        text.push('\n');
        moved_screen(&mut text, batch, ["first", "second"], width);
    }
    terminal::print(&text)
}

/// A table's name with the sheets or files that its cells stand in, if each edition has one.
fn titled(table: &[Change], sources: &Sources) -> String {
    let one = |of: fn(&Change) -> Option<Place>| {
        let all: BTreeSet<_> = table.iter().filter_map(of).map(|place| place.source).collect();
        if all.len() == 1 { all.first().map(|source| sources.short(Place::whole(*source))) } else { None }
    };
    let homes = [one(|change| change.before.1), one(|change| change.after.1)];
    let homes: Vec<String> = homes.into_iter().flatten().collect();
    let name = table.first().map_or("", |change| change.table.as_str());
    if homes.is_empty() { name.to_owned() } else { format!("{name}  ({})", homes.join(" -> ")) }
}

/// A side of a change with its cell in brackets.
fn side((said, place): &(String, Option<Place>)) -> String {
    let cell = place.map_or_else(String::new, |place| format!(" ({})", Sources::position(place)));
    if said.is_empty() && cell.is_empty() { String::new() } else { format!("{said}{cell}") }
}

fn row(change: &Change) -> Vec<String> {
    let said = match (change.before.0.is_empty(), change.after.0.is_empty()) {
        (false, false) => format!("{} -> {}", side(&change.before), side(&change.after)),
        (true, _) => side(&change.after),
        (_, true) => side(&change.before),
    };
    [change.became.word(), &change.row, &change.column, &said].map(visible).to_vec()
}

fn place(place: Option<Place>, sources: &Sources) -> String {
    place.map_or_else(String::new, |place| sources.short(place))
}

fn data(change: &Change, sources: &Sources) -> Value {
    let side =
        |(said, at): &(String, Option<Place>)| json!({ "says": said, "at": at.map(|at| sources.short(at)) });
    json!({
        "table": change.table,
        "row": change.row,
        "column": change.column,
        "became": change.became.word(),
        "first": side(&change.before),
        "second": side(&change.after),
    })
}

fn csv(changes: &[Change], sources: &Sources) -> std::io::Result<Vec<u8>> {
    let headings = ["table", "row", "column", "became", "first says", "first at", "second says", "second at"];
    let mut table = CsvTable::headed(Vec::new(), headings)?;
    for change in changes {
        table.row(&[
            Field::text(&change.table),
            Field::text(&change.row),
            Field::text(&change.column),
            Field::text(change.became.word()),
            Field::text(&change.before.0),
            Field::text(place(change.before.1, sources)),
            Field::text(&change.after.0),
            Field::text(place(change.after.1, sources)),
        ])?;
    }
    Ok(table.finish())
}

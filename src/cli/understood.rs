use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive};
use super::terminal;
use crate::problem::{Sources, catalogue::output, visible};
use crate::read::{self, Understood};
use crate::report::workbook::map::{MapRow, write};
use clap::Args;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Show what every sheet, heading and row was taken for, and every cell that was not read.
///
/// Nothing is assessed. A column map says what cannot be guessed: a table with the columns `heading` (as it stands in your
/// file), `word` (one that stands in cells below it, if it is about a word) and `means`. Kept beside the files it is read
/// with them.
#[derive(Debug, Args)]
pub struct UnderstoodArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Write what was understood as a column map, ready to edit: an XLSX workbook.
    #[arg(long, value_name = "FILE")]
    map: Option<PathBuf>,
}

/// Runs it.
pub fn run(args: &UnderstoodArgs) -> anyhow::Result<Ended> {
    let received = receive(&args.input);
    for problem in received.all_problems() {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
    let (tables, unread) = received.with_tables(|tables| read::understood(tables, &received.sheets));
    let mut out = String::new();
    for table in &tables {
        shown(table, &received.sources, &mut out);
    }
    if !unread.is_empty() {
        let _ = writeln!(out, "Not read:");
        for (place, text) in &unread {
            let _ = writeln!(out, "  {}  {}", received.sources.short(*place), visible(text));
        }
    }
    if tables.is_empty() {
        return super::nothing_done(&output::no_claims(), None, false);
    }
    terminal::print(&out)?;
    if let Some(path) = &args.map {
        return save(path, &rows(&tables, &received), "rule", "Column map");
    }
    Ok(Ended::Done)
}

/// Writes a column map where it was asked for.
pub fn save(path: &Path, rows: &[MapRow], says: &str, title: &str) -> anyhow::Result<Ended> {
    let written = write(rows, says, title).and_then(|bytes| fs::write(path, bytes));
    match written {
        Ok(()) => {
            terminal::tell(&format!("written: {}\n", path.display()));
            Ok(Ended::Done)
        }
        Err(error) => super::nothing_done(&output::not_written(&path.to_string_lossy(), &error), None, false),
    }
}

fn shown(table: &Understood, sources: &Sources, out: &mut String) {
    let count = |count: usize, one: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {one}s"),
    };
    let mut rows = vec![count(table.data, "row")];
    if table.totals > 0 {
        rows.push(format!("{} of totals", count(table.totals, "row")));
    }
    if table.above > 0 {
        rows.push(format!("{} above it read as on a form", count(table.above, "row")));
    }
    let _ = writeln!(out, "{}: {}, {}", sources.short(table.place), table.form, rows.join(", "));
    let width = table.columns.iter().map(|column| column.heading.chars().count()).max().unwrap_or(0).min(32);
    let meaning = |means: &Option<String>| means.clone().unwrap_or_else(|| "not used".to_owned());
    let wide = table.columns.iter().map(|column| meaning(&column.means).chars().count()).max().unwrap_or(0);
    for column in &table.columns {
        let cell = Sources::position(column.place);
        let means = meaning(&column.means);
        let heading = visible(&column.heading);
        let _ = writeln!(out, "  {cell:<5} {heading:<width$}  {means:<wide$}  ({})", column.rule);
    }
    out.push('\n');
}

/// The map of what was understood: each heading once for each heading row.
fn rows(tables: &[Understood], received: &Received) -> Vec<MapRow> {
    let mut rows: Vec<MapRow> = Vec::new();
    for table in tables {
        for column in &table.columns {
            let means = match &column.means {
                Some(means) => means.strip_prefix("size ").unwrap_or(means).to_owned(),
                None => String::new(),
            };
            let row = MapRow {
                says: column.rule.to_owned(),
                place: received.sources.short(column.place),
                heading: column.heading.clone(),
                means,
                beside: table.shape.clone(),
                ..MapRow::default()
            };
            let is_same = |other: &MapRow| (&other.heading, &other.beside) == (&row.heading, &row.beside);
            if !rows.iter().any(is_same) {
                rows.push(row);
            }
        }
    }
    rows
}

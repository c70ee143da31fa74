//! What was understood of a schedule: its tables again, each value with the cell it came from. As aligned plain text for
//! a terminal, and as data.

pub mod difference;
mod sections;

use crate::problem::{Place, SourceId, Sources};
use crate::schedule::Schedule;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A value as it was understood, in words, and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Shown {
    text: String,
    place: Option<Place>,
}

impl Shown {
    fn at(text: impl Into<String>, place: Place) -> Self {
        Self { text: text.into(), place: Some(place) }
    }

    fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), place: None }
    }

    /// Nothing written, or what was written with its cell.
    fn maybe<T: ToString>(written: Option<&crate::problem::Located<T>>) -> Self {
        written.map_or_else(|| Self::plain(""), |written| Self::at(written.value.to_string(), written.place))
    }
}

/// One table of what was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Section {
    title: String,
    headings: Vec<String>,
    rows: Vec<Vec<Shown>>,
}

impl Section {
    fn new(title: impl Into<String>, headings: &[&str]) -> Self {
        let headings = headings.iter().map(|heading| (*heading).to_owned()).collect();
        Self { title: title.into(), headings, rows: Vec::new() }
    }

    /// Takes out a column in which nothing is said.
    fn without(&mut self, heading: &str) {
        if let Some(index) = self.headings.iter().position(|own| own == heading) {
            self.headings.remove(index);
            for row in &mut self.rows {
                row.remove(index);
            }
        }
    }

    /// The one sheet or file that all its values come from, if it is one.
    fn source(&self) -> Option<SourceId> {
        let mut sources =
            self.rows.iter().flatten().filter_map(|shown| shown.place).map(|place| place.source);
        let first = sources.next()?;
        sources.all(|source| source == first).then_some(first)
    }
}

/// The schedule as aligned plain tables. A table from one sheet names it once, and its values their cells.
pub fn text(schedule: &Schedule, sources: &Sources) -> String {
    let terms = &schedule.terms;
    let mut out = format!("{}, edition {}\n", terms.name.value, terms.edition.value);
    let _ = writeln!(out, "SHA-256 {}", schedule.digest);
    for file in &schedule.files {
        let _ = writeln!(out, "  {}  {}", file.sha256, file.path);
    }
    for section in sections::of(schedule) {
        out.push('\n');
        write_section(&mut out, &section, sources);
    }
    out
}

fn write_section(out: &mut String, section: &Section, sources: &Sources) {
    let one = section.source();
    match one {
        Some(source) => {
            let _ = writeln!(out, "{}  ({})", section.title, sources.describe(Place::whole(source)));
        }
        None => {
            let _ = writeln!(out, "{}", section.title);
        }
    }
    let cell = |place: Place| if one.is_some() { Sources::position(place) } else { sources.short(place) };
    let rows: Vec<Vec<(String, String)>> = section
        .rows
        .iter()
        .map(|row| {
            row.iter().map(|shown| (shown.text.clone(), shown.place.map_or(String::new(), cell))).collect()
        })
        .collect();
    let widths: Vec<Width> = (0..section.headings.len())
        .map(|column| Width::of(&section.headings[column], &rows, column))
        .collect();
    let line = |cells: Vec<String>| format!("  {}", cells.join("   ").trim_end());
    let _ =
        writeln!(out, "{}", line(widths.iter().zip(&section.headings).map(|(w, h)| w.heading(h)).collect()));
    for row in &rows {
        let _ =
            writeln!(out, "{}", line(widths.iter().zip(row).map(|(width, cell)| width.cell(cell)).collect()));
    }
}

/// How wide a column is: its values, set on their decimal mark where all of them are numbers, and the cells beside them.
struct Width {
    /// Characters before the decimal mark, of numbers.
    whole_digits: usize,
    text: usize,
    cell: usize,
    all: usize,
    is_numbers: bool,
}

impl Width {
    fn of(heading: &str, rows: &[Vec<(String, String)>], column: usize) -> Self {
        let cells = || rows.iter().filter_map(|row| row.get(column));
        let is_numbers =
            cells().all(|(text, _)| is_number(text)) && cells().any(|(text, _)| !text.is_empty());
        let mut width = Self { whole_digits: 0, text: 0, cell: 0, all: 0, is_numbers };
        for (text, _) in cells() {
            width.whole_digits = width.whole_digits.max(whole_digits(text));
        }
        for (text, cell) in cells() {
            width.text = width.text.max(width.set(text).chars().count());
            width.cell = width.cell.max(cell.chars().count());
        }
        let own = if width.cell == 0 { width.text } else { width.text + 1 + width.cell };
        width.all = own.max(heading.chars().count());
        width
    }

    /// A value with its decimal mark in place.
    fn set(&self, text: &str) -> String {
        let before = if self.is_numbers { self.whole_digits - whole_digits(text) } else { 0 };
        format!("{}{text}", " ".repeat(before))
    }

    fn heading(&self, heading: &str) -> String {
        format!("{heading:<width$}", width = self.all)
    }

    fn cell(&self, (text, cell): &(String, String)) -> String {
        let text = format!("{:<width$}", self.set(text), width = self.text);
        let both = if cell.is_empty() { text } else { format!("{text} {cell}") };
        format!("{both:<width$}", width = self.all)
    }
}

/// A number, with a unit behind it or not; or what stands for one that is absent.
fn is_number(text: &str) -> bool {
    let behind = text.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '-' | '.'));
    matches!(text, "" | "-" | "open")
        || behind.len() < text.len()
            && (behind.is_empty() || behind.starts_with(' '))
            && !text.trim_start_matches('-').contains('-')
}

/// Characters before the decimal mark or the unit.
fn whole_digits(text: &str) -> usize {
    text.find(|c: char| !(c.is_ascii_digit() || c == '-')).unwrap_or(text.len())
}

/// The schedule as data: its tables, each value as text with the place it came from.
pub fn data(schedule: &Schedule, sources: &Sources) -> Value {
    let tables: Vec<Value> = sections::of(schedule)
        .into_iter()
        .map(|section| {
            let rows: Vec<Vec<Value>> = section
                .rows
                .iter()
                .map(|row| {
                    let value = |shown: &Shown| {
                        json!({ "value": shown.text, "cell": shown.place.map(|place| sources.short(place)) })
                    };
                    row.iter().map(value).collect()
                })
                .collect();
            json!({ "table": section.title, "columns": section.headings, "rows": rows })
        })
        .collect();
    let files: Vec<Value> = schedule
        .files
        .iter()
        .map(|file| json!({ "path": file.path, "bytes": file.bytes, "sha256": file.sha256 }))
        .collect();
    json!({
        "schedule": schedule.terms.name.value,
        "edition": schedule.terms.edition.value,
        "sha256": schedule.digest,
        "files": files,
        "tables": tables,
    })
}

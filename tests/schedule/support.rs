//! A schedule as CSV tables by name, small changes to it, and what comes of reading it.

use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;
use stipple::claim::InputFile;
use stipple::problem::{Place, Problem, Severity, Source, SourceId, SourceKind, Sources};
use stipple::quantity::DecimalMark;
use stipple::read::Opened;
use stipple::schedule::{self, Schedule};
use stipple::table::{Cell, Row, Sheet, Table, Value, recognise};

/// The page whose example is the starting point of every test.
const PAGE: &str = include_str!("../../src/schedule/README.md");

/// Tables by name, each as CSV text with commas.
#[derive(Debug, Clone)]
pub struct Tables(pub Vec<(String, String)>);

/// What reading gave.
pub struct Outcome {
    pub schedule: Option<Schedule>,
    pub problems: Vec<Problem>,
    pub sources: Sources,
}

impl Tables {
    /// The blocks of the page that are marked as tables of its example.
    pub fn of_the_page() -> Self {
        let mut tables = Vec::new();
        let mut lines = PAGE.lines();
        while let Some(line) = lines.next() {
            if let Some(name) = line.strip_prefix("```csv ") {
                let text: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
                tables.push((name.to_owned(), text.join("\n")));
            }
        }
        Self(tables)
    }

    /// The same with one text in one table replaced; it has to be there exactly once.
    pub fn with(mut self, table: &str, from: &str, to: &str) -> Self {
        let text = self.table(table);
        assert_eq!(text.matches(from).count(), 1, "{from:?} in {table}:\n{text}");
        *text = text.replace(from, to);
        self
    }

    /// The same with rows added to a table, or with a new table.
    pub fn plus(mut self, table: &str, rows: &str) -> Self {
        match self.0.iter_mut().find(|(name, _)| name == table) {
            Some((_, text)) => {
                text.push('\n');
                text.push_str(rows);
            }
            None => self.0.push((table.to_owned(), rows.to_owned())),
        }
        self
    }

    /// The same without a table.
    pub fn without(mut self, table: &str) -> Self {
        self.table(table);
        self.0.retain(|(name, _)| name != table);
        self
    }

    /// The same with another text for a table.
    pub fn instead(mut self, table: &str, text: &str) -> Self {
        text.clone_into(self.table(table));
        self
    }

    fn table(&mut self, table: &str) -> &mut String {
        let found = self.0.iter_mut().find(|(name, _)| name == table);
        found.map_or_else(|| panic!("no table {table}"), |(_, text)| text)
    }

    /// The tables as files of one folder.
    pub fn opened(&self) -> Opened {
        let mut opened = Opened::default();
        for (name, text) in &self.0 {
            let file = format!("example/{name}.csv");
            let source = opened.sources.add(Source {
                file: file.clone(),
                sheet: String::new(),
                kind: SourceKind::Text,
            });
            opened.sheets.push(sheet(source, text, DecimalMark::Point));
            opened.files.push(input_file(&file, text.as_bytes()));
        }
        opened
    }

    /// Reads them as one schedule.
    pub fn read(&self) -> Outcome {
        read(self.opened())
    }
}

/// A file with its digest.
pub fn input_file(path: &str, bytes: &[u8]) -> InputFile {
    InputFile { path: path.to_owned(), bytes: bytes.len() as u64, sha256: sha256(bytes) }
}

/// A digest in lower-case hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    let mut text = String::new();
    for byte in Sha256::digest(bytes) {
        write!(text, "{byte:02x}").unwrap();
    }
    text
}

/// Reads everything that was opened as one schedule.
pub fn read(opened: Opened) -> Outcome {
    let recognised: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, schedule::forms()).tables).collect();
    let tables: Vec<&Table<'_>> = recognised.iter().collect();
    let (schedule, problems) = match schedule::read(&tables, &opened.files, &opened.sources) {
        Ok((schedule, problems)) => (Some(schedule), problems),
        Err(problems) => (None, problems),
    };
    Outcome { schedule, problems, sources: opened.sources }
}

/// A sheet of CSV text. Fields are text, as they are in a file; line numbers are rows.
pub fn sheet(source: SourceId, text: &str, mark: DecimalMark) -> Sheet {
    let separator = if mark == DecimalMark::Comma { b';' } else { b',' };
    let mut rows = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let mut reader =
            csv::ReaderBuilder::new().has_headers(false).delimiter(separator).from_reader(line.as_bytes());
        let Some(record) = reader.records().next() else { continue };
        let (record, number) = (record.unwrap(), u32::try_from(index + 1).unwrap());
        let cells: Vec<Cell> = record
            .iter()
            .enumerate()
            .filter(|(_, field)| !field.trim().is_empty())
            .map(|(index, field)| {
                let column = u16::try_from(index + 1).unwrap();
                Cell {
                    place: Place::cell(source, number, column),
                    column,
                    value: Value::Text(field.trim().to_owned()),
                    spread: false,
                }
            })
            .collect();
        if !cells.is_empty() {
            rows.push(Row { number, cells });
        }
    }
    Sheet::new(source, rows, Vec::new(), mark)
}

impl Outcome {
    /// The schedule, which has to stand.
    pub fn stands(&self) -> &Schedule {
        self.schedule.as_ref().unwrap_or_else(|| panic!("does not stand:\n{}", self.text()))
    }

    /// Every problem in full.
    pub fn text(&self) -> String {
        self.problems
            .iter()
            .map(|problem| stipple::problem::render_text(problem, &self.sources))
            .collect::<Vec<_>>()
            .join("\n")
    }

    /// One line for each problem: its code, its place, its sentence.
    pub fn lines(&self) -> Vec<String> {
        self.problems
            .iter()
            .map(|problem| {
                let place = problem.place.map_or(String::new(), |place| self.sources.short(place));
                format!("{} | {} | {}", problem.code.id, place.replace("example/", ""), problem.message)
            })
            .collect()
    }

    /// Asserts that this is what is wrong, and nothing else, and that it keeps the schedule from standing exactly when it
    /// is an error.
    #[track_caller]
    pub fn says(&self, expected: &[&str]) {
        assert_eq!(self.lines(), expected, "\n{}", self.text());
        let has_error = self.problems.iter().any(|problem| problem.severity() >= Severity::Error);
        assert_eq!(self.schedule.is_none(), has_error, "a schedule stands unless there is an error");
    }

    /// The help of the only problem.
    #[track_caller]
    pub fn help(&self) -> &str {
        assert_eq!(self.problems.len(), 1, "{}", self.text());
        self.problems[0].help.as_deref().unwrap_or_default()
    }
}

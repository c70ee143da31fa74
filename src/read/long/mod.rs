//! Long text files whose rows need not be held: surveyed once, then read again some claims at a time.
//!
//! The survey digests a file, finds its one table, and notes where each claim's rows stand. It takes a file only where
//! every row says by itself what it is: it carries the key, is data wherever it stands, and leaves nothing to the rows
//! around it. Then the rows of some claims, gathered by themselves, give what all rows would give for these claims.
//! Every other file is held whole, and so are workbooks; claims that have a row in any of those are gathered together
//! with them. Where something speaks of all claims, such as a column map, everything is held.

mod claims;
mod plan;
mod scan;
mod survey;
mod whole;

pub use claims::Claims;
pub use plan::{Longs, plan};
pub(super) use survey::{Surveyed, may_be_long, survey};
pub use whole::for_all;
pub(super) use whole::speaks_of_all;

use super::csv;
use super::file::Found;
use crate::problem::{Place, Problem, SourceId, catalogue::file as say};
use crate::table::{Form, HeadedColumn, Row, Sheet, Table};
use std::fs::{self, File};
use std::io::{Read, Seek, SeekFrom};

/// Rows of one claim that stand together in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Run {
    /// The claim's number among those of long files.
    job: u32,
    /// The line of its first row.
    line: u32,
    /// Bytes before its first row.
    offset: u64,
    /// Bytes of its rows.
    bytes: u32,
}

/// A long file with one table of claims.
#[derive(Debug)]
pub struct Long {
    found: Found,
    about: fs::Metadata,
    separator: u8,
    /// Its rows down to the heading.
    head: Sheet,
    form: &'static Form,
    heading_row: u32,
    columns: Vec<HeadedColumn>,
    /// By claim, then as they stand.
    runs: Vec<Run>,
}

impl Long {
    /// What places in it refer to.
    pub fn source(&self) -> SourceId {
        self.head.source
    }

    /// The rows of some claims (by number, ascending) below the file's head, as a sheet.
    fn sheet(&self, jobs: &[u32]) -> Result<Sheet, Problem> {
        let mut runs: Vec<Run> = Vec::with_capacity(jobs.len());
        let mut at = jobs.first().map_or(0, |first| self.runs.partition_point(|run| run.job < *first));
        for job in jobs {
            if self.runs.get(at).is_some_and(|run| run.job < *job) {
                at = self.runs.partition_point(|run| run.job < *job);
            }
            while let Some(run) = self.runs.get(at).filter(|run| run.job == *job) {
                runs.push(*run);
                at += 1;
            }
        }
        let mut sheet = self.head.clone();
        sheet.rows.extend(self.rows(runs)?);
        Ok(sheet)
    }

    /// The rows of some runs, in the order of the file.
    fn rows(&self, mut runs: Vec<Run>) -> Result<Vec<Row>, Problem> {
        runs.sort_unstable_by_key(|run| run.offset);
        let mut rows = Vec::new();
        let unreadable = |error: std::io::Error| say::unreadable(&self.found.shown, &error.to_string());
        let mut file = File::open(&self.found.path).map_err(unreadable)?;
        if !self.is_as_surveyed(&file.metadata().map_err(unreadable)?) {
            return Err(self.changed());
        }
        let mut bytes = Vec::new();
        let mut left = &runs[..];
        while let Some(first) = left.first() {
            // Runs that follow each other are read in one go.
            let mut end = first.offset;
            let together = left.iter().take_while(|run| {
                run.offset == std::mem::replace(&mut end, run.offset + u64::from(run.bytes))
            });
            let together = together.count();
            let last = left[together - 1];
            let length = last.offset + u64::from(last.bytes) - first.offset;
            bytes.resize(usize::try_from(length).unwrap_or(0), 0);
            file.seek(SeekFrom::Start(first.offset)).map_err(unreadable)?;
            file.read_exact(&mut bytes).map_err(unreadable)?;
            let taken = csv::each_record(&bytes, self.separator, first.line, |record| {
                let cells = record.cells(self.head.source);
                if !cells.is_empty() {
                    rows.push(Row { number: record.line, cells });
                }
                true
            });
            taken.map_err(|fault| fault.problem(&self.found.shown, self.head.source))?;
            left = &left[together..];
        }
        Ok(rows)
    }

    /// The table on a sheet of [`Self::sheet`].
    fn table<'s>(&self, sheet: &'s Sheet) -> Table<'s> {
        let below = self.head.rows.len();
        Table {
            sheet,
            form: self.form,
            heading_row: self.heading_row,
            columns: self.columns.clone(),
            rows: &sheet.rows[below..],
            above: &sheet.rows[..below - 1],
        }
    }

    /// The row of a place, read once more; nothing where it cannot be.
    pub fn row(&self, place: Place) -> Option<Row> {
        let is_it = |row: &Row| row.number == place.row;
        if let Some(row) = self.head.rows.iter().find(|row| is_it(row)) {
            return Some(row.clone());
        }
        let run = self.runs.iter().filter(|run| run.line <= place.row).max_by_key(|run| run.line)?;
        self.rows(vec![*run]).ok()?.into_iter().find(is_it)
    }

    /// Whether the file still is what was surveyed, as far as its length and date tell.
    pub fn check(&self) -> Result<(), Problem> {
        let about = fs::metadata(&self.found.path)
            .map_err(|error| say::unreadable(&self.found.shown, &error.to_string()))?;
        if self.is_as_surveyed(&about) { Ok(()) } else { Err(self.changed()) }
    }

    fn is_as_surveyed(&self, about: &fs::Metadata) -> bool {
        about.len() == self.about.len() && about.modified().ok() == self.about.modified().ok()
    }

    fn changed(&self) -> Problem {
        say::changed_meanwhile(&self.found.shown).at(Place::whole(self.head.source))
    }
}

//! From paths to located cells: one file per format, behind one way in.

mod archive;
mod folder;
mod kind;

use super::long::{self, Longs};
use super::{Opened, csv, xlsx};
use crate::claim::InputFile;
use crate::problem::{Place, Problem, Source, SourceKind, catalogue::file as say};
use crate::table::{Form, Sheet, decimal_mark};
pub(super) use folder::Found;
pub use folder::STANDARD_INPUT;
pub(super) use kind::{Kind, of as kind_of};
use rayon::prelude::*;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Bytes of one file that are read at all.
const MOST_BYTES: u64 = 2 << 30;

/// Opens files and folders (sorted by path, hidden files and folders of our own output left out) and reads every
/// sheet, several files at a time. Never fails as a whole: what cannot be read is a problem.
pub fn open(paths: &[PathBuf]) -> Opened {
    let listing = folder::list(paths, None);
    let mut opened = Opened { problems: listing.problems, ..Opened::default() };
    opened.take_all(&listing.files);
    opened
}

/// The same, but for long text files that need not be held: those are surveyed only.
/// `kept` is the file in which standard input, given as `-`, was kept.
pub fn open_for_claims(paths: &[PathBuf], kept: Option<&Path>, forms: &[&'static Form]) -> (Opened, Longs) {
    let listing = folder::list(paths, kept);
    let mut opened = Opened { problems: listing.problems, ..Opened::default() };
    let mut longs = Longs::default();
    let mut taken = 0;
    for (number, found) in listing.files.iter().enumerate() {
        if !long::may_be_long(&found.path) {
            continue;
        }
        opened.take_all(&listing.files[taken..number]);
        taken = number;
        // What cannot be surveyed is read, and told there.
        if let Ok(Some(surveyed)) = long::survey(found, opened.sources.next(), forms)
            && longs.takes(&surveyed)
        {
            opened.sources.add(whole(&found.shown, SourceKind::Text));
            opened.files.push(surveyed.file.clone());
            longs.take(surveyed);
            taken += 1;
        }
    }
    opened.take_all(&listing.files[taken..]);
    (opened, longs)
}

impl Opened {
    /// Reads files on all cores, and takes them in their order.
    fn take_all(&mut self, files: &[Found]) {
        let read = |found: &Found| {
            let mut opened = Self::default();
            if let Err(problem) = take(found, &mut opened) {
                let source = whole(&found.shown, SourceKind::Sheet);
                let place = problem.place.unwrap_or_else(|| Place::whole(opened.sources.add(source)));
                opened.problems.push(problem.at(place));
            }
            opened
        };
        for part in files.par_iter().map(read).collect::<Vec<Self>>() {
            self.append(part);
        }
    }

    /// Adds what was opened by itself: its sources get the numbers after ours.
    fn append(&mut self, mut other: Self) {
        let before = self.sources.next().0;
        let moved = |place: &mut Place| place.source.0 += before;
        for sheet in &mut other.sheets {
            sheet.source.0 += before;
            sheet.proof.iter_mut().for_each(moved);
            sheet.rows.iter_mut().flat_map(|row| &mut row.cells).for_each(|cell| moved(&mut cell.place));
        }
        for problem in &mut other.problems {
            problem.place.iter_mut().chain(&mut problem.also).for_each(moved);
        }
        for (_, source) in other.sources.iter() {
            self.sources.add(source.clone());
        }
        self.sheets.append(&mut other.sheets);
        self.files.append(&mut other.files);
        self.problems.append(&mut other.problems);
    }
}

fn whole(file: &str, kind: SourceKind) -> Source {
    Source { file: file.to_owned(), sheet: String::new(), kind }
}

/// Reads one file into what was opened, whole or not at all.
fn take(found: &Found, opened: &mut Opened) -> Result<(), Problem> {
    let file = found.shown.as_str();
    let refused = |error: &std::io::Error| say::unreadable(file, &error.to_string());
    if fs::metadata(&found.path).map_err(|error| refused(&error))?.len() > MOST_BYTES {
        return Err(say::too_large(file, "over 2 GiB"));
    }
    let bytes = fs::read(&found.path).map_err(|error| refused(&error))?;
    let kind = kind_of(&bytes);
    let problems_before = opened.problems.len();
    match kind {
        Kind::Empty => return Err(say::empty(file)),
        Kind::Locked => return Err(say::locked(file)),
        Kind::Other { what, remedy } => return Err(say::wrong_type(file, what, remedy)),
        Kind::Text => take_text(file, &bytes, opened)?,
        Kind::Workbook => {
            archive::check(&bytes).map_err(|fault| fault.problem(file))?;
            take_workbook(file, &bytes, opened)?;
        }
    }
    if let Some(is) = kind.unlike_ending(file) {
        let source = opened.sources.add(whole(file, SourceKind::Sheet));
        opened.problems.insert(problems_before, say::seems_other(file, is).at(Place::whole(source)));
    }
    opened.files.push(InputFile {
        path: file.to_owned(),
        bytes: bytes.len() as u64,
        sha256: hexadecimal(&Sha256::digest(&bytes)),
    });
    Ok(())
}

fn take_text(file: &str, bytes: &[u8], opened: &mut Opened) -> Result<(), Problem> {
    let source = opened.sources.add(whole(file, SourceKind::Text));
    let text = csv::read(bytes, source).map_err(|fault| fault.problem(file, source))?;
    if text.rows.is_empty() {
        return Err(say::empty(file).at(Place::whole(source)));
    }
    let (mark, proof) = decimal_mark(&text.rows, text.usual_mark);
    opened.sheets.push(Sheet::new(source, text.rows, Vec::new(), mark).proved_by(proof));
    Ok(())
}

fn take_workbook(file: &str, bytes: &[u8], opened: &mut Opened) -> Result<(), Problem> {
    let damaged = |why: String| say::damaged(file, &why);
    let mut book = xlsx::Book::open(bytes).map_err(damaged)?;
    let mut sheets = Vec::new();
    let mut problems = Vec::new();
    for name in book.sheets() {
        let source = Source { sheet: name.text.clone(), ..whole(file, SourceKind::Sheet) };
        let source = opened.sources.add(source);
        if name.is_hidden {
            problems.push(say::sheet_hidden(&name.text).at(Place::whole(source)));
            continue;
        }
        let read = book.read(&name.text, source).map_err(|fault| match fault {
            xlsx::Fault::Damaged(why) => damaged(format!("sheet {}: {why}", name.text)),
            xlsx::Fault::TooLarge(what) => say::too_large(file, what),
        })?;
        let (mark, proof) = decimal_mark(&read.rows, crate::quantity::DecimalMark::Point);
        sheets.push(Sheet::new(source, read.rows, read.merges, mark).proved_by(proof));
    }
    if sheets.iter().all(|sheet| sheet.rows.is_empty()) && problems.is_empty() {
        return Err(say::empty(file));
    }
    opened.sheets.append(&mut sheets);
    opened.problems.append(&mut problems);
    Ok(())
}

pub(super) fn hexadecimal(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len() * 2);
    for byte in bytes {
        let _ = write!(out, "{byte:02x}");
    }
    out
}

//! From paths to located cells: one file per format, behind one way in.

pub(super) mod archive;
mod encoding;
mod folder;
mod kind;

use super::long::{self, Longs};
use super::workbook::{self, Fault, RawSheet, Why};
use super::{Opened, csv, web_page};
use crate::claim::InputFile;
use crate::problem::{Place, Problem, Source, SourceId, SourceKind, catalogue::file as say};
use crate::quantity::DecimalMark;
use crate::table::{Form, Row, Sheet, decimal_mark};
use encoding::Encoding;
pub(super) use folder::Found;
use folder::Listing;
pub use folder::STANDARD_INPUT;
pub(super) use kind::{Kind, of as kind_of};
use rayon::prelude::*;
use sha2::{Digest, Sha256};
use std::borrow::Cow;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Bytes of one file that are read at all.
const MOST_BYTES: u64 = 2 << 30;

/// Opens files and folders (sorted by path, hidden files and folders of our own output left out) and reads every
/// sheet, several files at a time. Never fails as a whole: what cannot be read is a problem.
pub fn open(paths: &[PathBuf]) -> Opened {
    held(folder::list(paths, None))
}

fn held(listing: Listing) -> Opened {
    let mut opened = Opened { problems: listing.problems, ..Opened::default() };
    opened.take_all(&listing.files);
    opened
}

/// The same, but for long text files that need not be held: those are surveyed only.
/// `kept` is the file in which standard input, given as `-`, was kept.
pub fn open_for_claims(paths: &[PathBuf], kept: Option<&Path>, forms: &[&'static Form]) -> (Opened, Longs) {
    let listing = folder::list(paths, kept);
    let mut opened = Opened { problems: listing.problems.clone(), ..Opened::default() };
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
    if !longs.is_empty() && long::speaks_of_all(&opened.sheets, forms) {
        return (held(listing), Longs::default());
    }
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
        Kind::WebPage => take_page(file, &bytes, opened)?,
        Kind::Workbook => {
            check(file, &bytes)?;
            take_workbook(file, &bytes, opened, |source| workbook::read_xlsx(&bytes, source))?;
            if archive::Parts::of(&bytes).is_some_and(|parts| parts.has_below("xl/externalLinks/")) {
                let source = opened.sources.add(whole(file, SourceKind::Sheet));
                opened.problems.push(say::linked(file).at(Place::whole(source)));
            }
        }
        Kind::OpenDocument => {
            check(file, &bytes)?;
            take_workbook(file, &bytes, opened, |source| workbook::read_ods(&bytes, source))?;
        }
        Kind::OldWorkbook { what } => {
            if bytes.starts_with(b"PK") {
                check(file, &bytes)?;
            }
            take_workbook(file, &bytes, opened, |source| workbook::read_old(&bytes, source))?;
            let source = opened.sources.add(whole(file, SourceKind::Sheet));
            opened.problems.push(say::hidden_unseen(file, what).at(Place::whole(source)));
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

/// Holds the container of a workbook against its bounds.
fn check(file: &str, bytes: &[u8]) -> Result<(), Problem> {
    archive::check(bytes).map_err(|fault| fault.problem(file))
}

/// Cells of the rectangle that a sheet's rows would fill if all were as wide as the widest. What tables are made of it
/// grows with the rectangle, and a few wide rows above a million short ones are no table that anybody keeps.
fn check_extent(file: &str, bytes: usize, rows: &[Row]) -> Result<(), Problem> {
    let widest = rows.iter().max_by_key(|row| row.cells.len());
    let Some((row, cell)) = widest.and_then(|row| Some((row, row.cells.first()?))) else { return Ok(()) };
    let extent = row.cells.len().saturating_mul(rows.len());
    if extent <= workbook::most_cells(bytes).saturating_mul(2) {
        return Ok(());
    }
    let what = format!("a row of {} cells among {} rows", row.cells.len(), rows.len());
    Err(say::too_large(file, &what).at(Place::row(cell.place.source, row.number)))
}

fn take_text(file: &str, bytes: &[u8], opened: &mut Opened) -> Result<(), Problem> {
    let source = opened.sources.add(whole(file, SourceKind::Text));
    let (bytes, said) = decoded(file, bytes, source)?;
    let text = csv::read(&bytes, source).map_err(|fault| fault.problem(file, source))?;
    if text.rows.is_empty() {
        return Err(say::empty(file).at(Place::whole(source)));
    }
    check_extent(file, bytes.len(), &text.rows)?;
    let (mark, proof) = decimal_mark(&text.rows, text.usual_mark);
    opened.sheets.push(Sheet::new(source, text.rows, Vec::new(), mark).proved_by(proof));
    opened.problems.extend(said);
    Ok(())
}

/// A text file in UTF-8, and what is said where it was in something else.
fn decoded<'b>(
    file: &str,
    bytes: &'b [u8],
    source: SourceId,
) -> Result<(Cow<'b, [u8]>, Option<Problem>), Problem> {
    let encoding = Encoding::of(bytes).map_err(|(at, byte)| {
        let before = bytes.iter().take(at).filter(|byte| **byte == b'\n').count();
        let line = u32::try_from(before).unwrap_or(u32::MAX).saturating_add(1);
        say::no_letter(file, byte).at(Place::row(source, line))
    })?;
    let text = encoding.whole(bytes).map_err(|error| say::unreadable(file, &error.to_string()))?;
    let said = (encoding != Encoding::Utf8).then(|| {
        // A word with a letter that another encoding would show as another.
        let letters = String::from_utf8_lossy(&text);
        let word =
            letters.split(|c: char| !c.is_alphanumeric()).find(|word| !word.is_ascii()).map(str::to_owned);
        say::encoding(file, encoding.name(), word.as_deref()).at(Place::whole(source))
    });
    Ok((text, said))
}

fn take_page(file: &str, bytes: &[u8], opened: &mut Opened) -> Result<(), Problem> {
    let source = opened.sources.add(whole(file, SourceKind::Sheet));
    let (bytes, said) = decoded(file, bytes, source)?;
    let page = web_page::read(&String::from_utf8_lossy(&bytes), source);
    if page.rows.is_empty() {
        return Err(say::wrong_type(file, "a web page without a table", kind::SAVE_AS));
    }
    check_extent(file, bytes.len(), &page.rows)?;
    let (mark, proof) = decimal_mark(&page.rows, DecimalMark::Point);
    opened.sheets.push(Sheet::new(source, page.rows, page.merges, mark).proved_by(proof));
    opened.problems.extend(said);
    Ok(())
}

/// Takes the sheets of a workbook, all or none.
fn take_workbook(
    file: &str,
    bytes: &[u8],
    opened: &mut Opened,
    read: impl FnOnce(&mut (dyn FnMut(&str) -> SourceId + Send)) -> Result<Vec<RawSheet>, Fault>,
) -> Result<(), Problem> {
    let sources = &mut opened.sources;
    let mut source =
        |sheet: &str| sources.add(Source { sheet: sheet.to_owned(), ..whole(file, SourceKind::Sheet) });
    let raw = read(&mut source).map_err(|fault| problem(file, fault))?;
    let (mut sheets, mut problems) = (Vec::new(), Vec::new());
    for mut raw in raw {
        if let Some((place, first)) = raw.notes.first().filter(|_| !raw.is_hidden) {
            problems.push(say::notes_unread(*place, raw.notes.len(), first));
        }
        check_extent(file, bytes.len(), &raw.rows)?;
        let (mark, proof) = decimal_mark(&raw.rows, DecimalMark::Point);
        raw.show_shares(mark);
        let mut sheet = Sheet::new(raw.source, raw.rows, raw.merges, mark).proved_by(proof);
        sheet.hidden_rows = raw.hidden_rows;
        sheet.hidden_columns = raw.hidden_columns;
        sheet.is_hidden = raw.is_hidden;
        sheets.push(sheet);
    }
    if sheets.iter().all(|sheet| sheet.rows.is_empty()) && problems.is_empty() {
        return Err(say::empty(file));
    }
    opened.sheets.append(&mut sheets);
    opened.problems.append(&mut problems);
    Ok(())
}

fn problem(file: &str, fault: Fault) -> Problem {
    let problem = match fault.why {
        Why::Damaged(why) => say::damaged(file, &why),
        Why::TooLarge(what) => say::too_large(file, &what),
        Why::Closed(why) => say::unreadable(file, &why),
    };
    match fault.place {
        Some(place) => problem.at(place),
        None => problem,
    }
}

pub(super) fn hexadecimal(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len() * 2);
    for byte in bytes {
        let _ = write!(out, "{byte:02x}");
    }
    out
}

//! The first pass over a long file: its digest, its table, and where the rows of each claim stand.

use super::scan::{Part, Shape, Texts};
use super::{Long, Run, whole};
use crate::claim::{InputFile, KeyKind};
use crate::problem::{Place, SourceId};
use crate::read::file::{Found, Kind, hexadecimal, kind_of};
use crate::read::tables::{self, Ours};
use crate::read::{arrange, csv, not_counts};
use crate::table::{Form, HeadedColumn, Row, Sheet, Starters, recognise, settled};
use rayon::prelude::*;
use sha2::{Digest, Sha256};
use std::fs::{self, File};
use std::io::Read;
use std::path::Path;

/// Bytes from which on a text file is long.
const LONG: u64 = 256 << 10;
/// Bytes that are read at a time.
const WINDOW: usize = 4 << 20;
/// Bytes that one core scans at a time.
const PART: usize = 256 << 10;
/// Bytes of the longest record that is waited for.
const LONGEST_RECORD: usize = 32 << 20;
/// Rows among which the heading is looked for.
const HEAD: usize = 100;

/// A long file with the keys of its runs, which are not yet numbered.
pub(in crate::read) struct Surveyed {
    pub(super) long: Long,
    pub(super) keys: Texts,
    pub(super) key: KeyKind,
    pub(in crate::read) file: InputFile,
}

/// What stands at the top of a file.
struct Top {
    separator: u8,
    /// Bytes and line before the first row below the heading.
    below: usize,
    line: u32,
    head: Sheet,
    form: &'static Form,
    heading_row: u32,
    columns: Vec<HeadedColumn>,
}

/// What the parts of a file add up to.
#[derive(Default)]
struct Scanned {
    keys: Texts,
    /// The runs, not yet numbered, and without their lengths.
    runs: Vec<Run>,
    proofs: [Option<(u32, u16)>; 2],
    lines: u32,
}

/// Whether a file is long, and its first bytes are none of a workbook's.
pub(in crate::read) fn may_be_long(path: &Path) -> bool {
    let first = || {
        let mut file = File::open(path)?;
        let mut first = [0; 4];
        let is_long = file.metadata()?.len() >= LONG;
        file.read_exact(&mut first)?;
        std::io::Result::Ok(is_long && !first.starts_with(b"PK") && first != *b"\xd0\xcf\x11\xe0")
    };
    first().unwrap_or(false)
}

/// Surveys a file; `None` for one that is short, no text, or has to be held whole.
pub(in crate::read) fn survey(
    found: &Found,
    source: SourceId,
    forms: &[&'static Form],
) -> std::io::Result<Option<Surveyed>> {
    let mut file = File::open(&found.path)?;
    let about = file.metadata()?;
    if about.len() < LONG || !about.is_file() {
        return Ok(None);
    }
    let mut digest = Sha256::new();
    let mut window = Vec::new();
    fill(&mut file, &mut window)?;
    let Some(top) = top(&window, found, source, forms) else { return Ok(None) };
    let starters = Starters::new(forms);
    let table = {
        let mut table = recognised(&top.head, forms)?;
        table.rows = &[];
        table
    };
    let Some(kind) = tables::Kind::of(top.form) else { return Ok(None) };
    let ours = Ours { kind, table: &table };
    let Some(shape) = Shape::new(ours, &starters, top.separator) else { return Ok(None) };
    let mut scanned = Scanned { lines: top.line, ..Scanned::default() };
    // `before` are the bytes of the file before the window, `known` those of the window that are digested, `at` those
    // that are scanned.
    let (mut before, mut known, mut at) = (0_u64, 0, top.below);
    loop {
        let is_end = before + window.len() as u64 >= about.len();
        let fresh = &window[at..];
        let whole = whole_records(fresh, top.separator, is_end);
        let Some(whole) = whole.filter(|whole| *whole > 0 || fresh.len() < LONGEST_RECORD) else {
            return Ok(None);
        };
        let parts = parts(&fresh[..whole]);
        let ((), scans) = rayon::join(
            || digest.update(&window[known..]),
            || parts.par_iter().map(|part| shape.scan(part)).collect::<Vec<Part>>(),
        );
        let mut start = before + at as u64;
        for (part, scan) in parts.iter().zip(scans) {
            if !scanned.take(&scan, start) {
                return Ok(None);
            }
            start += part.len() as u64;
        }
        let done = at + whole;
        if is_end {
            before += window.len() as u64;
            break;
        }
        before += done as u64;
        window.drain(..done);
        (known, at) = (window.len(), 0);
        if fill(&mut file, &mut window)? == 0 {
            // Shorter than it was said to be: somebody writes to it.
            return Ok(None);
        }
    }
    if before != about.len() || file.read(&mut [0])? != 0 {
        return Ok(None);
    }
    let sha256 = hexadecimal(&digest.finalize());
    let file = InputFile { path: found.shown.clone(), bytes: about.len(), sha256 };
    let key = shape.key;
    Ok(scanned.into_long(top, found, about).map(|(long, keys)| Surveyed { long, keys, key, file }))
}

fn recognised<'s>(head: &'s Sheet, forms: &[&'static Form]) -> std::io::Result<crate::table::Table<'s>> {
    recognise(head, forms).tables.pop().ok_or_else(|| std::io::ErrorKind::InvalidData.into())
}

/// Reads on to the end of the window, or of the file.
fn fill(file: &mut File, window: &mut Vec<u8>) -> std::io::Result<usize> {
    Read::take(file, WINDOW as u64).read_to_end(window)
}

/// What stands at the top, if it is the heading of one table of claims.
fn top(window: &[u8], found: &Found, source: SourceId, forms: &[&'static Form]) -> Option<Top> {
    let kind = kind_of(window);
    if !matches!(kind, Kind::Text) || kind.unlike_ending(&found.shown).is_some() {
        return None;
    }
    // A window may end within a character; what stands there is looked at later.
    let text = match std::str::from_utf8(window) {
        Ok(text) => text,
        Err(error) => std::str::from_utf8(&window[..error.valid_up_to()]).ok()?,
    };
    let (stated, below, line) = csv::stated_separator(text.trim_start_matches('\u{feff}'));
    let separator = stated.unwrap_or_else(|| csv::find_separator(below));
    let marked = text.len() - below.len();
    let mut rows = Vec::new();
    let mut starts = Vec::new();
    csv::each_record(below.as_bytes(), separator, line, |record| {
        let cells = record.cells(source);
        starts.push((record.start, record.line, cells.is_empty()));
        rows.push(Row { number: record.line, cells });
        starts.len() <= HEAD && record.fields.len() <= csv::MOST_COLUMNS
    })
    .ok()?;
    rows.truncate(HEAD);
    rows.retain(|row| !row.cells.is_empty());
    let usual = csv::usual_mark(separator);
    let sheet = Sheet::new(source, rows, Vec::new(), usual);
    let recognition = recognise(&sheet, forms);
    let [table] = &recognition.tables[..] else { return None };
    if !recognition.ambiguous.is_empty() || !arrange::is_plain(&sheet, forms) {
        return None;
    }
    let kind = tables::Kind::of(table.form)?;
    if not_counts::is_price_list(Ours { kind, table }) || whole::has_word_for_others(table) {
        return None;
    }
    let (form, heading_row, columns) = (table.form, table.heading_row, table.columns.clone());
    let (start, line, _) = *starts.iter().find(|(_, line, _)| *line > heading_row)?;
    let head = sheet.rows.iter().take_while(|row| row.number <= heading_row).cloned().collect();
    let head = Sheet::new(source, head, Vec::new(), usual);
    Some(Top { separator, below: marked + start, line, head, form, heading_row, columns })
}

/// How many bytes are whole records; `None` where a quotation mark is left open at the end.
fn whole_records(bytes: &[u8], separator: u8, is_end: bool) -> Option<usize> {
    let is_plain = !bytes.contains(&b'"');
    if is_end {
        let is_closed = is_plain || {
            let last = csv::each_record(bytes, separator, 0, |_| true).ok()?;
            !csv::ends_inside_quotes(&bytes[last.start..], separator)
        };
        return is_closed.then_some(bytes.len());
    }
    match bytes.iter().rposition(|byte| *byte == b'\n').filter(|_| is_plain) {
        Some(end) => Some(end + 1),
        None => Some(csv::each_record(bytes, separator, 0, |_| true).ok()?.start),
    }
}

/// Parts of whole lines for several cores. Where there are quotation marks, a line may be none.
fn parts(bytes: &[u8]) -> Vec<&[u8]> {
    let mut left = bytes;
    let mut parts = Vec::new();
    if !bytes.contains(&b'"') {
        while let Some(end) = left.get(PART..).and_then(|rest| rest.iter().position(|byte| *byte == b'\n')) {
            let (part, rest) = left.split_at(PART + end + 1);
            parts.push(part);
            left = rest;
        }
    }
    if !left.is_empty() {
        parts.push(left);
    }
    parts
}

impl Scanned {
    /// Adds a part that begins at a byte of the file; no if it was refused.
    fn take(&mut self, part: &Part, start: u64) -> bool {
        let goes_on = |key: &str| self.keys.last() == Some(key);
        let goes_on = part.keys.get(0).is_some_and(goes_on);
        for ((at, line), key) in part.runs.iter().zip(part.keys.iter()).skip(usize::from(goes_on)) {
            let (offset, line) = (start + *at as u64, self.lines + line);
            self.runs.push(Run { job: 0, line, offset, bytes: 0 });
            self.keys.push(key);
        }
        for (known, new) in self.proofs.iter_mut().zip(part.proofs) {
            *known = known.or(new.map(|(line, column)| (self.lines + line, column)));
        }
        let lines = self.lines.checked_add(part.lines);
        self.lines = lines.unwrap_or(u32::MAX);
        lines.is_some() && self.keys.has_room() && !part.is_refused
    }

    fn into_long(self, top: Top, found: &Found, about: fs::Metadata) -> Option<(Long, Texts)> {
        let source = top.head.source;
        let place = |(line, column)| Place::cell(source, line, column);
        let (point, comma) = crate::table::proofs(&top.head.rows);
        let [later_point, later_comma] = self.proofs.map(|proof| proof.map(place));
        let (point, comma) = (point.or(later_point), comma.or(later_comma));
        if point.is_some() && comma.is_some() {
            // Its columns have marks of their own, which all of their rows decide.
            return None;
        }
        let (mark, proof) = settled(point, comma, csv::usual_mark(top.separator));
        let mut runs = self.runs;
        runs.shrink_to_fit();
        let mut end = about.len();
        for run in runs.iter_mut().rev() {
            run.bytes = u32::try_from(end - run.offset).ok()?;
            end = run.offset;
        }
        let head = Sheet::new(source, top.head.rows, Vec::new(), mark).proved_by(proof);
        let long = Long {
            found: found.clone(),
            about,
            separator: top.separator,
            head,
            form: top.form,
            heading_row: top.heading_row,
            columns: top.columns,
            runs,
        };
        Some((long, self.keys))
    }
}

//! One look at each row of a long file: whether it says by itself what it is, whose it is, and what its numbers prove.

use crate::claim::KeyKind;
use crate::claim::words::folded;
use crate::problem::SourceId;
use crate::quantity::{DateFault, DecimalMark, parse_date, parse_decimal};
use crate::read::columns::KEYS;
use crate::read::csv::{Record, each_record};
use crate::read::jobs;
use crate::read::own_words::OwnWords;
use crate::read::rows::{is_data_anywhere, is_total_word};
use crate::read::tables::Ours;
use crate::read::unknown::says_other;
use crate::table::{Row, Starters, proved_by};

/// Texts one after the other.
#[derive(Debug, Default)]
pub(super) struct Texts {
    text: String,
    /// Where each ends; there are as many as rows where those are strewn over a file.
    ends: Vec<u32>,
}

impl Texts {
    pub(super) fn push(&mut self, text: &str) {
        self.text.push_str(text);
        self.ends.push(u32::try_from(self.text.len()).unwrap_or(u32::MAX));
    }

    pub(super) fn get(&self, index: usize) -> Option<&str> {
        let start = index.checked_sub(1).map_or(Some(0), |before| self.ends.get(before).copied())?;
        self.text.get(start as usize..*self.ends.get(index)? as usize)
    }

    /// Whether there is room for more.
    pub(super) fn has_room(&self) -> bool {
        u32::try_from(self.text.len()).is_ok()
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &str> {
        (0..self.ends.len()).filter_map(|index| self.get(index))
    }

    pub(super) fn last(&self) -> Option<&str> {
        self.get(self.ends.len().checked_sub(1)?)
    }
}

/// What a column is to the scan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Use {
    /// The key that rows are joined by.
    Key,
    /// What a row is about.
    Subject,
    /// Anything else that the table knows, which a row of it may consist of.
    Known,
    /// A date, which the other rows of its column may settle.
    Date,
    /// A further key.
    Further,
    /// A heading that nobody knows; numbers below it may be dents.
    Doubtful,
    /// A heading whose column is not used.
    Unused,
}

/// What the rows of a file are held against.
pub(super) struct Shape<'s> {
    ours: Ours<'s, 's>,
    uses: Vec<Option<Use>>,
    starters: &'s Starters<'static>,
    separator: u8,
    source: SourceId,
    pub(super) key: KeyKind,
    key_heading: String,
}

/// A piece of a file between ends of lines, scanned.
#[derive(Debug, Default)]
pub(super) struct Part {
    /// Ends of lines in it.
    pub(super) lines: u32,
    /// Where each new key begins: byte and line from the beginning of the part.
    pub(super) runs: Vec<(usize, u32)>,
    /// The keys as written.
    pub(super) keys: Texts,
    /// The first cell, by line and column, that proves a decimal point, and a comma.
    pub(super) proofs: [Option<(u32, u16)>; 2],
    /// Whether a row needs those around it.
    pub(super) is_refused: bool,
}

impl<'s> Shape<'s> {
    /// The shape of a table that is keyed in a column of its own; `None` for any other.
    pub(super) fn new(ours: Ours<'s, 's>, starters: &'s Starters<'static>, separator: u8) -> Option<Self> {
        let table = ours.table;
        let (key, column) =
            KEYS.iter().zip(jobs::KINDS).find_map(|(key, kind)| Some((kind, table.column(key.id)?)))?;
        let last = table.columns.iter().map(|column| column.column).max()?;
        let mut uses = vec![None; usize::from(last)];
        for headed in &table.columns {
            let is_key = headed.id.is_some_and(|id| KEYS.iter().any(|key| key.id == id));
            uses[usize::from(headed.column) - 1] = Some(match headed.id {
                _ if headed.column == column.column => Use::Key,
                _ if is_key => Use::Further,
                Some(id) if ours.kind.subject() == Some(id) => Use::Subject,
                Some(id) if id.starts_with("date") => Use::Date,
                Some(_) => Use::Known,
                None if headed.in_family => Use::Known,
                None if headed.repeats.is_some() => Use::Unused,
                None if ours.kind.has_counts() && !says_other(&headed.heading) => Use::Doubtful,
                None => Use::Unused,
            });
        }
        let (source, key_heading) = (table.sheet.source, folded(&column.heading));
        Some(Self { ours, uses, starters, separator, source, key, key_heading })
    }

    /// Scans whole records.
    pub(super) fn scan(&self, bytes: &[u8]) -> Part {
        let mut part = Part::default();
        if std::str::from_utf8(bytes).is_err() {
            part.is_refused = true;
            return part;
        }
        let mut above = None;
        let ended = each_record(bytes, self.separator, 0, |record| {
            part.is_refused = !self.take(record, &mut above, &mut part);
            !part.is_refused
        });
        match ended {
            Ok(last) => part.lines = last.next_line,
            Err(_) => part.is_refused = true,
        }
        part
    }

    /// Takes a record, if it is fit to be read without those around it. `above` is the line of the row before, if that
    /// is of more than two cells.
    fn take(&self, record: &Record<'_>, above: &mut Option<u32>, part: &mut Part) -> bool {
        let (mut cells, mut others) = (0, 0);
        let (mut key, mut subject) = (&b""[..], &b""[..]);
        for index in 0..record.fields.len() {
            let written = record.written(index);
            if written.is_empty() {
                continue;
            }
            cells += 1;
            match self.uses.get(index).copied().flatten() {
                Some(Use::Key) => key = written,
                Some(Use::Subject) => subject = written,
                Some(Use::Date) if may_be_settled(written) => return false,
                Some(Use::Known | Use::Date) => others += 1,
                Some(Use::Further) if may_be_total(written) => return false,
                Some(Use::Further | Use::Unused) => {}
                Some(Use::Doubtful) if is_no_number(written) => {}
                Some(Use::Doubtful) | None => return false,
            }
            if written.iter().any(|byte| matches!(byte, b'.' | b',')) {
                prove(record.field(index), record.line, index, &mut part.proofs);
            }
        }
        if cells == 0 {
            return true;
        }
        // A blank row or a caption above it, and it could head a table.
        let may_follow = above.is_none_or(|above| above + 1 != record.line);
        *above = (cells > 2).then_some(record.line);
        let has_subject = self.ours.kind.subject().is_some();
        let is_usual = !key.is_empty()
            && if has_subject { !subject.is_empty() && !may_be_total(subject) } else { others > 0 };
        if may_follow || !is_usual {
            let row = Row { number: record.line, cells: record.cells(self.source) };
            let is_heading = may_follow && self.starters.may_head(&row);
            if key.is_empty() || is_heading || !is_data_anywhere(self.ours, &OwnWords::default(), &row) {
                return false;
            }
        }
        if part.keys.last().is_some_and(|last| last.as_bytes() == key) {
            return true;
        }
        let Ok(key) = std::str::from_utf8(key) else { return false };
        part.runs.push((record.start, record.line));
        part.keys.push(key);
        let name = folded(key);
        !name.is_empty() && name != self.key_heading && !is_total_word(key)
    }
}

/// Whether a cell surely is no number.
fn is_no_number(written: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(written) else { return false };
    [DecimalMark::Point, DecimalMark::Comma].iter().all(|mark| parse_decimal(text, *mark).is_err())
}

/// Whether a date has two readings, between which the rest of its column decides.
fn may_be_settled(written: &[u8]) -> bool {
    let is_iso = written.get(4) == Some(&b'-');
    !is_iso && std::str::from_utf8(written).is_ok_and(|text| parse_date(text) == Err(DateFault::Ambiguous))
}

fn may_be_total(written: &[u8]) -> bool {
    let first = written.first().map(u8::to_ascii_lowercase);
    let begins = matches!(first, Some(b's' | b't' | b'g' | b'p' | b'c' | b'b' | b'z' | b'u' | b'r'));
    let is_letter = written.first().is_some_and(u8::is_ascii_alphabetic);
    (begins || !is_letter) && std::str::from_utf8(written).is_ok_and(is_total_word)
}

fn prove(text: &str, line: u32, index: usize, proofs: &mut [Option<(u32, u16)>; 2]) {
    for mark in proved_by(text) {
        let slot = usize::from(mark == DecimalMark::Comma);
        let column = u16::try_from(index + 1).unwrap_or(u16::MAX);
        proofs[slot] = proofs[slot].or(Some((line, column)));
    }
}

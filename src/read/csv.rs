//! Text in rows and columns: separator found from the file, positions by physical line.

use crate::problem::{Place, Problem, SourceId, catalogue::file as say};
use crate::quantity::DecimalMark;
use crate::table::{Cell, Row, Value};
use std::collections::BTreeMap;

/// What a text file holds.
#[derive(Debug)]
pub(super) struct Text {
    pub(super) rows: Vec<Row>,
    /// The decimal mark that goes with the separator: beside semicolons usually a comma.
    pub(super) usual_mark: DecimalMark,
}

/// Why a text file is not taken.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Fault {
    NotUtf8 { line: u32, byte: u8 },
    OpenQuote { line: u32 },
    TooWide { line: u32 },
    TooLong,
}

impl Fault {
    pub(super) fn problem(&self, file: &str, source: SourceId) -> Problem {
        match *self {
            Self::NotUtf8 { line, byte } => say::not_utf8(file, byte).at(Place::row(source, line)),
            Self::OpenQuote { line } => say::open_quote(file).at(Place::row(source, line)),
            Self::TooWide { line } => {
                say::too_large(file, "a line of over 16 384 columns").at(Place::row(source, line))
            }
            Self::TooLong => say::too_large(file, "over 4 billion lines"),
        }
    }
}

/// Columns of one line, as many as a workbook has.
pub(super) const MOST_COLUMNS: usize = 16_384;

/// Reads the rows of a text file. Blank fields are not kept, blank lines neither; fields are trimmed.
pub(super) fn read(bytes: &[u8], source: SourceId) -> Result<Text, Fault> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.trim_start_matches('\u{feff}'),
        Err(error) => {
            let (good, bad) = bytes.split_at(error.valid_up_to());
            let byte = bad.first().copied().unwrap_or_default();
            return Err(Fault::NotUtf8 { line: lines(good).saturating_add(1), byte });
        }
    };
    let (stated, text, mut line) = stated_separator(text);
    let separator = stated.unwrap_or_else(|| find_separator(text));
    let mut rows = Vec::new();
    let mut too_wide = None;
    let ends = each_record(text.as_bytes(), separator, line, |record| {
        too_wide = too_wide.or((record.fields.len() > MOST_COLUMNS).then_some(record.line));
        let cells = record.cells(source);
        if !cells.is_empty() {
            rows.push(Row { number: record.line, cells });
        }
        too_wide.is_none()
    })?;
    if let Some(line) = too_wide {
        return Err(Fault::TooWide { line });
    }
    line = ends.line;
    if ends_inside_quotes(&text.as_bytes()[ends.start..], separator) {
        return Err(Fault::OpenQuote { line });
    }
    Ok(Text { rows, usual_mark: usual_mark(separator) })
}

/// The decimal mark that goes with a separator.
pub(super) fn usual_mark(separator: u8) -> DecimalMark {
    if separator == b';' { DecimalMark::Comma } else { DecimalMark::Point }
}

/// A record where it stands: the bytes that its fields lie in, each field's ends in them, the line it begins in, and
/// how many bytes stand before it.
pub(super) struct Record<'r> {
    bytes: &'r [u8],
    pub(super) fields: &'r [(usize, usize)],
    pub(super) line: u32,
    pub(super) start: usize,
}

impl<'r> Record<'r> {
    /// A field without the space around it; blank where there is none of this number (from 0).
    pub(super) fn field(&self, index: usize) -> &'r str {
        let Some((start, end)) = self.fields.get(index) else { return "" };
        // What is read was found to be UTF-8 before.
        std::str::from_utf8(&self.bytes[*start..*end]).unwrap_or_default().trim()
    }

    /// The same as bytes.
    pub(super) fn written(&self, index: usize) -> &'r [u8] {
        let Some((start, end)) = self.fields.get(index) else { return &[] };
        match &self.bytes[*start..*end] {
            bytes @ ([] | [b'!'..=b'~'] | [b'!'..=b'~', .., b'!'..=b'~']) => bytes,
            _ => self.field(index).as_bytes(),
        }
    }

    /// Its cells that are not blank.
    pub(super) fn cells(&self, source: SourceId) -> Vec<Cell> {
        let mut kept = Vec::with_capacity(self.fields.len());
        for (column, index) in (1_u16..).zip(0..self.fields.len()) {
            let text = std::str::from_utf8(self.written(index)).unwrap_or_default();
            if !text.is_empty() {
                let place = Place::cell(source, self.line, column);
                kept.push(Cell { place, column, value: Value::Text(text.to_owned()), spread: false });
            }
        }
        kept
    }
}

/// Where the last record of some text begins.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Last {
    pub(super) start: usize,
    pub(super) line: u32,
    /// The line after the text.
    pub(super) next_line: u32,
}

/// Hands on every record of some text, whose first byte stands in `line`, until `take` says no. Text without quotation
/// marks is parted at its line ends and separators; any other by the rules of quotation.
pub(super) fn each_record(
    bytes: &[u8],
    separator: u8,
    line: u32,
    mut take: impl FnMut(&Record<'_>) -> bool,
) -> Result<Last, Fault> {
    let mut last = Last { start: 0, line, next_line: line };
    let mut fields = Vec::new();
    if bytes.contains(&b'"') {
        let mut reader = reader(separator, bytes);
        let mut record = csv::ByteRecord::new();
        let mut counted = 0;
        // A reader of bytes in memory fails on nothing: records may be of any length.
        while reader.read_byte_record(&mut record).unwrap_or(false) {
            let at = record
                .position()
                .map_or(0, |position| usize::try_from(position.byte()).unwrap_or(usize::MAX));
            // The position stands before the blank lines that were passed over.
            let mut start = bytes.len().min(at);
            start += bytes[start..].iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
            let line = last.line.checked_add(lines(&bytes[counted..start])).ok_or(Fault::TooLong)?;
            counted = start;
            last = Last { start, line, next_line: line };
            fields.clear();
            fields.extend(
                (0..record.len()).filter_map(|index| record.range(index)).map(|at| (at.start, at.end)),
            );
            if !take(&Record { bytes: record.as_slice(), fields: &fields, line, start }) {
                break;
            }
        }
        last.next_line = last.line.checked_add(lines(&bytes[last.start..])).ok_or(Fault::TooLong)?;
        return Ok(last);
    }
    let (mut at, mut line) = (0, line);
    while at < bytes.len() {
        let start = at;
        fields.clear();
        let mut field = start;
        // One look at each byte: separators and line ends are all that counts.
        let end = loop {
            match bytes.get(at) {
                Some(byte) if *byte == separator => {
                    fields.push((field - start, at - start));
                    field = at + 1;
                }
                Some(b'\n' | b'\r') | None => break at,
                Some(_) => {}
            }
            at += 1;
        };
        let is_blank = end == start;
        if !is_blank {
            fields.push((field - start, end - start));
            last = Last { start, line, next_line: line };
            if !take(&Record { bytes: &bytes[start..end], fields: &fields, line, start }) {
                break;
            }
        }
        if at < bytes.len() {
            line = line.checked_add(1).ok_or(Fault::TooLong)?;
            at += if bytes[at..].starts_with(b"\r\n") { 2 } else { 1 };
        }
    }
    Ok(Last { next_line: line, ..last })
}

fn reader(separator: u8, bytes: &[u8]) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(separator).from_reader(bytes)
}

/// Ends of lines: LF, CR LF, or CR alone.
fn lines(bytes: &[u8]) -> u32 {
    let ends = bytes
        .iter()
        .enumerate()
        .filter(|(index, byte)| **byte == b'\n' || (**byte == b'\r' && bytes.get(index + 1) != Some(&b'\n')));
    u32::try_from(ends.count()).unwrap_or(u32::MAX)
}

/// A first line `sep=;`, as some programs write it for others: the separator, the text below, and that text's line.
pub(super) fn stated_separator(text: &str) -> (Option<u8>, &str, u32) {
    let Some((first, rest)) = text.split_once('\n') else { return (None, text, 1) };
    let stated = first.trim_end_matches('\r').strip_prefix("sep=").map(str::as_bytes);
    match stated {
        Some([separator @ (b',' | b';' | b'\t')]) => (Some(*separator), rest, 2),
        _ => (None, text, 1),
    }
}

/// The separator that parts most lines of the file's beginning into one and the same number of fields; of two that do
/// it equally well the one into more fields, then a semicolon before a comma: a decimal comma stands as regularly as
/// a separator does.
pub(super) fn find_separator(text: &str) -> u8 {
    const SAMPLE: usize = 1 << 16;
    let mut end = text.len().min(SAMPLE);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let sample = &text[..end];
    let mut best = (0, 0, b',');
    for separator in [b'\t', b';', b','] {
        let mut widths: BTreeMap<usize, usize> = BTreeMap::new();
        let mut record = csv::ByteRecord::new();
        let mut reader = reader(separator, sample.as_bytes());
        while reader.read_byte_record(&mut record).unwrap_or(false) {
            if record.len() > 1 {
                *widths.entry(record.len()).or_default() += 1;
            }
        }
        let usual = widths.into_iter().map(|(width, lines)| (lines, width)).max().unwrap_or_default();
        if usual > (best.0, best.1) {
            best = (usual.0, usual.1, separator);
        }
    }
    best.2
}

/// Whether the last record ends inside a quoted field, which then ran to the end of the file.
pub(super) fn ends_inside_quotes(record: &[u8], separator: u8) -> bool {
    let (mut inside, mut at_start) = (false, true);
    let mut bytes = record.iter().copied().peekable();
    while let Some(byte) = bytes.next() {
        if inside {
            if byte == b'"' && bytes.next_if_eq(&b'"').is_none() {
                inside = false;
            }
            at_start = false;
        } else if byte == b'"' && at_start {
            inside = true;
        } else {
            at_start = byte == separator || byte == b'\n' || byte == b'\r';
        }
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<(u32, Vec<(u16, String)>)> {
        let read = read(text.as_bytes(), SourceId(0)).unwrap();
        let row = |row: Row| (row.number, row.cells.iter().map(|cell| (cell.column, cell.text())).collect());
        read.rows.into_iter().map(row).collect()
    }

    fn texts(text: &str) -> Vec<Vec<String>> {
        rows(text).into_iter().map(|(_, cells)| cells.into_iter().map(|(_, text)| text).collect()).collect()
    }

    #[test]
    fn comma_semicolon_and_tab_are_found_from_the_file() {
        for text in ["panel,a,b\nroof,1,2\n", "panel;a;b\nroof;1;2\n", "panel\ta\tb\nroof\t1\t2\n"] {
            assert_eq!(texts(text), [["panel", "a", "b"], ["roof", "1", "2"]], "{text}");
        }
        assert_eq!(texts("panel;a;b\nroof;0,5;1,5\n")[1], ["roof", "0,5", "1,5"]);
        assert_eq!(texts("roof;0,5;1,5\nhood;0,5;2,5\n")[0], ["roof", "0,5", "1,5"]);
        assert_eq!(texts("panel,remark\nroof,a; b; c\n")[1], ["roof", "a; b; c"]);
        assert_eq!(texts("sep=;\npanel;a\n"), [["panel", "a"]]);
        assert_eq!(texts("panel\nroof\n"), [["panel"], ["roof"]]);
    }

    #[test]
    fn numbers_of_rows_are_physical_lines() {
        let text = "\u{feff}title\r\n\r\n\r\npanel,remark\r\nroof,\"two\r\nlines\"\r\n   ,\r\nhood,x\r\n";
        let numbers: Vec<u32> = rows(text).into_iter().map(|(number, _)| number).collect();
        assert_eq!(numbers, [1, 4, 5, 8]);
        let numbers: Vec<u32> = rows("a,b\r\rc,d\re,f").into_iter().map(|(number, _)| number).collect();
        assert_eq!(numbers, [1, 3, 4]);
        assert_eq!(rows("sep=;\n\na;b")[0].0, 3);
    }

    #[test]
    fn blank_fields_keep_the_columns_of_the_others() {
        assert_eq!(rows("a,,c\n")[0], (1, vec![(1, "a".into()), (3, "c".into())]));
    }

    #[test]
    fn an_inch_sign_is_a_letter_unless_it_opens_a_field() {
        assert_eq!(texts("panel,up to 3/4\",1\"\n"), [["panel", "up to 3/4\"", "1\""]]);
        assert_eq!(texts("panel,\"up to 3/4\"\"\"\n"), [["panel", "up to 3/4\""]]);
        assert_eq!(read(b"a,b\nc,\"d\ne,f\n", SourceId(0)).unwrap_err(), Fault::OpenQuote { line: 2 });
    }

    #[test]
    fn a_byte_that_is_no_utf8_is_told_with_its_line() {
        assert_eq!(
            read(b"a\nb\nK\xfchler\n", SourceId(0)).unwrap_err(),
            Fault::NotUtf8 { line: 3, byte: 0xfc }
        );
    }

    #[test]
    fn a_line_of_too_many_columns_is_refused() {
        let text = format!("a\n{}", ",".repeat(MOST_COLUMNS));
        assert_eq!(read(text.as_bytes(), SourceId(0)).unwrap_err(), Fault::TooWide { line: 2 });
    }
}

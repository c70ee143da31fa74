//! What the cell reader for XLSX does not tell of a sheet: hidden rows and columns, merged cells, and which cells are
//! shown as percentages or amounts of a currency. One pass over the sheet's part, before its cells are read.

use super::cell::merge;
use super::formats::{Formats, attribute, is_true};
use super::{Fault, MOST_COLUMNS, MOST_ROWS, UNREADABLE};
use crate::table::Merge;
use quick_xml::events::BytesStart;
use std::collections::BTreeSet;
use std::io::{self, BufRead, Read as _};

/// What was found on a sheet.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) hidden_rows: BTreeSet<u32>,
    pub(super) hidden_columns: BTreeSet<u16>,
    pub(super) merges: Vec<Merge>,
    /// Row, column and style of cells whose style adds something, in the order of the file.
    pub(super) shown: Vec<(u32, u16, u32)>,
}

/// Merged rectangles of one sheet.
const MOST_MERGES: usize = 1_000_000;

pub(super) fn sheet(part: impl BufRead, formats: &Formats) -> Result<Found, Fault> {
    let mut tags = Tags { part, tag: Vec::new() };
    let mut found = Found::default();
    let (mut row, mut column) = (0_u32, 0_u32);
    while let Some(tag) = tags.next().map_err(|_| Fault::damaged(UNREADABLE))? {
        match local_name(tag) {
            b"c" => {
                column = column.saturating_add(1);
                if !formats.is_empty() {
                    column = cell(&element(tag)?, (row, column), formats, &mut found);
                }
            }
            b"row" => {
                row = one_row(&element(tag)?, row, &mut found);
                column = 0;
            }
            b"col" => hide_columns(&element(tag)?, &mut found),
            b"mergeCell" if found.merges.len() < MOST_MERGES => {
                found.merges.extend(attribute(&element(tag)?, "ref").and_then(|range| rectangle(&range)));
            }
            _ => {}
        }
    }
    Ok(found)
}

/// The tags of a part. Of a sheet's millions hardly any is of interest, so that they are told apart by their brackets and
/// only those of interest are taken apart as XML: that takes a fraction of the time.
struct Tags<R> {
    part: R,
    tag: Vec<u8>,
}

/// Bytes of the longest tag, comment or run of letters between marks that is waited for.
const LONGEST_TAG: u64 = 64 << 20;

impl<R: BufRead> Tags<R> {
    /// What stands between the next pair of angle brackets; `None` at the end.
    fn next(&mut self) -> io::Result<Option<&[u8]>> {
        self.part.skip_until(b'<')?;
        self.tag.clear();
        loop {
            let read = (&mut self.part).take(LONGEST_TAG).read_until(b'>', &mut self.tag)?;
            if read == 0 && self.tag.is_empty() {
                return Ok(None);
            }
            if read == 0 || self.tag.last() != Some(&b'>') || self.tag.len() as u64 > LONGEST_TAG {
                return Err(io::ErrorKind::InvalidData.into());
            }
            if is_whole(&self.tag) {
                return Ok(Some(&self.tag[..self.tag.len() - 1]));
            }
        }
    }
}

/// Whether a tag that ends with a closing bracket ends there: one may stand between quotation marks, too, and in a
/// comment.
fn is_whole(tag: &[u8]) -> bool {
    match tag {
        [b'/', ..] => true,
        [b'!', b'-', b'-', ..] => tag.len() > 5 && tag.ends_with(b"-->"),
        _ if tag.starts_with(b"![CDATA[") => tag.ends_with(b"]]>"),
        _ => {
            let close = |open: Option<u8>, byte: &u8| match open {
                None if matches!(byte, b'"' | b'\'') => Some(*byte),
                Some(quote) if quote == *byte => None,
                open => open,
            };
            tag.iter().fold(None, close).is_none()
        }
    }
}

/// The name of an opening tag without its prefix; empty for any other.
fn local_name(tag: &[u8]) -> &[u8] {
    let end = tag.iter().position(|byte| byte.is_ascii_whitespace() || *byte == b'/');
    let name = &tag[..end.unwrap_or(tag.len())];
    name.iter().position(|byte| *byte == b':').map_or(name, |colon| &name[colon + 1..])
}

/// A tag as the element that it opens.
fn element(tag: &[u8]) -> Result<BytesStart<'_>, Fault> {
    let text = std::str::from_utf8(tag.strip_suffix(b"/").unwrap_or(tag));
    let text = text.map_err(|_| Fault::damaged(UNREADABLE))?;
    let name = text.find(|c: char| c.is_ascii_whitespace()).unwrap_or(text.len());
    Ok(BytesStart::from_content(text, name))
}

/// The number of a row, which is noted if it is hidden.
fn one_row(element: &BytesStart<'_>, before: u32, found: &mut Found) -> u32 {
    let (mut number, mut is_hidden) = (before.saturating_add(1), false);
    for attribute in element.attributes().with_checks(false).flatten() {
        match attribute.key.as_ref() {
            "r" => number = attribute.value.parse().unwrap_or(number),
            "hidden" => is_hidden = is_true(Some(attribute.value.as_ref())),
            _ => {}
        }
    }
    if is_hidden && (1..=MOST_ROWS).contains(&number) {
        found.hidden_rows.insert(number);
    }
    number
}

/// The column of a cell, which is noted if its style adds something.
fn cell(element: &BytesStart<'_>, (row, column): (u32, u32), formats: &Formats, found: &mut Found) -> u32 {
    let (mut at, mut style) = ((row, column), None);
    for attribute in element.attributes().with_checks(false).flatten() {
        match attribute.key.as_ref() {
            "r" => at = reference(&attribute.value).unwrap_or(at),
            "s" => style = attribute.value.parse::<u32>().ok(),
            _ => {}
        }
    }
    if let Some(style) = style.filter(|style| formats.shown(*style).is_some())
        && let Ok(column) = u16::try_from(at.1)
    {
        found.shown.push((at.0, column, style));
    }
    at.1
}

fn hide_columns(element: &BytesStart<'_>, found: &mut Found) {
    if !is_true(attribute(element, "hidden").as_deref()) {
        return;
    }
    let edge = |name| attribute(element, name).and_then(|edge| edge.parse::<u32>().ok());
    if let Some((first, last)) = edge("min").zip(edge("max")) {
        let last = u16::try_from(last).unwrap_or(MOST_COLUMNS).min(MOST_COLUMNS);
        // A range that begins beyond the sheet is empty.
        let first = u16::try_from(first.max(1)).unwrap_or(u16::MAX);
        found.hidden_columns.extend(first..=last);
    }
}

/// `B7:C9`, or a single cell.
fn rectangle(range: &str) -> Option<Merge> {
    let (first, last) = range.split_once(':').unwrap_or((range, range));
    let zero_based = |at: &str| {
        let (row, column) = reference(at)?;
        Some((row.checked_sub(1)?, column.checked_sub(1)?))
    };
    merge(zero_based(first)?, zero_based(last)?)
}

/// Row and column of a reference such as `B7` or `$B$7`.
pub(super) fn reference(text: &str) -> Option<(u32, u32)> {
    let text = text.trim();
    let mut column = 0_u32;
    let mut digits = "";
    for (at, c) in text.char_indices() {
        match c {
            '$' => {}
            'A'..='Z' | 'a'..='z' => {
                let letter = u32::from(c.to_ascii_uppercase()) - u32::from('A') + 1;
                column = column.checked_mul(26)?.checked_add(letter)?;
            }
            _ => {
                digits = &text[at..];
                break;
            }
        }
    }
    let row = digits.trim_start_matches('$').parse::<u32>().ok()?;
    (column > 0 && row > 0).then_some((row, column))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Found {
        sheet(text.as_bytes(), &Formats::default()).unwrap()
    }

    #[test]
    fn hidden_rows_and_columns_and_merges_are_found() {
        let found =
            of("<worksheet><cols><col min=\"2\" max=\"3\" hidden=\"1\"/><col min=\"5\" max=\"9\"/></cols>\
             <sheetData><row r=\"3\" hidden=\"true\"><c r=\"A3\"/></row><row/><row hidden=\"1\"/></sheetData>\
             <mergeCells><mergeCell ref=\"A1:B2\"/><mergeCell ref=\"nonsense\"/></mergeCells></worksheet>");
        assert_eq!(found.hidden_columns, BTreeSet::from([2, 3]));
        assert_eq!(found.hidden_rows, BTreeSet::from([3, 5]));
        assert_eq!(found.merges, [Merge { first_row: 1, last_row: 2, first_column: 1, last_column: 2 }]);
    }

    #[test]
    fn absurd_numbers_stay_inside_the_sheet() {
        let found = of("<worksheet><cols><col min=\"0\" max=\"4294967295\" hidden=\"1\"/>\
             <col min=\"99999\" max=\"99999999999\" hidden=\"1\"/></cols>\
             <sheetData><row r=\"4294967295\" hidden=\"1\"/><row hidden=\"1\"/></sheetData></worksheet>");
        assert_eq!((found.hidden_columns.len(), found.hidden_rows.len()), (16_384, 0));
    }

    #[test]
    fn brackets_in_quotation_marks_and_comments_end_no_tag() {
        let found =
            of("<x:worksheet><!-- <row r=\"7\" hidden=\"1\"> --><![CDATA[<row r=\"8\" hidden=\"1\">]]>\
             <x:row spans='1>2' r='4' hidden='1'/><!----><row\nr=\"5\"\nhidden=\"1\"></x:worksheet>");
        assert_eq!(found.hidden_rows, BTreeSet::from([4, 5]));
    }

    #[test]
    fn a_sheet_that_ends_within_a_tag_is_damaged() {
        for text in ["<worksheet><row r=\"1", "<row r='>", "<!-- >", "<![CDATA[ >"] {
            assert!(sheet(text.as_bytes(), &Formats::default()).is_err(), "{text}");
        }
        assert!(sheet("<worksheet> ".as_bytes(), &Formats::default()).is_ok());
    }

    #[test]
    fn references_are_read_with_and_without_signs() {
        assert_eq!(reference("AB12"), Some((12, 28)));
        assert_eq!(reference("$XFD$1048576"), Some((1_048_576, 16_384)));
        for text in ["", "A", "12", "A0", "AAAAAAAAAAAAAAAAAAA1", "A-1"] {
            assert_eq!(reference(text), None, "{text}");
        }
    }
}

//! Tables of web pages: what some programs write under the name of a workbook. Only tables, rows, cells and what they
//! span are read; everything else is passed over. Cells are text, as they are shown.

use crate::problem::{Place, SourceId};
use crate::table::{Cell, Merge, Row, Value};

/// What a page holds: its tables one below the other, a blank row between them.
#[derive(Debug, Default)]
pub(super) struct Page {
    pub(super) rows: Vec<Row>,
    pub(super) merges: Vec<Merge>,
}

const MOST_COLUMNS: u16 = 16_384;
/// Rows that one cell may span: a larger number is a slip.
const MOST_SPAN: u32 = 10_000;
/// Elements whose content is no text.
const SILENT: [&str; 5] = ["script", "style", "title", "head", "comment"];

/// Reads the tables of a page.
pub(super) fn read(text: &str, source: SourceId) -> Page {
    let mut page = Page::default();
    let mut state = State { source, row: 0, column: 0, cell: None, depth: 0, silent: None };
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        state.text(&rest[..at]);
        rest = &rest[at..];
        if let Some(comment) = rest.strip_prefix("<!--") {
            rest = comment.split_once("-->").map_or("", |(_, after)| after);
            continue;
        }
        let Some(end) = tag_end(rest) else { break };
        state.tag(&rest[1..end], &mut page);
        rest = &rest[end + 1..];
    }
    state.text(rest);
    state.close_cell(&mut page);
    page
}

/// Where a tag ends: a `>` inside quotation marks does not end it.
fn tag_end(text: &str) -> Option<usize> {
    let mut quote = None;
    for (at, byte) in text.bytes().enumerate() {
        match (quote, byte) {
            (Some(open), byte) if open == byte => quote = None,
            (None, b'"' | b'\'') => quote = Some(byte),
            (None, b'>') => return Some(at),
            _ => {}
        }
    }
    // A mark that is never closed was none.
    text.find('>')
}

struct State {
    source: SourceId,
    row: u32,
    column: u16,
    cell: Option<(String, u32, u16)>,
    /// Tables inside cells are read as the text of the cell.
    depth: u32,
    silent: Option<&'static str>,
}

impl State {
    fn text(&mut self, text: &str) {
        if let (Some((cell, ..)), None) = (&mut self.cell, self.silent) {
            cell.push_str(text);
        }
    }

    fn tag(&mut self, tag: &str, page: &mut Page) {
        let is_end = tag.starts_with('/');
        let name: String = tag
            .trim_start_matches('/')
            .chars()
            .take_while(char::is_ascii_alphanumeric)
            .map(|c| c.to_ascii_lowercase())
            .collect();
        if let Some(silent) = SILENT.into_iter().find(|silent| *silent == name) {
            self.silent = (!is_end && !tag.ends_with('/')).then_some(silent);
            return;
        }
        match (name.as_str(), is_end) {
            ("table", false) => {
                self.depth += 1;
                if self.depth == 1 && self.row > 0 {
                    self.row += 1;
                }
            }
            ("table", true) => {
                self.depth = self.depth.saturating_sub(1);
                if self.depth == 0 {
                    self.close_cell(page);
                }
            }
            ("tr", false) if self.depth == 1 => {
                self.close_cell(page);
                self.row += 1;
                self.column = 0;
            }
            ("td" | "th", false) if self.depth == 1 => {
                self.close_cell(page);
                self.row = self.row.max(1);
                let span = |name| attribute(tag, name).and_then(|text| text.trim().parse::<u32>().ok());
                let rows = span("rowspan").unwrap_or(1).clamp(1, MOST_SPAN);
                let columns = span("colspan").unwrap_or(1).clamp(1, MOST_SPAN);
                self.cell = Some((String::new(), rows, u16::try_from(columns).unwrap_or(1)));
            }
            ("td" | "th", true) if self.depth == 1 => self.close_cell(page),
            ("br" | "p" | "div" | "tr" | "td" | "th", _) => self.text(" "),
            _ => {}
        }
    }

    fn close_cell(&mut self, page: &mut Page) {
        let Some((text, rows, columns)) = self.cell.take() else { return };
        // Cells that hang down from rows above take their columns first.
        let covering = |column: u16| {
            page.merges.iter().rev().take(64).find(|merge| {
                (merge.first_row + 1..=merge.last_row).contains(&self.row)
                    && (merge.first_column..=merge.last_column).contains(&column)
            })
        };
        let mut column = self.column.saturating_add(1);
        while let Some(merge) = covering(column).filter(|merge| merge.last_column < MOST_COLUMNS) {
            column = merge.last_column + 1;
        }
        let last = column.saturating_add(columns - 1);
        self.column = last;
        if last > MOST_COLUMNS {
            return;
        }
        if rows > 1 || columns > 1 {
            let last_row = self.row.saturating_add(rows - 1);
            page.merges.push(Merge {
                first_row: self.row,
                last_row,
                first_column: column,
                last_column: last,
            });
        }
        let text = spelled(&text);
        if text.is_empty() {
            return;
        }
        let place = Place::cell(self.source, self.row, column);
        let cell = Cell { place, column, value: Value::Text(text), spread: false };
        match page.rows.last_mut() {
            Some(row) if row.number == self.row => row.cells.push(cell),
            _ => page.rows.push(Row { number: self.row, cells: vec![cell] }),
        }
    }
}

/// The value of an attribute of a tag.
fn attribute<'t>(tag: &'t str, name: &str) -> Option<&'t str> {
    let lower = tag.to_ascii_lowercase();
    let at = lower.match_indices(name).map(|(at, _)| at).find(|at| {
        lower[..*at].ends_with(|c: char| c.is_ascii_whitespace())
            && lower[at + name.len()..].trim_start().starts_with('=')
    })?;
    let value = tag[at + name.len()..].trim_start().strip_prefix('=')?.trim_start();
    match value.chars().next()? {
        quote @ ('"' | '\'') => value[1..].split(quote).next(),
        _ => value.split(|c: char| c.is_ascii_whitespace() || c == '/').next(),
    }
}

/// Text with its references to letters spelled out and its space drawn together.
fn spelled(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        out.push_str(&rest[..at]);
        rest = &rest[at..];
        let reference = rest[1..].split_once(';').filter(|(name, _)| name.len() <= 8);
        if let Some((letter, after)) = reference.and_then(|(name, after)| Some((letter(name)?, after))) {
            out.push(letter);
            rest = after;
        } else {
            out.push('&');
            rest = &rest[1..];
        }
    }
    out.push_str(rest);
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn letter(name: &str) -> Option<char> {
    if let Some(number) = name.strip_prefix('#') {
        let hex = number.strip_prefix(['x', 'X']);
        let code = hex.map_or_else(|| number.parse().ok(), |hex| u32::from_str_radix(hex, 16).ok())?;
        return char::from_u32(code).filter(|letter| *letter != '\0');
    }
    Some(match name {
        "amp" => '&',
        "lt" => '<',
        "gt" => '>',
        "quot" => '"',
        "apos" => '\'',
        "nbsp" => ' ',
        "euro" => '\u{20ac}',
        "pound" => '\u{a3}',
        "frac14" => '\u{bc}',
        "frac12" => '\u{bd}',
        "frac34" => '\u{be}',
        "ndash" => '\u{2013}',
        "mdash" => '\u{2014}',
        "auml" => '\u{e4}',
        "ouml" => '\u{f6}',
        "uuml" => '\u{fc}',
        "Auml" => '\u{c4}',
        "Ouml" => '\u{d6}',
        "Uuml" => '\u{dc}',
        "szlig" => '\u{df}',
        "eacute" => '\u{e9}',
        "egrave" => '\u{e8}',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<(u32, Vec<(u16, String)>)> {
        let row = |row: Row| (row.number, row.cells.iter().map(|cell| (cell.column, cell.text())).collect());
        read(text, SourceId(0)).rows.into_iter().map(row).collect()
    }

    #[test]
    fn rows_and_cells_of_a_page_are_read_with_their_letters() {
        let page = "<html><head><style>td{x}</style></head><body><TABLE border=1><tr><th>Panel<th>0-10 mm</tr>\n\
                    <tr><td><b>K&uuml;hler</b><br>haube</td><td>4&nbsp;</td></tr></TABLE></body></html>";
        assert_eq!(
            rows(page),
            [
                (1, vec![(1, "Panel".into()), (2, "0-10 mm".into())]),
                (2, vec![(1, "K\u{fc}hler haube".into()), (2, "4".into())])
            ]
        );
    }

    #[test]
    fn cells_that_span_others_move_them() {
        let page = "<table><tr><td rowspan=2>A-1</td><td>roof</td></tr><tr><td>hood</td></tr>\
                    <tr><td colspan=\"2\">x</td><td>y</td></tr></table><table><tr><td>below</td></tr></table>";
        assert_eq!(
            rows(page),
            [
                (1, vec![(1, "A-1".into()), (2, "roof".into())]),
                (2, vec![(2, "hood".into())]),
                (3, vec![(1, "x".into()), (3, "y".into())]),
                (5, vec![(1, "below".into())])
            ]
        );
    }

    #[test]
    fn broken_pages_are_read_as_far_as_they_go() {
        assert_eq!(
            rows("<table><tr><td>a<td>b &amp c &#x41; &bogus;"),
            [(1, vec![(1, "a".into()), (2, "b &amp c A &bogus;".into())])]
        );
        assert_eq!(
            rows("<table><tr><td>a<td x=\"1>b</td><td>c</td>"),
            [(1, vec![(1, "a".into()), (2, "b".into()), (3, "c".into())])]
        );
        assert_eq!(rows("<table><tr><td colspan=99999999999>a</td><td rowspan=-1>b</td>").len(), 1);
        assert_eq!(rows("<!-- <table><tr><td>a"), []);
    }
}

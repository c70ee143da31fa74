//! The rows of the tables, sorted: what is data, what is a total, what is a note that belongs to no column.

use super::columns::KEYS;
use super::form_header::{FormHeader, is_label};
use super::own_words::OwnWords;
use super::panels::is_like_panel;
use super::tables::{Kind, Ours, has_key_column};
use crate::claim::words::folded;
use crate::problem::{Place, Problem, SourceId, catalogue};
use crate::table::{Cell, Row, Table, Value};
use std::collections::{BTreeMap, BTreeSet};

/// A row of data with the cells it is known by.
#[derive(Debug, Clone, Copy)]
pub(super) struct DataRow<'s> {
    pub(super) row: &'s Row,
    /// Cells of claim, job, registration and VIN: its own, or those it takes over from above.
    pub(super) keys: [Option<&'s Cell>; 4],
    /// Whether it stands in the name of the row above: its own key cells are blank, or nothing in the table names a job.
    pub(super) takes_over: bool,
    /// Of a row without key: those above it that a blank row, a total or a line of text parts it from.
    pub(super) parted_from: Option<[Option<&'s Cell>; 4]>,
}

/// A row headed `total`.
#[derive(Debug, Clone, Copy)]
pub(super) struct TotalRow<'s> {
    pub(super) row: &'s Row,
    /// How many rows of data of its table stand before it.
    pub(super) before: usize,
}

/// The rows of one table.
#[derive(Debug, Default)]
pub(super) struct TableRows<'s> {
    pub(super) data: Vec<DataRow<'s>>,
    pub(super) totals: Vec<TotalRow<'s>>,
    /// The first number of each column without a heading that holds any.
    pub(super) unheaded: Vec<&'s Cell>,
    /// Rows within the table that stand in one cell, separators and all.
    pub(super) run_together: Vec<&'s Cell>,
}

/// Sorts the rows of every table, and says which cells no table uses.
pub(super) fn sort<'s>(
    tables: &[Ours<'_, 's>],
    headers: &'s [FormHeader],
    own: &OwnWords,
) -> (Vec<TableRows<'s>>, Unread) {
    let mut unread = Unread::default();
    let mut all = Vec::with_capacity(tables.len());
    for (ours, header) in tables.iter().zip(headers) {
        let table = ours.table;
        // A title is a title; a name and a value beside each other may be meant as a fact. The upper one of two heading
        // rows stands above, too, and was used.
        let headings = |row: &&Row| table.columns.iter().any(|column| column.place.row == row.number);
        let above =
            table.above.iter().filter(|row| row.cells.len() > 1 && !headings(row) && !header.uses(row));
        above.for_each(|row| unread.above(row));
        let mut rows = TableRows::default();
        let mut last = table.heading_row;
        let mut above_row = table.heading_row;
        for row in table.rows {
            if is_total(*ours, row) {
                rows.totals.push(TotalRow { row, before: rows.data.len() });
                if ours.kind.has_sums() { unread.beside(table, row) } else { unread.row(row) }
            } else if is_data(*ours, own, row, last + 1 < row.number) {
                rows.data.push(data_row(*ours, header, row, rows.data.last(), last + 1 < row.number));
                unread.beside(table, row);
                last = row.number;
            } else if let Some(cell) = run_together(row).filter(|_| above_row + 1 == row.number) {
                rows.run_together.push(cell);
            } else {
                unread.row(row);
            }
            above_row = row.number;
        }
        rows.unheaded = unheaded(table, &rows.data);
        all.push(rows);
    }
    (all, unread)
}

/// A key fills down over rows that stand together; what parts them, may part claims.
fn data_row<'s>(
    ours: Ours<'_, 's>,
    header: &'s FormHeader,
    row: &'s Row,
    above: Option<&DataRow<'s>>,
    is_parted: bool,
) -> DataRow<'s> {
    let own = KEYS.map(|key| ours.table.cell(row, key.id));
    let is_blank = own.iter().all(Option::is_none) && ours.kind.takes_over();
    let own_row = DataRow { row, keys: own, takes_over: !has_key_column(ours.table), parted_from: None };
    match above.filter(|_| is_blank) {
        Some(above) if above.parted_from.is_some() => DataRow { parted_from: above.parted_from, ..own_row },
        Some(above) if is_parted && has_key_column(ours.table) => {
            DataRow { parted_from: Some(above.keys), ..own_row }
        }
        Some(above) => DataRow { keys: above.keys, takes_over: true, ..own_row },
        None if header.has_key() => {
            DataRow { keys: header.keys.each_ref().map(Option::as_ref), takes_over: false, ..own_row }
        }
        None => own_row,
    }
}

/// The first number of each column that has no heading. What stands left of all headings numbers the rows.
fn unheaded<'s>(table: &Table<'_>, data: &[DataRow<'s>]) -> Vec<&'s Cell> {
    let mut first: BTreeMap<u16, &'s Cell> = BTreeMap::new();
    for cell in data.iter().flat_map(|row| &row.row.cells).filter(|cell| is_unheaded_number(table, cell)) {
        first.entry(cell.column).or_insert(cell);
    }
    first.into_values().collect()
}

/// Whether a cell is a number in a column without a heading, which may be a count or an amount.
pub(super) fn is_unheaded_number(table: &Table<'_>, cell: &Cell) -> bool {
    let is_right = table.columns.first().is_some_and(|column| column.column < cell.column);
    let is_number = || match &cell.value {
        Value::Number(_) | Value::Money(_) | Value::Fault(_) => true,
        Value::Text(_) => cell.number(table.sheet.mark_of(cell).0).is_ok(),
        Value::Date(_) | Value::Bool(_) => false,
    };
    is_right && !is_headed(table, cell) && is_number()
}

fn is_headed(table: &Table<'_>, cell: &Cell) -> bool {
    table.headed(cell.column).is_some()
}

/// The only cell of a row, if it is a row of another separator, or one that was put between quotation marks as a whole.
fn run_together(row: &Row) -> Option<&Cell> {
    let [cell] = &row.cells[..] else { return None };
    let Value::Text(text) = &cell.value else { return None };
    let holds_fields = |separator: char| {
        let fields: Vec<&str> = text.split(separator).map(str::trim).collect();
        let is_number = |field: &&str| !field.is_empty() && field.bytes().all(|b| b.is_ascii_digit());
        fields.len() > 2 && fields.iter().any(is_number)
    };
    SEPARATORS.iter().any(|separator| holds_fields(*separator)).then_some(cell)
}

/// What parts the fields of a row in text files.
pub(super) const SEPARATORS: [char; 4] = [';', ',', '\t', '|'];

/// Whether a text says that its row or column sums others up, or carries a sum over a page.
pub(super) fn is_total_word(text: &str) -> bool {
    const WORDS: [&str; 36] = [
        "total",
        "totals",
        "sum",
        "sums",
        "grand total",
        "subtotal",
        "subtotals",
        "sub total",
        "total dents",
        "page total",
        "carried forward",
        "carried over",
        "brought forward",
        "total carried forward",
        "c f",
        "b f",
        "c fwd",
        "b fwd",
        "carry over",
        "carried",
        "summe",
        "gesamt",
        "gesamtsumme",
        "zwischensumme",
        "übertrag",
        "uebertrag",
        "somme",
        "sous total",
        "total général",
        "total general",
        "à reporter",
        "suma",
        "suma total",
        "totale",
        "totale generale",
        "riporto",
    ];
    const LONGEST: usize = 24;
    // Nearly every text is none, which its first letter says.
    let first = text.chars().find(|c| c.is_alphanumeric());
    first.is_some_and(|c| "tsgpcbzuüàrTSGPCBZUÜÀR".contains(c))
        && text.len() < LONGEST
        && WORDS.contains(&folded(text).as_str())
}

/// Whether the row is headed `total`: under the panel or item, or, in a row that names none, under a key or in its first
/// cell. A row that names its panel is data whatever stands beside it: `total` is a remark, too, and a settlement.
fn is_total(ours: Ours<'_, '_>, row: &Row) -> bool {
    let table = ours.table;
    let is_word = |cell: &Cell| matches!(&cell.value, Value::Text(text) if is_total_word(text));
    let is_headed = |id: &str| table.cell(row, id).is_some_and(is_word);
    let names = |id: &str| table.cell(row, id).is_some();
    if let Some(subject) = ours.kind.subject() {
        // A size below a blank panel belongs to the panel above.
        let is_named = names(subject) || (ours.kind == Kind::Long && names("size"));
        if is_headed(subject) || is_named {
            return is_headed(subject);
        }
    }
    let has_key = KEYS.iter().any(|key| names(key.id));
    let may_be_first = ours.kind.subject().is_some() || !has_key;
    KEYS.iter().any(|key| is_headed(key.id)) || (may_be_first && row.cells.first().is_some_and(is_word))
}

/// Whether a row is data of its table wherever it stands: neither a total nor a note, with or without a gap above it.
pub(super) fn is_data_anywhere(ours: Ours<'_, '_>, own: &OwnWords, row: &Row) -> bool {
    !is_total(ours, row) && is_data(ours, own, row, true) && is_data(ours, own, row, false)
}

/// Whether a row holds data, and not a note that somebody wrote below the table. Numbers are never taken for notes, nor
/// is a row with a key of its own and a name; a name alone is data if it comes near to a name that is known.
fn is_data(ours: Ours<'_, '_>, own: &OwnWords, row: &Row, is_after_gap: bool) -> bool {
    let Ours { kind, table } = ours;
    let has_key = KEYS.iter().any(|key| table.cell(row, key.id).is_some());
    let subject = kind.subject().map(|subject| table.cell(row, subject));
    if has_key && matches!(subject, Some(Some(_))) {
        return true;
    }
    let column = |cell: &Cell| table.headed(cell.column);
    let is_key =
        |cell: &&&Cell| column(cell).and_then(|c| c.id).is_some_and(|id| KEYS.iter().any(|key| key.id == id));
    let used: Vec<&Cell> = row
        .cells
        .iter()
        .filter(|cell| {
            !cell.spread && column(cell).is_some_and(|column| column.id.is_some() || column.in_family)
        })
        .collect();
    let has_measure = || used.iter().any(|cell| kind.is_measure(table, cell));
    match subject {
        None => {
            let others = used.len() - used.iter().filter(is_key).count();
            others > 1 || (others == 1 && has_key)
        }
        Some(None) => has_measure(),
        Some(Some(_)) if has_measure() => true,
        Some(Some(name)) if kind.has_panels() => is_like_panel(&name.text(), own),
        Some(Some(_)) => used.len() > 1 || !is_after_gap,
    }
}

/// Cells that belong to no column of a table, by place. Parts of one sheet may share a title: it is told once.
#[derive(Debug, Default)]
pub(super) struct Unread {
    cells: BTreeMap<Place, String>,
    /// Those of them that stand above their table, where labels are read.
    above: BTreeSet<Place>,
}

impl Unread {
    fn cell(&mut self, cell: &Cell) {
        if !cell.spread {
            self.cells.entry(cell.place).or_insert_with(|| cell.text());
        }
    }

    fn row(&mut self, row: &Row) {
        row.cells.iter().for_each(|cell| self.cell(cell));
    }

    /// A row above a table.
    fn above(&mut self, row: &Row) {
        self.above.extend(row.cells.iter().map(|cell| cell.place));
        self.row(row);
    }

    /// Cells of a row under no heading at all.
    fn beside(&mut self, table: &Table<'_>, row: &Row) {
        let is_unread = |cell: &&Cell| !is_headed(table, cell) && !is_unheaded_number(table, cell);
        row.cells.iter().filter(is_unread).for_each(|cell| self.cell(cell));
    }

    /// All of them with their texts.
    pub(super) fn into_cells(self) -> impl Iterator<Item = (Place, String)> {
        self.cells.into_iter()
    }

    /// Labels of a form with their values where none is read.
    fn labels(&self) -> impl Iterator<Item = Problem> {
        self.cells.iter().filter(|(place, _)| !self.above.contains(place)).filter_map(|(place, text)| {
            if let Some((label, value)) = text.split_once(':')
                && !value.trim().is_empty()
            {
                return is_label(label)
                    .then(|| catalogue::asked::label_beside(*place, label.trim(), value.trim()));
            }
            let right = Place { column: place.column.saturating_add(1), ..*place };
            let value = self.cells.get(&right).filter(|value| !is_label(value))?;
            is_label(text)
                .then(|| catalogue::asked::label_beside(*place, text.trim_end_matches([':', ' ']), value))
        })
    }

    /// One problem for each sheet, and one for each label.
    pub(super) fn problems(&self) -> Vec<Problem> {
        let mut by_sheet: BTreeMap<SourceId, (Place, &str, usize)> = BTreeMap::new();
        for (place, text) in &self.cells {
            by_sheet.entry(place.source).or_insert((*place, text, 0)).2 += 1;
        }
        let say = |(place, text, count)| catalogue::file::text_unread(place, count, text);
        by_sheet.into_values().map(say).chain(self.labels()).collect()
    }
}

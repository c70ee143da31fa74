//! The rows of the tables, sorted: what is data, what is a total, what is a note that belongs to no column.

use super::columns::KEYS;
use super::panels::is_like_panel;
use super::tables::{Kind, Ours, has_key_column};
use crate::claim::words::folded;
use crate::problem::{Place, Problem, SourceId, catalogue};
use crate::table::{Cell, Row, Table, Value};
use std::collections::BTreeMap;

/// A row of data with the cells it is known by.
#[derive(Debug, Clone, Copy)]
pub(super) struct DataRow<'s> {
    pub(super) row: &'s Row,
    /// Cells of claim, job, registration and VIN: its own, or those it takes over from above.
    pub(super) keys: [Option<&'s Cell>; 4],
    /// Whether it stands in the name of the row above: its own key cells are blank, or nothing in the table names a job.
    pub(super) takes_over: bool,
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
}

/// Sorts the rows of every table, and says which cells no table uses.
pub(super) fn sort<'s>(tables: &[Ours<'_, 's>]) -> (Vec<TableRows<'s>>, Vec<Problem>) {
    let mut unread = Unread::default();
    let mut all = Vec::with_capacity(tables.len());
    for ours in tables {
        let table = ours.table;
        // A title is a title; a name and a value beside each other may be meant as a fact. The upper one of two heading
        // rows stands above, too, and was used.
        let headings = |row: &&Row| table.columns.iter().any(|column| column.place.row == row.number);
        let above = table.above.iter().filter(|row| row.cells.len() > 1 && !headings(row));
        above.for_each(|row| unread.row(row));
        let mut rows = TableRows::default();
        let mut last = table.heading_row;
        for row in table.rows {
            if is_total(*ours, row) {
                rows.totals.push(TotalRow { row, before: rows.data.len() });
                if ours.kind.has_counts() { unread.beside(table, row) } else { unread.row(row) }
            } else if is_data(*ours, row, last + 1 < row.number) {
                rows.data.push(data_row(*ours, row, rows.data.last()));
                unread.beside(table, row);
                last = row.number;
            } else {
                unread.row(row);
            }
        }
        all.push(rows);
    }
    (all, unread.problems())
}

fn data_row<'s>(ours: Ours<'_, 's>, row: &'s Row, above: Option<&DataRow<'s>>) -> DataRow<'s> {
    let own = KEYS.map(|key| ours.table.cell(row, key.id));
    let is_blank = own.iter().all(Option::is_none) && ours.kind.takes_over();
    match above {
        Some(above) if is_blank => DataRow { row, keys: above.keys, takes_over: true },
        _ => DataRow { row, keys: own, takes_over: !has_key_column(ours.table) },
    }
}

/// Whether the row is headed `total`: under the panel or item, or, in a row that names none, under a key or in its first
/// cell. A row that names its panel is data whatever stands beside it: `total` is a remark, too, and a settlement.
fn is_total(ours: Ours<'_, '_>, row: &Row) -> bool {
    const WORDS: [&str; 8] =
        ["total", "totals", "sum", "sums", "grand total", "subtotal", "sub total", "total dents"];
    let table = ours.table;
    let is_word = |cell: &Cell| matches!(&cell.value, Value::Text(text) if text.len() < 16 && WORDS.contains(&folded(text).as_str()));
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

/// Whether a row holds data, and not a note that somebody wrote below the table. Numbers are never taken for notes, nor
/// is a row with a key of its own and a name; a name alone is data if it comes near to a name that is known.
fn is_data(ours: Ours<'_, '_>, row: &Row, is_after_gap: bool) -> bool {
    let Ours { kind, table } = ours;
    let column = |cell: &Cell| table.columns.iter().find(|column| column.column == cell.column);
    let is_key =
        |cell: &&&Cell| column(cell).and_then(|c| c.id).is_some_and(|id| KEYS.iter().any(|key| key.id == id));
    let used: Vec<&Cell> = row
        .cells
        .iter()
        .filter(|cell| {
            !cell.spread && column(cell).is_some_and(|column| column.id.is_some() || column.in_family)
        })
        .collect();
    let has_key = KEYS.iter().any(|key| table.cell(row, key.id).is_some());
    let has_measure = used.iter().any(|cell| kind.is_measure(table, cell));
    let Some(subject) = kind.subject() else {
        let others = used.len() - used.iter().filter(is_key).count();
        return others > 1 || (others == 1 && has_key);
    };
    match table.cell(row, subject) {
        None => has_measure,
        Some(_) if has_key || has_measure => true,
        Some(name) if kind.has_panels() => is_like_panel(&name.text()),
        Some(_) => used.len() > 1 || !is_after_gap,
    }
}

/// Cells that belong to no column of a table, by sheet: the first of them, and how many there are.
#[derive(Debug, Default)]
struct Unread {
    by_sheet: BTreeMap<SourceId, (Place, String, usize)>,
}

impl Unread {
    fn cell(&mut self, cell: &Cell) {
        if !cell.spread {
            let entry =
                self.by_sheet.entry(cell.place.source).or_insert_with(|| (cell.place, cell.text(), 0));
            entry.2 += 1;
        }
    }

    fn row(&mut self, row: &Row) {
        row.cells.iter().for_each(|cell| self.cell(cell));
    }

    /// Cells of a row under no heading at all.
    fn beside(&mut self, table: &Table<'_>, row: &Row) {
        let is_headed = |cell: &Cell| table.columns.iter().any(|column| column.column == cell.column);
        row.cells.iter().filter(|cell| !is_headed(cell)).for_each(|cell| self.cell(cell));
    }

    fn problems(self) -> Vec<Problem> {
        let say =
            |(place, text, count): (Place, String, usize)| catalogue::file::text_unread(place, count, &text);
        self.by_sheet.into_values().map(say).collect()
    }
}

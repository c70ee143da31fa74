//! Tables that stand beside each other on one sheet.

use super::heading::may_head;
use super::rows::bare;
use crate::problem::{Problem, catalogue::file as say};
use crate::read::columns::{KEYS, PANEL, joined};
use crate::table::{Cell, Column, Form, HeadedColumn, Row, Sheet, fitting, named_among};

/// The sheet without its first table that stands right of another one, and that table with what stands above both.
/// Headings are of two tables where each part of the row is a heading by itself and both name a panel or a key: one
/// table has one column for them.
pub(super) fn parted(
    sheet: &Sheet,
    forms: &[&'static Form],
    problems: &mut Vec<Problem>,
) -> Option<(Sheet, Sheet)> {
    let rows = &sheet.rows;
    let found = |index: &usize| may_head(rows, *index) && rows[*index].cells.len() > 3;
    let (first, cut) =
        (0..rows.len()).filter(found).find_map(|index| Some((index, cut(&rows[index].cells, forms)?)))?;
    let heads = |index: usize| {
        rows[index - 1].number + 1 < rows[index].number && !fitting(&rows[index].cells, forms).is_empty()
    };
    let last = (first + 1..rows.len()).find(|index| heads(*index)).unwrap_or(rows.len());
    let is_first = rows[..first].iter().all(|row| fitting(&row.cells, forms).is_empty());
    let side = |row: &Row, is_right: bool| Row {
        number: row.number,
        cells: row.cells.iter().filter(|cell| (cell.column >= cut) == is_right).cloned().collect(),
    };
    let filled = |row: &Row| !row.cells.is_empty();
    let region = &rows[first..last];
    let above = if is_first { &rows[..first] } else { &[] };
    let right = above.iter().cloned().chain(region.iter().map(|row| side(row, true)).filter(filled));
    let left = region.iter().map(|row| side(row, false)).filter(filled);
    let left = rows[..first].iter().cloned().chain(left).chain(rows[last..].iter().cloned());
    let place = rows[first].cells.iter().find(|cell| cell.column >= cut)?.place;
    problems.push(say::layout(place, "a table of its own begins here, beside another one"));
    let with = |rows: Vec<Row>| Sheet { rows, ..bare(sheet) };
    Some((with(left.collect()), with(right.collect())))
}

/// The column at which a second table begins: after a blank column, or with the second heading of one meaning.
fn cut(cells: &[Cell], forms: &[&'static Form]) -> Option<u16> {
    let is_after_gap = |index: &usize| cells[index - 1].column + 1 < cells[*index].column;
    let names =
        |index: usize| SUBJECTS.iter().find(|column| is(&cells[index], column)).map(|column| column.id);
    let is_repeated =
        |index: &usize| names(*index).is_some_and(|id| (0..*index).any(|at| names(at) == Some(id)));
    let within = || 2..cells.len() - 1;
    let mut starts = within().filter(is_after_gap).chain(within().filter(is_repeated));
    starts.find(|index| is_cut(cells, *index, forms)).map(|index| cells[index].column)
}

/// What a row of a table is known by.
static SUBJECTS: [Column; 6] = joined(&[&KEYS, &PANEL]);

fn is(cell: &Cell, column: &Column) -> bool {
    named_among(&cell.text(), std::slice::from_ref(column)).is_some()
}

fn is_cut(cells: &[Cell], index: usize, forms: &[&'static Form]) -> bool {
    let (left, right) = (fitting(&cells[..index], forms), fitting(&cells[index..], forms));
    let (Some((_, left)), Some((_, right))) = (left.first(), right.first()) else { return false };
    let has = |columns: &[HeadedColumn], id: &str| columns.iter().any(|column| column.id == Some(id));
    KEYS.iter().map(|key| key.id).chain(["panel"]).any(|id| has(left, id) && has(right, id))
}

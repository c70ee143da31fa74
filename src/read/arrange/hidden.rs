//! Rows and columns that the file hides: told, and not read.

use super::rows::bare;
use crate::problem::{Place, Problem, catalogue::file as say};
use crate::table::{Cell, Row, Sheet};

/// The sheet without its hidden rows and columns, if they hold anything.
pub(super) fn taken_out(sheet: &Sheet, problems: &mut Vec<Problem>) -> Option<Sheet> {
    let is_hidden = |row: &Row, cell: &Cell| {
        sheet.hidden_rows.contains(&row.number) || sheet.hidden_columns.contains(&cell.column)
    };
    let hidden = |row: &Row| row.cells.iter().filter(|cell| is_hidden(row, cell) && !cell.spread).count();
    let first = sheet.rows.iter().find_map(|row| row.cells.iter().find(|cell| is_hidden(row, cell)))?;
    let cells: usize = sheet.rows.iter().map(hidden).sum();
    let rows = sheet.rows.iter().filter(|row| sheet.hidden_rows.contains(&row.number)).count();
    let holds = |column: &&u16| sheet.rows.iter().any(|row| row.cell(**column).is_some());
    let columns = sheet.hidden_columns.iter().filter(holds).count();
    let place = Place { source: sheet.source, ..first.place };
    problems.push(say::part_hidden(place, rows, columns, cells, &first.text()));
    let left = |row: &Row| Row {
        number: row.number,
        cells: row.cells.iter().filter(|cell| !is_hidden(row, cell)).cloned().collect(),
    };
    let rows = sheet.rows.iter().map(left).filter(|row| !row.cells.is_empty()).collect();
    Some(Sheet { rows, ..bare(sheet) })
}

//! Sheets, rows and columns that the file hides: told, and not read unless somebody asked for it.

use super::rows::bare;
use crate::problem::{Place, Problem, Sources, catalogue::asked, catalogue::file as say};
use crate::table::{Cell, Row, Sheet};
use std::borrow::Cow;

/// What is read of a sheet; `None` of one that is hidden as a whole. `answer` is whether somebody asked for its hidden
/// parts, if anything was said of them.
pub(super) fn shown<'s>(
    sheet: &'s Sheet,
    answer: Option<bool>,
    sources: &Sources,
    problems: &mut Vec<Problem>,
) -> Option<Cow<'s, Sheet>> {
    let place = Place::whole(sheet.source);
    let mut told = Vec::new();
    let without = taken_out(sheet, &mut told);
    if sheet.is_hidden {
        told = vec![say::sheet_hidden(&sources.get(sheet.source).sheet).at(place)];
    }
    if let Some(is_read) = answer.filter(|_| !told.is_empty()) {
        told = vec![asked::hidden_answered(place, is_read)];
    }
    problems.append(&mut told);
    match answer {
        Some(true) => Some(Cow::Borrowed(sheet)),
        _ if sheet.is_hidden => None,
        _ => Some(without.map_or(Cow::Borrowed(sheet), Cow::Owned)),
    }
}

/// The sheet without its hidden rows and columns, if they hold anything.
fn taken_out(sheet: &Sheet, problems: &mut Vec<Problem>) -> Option<Sheet> {
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

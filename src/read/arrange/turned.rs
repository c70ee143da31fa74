//! Counts with the panels across and the sizes down.

use super::heading::{is_side, may_head, names_panel};
use super::rows::{NewRows, said};
use crate::problem::{Problem, catalogue::file as say};
use crate::read::rows::is_total_word;
use crate::read::sizes::is_size;
use crate::table::{Cell, Row, Sheet};

/// Where such a table stands.
struct Lying {
    /// The row of panels, by index.
    first: usize,
    /// Whether the sides stand in a row of their own below it.
    has_sides: bool,
    /// One beyond its last row.
    end: usize,
    /// The column of the first panel.
    column: u16,
}

/// The sheet with its next such table turned, from a row on; and the row that the search goes on from.
pub(super) fn upright(sheet: &Sheet, from: usize, problems: &mut Vec<Problem>) -> Option<(usize, Sheet)> {
    let lying = (from..sheet.rows.len()).find_map(|index| found(&sheet.rows, index))?;
    let heading = &sheet.rows[lying.first];
    let body = &sheet.rows[lying.first + 1 + usize::from(lying.has_sides)..lying.end];
    let mut new = NewRows::after(sheet, lying.first);
    // What stands above the sizes may name their unit: it stays, as a title.
    let corner: Vec<&Cell> = heading.cells.iter().filter(|cell| cell.column < lying.column).collect();
    new.leave(heading.number - lying.first.checked_sub(1).map_or(0, |above| sheet.rows[above].number) - 1);
    for cell in &corner {
        new.push(cell.place, [(1, Some((*cell).clone()), cell.place)]);
    }
    let place = corner.first().map_or_else(|| sheet.row_place(heading.number), |cell| cell.place);
    let label = |(column, row): (u16, &Row)| {
        let label = row.cells.first().filter(|cell| cell.column < lying.column).cloned();
        (column, label, sheet.row_place(row.number))
    };
    new.push(
        place,
        std::iter::once((1, Some(said("panel", place)), place)).chain((2..).zip(body).map(label)),
    );
    for (column, panel) in panels(sheet, &lying) {
        let count = |(at, row): (u16, &Row)| (at, row.cell(column).cloned(), sheet.place(row.number, column));
        let place = panel.place;
        let cells = std::iter::once((1, Some(panel), place)).chain((2..).zip(body).map(count));
        new.push(crate::problem::Place { row: 0, ..place }, cells);
    }
    let next = new.len();
    let mut above = body.last().map_or(heading.number, |row| row.number);
    for row in &sheet.rows[lying.end..] {
        new.keep(row, above);
        above = row.number;
    }
    problems.push(say::layout(
        place,
        "the panels stand across and the sizes down: each column was read as one panel",
    ));
    Some((next, new.finish()))
}

/// More sizes and facts than any table has.
const MOST_ROWS: usize = 1_000;

fn found(rows: &[Row], first: usize) -> Option<Lying> {
    let heading = &rows[first];
    if !may_head(rows, first) || heading.cells.len() < 2 {
        return None;
    }
    let start = heading.cells.iter().position(names_panel)?;
    let column = heading.cells[start].column;
    let is_across = |cell: &Cell| names_panel(cell) || is_total_word(&cell.text());
    let panels = heading.cells[start..].iter().filter(|cell| names_panel(cell)).count();
    if start > 1 || column < 2 || panels < 2 || !heading.cells[start..].iter().all(is_across) {
        return None;
    }
    let follows = |index: &usize| {
        let row = &rows[*index];
        rows[index - 1].number + 1 == row.number && row.cells.iter().any(|cell| cell.column >= column)
    };
    let below = |cell: &&Cell| cell.column >= column;
    let has_sides = rows.get(first + 1).is_some_and(|row| {
        let sides: Vec<String> = row.cells.iter().filter(below).map(Cell::text).collect();
        sides.len() > 1 && sides.iter().all(|side| is_side(side))
    });
    let body = first + 1 + usize::from(has_sides);
    let end = (body..rows.len()).find(|index| !follows(index)).unwrap_or(rows.len());
    // Each row becomes a column.
    if end.saturating_sub(body) > MOST_ROWS {
        return None;
    }
    let label = |row: &Row| row.cells.first().filter(|cell| cell.column < column).map(Cell::text);
    let is_sized = rows[body.min(end)..end].iter().filter_map(label).any(|label| is_size(&label));
    is_sized.then_some(Lying { first, has_sides, end, column })
}

/// The panels with their columns, side included; a blank beside a panel that is parted into sides is that panel.
fn panels(sheet: &Sheet, lying: &Lying) -> Vec<(u16, Cell)> {
    let heading = &sheet.rows[lying.first];
    if !lying.has_sides {
        let across = heading.cells.iter().filter(|cell| cell.column >= lying.column);
        return across.map(|cell| (cell.column, cell.clone())).collect();
    }
    let sides = &sheet.rows[lying.first + 1];
    let columns =
        lying.column..=sides.cells.iter().chain(&heading.cells).map(|cell| cell.column).max().unwrap_or(0);
    let named = |column: u16| {
        let panel =
            heading.cells.iter().rev().find(|cell| cell.column <= column && cell.column >= lying.column)?;
        match sides.cell(column) {
            Some(side) => Some((column, said(&format!("{} {}", side.text(), panel.text()), panel.place))),
            None => (panel.column == column).then(|| (column, panel.clone())),
        }
    };
    columns.filter_map(named).collect()
}

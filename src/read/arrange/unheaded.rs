//! A column of panels that nobody headed, as on forms where the sizes alone have headings.

use super::heading::{may_head, names_panel};
use super::rows::said;
use crate::problem::{Problem, catalogue::file as say};
use crate::read::columns::PANEL;
use crate::read::sizes::is_size;
use crate::table::{Cell, Row, Sheet, named_among};

/// Rows below a heading that are looked at.
const SOME: usize = 6;

/// The sheet with `panel` above each such column; `None` where there is none.
pub(super) fn headed(sheet: &Sheet, problems: &mut Vec<Problem>) -> Option<Sheet> {
    let found: Vec<(usize, u16)> =
        (0..sheet.rows.len()).filter_map(|index| Some((index, column(&sheet.rows, index)?))).collect();
    if found.is_empty() {
        return None;
    }
    let mut headed = sheet.clone();
    for (index, column) in found {
        let row = &mut headed.rows[index];
        let place = sheet.place(row.number, column);
        let at = row.cells.partition_point(|cell| cell.column < column);
        row.cells.insert(at, Cell { column, ..said("panel", place) });
        problems
            .push(say::layout(place, "nothing stands above this column of panels: it was read as `panel`"));
    }
    Some(headed)
}

/// The column left of the sizes of a heading row that has no heading and holds panels in most rows right below.
fn column(rows: &[Row], index: usize) -> Option<u16> {
    let row = &rows[index];
    let sizes = || row.cells.iter().filter(|cell| is_size(&cell.text()));
    let names = |row: &Row| row.cells.iter().any(|cell| named_among(&cell.text(), &PANEL[..1]).is_some());
    let upper = index.checked_sub(1).map(|upper| &rows[upper]).filter(|upper| upper.number + 1 == row.number);
    if !may_head(rows, index) || sizes().count() < 2 || names(row) || upper.is_some_and(names) {
        return None;
    }
    let first = sizes().next()?.column;
    let below: Vec<&Row> = rows[index + 1..].iter().take(SOME).collect();
    (1..first).filter(|column| row.cell(*column).is_none()).find(|column| {
        let panels = below.iter().filter(|row| row.cell(*column).is_some_and(names_panel)).count();
        panels * 2 > below.len()
    })
}

//! Bare numbers as headings beside panels (`10`, `20`, `30`): sizes, but up to them, from them, and in which unit?

use super::heading::{may_head, names_panel};
use crate::problem::{Problem, catalogue::file as say};
use crate::quantity::Decimal;
use crate::read::columns::PANEL;
use crate::table::{Cell, Row, Sheet, Value, named_among};

/// The sheet with such headings as names of sizes, which no schedule lists, so that each is asked about.
pub(super) fn named(sheet: &Sheet, problems: &mut Vec<Problem>) -> Option<Sheet> {
    let found: Vec<(usize, Vec<usize>)> =
        (0..sheet.rows.len()).filter_map(|index| Some((index, sizes(sheet, index)?))).collect();
    if found.is_empty() {
        return None;
    }
    let mut named = sheet.clone();
    for (index, cells) in found {
        let first = cells.first().map(|at| named.rows[index].cells[*at].place);
        for at in cells {
            let cell = &mut named.rows[index].cells[at];
            cell.value = Value::Text(format!("size {}", cell.text()));
        }
        let how = "bare numbers head these columns: which sizes they stand for is asked about";
        problems.extend(first.map(|place| say::layout(place, how)));
    }
    Some(named)
}

/// The cells of a heading row that are rising numbers, two or more, right of the heading of the panels, with a panel
/// right below that.
fn sizes(sheet: &Sheet, index: usize) -> Option<Vec<usize>> {
    let row: &Row = &sheet.rows[index];
    let number = |cell: &Cell| cell.number(sheet.mark).ok().filter(|number| *number > Decimal::ZERO);
    let is_panel = |cell: &Cell| named_among(&cell.text(), &PANEL[..1]).is_some();
    let at = row.cells.iter().position(is_panel).filter(|_| may_head(&sheet.rows, index))?;
    let below = sheet.rows.get(index + 1)?.cell(row.cells[at].column)?;
    let numbers: Vec<usize> = (0..row.cells.len()).filter(|at| number(&row.cells[*at]).is_some()).collect();
    let values: Vec<Decimal> = numbers.iter().filter_map(|at| number(&row.cells[*at])).collect();
    let is_rising = values.windows(2).all(|pair| pair[0] < pair[1]);
    let is_right = numbers.first().is_some_and(|first| *first > at);
    (numbers.len() > 1 && is_rising && is_right && names_panel(below)).then_some(numbers)
}

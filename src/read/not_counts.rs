//! Tables that have the headings of counts and hold something else.

use super::tables::{Kind, Ours};
use crate::problem::{Problem, catalogue::file as say};
use crate::table::{Cell, Value};

/// Takes price lists away from the tables: amounts in whole units would read as numbers of dents.
pub(super) fn taken_out(ours: &mut Vec<Ours<'_, '_>>) -> Vec<Problem> {
    let mut problems = Vec::new();
    ours.retain(|ours| {
        let is_list = is_price_list(*ours);
        if is_list {
            let place = ours.table.sheet.row_place(ours.table.heading_row);
            problems.push(say::price_list(place));
        }
        !is_list
    });
    problems
}

/// Whether most numbers below the sizes are amounts of money: with two decimals, or a sign of a currency.
pub(super) fn is_price_list(ours: Ours<'_, '_>) -> bool {
    const ROWS: usize = 200;
    if ours.kind != Kind::Wide {
        return false;
    }
    let columns = || ours.table.columns.iter().filter(|column| column.in_family);
    let cells = ours
        .table
        .rows
        .iter()
        .take(ROWS)
        .flat_map(|row| columns().filter_map(|column| row.cell(column.column)));
    let (mut numbers, mut amounts) = (0_usize, 0_usize);
    for cell in cells.filter(|cell| holds_digit(cell)) {
        numbers += 1;
        amounts += usize::from(is_amount(cell));
    }
    numbers > 1 && amounts * 2 > numbers
}

fn holds_digit(cell: &Cell) -> bool {
    match &cell.value {
        Value::Number(_) | Value::Money(_) => true,
        Value::Text(text) => text.contains(|c: char| c.is_ascii_digit()),
        Value::Date(_) | Value::Bool(_) | Value::Fault(_) => false,
    }
}

fn is_amount(cell: &Cell) -> bool {
    match &cell.value {
        Value::Money(_) => true,
        Value::Number(number) => number.normalize().scale() == 2,
        Value::Text(text) => {
            let decimals = text.rsplit_once(['.', ',']).map_or("", |(_, decimals)| decimals);
            let has_two = decimals.len() == 2 && decimals.bytes().all(|byte| byte.is_ascii_digit());
            has_two || text.contains(['$', '\u{20ac}', '\u{a3}'])
        }
        Value::Date(_) | Value::Bool(_) | Value::Fault(_) => false,
    }
}

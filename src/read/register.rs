//! Registers: dated rows of what happened to which claim.

use super::cells::Cells;
use super::columns::{KEYS, joined};
use super::jobs::{KINDS, name};
use super::own_words::OwnWords;
use crate::claim::{KeyKind, Located, RegisterRow};
use crate::problem::{Problem, catalogue::claim as say};
use crate::table::{Cell, Column, Form, Table};

/// A row, something that happened. Without a key it may be any diary.
pub(super) static FORM: Form = Form {
    name: "register",
    columns: &COLUMNS,
    family: None,
    one_of: &["claim", "job", "registration", "vin"],
};

const HAPPENED: [Column; 5] = [
    Column::needed("date", &["day", "on", "dated"]),
    Column::needed("event", &["step", "what happened", "happened", "what"]),
    Column::optional("amount", &["sum", "for amount"]),
    Column::optional("by", &["by whom", "who", "done by"]),
    Column::optional("remark", &["remarks", "note", "notes"]),
];
static COLUMNS: [Column; 9] = joined(&[&HAPPENED, &KEYS]);

/// The rows of all registers, in the order of the tables. A row that cannot be understood is told and left out.
pub fn register_rows(tables: &[Table<'_>]) -> (Vec<RegisterRow>, Vec<Problem>) {
    let (mut all, mut problems) = (Vec::new(), Vec::new());
    let own = OwnWords::default();
    for table in tables.iter().filter(|table| *table.form == FORM) {
        let mut above: Option<(u32, [Option<&Cell>; 4])> = None;
        for row in table.rows.iter().filter(|row| !row.cells.is_empty()) {
            let mut keys = KEYS.map(|key| table.cell(row, key.id));
            // Written once above blank cells, a key holds for the rows right below it.
            if let Some((_, before)) = above.filter(|(number, _)| number + 1 == row.number)
                && keys.iter().all(Option::is_none)
            {
                keys = before;
            }
            above = Some((row.number, keys));
            let mut cells = Cells::new(table, row, &own);
            all.extend(register_row(&mut cells, keys).filter(|_| cells.problems.is_empty()));
            problems.append(&mut cells.problems);
        }
    }
    (all, problems)
}

fn register_row(cells: &mut Cells<'_, '_>, keys: [Option<&Cell>; 4]) -> Option<RegisterRow> {
    let place = cells.place();
    let names: Vec<(KeyKind, String)> =
        KINDS.into_iter().zip(keys).filter_map(|(kind, cell)| name(kind, cell?)).collect();
    let Some(key) = keys.into_iter().flatten().next().filter(|_| !names.is_empty()) else {
        cells.problems.push(say::key_missing(place));
        return None;
    };
    let key = Located::new(key.text(), key.place);
    if !cells.has("date") {
        cells.lacks("date");
    }
    if !cells.has("event") {
        cells.lacks("event");
    }
    let (date, step) = (cells.date("date"), cells.word("event"));
    let amount = cells.amount("amount", None);
    let (by, remark) = (cells.text("by"), cells.text("remark"));
    Some(RegisterRow { place, key, names, date: date?, step: step?, amount, by, remark })
}

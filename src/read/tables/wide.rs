//! Counts with a column per size.

use super::{TableState, Target, counts};
use crate::claim::{Counted, Role, TallyEntry};
use crate::read::cells::Cells;
use crate::read::columns::{CONDITION, FACTS, INSPECTION, KEYS, PANEL, REMARK, joined};
use crate::read::inspections::{add_counts, is_given_again};
use crate::read::{count, sizes};
use crate::table::{Column, Form};
use std::sync::Arc;

pub(super) static FORM: Form =
    Form { name: "wide counts", columns: &COLUMNS, family: Some(sizes::is_size), one_of: &[] };

const TOTAL: [Column; 1] = [Column::optional(
    "total",
    &[
        "totals",
        "sum",
        "total dents",
        "dents total",
        "dents",
        "number of dents",
        "all sizes",
        "summe",
        "gesamt",
        "somme",
        "suma",
        "totale",
    ],
)];
/// What a table to agree on says beside its counts, to help people: known, and read past on purpose.
const BESIDE: [Column; 4] = [
    Column::optional("counts as they are", &[]),
    Column::optional("amounts as they are", &[]),
    Column::optional("look again at", &[]),
    Column::optional("proposed by the median", &[]),
];
static COLUMNS: [Column; 53] =
    joined(&[&PANEL, &KEYS, &INSPECTION, &CONDITION, &TOTAL, &REMARK, &FACTS, &BESIDE]);

/// One row: a panel, and a count for each size; a blank among them is none written.
pub(super) fn read(state: &mut TableState, cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    counts::stamp(state, cells, target.takes_over);
    let car = target.car;
    let id = target.panels.of_row(cells, &car);
    let (sheet, row) = (cells.table.sheet, cells.row);
    let mut entries = Vec::with_capacity(state.columns.len());
    for size in &state.columns {
        let cell = row.cell(size.column);
        entries.push(TallyEntry {
            size: Arc::clone(&size.size),
            size_place: size.place,
            count: cell.map_or(Counted::NoneWritten, |cell| {
                count::counted(count::read(cells.table, &state.merged, cell), &mut cells.problems)
            }),
            place: sheet.place(row.number, size.column),
        });
    }
    let condition = counts::Condition::read(cells);
    let Some(id) = id else { return };
    let inspection = target.draft.inspection(&state.stamp, &mut cells.problems);
    let is_agreed = inspection.role() == Role::Agreed;
    let panel = counts::panel(inspection, id, cells);
    condition.settle(panel, &mut cells.problems);
    if !(is_agreed && is_given_again(panel, &entries, &mut cells.problems)) {
        add_counts(panel, entries, &mut cells.problems);
    }
}

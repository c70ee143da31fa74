//! Damaged things that are no panels.

use super::Target;
use crate::claim::words::folded;
use crate::claim::{Item, ItemAction, Located};
use crate::problem::catalogue;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, REMARK, SOURCE, joined};
use crate::table::{Column, Form};

pub(super) static FORM: Form =
    Form { name: "items", columns: &COLUMNS, family: None, one_of: &["price", "hours"] };

const ITEM: [Column; 5] = [
    Column::needed("item", &["items", "component", "damaged item"]),
    Column::optional("action", &["what to do", "work", "operation"]),
    Column::optional("price", &["item price", "amount", "cost", "net price", "price of part"]),
    Column::optional("hours", &["labour", "labor", "labour hours", "labor hours", "time"]),
    Column::optional("calibration", &["calibrate", "needs calibration", "recalibration"]),
];
static COLUMNS: [Column; 12] = joined(&[&ITEM, &KEYS, &SOURCE, &REMARK]);

/// One row, one item.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let Some(name) = cells.text("item") else { return cells.lacks("item") };
    let item = Item {
        place,
        name,
        action: action(cells),
        price: cells.amount("price", target.dollar),
        hours: cells.hours("hours"),
        calibration: cells.answer("calibration"),
        source: cells.text("source"),
        date: cells.date("date of price"),
        remark: cells.text("remark"),
    };
    target.draft.claim.items.push(item);
}

/// What is done with it; "R&R" is used for putting the same part back and for fitting a new one.
fn action(cells: &mut Cells<'_, '_>) -> Option<Located<ItemAction>> {
    let cell = cells.cell("action")?;
    let text = cell.text();
    if matches!(folded(&text).as_str(), "r r" | "rr" | "r and r") {
        cells.problems.push(catalogue::claim::word_open(cell.place, &text));
        return None;
    }
    cells.word("action")
}

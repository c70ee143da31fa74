//! What was paid for a panel after an earlier event.

use super::Target;
use crate::claim::PaidBefore;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, PANEL, joined};
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form { name: "paid before", columns: &COLUMNS, family: None, one_of: &[] };

const PAID: [Column; 3] = [
    Column::needed("paid", &["paid before", "amount paid", "paid already", "already paid"]),
    Column::optional("event", &["earlier event", "storm", "for event"]),
    Column::optional("date paid", &["paid on", "payment date", "date"]),
];
static COLUMNS: [Column; 9] = joined(&[&PANEL, &PAID, &KEYS]);

/// One row, one payment. Several for one panel add up.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let car = target.car;
    let panel = target.panels.of_row(cells, &car);
    if !cells.has("panel") {
        return;
    }
    if !cells.has("paid") {
        return cells.lacks("paid");
    }
    let amount = cells.amount("paid", target.dollar);
    let (event, date) = (cells.text("event"), cells.date("date paid"));
    let (Some(panel), Some(amount)) = (panel, amount) else { return };
    target.draft.claim.paid_before.push(PaidBefore { place, panel: panel.value, amount, event, date });
}

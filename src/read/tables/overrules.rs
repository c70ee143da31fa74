//! Panels on which a person decided otherwise.

use super::Target;
use crate::claim::Overrule;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, PANEL, joined};
use crate::read::draft::settle;
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form { name: "overrules", columns: &COLUMNS, family: None, one_of: &[] };

const DECISION: [Column; 4] = [
    Column::needed("method", &["decision", "decided method", "method instead"]),
    Column::needed("decided by", &["by", "decided", "who decided"]),
    Column::optional("reason", &["why", "reasons", "because"]),
    Column::optional("date of decision", &["decision date", "decided on", "date"]),
];
static COLUMNS: [Column; 10] = joined(&[&PANEL, &DECISION, &KEYS]);

/// One row, one decision. Two on one panel have to agree.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let car = target.car;
    let panel = target.panels.of_row(cells, &car);
    if !cells.has("panel") {
        return;
    }
    if !cells.has("method") {
        return cells.lacks("method");
    }
    let method = cells.word("method");
    let (by, reason, date) = (cells.text("decided by"), cells.text("reason"), cells.date("date of decision"));
    let (Some(panel), Some(method)) = (panel, method) else { return };
    let new = Overrule { place, panel: panel.value, method, by, reason, date };
    let overrules = &mut target.draft.claim.overrules;
    let Some(earlier) = overrules.iter_mut().find(|overrule| overrule.panel == new.panel) else {
        return overrules.push(new);
    };
    earlier.place = earlier.place.min(place);
    let mut decided = Some(earlier.method);
    settle(&mut decided, Some(new.method), "method", &mut cells.problems);
    earlier.method = decided.unwrap_or(earlier.method);
    settle(&mut earlier.by, new.by, "decided by", &mut cells.problems);
    settle(&mut earlier.reason, new.reason, "reason", &mut cells.problems);
    settle(&mut earlier.date, new.date, "date of decision", &mut cells.problems);
}

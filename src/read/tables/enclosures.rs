//! Papers that are listed for a claim.

use super::Target;
use crate::claim::Enclosure;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, joined};
use crate::table::{Column, Form};

/// A word alone may be a title: a key has to stand beside it.
pub(super) static FORM: Form = Form {
    name: "documents",
    columns: &COLUMNS,
    family: None,
    one_of: &["claim", "job", "registration", "vin"],
};

const DOCUMENT: [Column; 4] = [
    Column::needed("document", &["documents", "paper", "papers", "name of document", "kind of document"]),
    Column::optional("file", &["file name"]),
    Column::optional("date of document", &["dated", "signed on", "received on", "date"]),
    Column::optional("remark", &["remarks", "note", "notes"]),
];
static COLUMNS: [Column; 8] = joined(&[&DOCUMENT, &KEYS]);

/// One row, one paper.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let Some(name) = cells.text("document") else { return cells.lacks("document") };
    let (file, date) = (cells.text("file"), cells.date("date of document"));
    target.draft.claim.enclosures.push(Enclosure { place, name, file, date });
}

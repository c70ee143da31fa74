//! Photographs that are listed for a claim.

use super::Target;
use crate::claim::Photograph;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, SIDE, joined};
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form { name: "photographs", columns: &COLUMNS, family: None, one_of: &[] };

const PHOTOGRAPH: [Column; 5] = [
    Column::needed(
        "file",
        &["photograph", "photographs", "photo", "photos", "picture", "image", "file name"],
    ),
    Column::needed("shows", &["what it shows", "caption", "subject", "shown"]),
    Column::optional("panel", &["panels", "body panel"]),
    Column::optional("mark", &["mark no", "mark number", "which mark"]),
    Column::optional("date taken", &["taken", "taken on", "date"]),
];
static COLUMNS: [Column; 10] = joined(&[&PHOTOGRAPH, &[SIDE], &KEYS]);

/// One row, one photograph.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let Some(file) = cells.text("file") else { return cells.lacks("file") };
    let car = target.car;
    let panel = if cells.has("panel") { target.panels.of_row(cells, &car) } else { None };
    let (shows, mark, date) = (cells.text("shows"), cells.text("mark"), cells.date("date taken"));
    let image = None;
    target.draft.claim.photographs.push(Photograph { place, file, shows, panel, mark, date, image });
}

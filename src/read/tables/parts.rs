//! Prices and times that belong to this model of car.

use super::Target;
use crate::claim::PartPrice;
use crate::read::cells::Cells;
use crate::read::columns::{KEYS, PANEL, SOURCE, joined};
use crate::read::draft::settle;
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form {
    name: "parts",
    columns: &COLUMNS,
    family: None,
    one_of: &["part price", "fitting", "conventional", "refinish", "paint material"],
};

const PRICES: [Column; 5] = [
    Column::optional("part price", &["price of part", "new part price", "price of new part", "price"]),
    Column::optional("fitting", &["fitting hours", "fitting time", "hours to fit", "fit"]),
    Column::optional(
        "conventional",
        &["conventional hours", "conventional repair", "conventional repair hours"],
    ),
    Column::optional("refinish", &["refinish hours", "refinishing", "refinishing hours", "paint hours"]),
    Column::optional("paint material", &["paint materials", "paint and material", "material for paint"]),
];
static COLUMNS: [Column; 13] = joined(&[&PANEL, &PRICES, &KEYS, &SOURCE]);

/// One row, one panel. Rows of one panel add what the others leave blank.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    let car = target.car;
    let panel = target.panels.of_row(cells, &car);
    if !cells.has("panel") {
        return;
    }
    let price = cells.amount("part price", target.dollar);
    let (fitting, conventional) = (cells.hours("fitting"), cells.hours("conventional"));
    let (refinish, paint_material) = (cells.hours("refinish"), cells.amount("paint material", target.dollar));
    let (source, date) = (cells.text("source"), cells.date("date of price"));
    let Some(panel) = panel else { return };
    let new = PartPrice {
        place,
        panel: panel.value,
        price,
        fitting,
        conventional,
        refinish,
        paint_material,
        source,
        date,
    };
    let parts = &mut target.draft.claim.parts;
    match parts.iter_mut().find(|part| part.panel == new.panel) {
        Some(part) => merge(part, new, cells),
        None => parts.push(new),
    }
}

fn merge(part: &mut PartPrice, new: PartPrice, cells: &mut Cells<'_, '_>) {
    part.place = part.place.min(new.place);
    settle(&mut part.price, new.price, "part price", &mut cells.problems);
    settle(&mut part.fitting, new.fitting, "fitting", &mut cells.problems);
    settle(&mut part.conventional, new.conventional, "conventional", &mut cells.problems);
    settle(&mut part.refinish, new.refinish, "refinish", &mut cells.problems);
    settle(&mut part.paint_material, new.paint_material, "paint material", &mut cells.problems);
    settle(&mut part.source, new.source, "source", &mut cells.problems);
    settle(&mut part.date, new.date, "date of price", &mut cells.problems);
}

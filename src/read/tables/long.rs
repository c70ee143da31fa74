//! Counts with a row per panel and size.

use super::{TableState, Target, counts};
use crate::claim::words::folded;
use crate::claim::{Counted, Located, Mark, MarkKind, PanelCount, TallyEntry};
use crate::problem::catalogue;
use crate::read::cells::Cells;
use crate::read::columns::{CONDITION, FACTS, INSPECTION, KEYS, PANEL, REMARK, joined};
use crate::read::count;
use crate::read::inspections::add_counts;
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form { name: "long counts", columns: &COLUMNS, family: None, one_of: &[] };

const SIZE_AND_DENTS: [Column; 2] = [
    Column::needed(
        "size",
        &[
            "size band",
            "dent size",
            "size of dents",
            "diameter",
            "band",
            "sizes",
            "size range",
            "größe",
            "groesse",
            "große",
            "dellengröße",
            "dellengroße",
            "dellengroesse",
            "durchmesser",
            "taille",
            "diamètre",
            "diametre",
            "tamaño",
            "tamano",
            "diámetro",
            "diametro",
            "dimensione",
        ],
    ),
    Column::needed(
        "dents",
        &[
            "count",
            "number",
            "number of dents",
            "no of dents",
            "dent count",
            "qty",
            "quantity",
            "anzahl",
            "dellen",
            "anzahl dellen",
            "nombre",
            "nombre d impacts",
            "impacts",
            "número",
            "numero",
            "número de golpes",
            "numero de golpes",
            "golpes",
            "abolladuras",
            "cantidad",
            "bolli",
            "numero bolli",
        ],
    ),
];
static COLUMNS: [Column; 50] =
    joined(&[&PANEL, &SIZE_AND_DENTS, &KEYS, &INSPECTION, &CONDITION, &REMARK, &FACTS]);

/// One row: a panel, a size, a number. A panel that is blank below another one of the same job is that one.
pub(super) fn read(state: &mut TableState, cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    counts::stamp(state, cells, target.takes_over);
    let car = target.car;
    let takes_over = !cells.has("panel") && target.takes_over && state.panel.is_some();
    let panel = if takes_over { state.panel } else { target.panels.of_row(cells, &car) };
    // Below a panel that cannot be read stands nothing that could be taken over.
    state.panel = panel;
    let entry = entry(state, cells);
    let condition = counts::Condition::read(cells);
    let Some(id) = panel else { return };
    let inspection = target.draft.inspection(&state.stamp, &mut cells.problems);
    let panel = counts::panel(inspection, id, cells);
    condition.settle(panel, &mut cells.problems);
    match entry {
        Some(entry) if is_measured(cells, &entry) => add_dents(panel, cells, &entry),
        entry => add_counts(panel, entry.into_iter().collect(), &mut cells.problems),
    }
}

/// Whether a size is the diameter of single dents, and the column says so; elsewhere a single length is a band's name.
fn is_measured(cells: &Cells<'_, '_>, entry: &TallyEntry) -> bool {
    let heading = cells.table.column("size").map(|column| folded(&column.heading)).unwrap_or_default();
    entry.size.interval.is_none() && heading.split(' ').any(|word| matches!(word, "diameter" | "dia"))
}

/// As many equal dents as were counted of one diameter.
fn add_dents(panel: &mut PanelCount, cells: &mut Cells<'_, '_>, entry: &TallyEntry) {
    let Counted::Counted(count) = entry.count else {
        // What is no number is told at its cell; a blank says nothing.
        return;
    };
    let (place, length) = (cells.place(), cells.length("size"));
    let kind = Located::new(MarkKind::Dent, place);
    let mark = Mark {
        place,
        kind,
        cause: None,
        length,
        width: None,
        depth: None,
        position: None,
        access: None,
        remark: None,
    };
    panel.marks.extend(std::iter::repeat_n(mark, usize::try_from(count).unwrap_or_default()));
}

fn entry(state: &mut TableState, cells: &mut Cells<'_, '_>) -> Option<TallyEntry> {
    let number = cells.table.cell(cells.row, "dents");
    let size = cells.cell("size");
    let Some(size) = size else {
        if let Some(number) = number {
            cells.problems.push(catalogue::counts::size_missing(number.place));
        }
        return None;
    };
    let text = size.text();
    if state.sizes.lacks_unit(&text) {
        cells.problems.push(catalogue::counts::size_without_unit(size.place, &[&text]));
    }
    if state.sizes.has_other_mark(&text) {
        cells.problems.push(state.sizes.other_mark(size.place, &text));
    }
    let count = number.map_or(Counted::NoneWritten, |cell| {
        count::counted(count::read(cells.table, &state.merged, cell), &mut cells.problems)
    });
    let column = cells.table.column("dents").map_or(0, |column| column.column);
    let place = cells.table.sheet.place(cells.row.number, column);
    Some(TallyEntry { size: state.sizes.read(&text), size_place: size.place, count, place })
}

//! Marks that were measured or noted one by one, and lists of measured dents.

use super::{TableState, Target, counts};
use crate::claim::{Located, Mark, MarkKind};
use crate::read::cells::Cells;
use crate::read::columns::{INSPECTION, KEYS, PANEL, REMARK, joined};
use crate::read::draft::settle;
use crate::table::{Column, Form};

pub(super) static FORM: Form =
    Form { name: "marks", columns: &COLUMNS, family: None, one_of: &["length", "diameter"] };

const MARK: [Column; 9] = [
    Column::needed(
        "mark",
        &[
            "marks",
            "kind of mark",
            "mark type",
            "type of mark",
            "damage",
            "kind of damage",
            "kind",
            "type",
            "type of damage",
        ],
    ),
    Column::optional("length", &["length of mark", "mark length", "longest", "size"]),
    Column::optional(
        "diameter",
        &["largest diameter", "dia", "durchmesser", "diamètre", "diametre", "diámetro", "diametro"],
    ),
    Column::optional(
        "count",
        &[
            "number",
            "qty",
            "quantity",
            "dents",
            "no off",
            "pieces",
            "pcs",
            "number of marks",
            "no of marks",
            "how many",
        ],
    ),
    Column::optional("cause", &["caused by", "from", "origin"]),
    Column::optional("width", &["width of mark", "breadth"]),
    Column::optional("depth", &["dent depth", "depth of dent"]),
    Column::optional("position", &["position on panel", "where"]),
    Column::optional("access", &["access from behind", "rear access"]),
];
static COLUMNS: [Column; 21] = joined(&[&PANEL, &MARK, &KEYS, &INSPECTION, &REMARK]);

/// Measured dents, a row each, without a column that says what each mark is.
pub(super) static DENT_LIST: Form =
    Form { name: "measured dents", columns: &DENT_COLUMNS, family: None, one_of: &["length", "diameter"] };

const DENT: [Column; 7] = [
    Column::optional("length", &["size", "dent size", "size of dent", "longest", "dent length"]),
    Column::optional(
        "diameter",
        &[
            "largest diameter",
            "dia",
            "dent diameter",
            "durchmesser",
            "diamètre",
            "diametre",
            "diámetro",
            "diametro",
        ],
    ),
    MARK[4],
    MARK[5],
    MARK[6],
    MARK[7],
    MARK[8],
];
static DENT_COLUMNS: [Column; 19] = joined(&[&PANEL, &DENT, &KEYS, &INSPECTION, &REMARK]);

/// One row: a mark, or as many equal ones as its count says.
pub(super) fn read(state: &mut TableState, cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    counts::stamp(state, cells, target.takes_over);
    let car = target.car;
    let id = target.panels.of_row(cells, &car);
    let is_dent_list = cells.table.column("mark").is_none();
    if !is_dent_list && !cells.has("mark") {
        cells.lacks("mark");
    }
    // In a list of dents whatever has a row is one.
    let kind =
        if is_dent_list { Some(Located::new(MarkKind::Dent, cells.place())) } else { cells.word("mark") };
    let mut length = cells.length("length");
    let diameter = cells.length("diameter");
    settle(&mut length, diameter, "length and diameter", &mut cells.problems);
    let place = cells.place();
    let (cause, width) = (cells.word("cause"), cells.length("width"));
    let (depth, position) = (cells.word("depth"), cells.word("position"));
    let (access, remark) = (cells.word("access"), cells.text("remark"));
    if let Some(kind) = kind {
        for (id, length) in [("length", length), ("diameter", diameter), ("width", width)] {
            cells.ask_about_unit(
                id,
                length,
                matches!(kind.value, MarkKind::Dent | MarkKind::OversizeDent | MarkKind::Crown),
            );
        }
    }
    let count = cells.has("count").then(|| cells.marks());
    let (Some(id), Some(kind)) = (id, kind) else { return };
    let inspection = target.draft.inspection(&state.stamp, &mut cells.problems);
    let panel = counts::panel(inspection, id, cells);
    let mark = Mark { place, kind, cause, length, width, depth, position, access, remark };
    // A count that cannot be read is told at its cell.
    let count = count.map_or(1, Option::unwrap_or_default);
    panel.marks.extend(std::iter::repeat_n(mark, count));
}

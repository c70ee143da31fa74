//! Words of headings that arrangements are recognised by.

use crate::claim::words::folded;
use crate::claim::words::panel::readings;
use crate::table::{Cell, Row, Value};

/// Rows from the top of a sheet that are looked at as headings; below them only those after a blank row.
const TOP: usize = 60;

/// Whether a row may be a heading where it stands: what is far down a sheet follows a blank row.
pub(super) fn may_head(rows: &[Row], index: usize) -> bool {
    index < TOP || rows[index - 1].number + 1 < rows[index].number
}

/// Whether a text names a panel, whatever the car.
pub(super) fn is_panel(text: &str) -> bool {
    text.len() < 40 && !matches!(readings(text), Ok(readings) if readings.is_empty())
}

/// Whether a cell holds a text that names a panel.
pub(super) fn names_panel(cell: &Cell) -> bool {
    matches!(&cell.value, Value::Text(text) if is_panel(text))
}

/// Whether a text is a side and nothing else.
pub(super) fn is_side(text: &str) -> bool {
    const SIDES: [&str; 24] = [
        "l",
        "r",
        "lh",
        "rh",
        "lhs",
        "rhs",
        "lt",
        "rt",
        "left",
        "right",
        "left side",
        "right side",
        "left hand",
        "right hand",
        "near side",
        "nearside",
        "n s",
        "off side",
        "offside",
        "o s",
        "driver",
        "drivers side",
        "passenger",
        "passengers side",
    ];
    SIDES.contains(&folded(text).as_str())
}

/// Whether two rows hold the same texts.
pub(super) fn is_same(one: &Row, other: &Row) -> bool {
    let texts = |row: &Row| row.cells.iter().map(|cell| folded(&cell.text())).collect::<Vec<_>>();
    one.cells.len() == other.cells.len() && texts(one) == texts(other)
}

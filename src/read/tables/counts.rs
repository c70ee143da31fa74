//! What wide and long counts and marks have in common: whose inspection a row is, and what it says of its panel.

use super::TableState;
use crate::claim::{Inspection, Located, PanelCount, PanelId};
use crate::read::cells::Cells;
use crate::read::draft::{Stamp, settle};

/// Whose inspection a row is. What is blank is taken over from the row above where the key is, too. Called first, so
/// that a row that drops out still hands it on.
pub(super) fn stamp(state: &mut TableState, cells: &mut Cells<'_, '_>, takes_over: bool) {
    let above = std::mem::take(&mut state.stamp);
    state.stamp = Stamp {
        assessor: cells.text("assessor"),
        date: cells.date("date of inspection"),
        location: cells.text("place of inspection"),
        pass: cells.ordinal("pass"),
        role: cells.word("role"),
    };
    if takes_over {
        state.stamp.take_over(above);
    }
}

/// The panel of an inspection, with what the row says of it beside its counts.
pub(super) fn panel<'i>(
    inspection: &'i mut Inspection,
    id: Located<PanelId>,
    cells: &Cells<'_, '_>,
) -> &'i mut PanelCount {
    let index = match inspection.panels.binary_search_by_key(&id.value, |panel| panel.panel) {
        Ok(index) => index,
        Err(index) => {
            inspection.panels.insert(index, PanelCount::new(id.value, cells.place()));
            index
        }
    };
    let panel = &mut inspection.panels[index];
    panel.place = panel.place.min(cells.place());
    panel
}

/// What a row of counts says of the panel as a whole.
pub(super) fn condition(panel: &mut PanelCount, cells: &mut Cells<'_, '_>) {
    let (material, access, paint) = (cells.word("material"), cells.word("access"), cells.word("paint"));
    let (depth, position, frame) = (cells.word("depth"), cells.word("position"), cells.area("frame"));
    let remark = cells.text("remark");
    settle(&mut panel.material, material, "material", &mut cells.problems);
    settle(&mut panel.access, access, "access", &mut cells.problems);
    settle(&mut panel.paint, paint, "paint", &mut cells.problems);
    settle(&mut panel.depth, depth, "depth", &mut cells.problems);
    settle(&mut panel.position, position, "position", &mut cells.problems);
    settle(&mut panel.frame, frame, "frame", &mut cells.problems);
    panel.remarks.extend(remark);
}

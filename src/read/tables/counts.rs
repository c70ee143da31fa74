//! What wide and long counts and marks have in common: whose inspection a row is, and what it says of its panel.

use super::TableState;
use crate::claim::{Access, Depth, Inspection, Located, Material, Paint, PanelCount, PanelId, Position};
use crate::problem::Problem;
use crate::quantity::Area;
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
    state.stamp.take_over(state.written_above.clone());
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

/// What a row of counts says of its panel as a whole.
pub(super) struct Condition {
    material: Option<Located<Material>>,
    access: Option<Located<Access>>,
    paint: Option<Located<Paint>>,
    depth: Option<Located<Depth>>,
    position: Option<Located<Position>>,
    frame: Option<Located<Area>>,
    remark: Option<Located<String>>,
}

impl Condition {
    /// Read before the panel is known, so that all bad cells of a row are told.
    pub(super) fn read(cells: &mut Cells<'_, '_>) -> Self {
        Self {
            material: cells.word("material"),
            access: cells.word("access"),
            paint: cells.word("paint"),
            depth: cells.word("depth"),
            position: cells.word("position"),
            frame: cells.area("frame"),
            remark: cells.text("remark"),
        }
    }

    /// Puts it where it belongs.
    pub(super) fn settle(self, panel: &mut PanelCount, problems: &mut Vec<Problem>) {
        settle(&mut panel.material, self.material, "material", problems);
        settle(&mut panel.access, self.access, "access", problems);
        settle(&mut panel.paint, self.paint, "paint", problems);
        settle(&mut panel.depth, self.depth, "depth", problems);
        settle(&mut panel.position, self.position, "position", problems);
        settle(&mut panel.frame, self.frame, "frame", problems);
        panel.remarks.extend(self.remark);
    }
}

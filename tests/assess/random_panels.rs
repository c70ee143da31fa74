//! Panels of random claims.

use crate::builder::{CLAIM, cell, mark, mm, written};
use crate::random::{Dice, KINDS};
use std::sync::Arc;
use stipple::claim::{
    Access, Cause, Counted, Depth, MarkKind, Material, Paint, PanelCount, PanelId, PanelKind, Position, Side,
    SizeHeading, SizeInterval, TallyEntry,
};
use stipple::quantity::{Area, Decimal};
use stipple::schedule::Schedule;

pub fn panels(dice: &mut Dice) -> Vec<PanelCount> {
    let mut ids = Vec::new();
    for kind in KINDS.into_iter().chain([PanelKind::MirrorCap]) {
        let sides = [Some(Side::Left), Some(Side::Right)];
        let sides: &[Option<Side>] = if kind.is_paired() { &sides } else { &[None] };
        ids.extend(sides.iter().map(|side| PanelId::new(kind, *side)).filter(|_| dice.once_in(2)));
    }
    if ids.is_empty() {
        ids.push(crate::builder::hood());
    }
    let mut panels: Vec<PanelCount> = ids.into_iter().map(|id| panel(dice, id)).collect();
    panels[0].tally[0].count = Counted::Counted(3);
    panels
}

/// Now and then the dents were counted in a part of the panel, where the schedule can scale them.
pub fn framed(dice: &mut Dice, panel: &mut PanelCount, schedule: &Schedule) {
    let area =
        schedule.panels.iter().find(|terms| terms.kind == panel.panel.kind).and_then(|terms| terms.area);
    if let (Some(area), Some(_), true) = (area, schedule.terms.scaled_counts, dice.once_in(3)) {
        let part = area.value.square_millimetres() / i64::from(1 + dice.below(8));
        panel.frame = Some(written(Area::from_square_metres(Decimal::new(part, 6)).unwrap()));
        for entry in &mut panel.tally {
            if matches!(entry.count, Counted::Estimated { .. }) {
                entry.count = Counted::Counted(dice.below(9));
            }
        }
    }
}

fn panel(dice: &mut Dice, id: PanelId) -> PanelCount {
    let mut made = PanelCount::new(id, cell(CLAIM));
    for (text, low, high) in
        [("0-10", "0", "10"), ("11-15", "11", "15"), ("15-20", "15", "20"), ("20-40", "20", "40")]
    {
        let interval = Some(SizeInterval { low: mm(low), high: Some(mm(high)), digit: mm("1") });
        let size = Arc::new(SizeHeading { text: text.to_owned(), interval });
        let count = match dice.below(6) {
            0 => Counted::NoneWritten,
            1 => Counted::Counted(0),
            2 => Counted::Estimated { low: 2, best: Some(5), high: None, how: "about 5".into() },
            3 => Counted::Counted(dice.below(40)),
            _ => Counted::Counted(dice.below(8)),
        };
        made.tally.push(TallyEntry { size, size_place: cell(CLAIM), count, place: cell(CLAIM) });
    }
    for _ in 0..dice.below(7).saturating_sub(4) {
        let kind = dice.any::<MarkKind>();
        let length = dice.pick(&["5", "15", "39", "41", "62", "90"]);
        let mut row = mark(kind, Some(length));
        row.cause = dice.maybe(4, |dice| written(dice.any::<Cause>()));
        row.depth = dice.maybe(3, |dice| written(dice.any::<Depth>()));
        row.access = dice.maybe(5, |dice| written(dice.any::<Access>()));
        made.marks.push(row);
    }
    made.material = dice.maybe(4, |_| written(Material::Aluminium));
    made.access = dice.maybe(3, |dice| written(dice.any::<Access>()));
    made.paint = dice.maybe(4, |dice| written(dice.any::<Paint>()));
    made.depth = dice.maybe(4, |dice| written(dice.any::<Depth>()));
    made.position = dice.maybe(4, |dice| written(dice.any::<Position>()));
    made
}

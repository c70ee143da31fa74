use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::Decimal;

/// One row of typical prices.
#[derive(Debug)]
pub(in crate::schedule) struct RawTypical {
    pub panel: Option<Located<String>>,
    pub class: Option<Located<String>>,
    pub part: Option<Located<Decimal>>,
    pub fitting: Option<Located<Decimal>>,
    pub conventional: Option<Located<Decimal>>,
    pub refinish: Option<Located<Decimal>>,
    pub blend: Option<Located<Decimal>>,
    pub paint_material: Option<Located<Decimal>>,
    pub source: Option<Located<String>>,
    pub sound: bool,
    pub place: Place,
}

impl RawTypical {
    pub(super) fn read(row: &mut RowReader<'_>) -> Self {
        Self {
            panel: row.text("panel"),
            class: row.text("vehicle class"),
            part: row.number("part"),
            fitting: row.number("fitting"),
            conventional: row.number("conventional"),
            refinish: row.number("refinish"),
            blend: row.number("blend"),
            paint_material: row.number("paint material"),
            source: row.free_text("source"),
            sound: row.is_sound(),
            place: row.place(),
        }
    }
}

use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::Decimal;

/// One row of panels. The area is in the heading's unit: square metres unless that says square centimetres.
#[derive(Debug)]
pub(in crate::schedule) struct RawPanel {
    pub panel: Located<String>,
    pub rated_as: Option<Located<String>>,
    pub lies: Option<Located<String>>,
    pub joined: Option<Located<String>>,
    pub class: Option<Located<String>>,
    pub area: Option<Located<Decimal>>,
    pub in_square_centimetres: bool,
    pub floor: Option<Located<Decimal>>,
    pub cap: Option<Located<Decimal>>,
    pub place: Place,
}

impl RawPanel {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        Some(Self {
            panel: row.needed("panel", RowReader::text)?,
            rated_as: row.text("rated as"),
            lies: row.needed("lies", RowReader::text),
            joined: row.needed("joined", RowReader::text),
            class: row.text("panel class"),
            area: row.number("area"),
            in_square_centimetres: row.unit("area").is_some_and(|unit| unit.to_lowercase().starts_with("cm")),
            floor: row.number("floor"),
            cap: row.number("cap"),
            place: row.place(),
        })
    }
}

use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::Decimal;

/// One row of operations.
#[derive(Debug)]
pub(in crate::schedule) struct RawOperation {
    pub name: Located<String>,
    pub panel: Option<Located<String>>,
    pub access: Option<Located<String>>,
    pub method: Option<Located<String>>,
    pub hours: Option<Located<Decimal>>,
    pub labour: Option<Located<String>>,
    pub parts: Option<Located<Decimal>>,
    pub once_per: Option<Located<String>>,
    pub caution: Option<Located<String>>,
    pub sound: bool,
    pub place: Place,
}

impl RawOperation {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        Some(Self {
            name: row.needed("operation", RowReader::text)?,
            panel: row.text("panel"),
            access: row.text("access"),
            method: row.text("method"),
            hours: row.number("hours"),
            labour: row.text("labour"),
            parts: row.number("parts"),
            once_per: row.text("once per"),
            caution: row.text("caution"),
            sound: row.is_sound(),
            place: row.place(),
        })
    }
}

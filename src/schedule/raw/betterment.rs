use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::Decimal;

/// One row of betterment.
#[derive(Debug)]
pub(in crate::schedule) struct RawBetterment {
    pub on: Located<String>,
    pub percent: Option<Located<Decimal>>,
    pub panel: Option<Located<String>>,
    pub item: Option<Located<String>>,
    pub from_years: Option<Located<u32>>,
    pub to_years: Option<Located<u32>>,
    /// Whether everything could be read; a blank age is an open end only then.
    pub sound: bool,
    pub place: Place,
}

impl RawBetterment {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let on = row.needed("betterment on", RowReader::text)?;
        Some(Self {
            on,
            percent: row.needed("percent", RowReader::percent),
            panel: row.text("panel"),
            item: row.text("item"),
            from_years: row.whole("from years"),
            to_years: row.whole("to years"),
            sound: row.is_sound(),
            place: row.place(),
        })
    }
}

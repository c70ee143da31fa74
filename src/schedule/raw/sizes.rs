use super::Edge;
use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::Decimal;

/// One row of size bands.
#[derive(Debug)]
pub(in crate::schedule) struct RawSizeBand {
    pub name: Located<String>,
    pub from: Option<Edge>,
    pub to: Option<Edge>,
    pub goes_by: Option<Located<String>>,
    pub weight: Option<Located<Decimal>>,
    pub place: Place,
}

impl RawSizeBand {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        Some(Self {
            name: row.needed("size band", RowReader::text)?,
            from: row.needed("from", RowReader::edge),
            to: row.needed("to", RowReader::edge),
            goes_by: row.text("goes by"),
            weight: row.number("weight"),
            place: row.place(),
        })
    }
}

/// One row of count bands.
#[derive(Debug)]
pub(in crate::schedule) struct RawCountBand {
    pub name: Located<String>,
    pub from: Option<Located<u32>>,
    pub to: Option<Located<u32>>,
    /// Whether both ends could be read; a blank `to` is an open end only then.
    pub sound: bool,
    pub place: Place,
}

impl RawCountBand {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let name = row.needed("count band", RowReader::text)?;
        let from = row.needed("from dents", RowReader::whole);
        let to = row.whole("to dents");
        Some(Self { name, from, to, sound: row.is_sound(), place: row.place() })
    }
}

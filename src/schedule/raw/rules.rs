use super::row::RowReader;
use crate::problem::{Located, Place};
use crate::quantity::{Decimal, DecimalMark, LengthUnit};
use crate::table::Cell;

/// One row of factors.
#[derive(Debug)]
pub(in crate::schedule) struct RawFactor {
    pub name: Located<String>,
    pub looks_at: Option<Located<String>>,
    pub is: Option<Located<String>>,
    /// Its number in the order; blank is the number of its row, from 1.
    pub order: Option<u32>,
    pub percent: Option<Located<Decimal>>,
    pub adds: Option<Located<Decimal>>,
    pub hours: Option<Located<Decimal>>,
    pub of: Option<Located<String>>,
    pub not_with: Option<Located<String>>,
    pub on: Option<Located<String>>,
    pub panel: Option<Located<String>>,
    pub sound: bool,
    pub place: Place,
}

impl RawFactor {
    pub(super) fn read(row: &mut RowReader<'_>, number: u32) -> Option<Self> {
        let name = row.needed("factor", RowReader::text)?;
        let looks_at = row.needed("looks at", RowReader::text);
        let is = row.text("is");
        // Where some rows carry a number, a blank one has no place among them.
        let order = if row.has_column("order") {
            row.needed("order", RowReader::whole).map(|order| order.value)
        } else {
            Some(number)
        };
        Some(Self {
            name,
            looks_at,
            is,
            order,
            percent: row.percent("percent"),
            adds: row.number("adds"),
            hours: row.number("hours"),
            of: row.text("of"),
            not_with: row.text("not with"),
            on: row.text("on"),
            panel: row.text("panel"),
            sound: row.is_sound(),
            place: row.place(),
        })
    }
}

/// One row of limits. What `beyond` has to be follows from what is measured, so it stays a cell.
#[derive(Debug)]
pub(in crate::schedule) struct RawLimit {
    pub name: Located<String>,
    pub measures: Option<Located<String>>,
    pub beyond: Option<Cell>,
    /// The unit of lengths in its heading.
    pub unit: Option<LengthUnit>,
    pub mark: DecimalMark,
    pub then: Option<Located<String>>,
    pub panel: Option<Located<String>>,
}

impl RawLimit {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        Some(Self {
            name: row.needed("limit", RowReader::text)?,
            measures: row.needed("measures", RowReader::text),
            beyond: row.needed("beyond", |row, id| row.cell(id).cloned()),
            unit: row.unit("beyond").and_then(LengthUnit::from_word),
            mark: row.mark(),
            then: row.needed("then", RowReader::text),
            panel: row.text("panel"),
        })
    }
}

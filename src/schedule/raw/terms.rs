use super::row::RowReader;
use crate::problem::Located;
use crate::quantity::{Decimal, DecimalMark};
use crate::table::Cell;

/// One row of the terms. What its value has to be follows from the term, so it stays a cell.
#[derive(Debug)]
pub(in crate::schedule) struct RawTerm {
    pub term: Located<String>,
    pub value: Option<Cell>,
    pub mark: DecimalMark,
}

impl RawTerm {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let term = row.needed("term", RowReader::text)?;
        Some(Self { term, value: row.cell("value").cloned(), mark: row.mark() })
    }
}

/// One row of labour rates.
#[derive(Debug)]
pub(in crate::schedule) struct RawLabour {
    pub class: Located<String>,
    pub per_hour: Option<Located<Decimal>>,
}

impl RawLabour {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let class = row.needed("labour", RowReader::text)?;
        Some(Self { class, per_hour: row.needed("per hour", RowReader::number) })
    }
}

/// One row of taxes.
#[derive(Debug)]
pub(in crate::schedule) struct RawTax {
    pub on: Located<String>,
    pub percent: Option<Located<Decimal>>,
}

impl RawTax {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let on = row.needed("tax on", RowReader::text)?;
        Some(Self { on, percent: row.needed("percent", RowReader::percent) })
    }
}

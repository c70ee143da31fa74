use super::row::RowReader;
use super::{parse_date, parse_yes_no};
use crate::problem::{Located, Place, Problem};
use crate::quantity::{Date, Decimal};
use crate::table::Cell;

/// One row of title rules.
#[derive(Debug)]
pub(in crate::schedule) struct RawTitle {
    pub note: Located<String>,
    pub registered_in: Located<String>,
    pub compares: Option<Located<String>>,
    pub when: Option<Located<String>>,
    pub share: Option<Located<Decimal>>,
    pub with_tax: Option<Located<bool>>,
    pub not_from: Option<Located<String>>,
    pub valid_from: Option<Located<Date>>,
    pub valid_to: Option<Located<Date>>,
    pub source: Option<Located<String>>,
    pub place: Place,
}

impl RawTitle {
    /// Every value but the causes left out and the last day has to be there: none is put in for it.
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let note = row.needed("title note", RowReader::free_text);
        let registered_in = row.needed("registered in", RowReader::text);
        Some(Self {
            compares: row.needed("compares", RowReader::text),
            when: row.needed("when", RowReader::text),
            share: row.needed("share", RowReader::percent),
            with_tax: row.needed("with tax", |row, id| parsed(row, id, parse_yes_no)),
            not_from: row.text("not from"),
            valid_from: row.needed("valid from", |row, id| parsed(row, id, parse_date)),
            valid_to: parsed(row, "valid to", parse_date),
            source: row.needed("source", RowReader::free_text),
            place: row.place(),
            note: note?,
            registered_in: registered_in?,
        })
    }
}

fn parsed<T>(
    row: &mut RowReader<'_>,
    id: &str,
    parse: impl FnOnce(&Cell, &str) -> Result<T, Problem>,
) -> Option<Located<T>> {
    let cell = row.cell(id)?;
    match parse(cell, id) {
        Ok(value) => Some(Located::new(value, cell.place)),
        Err(problem) => {
            row.tell(problem);
            None
        }
    }
}

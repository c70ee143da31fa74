//! What every table, heading and row was taken for, and by which rule.

use super::form_header::FormHeader;
use super::gather::claim_tables;
use super::rows;
use crate::claim::words::folded;
use crate::problem::Place;
use crate::read::own_words::OwnWords;
use crate::table::{Cell, HeadedColumn, Sheet, Table, parse_interval};

/// A table as it was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Understood {
    /// Where its heading stands.
    pub place: Place,
    /// What it was taken for: "wide counts".
    pub form: &'static str,
    /// Its heading row as written, by which files of one shape are known.
    pub shape: String,
    /// Its headings.
    pub columns: Vec<UnderstoodColumn>,
    /// Rows of data.
    pub data: usize,
    /// Rows of totals.
    pub totals: usize,
    /// What stands above it and was read as on a form: label and value.
    pub above: usize,
}

/// A heading as it was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnderstoodColumn {
    /// Where it stands.
    pub place: Place,
    /// As written.
    pub heading: String,
    /// What it was taken for; `None` where it is not used.
    pub means: Option<String>,
    /// By which rule.
    pub rule: &'static str,
}

/// Everything that was understood of tables of claims, and every cell that was not read, with its text.
pub fn understood(tables: &[Table<'_>], sheets: &[Sheet]) -> (Vec<Understood>, Vec<(Place, String)>) {
    let ours = claim_tables(tables);
    let headers: Vec<FormHeader> = ours.iter().map(|ours| FormHeader::of(*ours)).collect();
    let (own, _) = OwnWords::of(tables);
    let (rows, unread) = rows::sort(&ours, &headers, &own);
    let tables = ours.iter().zip(&rows).zip(&headers).map(|((ours, rows), header)| {
        let table = ours.table;
        let place = table.sheet.row_place(table.heading_row);
        Understood {
            place,
            form: table.form.name,
            shape: shape(table, place, sheets),
            columns: table.columns.iter().map(|column| of_column(table, column, sheets)).collect(),
            data: rows.data.len(),
            totals: rows.totals.len(),
            above: table.above.iter().filter(|row| header.uses(row)).count(),
        }
    });
    (tables.collect(), unread.into_cells().collect())
}

/// The heading row as it stands in the file.
fn shape(table: &Table<'_>, place: Place, sheets: &[Sheet]) -> String {
    let sheet = sheets.iter().find(|sheet| sheet.source == table.sheet.source);
    let row = sheet.and_then(|sheet| sheet.rows.iter().find(|row| row.number == place.row));
    row.map(super::shape_of).unwrap_or_default()
}

fn of_column(table: &Table<'_>, column: &HeadedColumn, sheets: &[Sheet]) -> UnderstoodColumn {
    let written = sheets
        .iter()
        .find(|sheet| sheet.source == column.place.source)
        .and_then(|sheet| sheet.rows.iter().find(|row| row.number == column.place.row))
        .and_then(|row| row.cell(column.place.column))
        .map(Cell::text);
    let heading = written.unwrap_or_else(|| column.heading.clone());
    let is_said = folded(&heading) != folded(&column.heading);
    let (means, rule) = match (column.id, column.in_family) {
        (Some(id), _) if is_said && folded(id) != folded(&heading) => {
            (Some(id.to_owned()), "as arranged here or as your column map says")
        }
        (Some(id), _) if folded(id) == folded(&column.heading) => (Some(id.to_owned()), "its own name"),
        (Some(id), _) => (Some(id.to_owned()), "a usual word for it"),
        (None, true) if is_said => {
            (Some(format!("size {}", column.heading)), "as arranged here or as your column map says")
        }
        (None, true) => {
            let unit = Some(crate::quantity::LengthUnit::Millimetre);
            let is_range = parse_interval(&column.heading, unit, table.sheet.mark).is_some();
            let rule = if is_range {
                "a range of diameters"
            } else {
                "a name of a size, which a schedule has to list"
            };
            (Some(format!("size {}", column.heading)), rule)
        }
        (None, false) if column.repeats.is_some() => (None, "a second column of one name"),
        (None, false) => (None, "no word of this table"),
    };
    UnderstoodColumn { place: column.place, heading, means, rule }
}

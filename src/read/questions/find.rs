//! The cells that are asked about, looked up in their tables.

use crate::problem::{Place, column_letters};
use crate::read::count;
use crate::read::meanings::shape_of;
use crate::table::{Cell, Sheet, Table};
use std::collections::{BTreeMap, BTreeSet};

/// A cell that something is asked about, as it was written.
pub(super) struct Asked {
    pub(super) heading: String,
    pub(super) text: String,
    pub(super) beside: String,
    /// Cells with a number below a heading, and their sum.
    pub(super) counts: usize,
    pub(super) dents: u64,
}

/// Wanted cells: as headings, and as words below one. A heading that labels a group of columns is both.
#[derive(Default)]
pub(super) struct Found {
    pub(super) headings: BTreeMap<Place, Asked>,
    pub(super) words: BTreeMap<Place, Asked>,
}

/// Looks the wanted cells up, in one walk over the tables.
pub(super) fn find(
    wanted: &BTreeSet<Place>,
    tables: &[Table<'_>],
    sheets: &[Sheet],
    has_unheaded: bool,
) -> Found {
    let written = |place: Place| sheets.iter().find(|sheet| sheet.source == place.source)?.row(place.row);
    let text = |place: Place| written(place).and_then(|row| row.cell(place.column)).map(Cell::text);
    let mut found = Found::default();
    for table in tables {
        let beside = table
            .columns
            .iter()
            .find_map(|column| written(column.place).filter(|row| row.cells.len() > 1))
            .map(shape_of)
            .unwrap_or_default();
        let merged = count::merged_cells(table);
        for column in &table.columns {
            let cells = || table.rows.iter().filter_map(|row| row.cell(column.column));
            if wanted.contains(&column.place) {
                let numbers: Vec<u32> =
                    cells().filter_map(|cell| count::read(table, &merged, cell).ok()).collect();
                let heading = text(column.place).unwrap_or_else(|| column.heading.clone());
                let dents = numbers.iter().map(|number| u64::from(*number)).sum();
                let asked = Asked {
                    text: heading.clone(),
                    heading,
                    beside: beside.clone(),
                    counts: numbers.len(),
                    dents,
                };
                found.headings.entry(column.place).or_insert(asked);
            }
            for cell in cells().filter(|cell| wanted.contains(&cell.place) && !cell.spread) {
                let asked = Asked {
                    heading: column.heading.clone(),
                    text: cell.text(),
                    beside: beside.clone(),
                    counts: 0,
                    dents: 0,
                };
                found.words.entry(cell.place).or_insert(asked);
            }
        }
        if has_unheaded {
            unheaded(wanted, table, &beside, &mut found);
        }
    }
    found
}

/// Columns without a heading, known by their letters.
fn unheaded(wanted: &BTreeSet<Place>, table: &Table<'_>, beside: &str, found: &mut Found) {
    let merged = count::merged_cells(table);
    let is_headed = |cell: &Cell| table.columns.iter().any(|column| column.column == cell.column);
    let cells = table.rows.iter().flat_map(|row| &row.cells);
    for first in cells.filter(|cell| wanted.contains(&cell.place) && !is_headed(cell)) {
        let below = table.rows.iter().filter_map(|row| row.cell(first.column));
        let numbers: Vec<u32> = below.filter_map(|cell| count::read(table, &merged, cell).ok()).collect();
        let name = format!("column {}", column_letters(first.place.column));
        let asked = Asked {
            heading: name.clone(),
            text: name,
            beside: beside.to_owned(),
            counts: numbers.len(),
            dents: numbers.iter().map(|number| u64::from(*number)).sum(),
        };
        found.headings.entry(first.place).or_insert(asked);
    }
}

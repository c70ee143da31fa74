//! Workbooks of every kind, each by a reader of its own, as sheets of located cells.
//!
//! XLSX and ODS are read in this process, bounded by what they hold; the older binary kinds in a process of their own,
//! since no bound that can be checked beforehand keeps a damaged one from filling the machine.

mod answer;
mod apart;
mod cell;
mod format_code;
mod formats;
mod ods;
mod parts;
mod scan;
mod wire;
mod xlsx;

pub use answer::answer;
pub(super) use apart::read as read_old;
pub use apart::{ARGUMENT as READ_APART, read_apart_with};
pub(super) use ods::read as read_ods;
pub(super) use xlsx::read as read_xlsx;

use crate::problem::{Place, SourceId};
use crate::quantity::{Decimal, DecimalMark};
use crate::table::{Merge, Row, Value};
use std::collections::BTreeSet;

/// Why a workbook is not taken, and where in it that was seen.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) why: Why,
    pub(super) place: Option<Place>,
}

/// See [`Fault`].
#[derive(Debug)]
pub(super) enum Why {
    Damaged(String),
    TooLarge(String),
    /// It could not be tried.
    Closed(String),
}

impl Fault {
    fn damaged(why: impl Into<String>) -> Self {
        Self { why: Why::Damaged(why.into()), place: None }
    }

    fn too_large(what: impl Into<String>) -> Self {
        Self { why: Why::TooLarge(what.into()), place: None }
    }

    fn at(self, place: Place) -> Self {
        Self { place: self.place.or(Some(place)), ..self }
    }
}

/// What the library that reads workbooks says of its parts helps nobody who has only the workbook.
const UNREADABLE: &str = "a part of it is missing or contradicts itself";

/// Rows and columns of the largest sheet that the formats know.
const MOST_ROWS: u32 = 1_048_576;
const MOST_COLUMNS: u16 = 16_384;

/// Cells that are kept of one workbook: as many as its size makes credible. Real ones take three bytes and more for
/// each cell that holds something.
pub(super) fn most_cells(bytes: usize) -> usize {
    const MOST: usize = 20_000_000;
    2_000_000_usize.saturating_add(bytes.saturating_mul(2)).min(MOST)
}

/// One sheet as its format's reader hands it over.
#[derive(Debug)]
pub(super) struct RawSheet {
    pub(super) name: String,
    pub(super) source: SourceId,
    pub(super) is_hidden: bool,
    pub(super) rows: Vec<Row>,
    pub(super) merges: Vec<Merge>,
    pub(super) hidden_rows: BTreeSet<u32>,
    pub(super) hidden_columns: BTreeSet<u16>,
    /// Cells whose number is shown as a percentage.
    pub(super) shares: Vec<(u32, u16)>,
    /// Notes at cells, in order: where, and what they say.
    pub(super) notes: Vec<(Place, String)>,
}

impl RawSheet {
    fn new(name: String, source: SourceId, is_hidden: bool) -> Self {
        Self {
            name,
            source,
            is_hidden,
            rows: Vec::new(),
            merges: Vec::new(),
            hidden_rows: BTreeSet::new(),
            hidden_columns: BTreeSet::new(),
            shares: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Numbers that are shown as percentages become what is shown: `50%` for a stored 0.5, with the sheet's mark.
    pub(super) fn show_shares(&mut self, mark: DecimalMark) {
        for (row, column) in std::mem::take(&mut self.shares) {
            let Ok(row) = self.rows.binary_search_by_key(&row, |row| row.number) else { continue };
            let cells = &mut self.rows[row].cells;
            let Ok(at) = cells.binary_search_by_key(&column, |cell| cell.column) else { continue };
            if let Value::Number(number) = cells[at].value
                && let Some(percent) = number.checked_mul(Decimal::ONE_HUNDRED)
            {
                let percent = percent.normalize().to_string();
                let percent = if mark == DecimalMark::Comma { percent.replace('.', ",") } else { percent };
                cells[at].value = Value::Text(format!("{percent}%"));
            }
        }
    }
}

/// Rows and cells by position. Files from other programs may list them in any order; two cells in one place contradict
/// each other.
fn in_order(mut rows: Vec<Row>) -> Result<Vec<Row>, Fault> {
    rows.sort_by_key(|row| row.number);
    rows.dedup_by(|later, earlier| {
        let is_same = later.number == earlier.number;
        if is_same {
            earlier.cells.append(&mut later.cells);
        }
        is_same
    });
    for row in &mut rows {
        row.cells.sort_by_key(|cell| cell.column);
        if let Some(twice) = row.cells.windows(2).find(|pair| pair[0].column == pair[1].column) {
            let at = crate::problem::Sources::position(twice[0].place);
            return Err(Fault::damaged(format!("cell {at} stands in it twice")).at(twice[0].place));
        }
    }
    Ok(rows)
}

/// Rows that all merged cells of a sheet may cover together.
fn check_merges(merges: &[Merge]) -> Result<(), Fault> {
    const MOST: u64 = 10_000_000;
    let covered: u64 = merges.iter().map(|merge| u64::from(merge.last_row - merge.first_row) + 1).sum();
    if covered > MOST { Err(Fault::too_large("over 10 million rows under merged cells")) } else { Ok(()) }
}

//! Totals as written, held against their cells.

use super::count;
use super::draft::Draft;
use super::jobs::Jobs;
use super::rows::{DataRow, TableRows, TotalRow};
use super::tables::{Kind, Ours};
use crate::claim::Place;
use crate::problem::{Problem, catalogue};
use crate::table::{Row, Table};
use std::collections::BTreeSet;

/// Checks the totals of all tables of counts. A total that differs concerns the job whose cells it adds up, or nobody
/// in particular where it adds up several jobs.
pub(super) fn check(tables: &[Ours<'_, '_>], rows: &[TableRows<'_>], jobs: &mut Jobs) {
    for ((ours, rows), of) in tables.iter().zip(rows).zip(&jobs.of) {
        let columns: Vec<u16> = match ours.kind {
            Kind::Wide => sizes(ours.table).collect(),
            Kind::Long => ours.table.column("dents").map(|column| column.column).into_iter().collect(),
            _ => continue,
        };
        let counts = Counts { table: ours.table, merged: count::merged_cells(ours.table) };
        if let Some(total) = ours.table.column("total") {
            for (row, job) in rows.data.iter().zip(of) {
                let found = counts.row_total(row.row, total.column, &columns);
                tell(found, *job, &mut jobs.drafts, &mut jobs.problems);
            }
        }
        let summed: Vec<u16> =
            columns.into_iter().chain(ours.table.column("total").map(|c| c.column)).collect();
        let mut sums: Vec<Sum> = summed.iter().map(|column| Sum::of(*column)).collect();
        let mut start = 0;
        for total in &rows.totals {
            let since = start..total.before;
            let concerned: BTreeSet<_> = of[since.clone()].iter().copied().collect();
            let job = if concerned.len() == 1 { concerned.first().copied().flatten() } else { None };
            for sum in &mut sums {
                sum.take(&counts, &rows.data[since.clone()]);
                tell(counts.column_total(total, sum), job, &mut jobs.drafts, &mut jobs.problems);
                sum.close();
            }
            start = total.before;
        }
    }
}

fn sizes(table: &Table<'_>) -> impl Iterator<Item = u16> {
    table.columns.iter().filter(|column| column.in_family).map(|column| column.column)
}

fn tell(found: Option<Problem>, job: Option<usize>, drafts: &mut [Draft], others: &mut Vec<Problem>) {
    match job {
        Some(job) => drafts[job].problems.extend(found),
        None => others.extend(found),
    }
}

struct Counts<'t, 's> {
    table: &'t Table<'s>,
    merged: BTreeSet<(u32, u16)>,
}

impl Counts<'_, '_> {
    /// The number of a cell: none where it is blank, an error where it is no count (which is told elsewhere).
    fn count(&self, row: &Row, column: u16) -> Result<Option<u32>, ()> {
        let cell = row.cell(column).filter(|cell| !cell.spread);
        cell.map(|cell| count::read(self.table, &self.merged, cell)).transpose().map_err(|_| ())
    }

    /// A total beside the counts of its row.
    fn row_total(&self, row: &Row, total: u16, columns: &[u16]) -> Option<Problem> {
        let written = self.count(row, total).ok()??;
        let mut sum = 0_u32;
        let mut first = None;
        for column in columns {
            let count = self.count(row, *column).ok()?;
            if count.is_some() {
                first = first.or(Some(*column));
            }
            sum = sum.saturating_add(count.unwrap_or(0));
        }
        let source = self.table.sheet.source;
        let place = |column| Place::cell(source, row.number, column);
        (sum != written).then(|| {
            catalogue::counts::total_disagrees(place(total), written, sum, place(first.unwrap_or(total)))
        })
    }

    /// A total below the counts of its column: of the rows since the last total, or of all rows above, whichever it
    /// agrees with.
    fn column_total(&self, total: &TotalRow<'_>, sum: &Sum) -> Option<Problem> {
        let written = self.count(total.row, sum.column).ok()??;
        let place = |row| Place::cell(self.table.sheet.source, row, sum.column);
        (!sum.is_open && written != sum.since && written != sum.all).then(|| {
            let first = place(sum.first.unwrap_or(total.row.number));
            catalogue::counts::total_disagrees(place(total.row.number), written, sum.since, first)
        })
    }
}

/// What a column adds up to, down to some row.
struct Sum {
    column: u16,
    all: u32,
    /// Since the last total, and the first row that counts.
    since: u32,
    first: Option<u32>,
    /// Whether some cell is no count, which is told elsewhere.
    is_open: bool,
}

impl Sum {
    const fn of(column: u16) -> Self {
        Self { column, all: 0, since: 0, first: None, is_open: false }
    }

    fn take(&mut self, counts: &Counts<'_, '_>, rows: &[DataRow<'_>]) {
        for row in rows {
            match counts.count(row.row, self.column) {
                Ok(Some(count)) => {
                    self.first = self.first.or(Some(row.row.number));
                    self.since = self.since.saturating_add(count);
                    self.all = self.all.saturating_add(count);
                }
                Ok(None) => {}
                Err(()) => self.is_open = true,
            }
        }
    }

    /// A total ends what it adds up.
    fn close(&mut self) {
        (self.since, self.first) = (0, None);
    }
}

//! Totals as written, held against their cells.

use super::count;
use super::draft::Draft;
use super::jobs::Jobs;
use super::rows::{DataRow, TableRows, TotalRow};
use super::tables::{Kind, Ours};
use crate::problem::{Place, Problem, catalogue};
use crate::quantity::{Decimal, parse_decimal};
use crate::table::{Row, Table, Value};
use std::collections::BTreeSet;

/// Checks the totals of all tables of counts. A total that differs concerns the job whose cells it adds up, or nobody
/// in particular where it adds up several jobs.
pub(super) fn check(tables: &[Ours<'_, '_>], rows: &[TableRows<'_>], jobs: &mut Jobs) {
    for ((ours, rows), of) in tables.iter().zip(rows).zip(&jobs.of) {
        let columns: Vec<u16> = match ours.kind {
            Kind::Wide => sizes(ours.table).collect(),
            Kind::Long => ours.table.column("dents").map(|column| column.column).into_iter().collect(),
            Kind::Items | Kind::Parts | Kind::Paid => measures(*ours).collect(),
            _ => continue,
        };
        let counts = Cells { kind: ours.kind, table: ours.table, merged: count::merged_cells(ours.table) };
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

/// Columns of amounts and times.
fn measures(ours: Ours<'_, '_>) -> impl Iterator<Item = u16> {
    ours.kind.measures().iter().filter_map(move |id| ours.table.column(id)).map(|column| column.column)
}

fn tell(found: Option<Problem>, job: Option<usize>, drafts: &mut [Draft], others: &mut Vec<Problem>) {
    match job {
        Some(job) => drafts[job].problems.extend(found),
        None => others.extend(found),
    }
}

/// What is added up in a table.
struct Cells<'t, 's> {
    kind: Kind,
    table: &'t Table<'s>,
    merged: BTreeSet<(u32, u16)>,
}

/// A number with what is written around it: the code or sign of a currency.
type Written = (Decimal, String);

impl Cells<'_, '_> {
    /// The number of a cell: none where it is blank, an error where it is no number (which is told elsewhere).
    fn number(&self, row: &Row, column: u16) -> Result<Option<Written>, ()> {
        let Some(cell) = row.cell(column).filter(|cell| !cell.spread) else { return Ok(None) };
        if self.kind.has_counts() {
            let count = count::read(self.table, &self.merged, cell).map_err(|_| ())?;
            return Ok(Some((Decimal::from(count), String::new())));
        }
        let (mark, _) = self.table.sheet.mark_of(cell);
        match &cell.value {
            Value::Money(money) => Ok(Some((money.0, money.1.clone()))),
            Value::Text(text) => {
                let is_sign =
                    |c: char| c.is_alphabetic() || c.is_whitespace() || "$\u{20ac}\u{a3}".contains(c);
                let number = text.trim_matches(is_sign);
                let sign = text.replace(number, "").split_whitespace().collect::<String>();
                parse_decimal(number, mark).map(|number| Some((number, sign))).map_err(|_| ())
            }
            _ => cell.number(mark).map(|number| Some((number, String::new()))).map_err(|_| ()),
        }
    }

    /// The sum of some cells of the same currency, and the first of them; `None` where one is no number.
    fn sum<'r>(
        &self,
        cells: impl Iterator<Item = (&'r Row, u16)>,
        sign: &str,
    ) -> Option<(Decimal, Option<Place>)> {
        let (mut sum, mut first, mut sign) = (Decimal::ZERO, None, sign.to_owned());
        for (row, column) in cells {
            let Some((number, other)) = self.number(row, column).ok()? else { continue };
            if !sign.is_empty() && !other.is_empty() && sign != other {
                return None;
            }
            if sign.is_empty() {
                sign = other;
            }
            first = first.or_else(|| Some(self.table.sheet.place(row.number, column)));
            sum = sum.checked_add(number)?;
        }
        Some((sum, first))
    }

    /// A total beside the counts of its row.
    fn row_total(&self, row: &Row, total: u16, columns: &[u16]) -> Option<Problem> {
        let (written, sign) = self.number(row, total).ok()??;
        let (sum, first) = self.sum(columns.iter().map(|column| (row, *column)), &sign)?;
        let place = self.table.sheet.place(row.number, total);
        differs(place, written, sum, first)
    }

    /// A total below the numbers of its column: of the rows since the last total, or of all rows above, whichever it
    /// agrees with.
    fn column_total(&self, total: &TotalRow<'_>, sum: &Sum) -> Option<Problem> {
        let (written, sign) = self.number(total.row, sum.column).ok()??;
        let is_other = !sign.is_empty() && !sum.sign.is_empty() && sign != sum.sign;
        if sum.is_open || is_other || written == sum.all {
            return None;
        }
        let place = self.table.sheet.place(total.row.number, sum.column);
        differs(place, written, sum.since, sum.first)
    }
}

/// What a column adds up to, down to some row.
struct Sum {
    column: u16,
    all: Decimal,
    /// Since the last total, and the first cell that counts.
    since: Decimal,
    first: Option<Place>,
    /// The code or sign of the currency of its cells, where one is written.
    sign: String,
    /// Whether some cell is no number, which is told elsewhere, or of another currency.
    is_open: bool,
}

impl Sum {
    const fn of(column: u16) -> Self {
        let sign = String::new();
        Self { column, all: Decimal::ZERO, since: Decimal::ZERO, first: None, sign, is_open: false }
    }

    fn take(&mut self, cells: &Cells<'_, '_>, rows: &[DataRow<'_>]) {
        for row in rows {
            match cells.number(row.row, self.column) {
                Ok(Some(written)) => {
                    let place = cells.table.sheet.place(row.row.number, self.column);
                    self.first = self.first.or(Some(place));
                    self.is_open |= self.add(written).is_none();
                }
                Ok(None) => {}
                Err(()) => self.is_open = true,
            }
        }
    }

    /// Adds a number of the same currency; `None` where it is of another, or the sum is beyond all bounds.
    fn add(&mut self, (number, sign): Written) -> Option<()> {
        if self.sign.is_empty() {
            self.sign = sign;
        } else if !sign.is_empty() && sign != self.sign {
            return None;
        }
        self.all = self.all.checked_add(number)?;
        self.since = self.since.checked_add(number)?;
        Some(())
    }

    /// A total ends what it adds up.
    fn close(&mut self) {
        (self.since, self.first) = (Decimal::ZERO, None);
    }
}

fn differs(place: Place, written: Decimal, sum: Decimal, first: Option<Place>) -> Option<Problem> {
    let say = catalogue::counts::total_disagrees;
    (written != sum).then(|| say(place, written.normalize(), sum.normalize(), first.unwrap_or(place)))
}

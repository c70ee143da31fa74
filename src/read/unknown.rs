//! Columns that no table knows, and second columns of one name.

use super::count;
use super::jobs::Jobs;
use super::rows::TableRows;
use super::tables::Ours;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue, nearest};
use crate::quantity::Currency;
use crate::table::{Cell, HeadedColumn, Table};
use std::collections::BTreeSet;

/// Says which columns are not used. Numbers below a heading that nobody knows may be the dents of a size with a slip in
/// it: beside counts each claim that has some is asked about them, once for the heading.
pub(super) fn check(tables: &[Ours<'_, '_>], rows: &[TableRows<'_>], jobs: &mut Jobs) -> Vec<Problem> {
    let mut problems = Vec::new();
    for ((ours, rows), of) in tables.iter().zip(rows).zip(&jobs.of) {
        let table = ours.table;
        for column in table.unknown() {
            if let Some(earlier) = column.repeats.and_then(|id| table.column(id)) {
                problems.push(catalogue::file::column_twice(column.place, &column.heading, earlier.place));
                continue;
            }
            let near = nearest(&folded(&column.heading), table.form.columns.iter().map(|column| column.id));
            let is_work = ours.kind.has_counts() && count::is_work(&column.heading);
            let may_be_dents = ours.kind.has_counts() && may_be_dents(table, rows, column);
            let has_digit = |cell: &Cell| !cell.spread && cell.text().contains(|c: char| c.is_ascii_digit());
            let concerned: BTreeSet<usize> = rows
                .data
                .iter()
                .zip(of)
                .filter(|(row, _)| {
                    let cell = row.row.cell(column.column);
                    cell.is_some_and(|cell| is_work || (may_be_dents && has_digit(cell)))
                })
                .filter_map(|(_, job)| *job)
                .collect();
            if concerned.is_empty() {
                let form = table.form.name;
                problems.push(catalogue::file::column_unknown(column.place, &column.heading, form, &near));
            }
            for job in concerned {
                let question = if is_work {
                    catalogue::asked::work_in_counts(column.place, &column.heading)
                } else {
                    catalogue::counts::column_open(column.place, &column.heading, &near)
                };
                jobs.drafts[job].problems.push(question);
            }
        }
    }
    problems
}

/// Whether the cells of a column are whole numbers, and its heading says nothing else of them.
fn may_be_dents(table: &Table<'_>, rows: &TableRows<'_>, column: &HeadedColumn) -> bool {
    let cells = rows.data.iter().filter_map(|row| row.row.cell(column.column));
    let numbers: Vec<_> = cells.filter_map(|cell| cell.number(table.sheet.mark_of(cell).0).ok()).collect();
    !says_other(&column.heading)
        && !numbers.is_empty()
        && numbers.iter().all(|number| number.fract().is_zero())
}

/// Whether a heading says that what stands below it is no count of one size: a total, a remark, a number of the row, an
/// amount of money, a time.
pub(super) fn says_other(heading: &str) -> bool {
    const ANYWHERE: [&str; 17] = [
        "total", "totals", "subtotal", "sum", "remark", "remarks", "note", "notes", "comment", "comments",
        "price", "amount", "cost", "hours", "time", "date", "phone",
    ];
    const ALONE: [&str; 11] =
        ["", "no", "nr", "number", "row", "row no", "line", "line no", "pos", "index", "id"];
    let name = folded(heading);
    let has_currency = heading.contains(['$', '\u{20ac}', '\u{a3}', '%'])
        || heading.split(|c: char| !c.is_alphanumeric()).any(|word| {
            word.bytes().all(|byte| byte.is_ascii_uppercase()) && Currency::from_code(word).is_some()
        });
    has_currency || ALONE.contains(&name.as_str()) || name.split(' ').any(|word| ANYWHERE.contains(&word))
}

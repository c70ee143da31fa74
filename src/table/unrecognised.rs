//! Sheets on which no table was found: what they come nearest to.

use super::headings::{columns_of, known_count, missing};
use super::{Form, Recognition, Sheet};
use crate::claim::words::folded;
use crate::problem::{Place, Problem, catalogue, nearest};

/// What a row that is no heading comes nearest to.
struct NearMiss {
    row: u32,
    form: &'static Form,
    known: Vec<String>,
    missing: Vec<String>,
    /// Headings of the row beside the words they may be slips of.
    slips: Vec<(String, &'static str)>,
}

/// What has to be said of a sheet beside the tables that were found on it: nothing was recognised, or a heading fits
/// two forms. A sheet without any cell is not worth a word.
pub fn unrecognised(sheet: &Sheet, recognition: &Recognition<'_>, forms: &[&'static Form]) -> Vec<Problem> {
    let ambiguous = recognition
        .ambiguous
        .iter()
        .map(|(row, names)| catalogue::file::heading_ambiguous(Place::row(sheet.source, *row), names));
    let mut problems: Vec<Problem> = ambiguous.collect();
    if recognition.tables.is_empty() && problems.is_empty() && !sheet.rows.is_empty() {
        problems.push(match near_miss(sheet, forms) {
            Some(near) if near.known.len() > 1 => catalogue::file::table_incomplete(
                Place::row(sheet.source, near.row),
                near.form.name,
                &near.known,
                &near.missing,
                &near.slips,
            ),
            near => catalogue::file::nothing_recognised(
                Place::whole(sheet.source),
                near.map(|near| (near.form.name, near.missing)),
            ),
        });
    }
    problems
}

/// The row among the first of the sheet that knows most headings of a form and lacks least.
fn near_miss(sheet: &Sheet, forms: &[&'static Form]) -> Option<NearMiss> {
    const ROWS: usize = 40;
    let mut best: Option<(usize, usize, NearMiss)> = None;
    for row in sheet.rows.iter().take(ROWS) {
        for form in forms {
            let Some(columns) = columns_of(&row.cells, form) else { continue };
            let (known, missing) = (known_count(&columns), missing(&columns, form));
            let is_better = best
                .as_ref()
                .is_none_or(|(most, least, _)| known > *most || (known == *most && missing.len() < *least));
            if known == 0 || !is_better {
                continue;
            }
            let (named, unknown): (Vec<_>, Vec<_>) =
                columns.iter().partition(|column| column.id.is_some() || column.in_family);
            let slips = unknown.iter().filter_map(|column| {
                let words = form.columns.iter().map(|column| column.id);
                nearest(&folded(&column.heading), words).first().map(|word| (column.heading.clone(), *word))
            });
            let near = NearMiss {
                row: row.number,
                form,
                known: named.iter().map(|column| column.heading.clone()).collect(),
                slips: slips.collect(),
                missing: missing.clone(),
            };
            best = Some((known, missing.len(), near));
        }
    }
    best.map(|(.., near)| near)
}

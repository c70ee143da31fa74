//! Sheets on which no table was found: what they come nearest to.

use super::headings::{columns_of, missing};
use super::{Form, HeadedColumn, Recognition, Sheet, Value, parse_interval};
use crate::claim::words::folded;
use crate::problem::{Place, Problem, catalogue, nearest};
use crate::quantity::{DecimalMark, LengthUnit};

/// What a row that is no heading comes nearest to.
struct NearMiss {
    row: u32,
    form: &'static Form,
    known: Vec<String>,
    missing: Vec<String>,
    /// Headings of the row beside the words they may be slips of.
    slips: Vec<(String, String)>,
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
            Some(near) if near.known.len() > 1 || near.known.len() + near.slips.len() > 2 => {
                catalogue::file::table_incomplete(
                    Place::row(sheet.source, near.row),
                    near.form.name,
                    &near.known,
                    &near.missing,
                    &near.slips,
                )
            }
            near => catalogue::file::nothing_recognised(
                Place::whole(sheet.source),
                near.map(|near| (near.form.name, near.missing)),
            ),
        });
    }
    problems
}

/// The row among the first of the sheet that comes nearest to a form's headings, by words that it knows and by words
/// that are slips of them, and lacks least.
fn near_miss(sheet: &Sheet, forms: &[&'static Form]) -> Option<NearMiss> {
    const ROWS: usize = 40;
    /// Headings of a row that are looked at; without a word in it a row is no heading at all.
    const HEADINGS: usize = 256;
    let mut best: Option<(usize, usize, NearMiss)> = None;
    for row in sheet.rows.iter().take(ROWS) {
        let cells = &row.cells[..row.cells.len().min(HEADINGS)];
        if !cells.iter().any(|cell| matches!(cell.value, Value::Text(_))) {
            continue;
        }
        for form in forms {
            let Some(columns) = columns_of(cells, form) else { continue };
            let missing = missing(&columns, form);
            let (known, unknown): (Vec<_>, Vec<_>) =
                columns.iter().partition(|column| column.id.is_some() || is_range(column));
            let slips: Vec<(String, String)> = unknown
                .into_iter()
                .filter_map(|column| Some((column.heading.clone(), nearest_word(&column.heading, form)?)))
                .collect();
            // However many sizes there are, they are one family, and many tables have it.
            let named = known.iter().filter(|column| column.id.is_some()).count();
            let score = named + slips.len() + usize::from(named < known.len());
            let is_better = best
                .as_ref()
                .is_none_or(|(most, least, _)| score > *most || (score == *most && missing.len() < *least));
            if score == 0 || !is_better {
                continue;
            }
            let known = known.into_iter().map(|column| column.heading.clone()).collect();
            best = Some((score, missing.len(), NearMiss { row: row.number, form, known, slips, missing }));
        }
    }
    best.map(|(.., near)| near)
}

/// Whether a heading of a family is surely a size: some forms take every word for one.
fn is_range(column: &HeadedColumn) -> bool {
    let is_range = |mark| parse_interval(&column.heading, Some(LengthUnit::Millimetre), mark).is_some();
    column.in_family && (is_range(DecimalMark::Point) || is_range(DecimalMark::Comma))
}

/// The form's word that a heading may be a slip of.
fn nearest_word(heading: &str, form: &'static Form) -> Option<String> {
    const LONGEST: usize = 40;
    if heading.len() > LONGEST || !heading.starts_with(char::is_alphabetic) {
        return None;
    }
    let words =
        form.columns.iter().flat_map(|column| std::iter::once(column.id).chain(column.words.iter().copied()));
    nearest(&folded(heading), words).first().map(|word| (*word).to_owned())
}

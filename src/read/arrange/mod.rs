//! Sheets in arrangements that tables do not have, put into one that they have: a column of panels, a column for each
//! size, one table beside nothing. Every cell keeps the place it was written in, so that everything after this step
//! neither knows nor cares how a sheet was arranged.

mod bare_sizes;
mod beside;
mod groups;
mod heading;
mod hidden;
mod rows;
mod turned;
mod unheaded;

use super::meanings::Meanings;
use crate::problem::{Place, Problem, Sources, catalogue::asked::sheet_left_out};
use crate::table::{Form, Sheet};
use std::borrow::Cow;

/// Cells of the widest row of a sheet that is rearranged: no arrangement that people use is wider, and each is looked for
/// by comparing headings with each other.
const WIDEST: usize = 1024;

/// Sheets as their tables are looked for, and what has to be said of the way there.
#[derive(Debug, Default)]
pub struct Arranged<'s> {
    /// In the order of the sheets they were made of; one sheet may give several.
    pub sheets: Vec<Cow<'s, Sheet>>,
    /// Hidden parts that were left out, and arrangements that were found.
    pub problems: Vec<Problem>,
}

/// Rearranges what has to be. A sheet of plain tables is handed on as it is, without a copy.
///
/// What column maps and answered questions say is put in the place of headings first, and of words in cells last, so that
/// a word can be spoken of under the heading that it ends up under. How a column's numbers and dates are written is noted
/// right before.
pub fn arrange<'s>(sheets: &'s [Sheet], sources: &Sources, forms: &[&'static Form]) -> Arranged<'s> {
    let mut arranged = Arranged::default();
    let mut meanings = Meanings::of(sheets, &mut arranged.problems);
    for sheet in sheets {
        if meanings.holds(sheet) {
            arranged.sheets.push(Cow::Borrowed(sheet));
            continue;
        }
        if meanings.leaves_out(sheet, sources) {
            arranged.problems.push(sheet_left_out(Place::whole(sheet.source)));
            continue;
        }
        let answer = meanings.hidden(sheet, sources);
        let Some(mut shown) = hidden::shown(sheet, answer, sources, &mut arranged.problems) else { continue };
        if let Some(without) = meanings.without_rows(&shown, sources) {
            shown = Cow::Owned(without);
        }
        if let Some(said) = meanings.with_headings(&shown, sources) {
            shown = Cow::Owned(said);
        }
        let from = arranged.sheets.len();
        let mut open = vec![shown];
        while let Some(sheet) = open.pop() {
            if is_too_wide(&sheet) {
                arranged.sheets.push(sheet);
                continue;
            }
            match beside::parted(&sheet, forms, &mut arranged.problems) {
                Some((left, right)) => open.extend([Cow::Owned(right), Cow::Owned(left)]),
                None => arranged.sheets.push(plain(sheet, forms, &mut arranged.problems)),
            }
        }
        for part in &mut arranged.sheets[from..] {
            if let Some(said) = meanings.with_conventions(part, sheet, sources) {
                *part = Cow::Owned(said);
            }
            if let Some(said) = meanings.with_words(part, sheet, sources) {
                *part = Cow::Owned(said);
            }
        }
    }
    meanings.unused(&mut arranged.problems);
    arranged
}

fn is_too_wide(sheet: &Sheet) -> bool {
    sheet.rows.iter().any(|row| row.cells.len() > WIDEST)
}

/// Whether a sheet of a text file, which hides nothing, has nothing to be rearranged, whatever column maps may say.
pub(super) fn is_plain(sheet: &Sheet, forms: &[&'static Form]) -> bool {
    let mut told = Vec::new();
    let lies_plain = is_too_wide(sheet)
        || beside::parted(sheet, forms, &mut told).is_none()
            && matches!(plain(Cow::Borrowed(sheet), forms, &mut told), Cow::Borrowed(_));
    lies_plain && told.is_empty()
}

/// A sheet without tables that lie on their side or carry several tables in their columns.
fn plain<'s>(
    mut sheet: Cow<'s, Sheet>,
    forms: &[&'static Form],
    problems: &mut Vec<Problem>,
) -> Cow<'s, Sheet> {
    if let Some(named) = bare_sizes::named(&sheet, problems) {
        sheet = Cow::Owned(named);
    }
    if let Some(headed) = unheaded::headed(&sheet, problems) {
        sheet = Cow::Owned(headed);
    }
    let mut from = 0;
    while let Some((next, changed)) = turned::upright(&sheet, from, problems) {
        (from, sheet) = (next, Cow::Owned(changed));
    }
    from = 0;
    while let Some((next, changed)) = groups::ungrouped(&sheet, from, forms, problems) {
        (from, sheet) = (next, Cow::Owned(changed));
    }
    sheet
}

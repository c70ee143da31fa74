//! Questions about parts of a sheet: what the file hides, from where its sides are seen, and rows of which one holds.

use super::Question;
use crate::problem::{Place, Problem, Sources, catalogue::counts, catalogue::file};
use crate::read::gather::claim_tables;
use crate::read::meanings::SIDES;
use crate::read::tables::Kind;
use crate::read::{arrange, count, forms};
use crate::table::{Row, Sheet, Table, recognise};
use std::collections::{BTreeMap, BTreeSet};

/// Whether hidden sheets, rows and columns are to be read: once for each sheet, with the dents that stand in them.
pub(super) fn hidden(problems: &[&Problem], sheets: &[Sheet], sources: &Sources) -> Vec<Question> {
    let codes = [&file::SHEET_HIDDEN, &file::PART_HIDDEN];
    let mut questions = Vec::new();
    for problem in problems.iter().filter(|problem| codes.contains(&problem.code)) {
        let Some(place) = problem.place else { continue };
        let Some(sheet) = sheets.iter().find(|sheet| sheet.source == place.source) else { continue };
        if sheet.rows.is_empty() {
            continue;
        }
        let whole = Sheet {
            hidden_rows: BTreeSet::new(),
            hidden_columns: BTreeSet::new(),
            is_hidden: false,
            ..sheet.clone()
        };
        let dents = on(&whole, sources).saturating_sub(on(sheet, sources));
        let what = if sheet.is_hidden { "sheet" } else { "part of the sheet" };
        questions.push(Question {
            place,
            ask: format!("is this hidden {what} to be read? {dents} dents stand in it"),
            heading: None,
            word: Some("hidden".to_owned()),
            beside: String::new(),
            of: Some(named(place, sources)),
            cells: 1,
            choices: vec![
                ("left out".to_owned(), format!("{dents} dents stay out, as now")),
                ("read".to_owned(), format!("{dents} dents more are read")),
            ],
        });
    }
    questions
}

/// From where the sides of a sheet are seen, whose title may turn them round.
pub(super) fn seen(problems: &[&Problem], sources: &Sources) -> Vec<Question> {
    let about = problems.iter().filter(|problem| problem.code == &counts::SIDE_VIEW);
    let question = |problem: &&&Problem| {
        let place = problem.place?;
        Some(Question {
            place,
            ask: problem.message.clone(),
            heading: None,
            word: Some(SIDES.to_owned()),
            beside: String::new(),
            of: Some(named(place, sources)),
            cells: 1,
            choices: vec![
                ("as seated".to_owned(), "left is the left of who sits in the car, as written".to_owned()),
                ("as seen from the front".to_owned(), "left and right of the sheet change places".to_owned()),
            ],
        })
    };
    about.filter_map(|problem| question(&problem)).collect()
}

/// The dents on a sheet, as far as they can be read.
pub(super) fn on(sheet: &Sheet, sources: &Sources) -> u64 {
    let arranged = arrange(std::slice::from_ref(sheet), sources, forms());
    let tables: Vec<Table<'_>> =
        arranged.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    claim_tables(&tables).iter().flat_map(|ours| rows_of(ours.table).map(|row| dents(ours.table, row))).sum()
}

/// The rows of a table that are no totals by their first word.
fn rows_of<'s>(table: &Table<'s>) -> impl Iterator<Item = &'s Row> {
    let is_total = |row: &&Row| !row.cells.iter().any(|cell| crate::read::rows::is_total_word(&cell.text()));
    table.rows.iter().filter(is_total)
}

/// The dents of a row of counts.
pub(super) fn dents(table: &Table<'_>, row: &Row) -> u64 {
    let merged = count::merged_cells(table);
    let counts = table.columns.iter().filter(|column| column.in_family || column.id == Some("dents"));
    let numbers = counts.filter_map(|column| count::read(table, &merged, row.cell(column.column)?).ok());
    numbers.map(u64::from).sum()
}

/// Which row of a panel holds, where a wide table has several in one inspection.
pub(super) fn rows(problems: &[&Problem], tables: &[Table<'_>], sources: &Sources) -> Vec<Question> {
    let mut twice: BTreeMap<Place, (&Problem, BTreeSet<u32>)> = BTreeMap::new();
    for problem in problems.iter().filter(|problem| problem.code == &counts::PANEL_TWICE) {
        let (Some(second), Some(first)) = (problem.place, problem.also.first()) else { continue };
        if first.source == second.source && first.row != second.row {
            let first = Place { column: 0, ..*first };
            twice.entry(first).or_insert_with(|| (problem, BTreeSet::from([first.row]))).1.insert(second.row);
        }
    }
    let row = |source, number: u32| {
        let is_here = |row: &&Row| row.cells.first().is_some_and(|cell| cell.place.row == number);
        let wide = claim_tables(tables);
        wide.iter()
            .filter(|ours| ours.kind == Kind::Wide && ours.table.sheet.source == source)
            .find_map(|ours| Some(dents(ours.table, ours.table.rows.iter().find(is_here)?)))
    };
    let mut questions = Vec::new();
    for (first, (problem, rows)) in twice {
        let with_dents: Option<Vec<(u32, u64)>> =
            rows.iter().map(|number| Some((*number, row(first.source, *number)?))).collect();
        let Some(with_dents) = with_dents else { continue };
        let listed: Vec<String> = rows.iter().map(ToString::to_string).collect();
        questions.push(Question {
            place: problem.place.unwrap_or(first),
            ask: format!("which row holds? {}", problem.message),
            heading: None,
            word: Some(format!("rows {}", listed.join(", "))),
            beside: String::new(),
            of: Some(named(first, sources)),
            cells: rows.len(),
            choices: with_dents
                .iter()
                .map(|(row, dents)| {
                    (format!("row {row}"), format!("its {dents} dents count, the others nowhere"))
                })
                .collect(),
        });
    }
    questions
}

/// The sheet and the file of a place.
pub(super) fn named(place: Place, sources: &Sources) -> (String, String) {
    let source = sources.get(place.source);
    let file = source.file.rsplit(['/', '\\']).next().unwrap_or(&source.file);
    (source.sheet.clone(), file.to_owned())
}

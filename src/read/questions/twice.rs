//! Questions about a car that is counted in several sheets or files: which of them holds.

use super::Question;
use super::parts::{dents, named, on};
use crate::claim::Role;
use crate::claim::words::folded;
use crate::problem::{Place, Problem, SourceId, Sources, catalogue::counts};
use crate::read::columns::KEYS;
use crate::read::gather::claim_tables;
use crate::read::meanings::{SHEET, shape_of};
use crate::table::{Row, Sheet, Table};
use std::collections::{BTreeMap, BTreeSet};

/// Where a car stands on a sheet: below a key's heading, or it has the sheet to itself.
struct Stands {
    place: Place,
    heading: Option<String>,
    word: Option<String>,
    beside: String,
    dents: u64,
}

/// One question for each sheet that counts a panel of a car which another counts, too.
pub(super) fn questions(
    problems: &[&Problem],
    tables: &[Table<'_>],
    (sheets, sources): (&[Sheet], &Sources),
) -> Vec<Question> {
    let mut twice: BTreeMap<&str, BTreeMap<SourceId, Place>> = BTreeMap::new();
    for problem in problems.iter().filter(|problem| problem.code == &counts::PANEL_TWICE) {
        let (Some(second), Some(first), Some(claim)) = (problem.place, problem.also.first(), &problem.claim)
        else {
            continue;
        };
        if first.source != second.source {
            let of = twice.entry(claim).or_default();
            [*first, second].into_iter().for_each(|place| {
                of.entry(place.source).or_insert(place);
            });
        }
    }
    let mut questions = Vec::new();
    for (claim, places) in twice {
        let standing: Vec<(SourceId, Stands)> = places
            .iter()
            .map(|(source, place)| (*source, stands(*place, claim, tables, (sheets, sources))))
            .collect();
        for (source, here) in &standing {
            let others: Vec<String> = standing
                .iter()
                .filter(|(other, _)| other != source)
                .map(|(other, there)| format!("{} in {}", there.dents, sources.short(Place::whole(*other))))
                .collect();
            let effect = format!("these {} dents", here.dents);
            let mut choices = vec![
                (Role::Own.to_string(), format!("{effect} are priced")),
                ("left out".to_owned(), format!("{effect} count nowhere")),
            ];
            if here.word.as_deref() != Some(SHEET) {
                choices.insert(
                    1,
                    (Role::Second.to_string(), "compared with the others, never added".to_owned()),
                );
            }
            questions.push(Question {
                place: here.place,
                ask: format!(
                    "which count of {claim} holds? {} dents here, {}",
                    here.dents,
                    others.join(", ")
                ),
                heading: here.heading.clone(),
                word: here.word.clone(),
                beside: here.beside.clone(),
                of: Some(named(here.place, sources)),
                cells: 1,
                choices,
            });
        }
    }
    questions
}

fn stands(
    place: Place,
    claim: &str,
    tables: &[Table<'_>],
    (sheets, sources): (&[Sheet], &Sources),
) -> Stands {
    let is_key = |text: &str| folded(text) == folded(claim);
    for ours in claim_tables(tables).iter().filter(|ours| ours.table.sheet.source == place.source) {
        let table = ours.table;
        let key = KEYS.iter().find_map(|key| {
            let column = table.column(key.id)?;
            let first = table
                .rows
                .iter()
                .find_map(|row| row.cell(column.column).filter(|cell| is_key(&cell.text())))?;
            Some((column, first))
        });
        let Some((column, first)) = key else { continue };
        let mut rows = BTreeSet::new();
        let (mut is_it, mut last) = (false, 0);
        for row in table.rows {
            match row.cell(column.column) {
                Some(cell) => is_it = folded(&cell.text()) == folded(&first.text()),
                None => is_it &= last + 1 == row.number,
            }
            last = row.number;
            if is_it {
                rows.insert(row.number);
            }
        }
        let is_here = |row: &&Row| rows.contains(&row.number);
        return Stands {
            place: first.place,
            heading: Some(column.heading.clone()),
            word: Some(first.text()),
            beside: shape(table, sheets),
            dents: table.rows.iter().filter(is_here).map(|row| dents(table, row)).sum(),
        };
    }
    let sheet = sheets.iter().find(|sheet| sheet.source == place.source);
    Stands {
        place: Place::whole(place.source),
        heading: None,
        word: Some(SHEET.to_owned()),
        beside: String::new(),
        dents: sheet.map_or(0, |sheet| on(sheet, sources)),
    }
}

/// The heading row as it was written.
fn shape(table: &Table<'_>, sheets: &[Sheet]) -> String {
    let place = table.sheet.row_place(table.heading_row);
    let sheet = sheets.iter().find(|sheet| sheet.source == place.source);
    let row = sheet.and_then(|sheet| sheet.rows.iter().find(|row| row.number == place.row));
    row.map(shape_of).unwrap_or_default()
}

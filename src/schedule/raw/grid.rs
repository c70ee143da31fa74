use super::cell::{parse_number, parse_text};
use super::rates::Kind;
use super::row::{Caption, body, caption_of};
use crate::claim::words::folded;
use crate::problem::{Located, Place, Problem, catalogue::schedule as words};
use crate::quantity::Decimal;
use crate::schedule::Per;
use crate::table::{Cell, Row, Table};

/// What the cells of a grid give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::schedule) struct Gives {
    pub kind: Kind,
    pub per: Per,
}

impl Gives {
    /// What the caption may say.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("amount per panel", Self { kind: Kind::Amount, per: Per::Panel }),
        ("amount per dent", Self { kind: Kind::Amount, per: Per::Dent }),
        ("hours per panel", Self { kind: Kind::Time, per: Per::Panel }),
        ("hours per dent", Self { kind: Kind::Time, per: Per::Dent }),
    ];

    fn from_words(text: &str) -> Option<Self> {
        let text = folded(text);
        Self::WORDS.iter().find(|(words, _)| *words == text).map(|(_, gives)| *gives)
    }
}

/// A row of a grid: its count band, and its cells, each with the number of its column.
#[derive(Debug)]
pub(in crate::schedule) struct RawGridRow {
    pub count: Located<String>,
    pub cells: Vec<(usize, Located<Decimal>)>,
}

/// A grid with sizes across and counts down.
#[derive(Debug)]
pub(in crate::schedule) struct RawGrid {
    pub rated_as: Option<Located<String>>,
    pub gives: Option<Gives>,
    /// The size bands' names across.
    pub sizes: Vec<Located<String>>,
    pub rows: Vec<RawGridRow>,
}

impl RawGrid {
    pub(super) fn read(table: &Table<'_>, problems: &mut Vec<Problem>) -> Self {
        let heading = Place::row(table.sheet.source, table.heading_row);
        let (rated_as, gives) = captions(table, heading, problems);
        let headed: Vec<_> = table.columns.iter().filter(|column| column.in_family).collect();
        let sizes = headed.iter().map(|column| Located::new(column.heading.clone(), column.place)).collect();
        let mut rows = Vec::new();
        for row in body(table, problems) {
            let Some(count) = count_band(table, row, problems) else { continue };
            let mut cells = Vec::with_capacity(headed.len());
            for (index, column) in headed.iter().enumerate() {
                let Some(cell) = row.cell(column.column) else { continue };
                match parse_number(cell, &column.heading, table.sheet.mark) {
                    Ok(number) => cells.push((index, Located::new(number, cell.place))),
                    Err(problem) => problems.push(problem.help(words::LEAVE_EMPTY)),
                }
            }
            rows.push(RawGridRow { count, cells });
        }
        Self { rated_as, gives, sizes, rows }
    }
}

fn count_band(table: &Table<'_>, row: &Row, problems: &mut Vec<Problem>) -> Option<Located<String>> {
    let Some(cell) = table.cell(row, "count band") else {
        let column = table.column("count band").map_or(0, |column| column.column);
        let place = Place::cell(table.sheet.source, row.number, column);
        problems.push(words::cell_missing(table.form.name, "count band").at(place));
        return None;
    };
    match parse_text(cell, "count band") {
        Ok(text) => Some(Located::new(text, cell.place)),
        Err(problem) => {
            problems.push(problem);
            None
        }
    }
}

/// The captions above the heading row; titles of one cell may stand between them.
fn captions(
    table: &Table<'_>,
    heading: Place,
    problems: &mut Vec<Problem>,
) -> (Option<Located<String>>, Option<Gives>) {
    let above = table.sheet.rows.partition_point(|row| row.number < table.heading_row);
    let (mut rated_as, mut gives): (Option<Option<&Cell>>, Option<Option<&Cell>>) = (None, None);
    for row in table.sheet.rows[..above].iter().rev() {
        match caption_of(row) {
            Some((Caption::RatedAs, said)) if rated_as.is_none() => rated_as = Some(said),
            Some((Caption::Gives, said)) if gives.is_none() => gives = Some(said),
            None if row.cells.len() == 1 => {}
            _ => break,
        }
        if rated_as.is_some() && gives.is_some() {
            break;
        }
    }
    let mut said = |caption: Option<Option<&Cell>>, name: &str| {
        let Some(cell) = caption.flatten() else {
            problems.push(words::caption_missing(name).at(heading));
            return None;
        };
        match parse_text(cell, name) {
            Ok(text) => Some(Located::new(text, cell.place)),
            Err(problem) => {
                problems.push(problem);
                None
            }
        }
    };
    let rated_as = said(rated_as, "rated as");
    let gives = said(gives, "gives").and_then(|written| {
        let gives = Gives::from_words(&written.value);
        if gives.is_none() {
            let known = Gives::WORDS.map(|(words, _)| words);
            problems.push(
                words::unknown_name("gives", &written.value, &[], &known)
                    .at(written.place)
                    .written(written.value.clone()),
            );
        }
        gives
    });
    (rated_as, gives)
}

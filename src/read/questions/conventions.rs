//! Questions about how the numbers and dates of a column are written: one for the column, not one for each cell.

use super::Question;
use super::find::Found;
use super::parts::named;
use crate::problem::{Place, Problem, Sources, catalogue::claim, catalogue::counts};
use crate::quantity::{DateOrder, Decimal, DecimalMark, parse_date_in, parse_decimal};
use crate::read::meanings::{DECIMAL_MARK, ORDER_OF_DATES};
use crate::table::{Cell, Sheet};
use std::collections::BTreeMap;

/// What tells one question from another: what it asks, below which heading of which heading row, or of which sheet and
/// file.
type Key = (&'static str, Option<String>, String, Option<(String, String)>);

/// Whether a problem asks how a column is written.
pub(super) fn is_one(problem: &Problem) -> bool {
    [&counts::NUMBER_BOTH_WAYS, &claim::DATE_AMBIGUOUS].contains(&problem.code)
}

/// Its cells.
pub(super) fn cells(problem: &Problem) -> impl Iterator<Item = Place> {
    problem.place.into_iter().chain(problem.also.iter().copied())
}

/// One question for the column of each such cell; for one above a table, of its sheet.
pub(super) fn questions(
    problems: &[&Problem],
    found: &Found,
    (sheets, sources): (&[Sheet], &Sources),
) -> Vec<Question> {
    let mut asked: BTreeMap<Key, Question> = BTreeMap::new();
    for problem in problems.iter().filter(|problem| is_one(problem)) {
        let is_date = problem.code == &claim::DATE_AMBIGUOUS;
        let word = if is_date { ORDER_OF_DATES } else { DECIMAL_MARK };
        for place in cells(problem) {
            let cell = found.words.get(&place);
            let Some(text) = cell.map(|cell| cell.text.clone()).or_else(|| written(sheets, place)) else {
                continue;
            };
            let heading = cell.map(|cell| cell.heading.clone());
            let beside = cell.map(|cell| cell.beside.clone()).unwrap_or_default();
            let of = cell.is_none().then(|| named(place, sources));
            let question =
                asked.entry((word, heading.clone(), beside.clone(), of.clone())).or_insert_with(|| {
                    Question {
                        place,
                        ask: if is_date {
                            format!("does the day or the month stand first in these dates, such as {text}?")
                        } else {
                            format!("does a point or a comma part decimals in these numbers, such as {text}?")
                        },
                        heading,
                        word: Some(word.to_owned()),
                        beside,
                        of,
                        cells: 0,
                        choices: if is_date { orders(&text) } else { marks(&text) },
                    }
                });
            question.cells += 1;
        }
    }
    asked.into_values().collect()
}

fn written(sheets: &[Sheet], place: Place) -> Option<String> {
    let sheet = sheets.iter().find(|sheet| sheet.source == place.source)?;
    sheet.row(place.row)?.cell(place.column).map(Cell::text)
}

/// The two days that a date may be. One beside a label in one cell is shown without them.
fn orders(text: &str) -> Vec<(String, String)> {
    [("day first", DateOrder::DayFirst), ("month first", DateOrder::MonthFirst)]
        .map(|(answer, order)| {
            let effect = parse_date_in(text, Some(order))
                .map_or_else(|_| String::new(), |date| format!("{text} is {date}"));
            (answer.to_owned(), effect)
        })
        .to_vec()
}

/// The two numbers that a text may be.
fn marks(text: &str) -> Vec<(String, String)> {
    let number: String =
        text.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '-')).collect();
    [("point", DecimalMark::Point), ("comma", DecimalMark::Comma)]
        .map(|(answer, mark)| {
            let read = parse_decimal(&number, mark).map(|number: Decimal| number.normalize());
            (
                answer.to_owned(),
                read.map_or_else(|_| String::new(), |number| format!("{text} is the number {number}")),
            )
        })
        .to_vec()
}

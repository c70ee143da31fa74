//! The page of a plan: what it comes to, the calendar, and lists.

use super::calendar::{Week, weeks};
use super::tables::{self, Rows};
use super::{PlanOf, words};
use crate::plan::day_of;
use crate::quantity::Date;
use crate::report::document::{Head, Imprint};
use crate::report::tables::{Column, Field, Kind};
use crate::report::wording::{self, label::LABELS, said};
use serde::Serialize;

/// A plan as a page.
#[derive(Debug, Serialize)]
pub struct PlanPage {
    language: &'static str,
    head: Head,
    promise: &'static str,
    rule: &'static [&'static str],
    /// The day on which the last car is done.
    done: Option<String>,
    cars: String,
    not_planned: String,
    hours: String,
    technicians: String,
    bays: String,
    /// What holds cars up, in short.
    waits: Option<String>,
    weeks: Vec<Week>,
    held_up: Option<PageTable>,
    unplanned: Option<PageTable>,
    one_more: Option<PageTable>,
    /// The cars; their rows are named by their numbers.
    list: PageTable,
    by_method: PageTable,
    parts: Option<PageTable>,
    /// By which program, and from what.
    made: String,
    files: Vec<File>,
}

/// A file that was read.
#[derive(Debug, Serialize)]
struct File {
    path: String,
    sha256: String,
}

/// A table of the page.
#[derive(Debug, Serialize)]
pub struct PageTable {
    title: &'static str,
    about: &'static str,
    columns: Vec<PageColumn>,
    rows: Vec<Vec<String>>,
}

#[derive(Debug, Serialize)]
struct PageColumn {
    name: &'static str,
    numeric: bool,
    day: bool,
}

/// Fills the page.
pub fn fill(of: &PlanOf<'_>, first: Date, imprint: &Imprint<'_>) -> PlanPage {
    let plan = of.plan;
    let from = format!("from {}", wording::date(first));
    let head = Head {
        what: LABELS.plan,
        key_kind: String::new(),
        key: from.clone(),
        short_key: from,
        for_whom: None,
        schedule: None,
        date: None,
    };
    let done = plan.end().and_then(|end| plan.shop.calendar.date(day_of(end))).map(wording::date);
    let awaited = held_up(of);
    let stand = plan.cars.iter().filter(|car| car.parts_awaited().any(|(_, stands)| stands)).count();
    let cars = tables::cars(of);
    let (planned, unplanned): (Rows, Rows) =
        cars.into_iter().partition(|row| row.get(NOT_PLANNED) == Some(&Field::Blank));
    PlanPage {
        language: "en",
        head,
        promise: words::PROMISE,
        rule: &words::RULE,
        done,
        cars: plan.cars.len().to_string(),
        not_planned: plan.unplanned.len().to_string(),
        hours: words::hours(of.hours()),
        technicians: plan.shop.hands.len().to_string(),
        bays: plan.shop.bays.as_ref().map_or_else(|| "not counted".to_owned(), |bays| bays.len().to_string()),
        waits: match stand {
            0 => None,
            1 => Some("1 planned car stands still for them".to_owned()),
            _ => Some(format!("{stand} planned cars stand still for them")),
        },
        weeks: weeks(of),
        held_up: table(
            "Waits for parts",
            "steps and the days on which their parts arrive, as written",
            HELD_UP,
            &awaited,
        ),
        unplanned: table(
            "Not planned",
            "and why",
            &pick(tables::CARS, &[0, 1, NOT_PLANNED]),
            &picked(&unplanned, &[0, 1, NOT_PLANNED]),
        ),
        one_more: table(
            "With one more",
            "the rest as it is, by the same rule",
            tables::ONE_MORE,
            &tables::one_more(of),
        ),
        list: filled(
            "Cars",
            "in the order of the list",
            &pick(tables::CARS, &LISTED),
            &picked(&planned, &LISTED),
        ),
        by_method: filled("Hours", "by method and skill", tables::HOURS, &tables::hours(of)),
        parts: table(
            "Parts to have",
            "for the planned cars, by model",
            &pick(tables::PARTS, &BOUGHT),
            &picked(&tables::parts(of), &BOUGHT),
        ),
        made: format!("stipple {}", imprint.tool_version),
        files: of
            .run
            .files
            .iter()
            .map(|file| File { path: said(&file.path), sha256: file.sha256.clone() })
            .collect(),
    }
}

/// Columns of cars and parts that the page shows, and the one that says why a car is not planned.
const LISTED: [usize; 13] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
const BOUGHT: [usize; 8] = [0, 1, 2, 3, 4, 5, 6, 7];
const NOT_PLANNED: usize = 13;

const HELD_UP: &[Column] = &[
    Column::new("claim", Kind::Text, ""),
    Column::new("vehicle", Kind::Text, ""),
    Column::new("step", Kind::Text, ""),
    Column::new("parts", Kind::Text, ""),
    Column::new("arrive", Kind::Date, ""),
    Column::new("step begins", Kind::Date, ""),
    Column::new("the car stands still", Kind::Text, ""),
];

/// Steps that wait for parts, in the order of the list.
fn held_up(of: &PlanOf<'_>) -> Rows {
    let plan = of.plan;
    let date = |day: usize| plan.shop.calendar.date(day).map_or(Field::Blank, Field::Date);
    let mut rows = Rows::new();
    for car in &plan.cars {
        for (step, stands) in car.parts_awaited() {
            let own = plan.parts.iter().filter(|part| part.intake == car.intake && part.arrives.is_some());
            let parts: Vec<String> = own.map(|part| of.what(part)).collect();
            rows.push(vec![
                Field::text(of.claim(car.intake).key.text.as_str()),
                Field::text(of.vehicle(car.intake)),
                Field::text(step.step.name()),
                Field::text(parts.join(", ")),
                date(step.parts_on),
                date(day_of(step.placed.start)),
                Field::text(if stands { "yes" } else { "no: earlier steps take longer" }),
            ]);
        }
    }
    rows
}

fn pick(columns: &[Column], which: &[usize]) -> Vec<Column> {
    which.iter().filter_map(|number| columns.get(*number).copied()).collect()
}

fn picked(rows: &Rows, which: &[usize]) -> Rows {
    let one = |row: &Vec<Field>| which.iter().filter_map(|number| row.get(*number).cloned()).collect();
    rows.iter().map(one).collect()
}

/// A table that has rows. Columns without a value are left out.
fn table(title: &'static str, about: &'static str, columns: &[Column], rows: &Rows) -> Option<PageTable> {
    (!rows.is_empty()).then(|| filled(title, about, columns, rows))
}

fn filled(title: &'static str, about: &'static str, columns: &[Column], rows: &Rows) -> PageTable {
    let has_value =
        |number: &usize| rows.iter().any(|row| row.get(*number).is_some_and(|field| *field != Field::Blank));
    let shown: Vec<usize> = (0..columns.len()).filter(has_value).collect();
    let numeric = |kind: Kind| matches!(kind, Kind::Count | Kind::Number | Kind::Money | Kind::Hours);
    PageTable {
        title,
        about,
        columns: pick(columns, &shown)
            .into_iter()
            .map(|column| PageColumn {
                name: column.name,
                numeric: numeric(column.kind),
                day: column.kind == Kind::Date,
            })
            .collect(),
        rows: picked(rows, &shown).iter().map(|row| row.iter().map(words_of).collect()).collect(),
    }
}

fn words_of(field: &Field) -> String {
    match field {
        Field::Money(money) => wording::amount(*money),
        Field::Hours(hours) => wording::number(hours.to_decimal()),
        Field::Date(date) => wording::date(*date),
        Field::Text(text) => said(text),
        other => other.plain(),
    }
}

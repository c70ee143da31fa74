//! The tables of a plan: for text files and the workbook alike.

use super::{PlanOf, words};
use crate::claim::{Method, Skill};
use crate::plan::A_DAY;
use crate::quantity::Hours;
use crate::report::tables::{Column, Field, Kind};

/// A row for each day of each step.
pub const PLAN: &[Column] = &[
    Column::new("date", Kind::Date, "the day"),
    Column::new("technician", Kind::Text, "who, as written"),
    Column::new("claim", Kind::Text, "key of the job"),
    Column::new("vehicle", Kind::Text, "maker, model, year and registration as written"),
    Column::new("lot", Kind::Text, "lot as written"),
    Column::new("step", Kind::Text, "step of the car"),
    Column::new("skill", Kind::Text, "what one has to be able to do"),
    Column::new("bay", Kind::Text, "where, if bays are counted"),
    Column::new("from hour", Kind::Hours, "hours of the day before it begins"),
    Column::new("hours", Kind::Hours, "hours on this day"),
    Column::new("hours of the step", Kind::Hours, "hours of the whole step"),
    Column::new("parts arrive", Kind::Date, "the day on which its parts arrive, if they are not at hand"),
    Column::new("standing", Kind::Text, "a plan, not a promise"),
];

/// A row for each car of the batch.
pub const CARS: &[Column] = &[
    Column::new("claim", Kind::Text, "key of the job"),
    Column::new("vehicle", Kind::Text, "maker, model, year and registration as written"),
    Column::new("lot", Kind::Text, "lot as written"),
    Column::new("begins", Kind::Date, "the day of its first step"),
    Column::new("done", Kind::Date, "the day of its last step"),
    Column::new("hours", Kind::Hours, "hours of all steps"),
    Column::new("paintless", Kind::Hours, "hours of paintless work"),
    Column::new("body repair", Kind::Hours, "hours of conventional repair"),
    Column::new("fitting", Kind::Hours, "hours of removing, refitting and fitting"),
    Column::new("paint", Kind::Hours, "hours of painting"),
    Column::new("glass", Kind::Hours, "hours of glass"),
    Column::new("parts arrive", Kind::Date, "the day on which the last of its parts arrives"),
    Column::new(
        "parts without a date",
        Kind::Text,
        "parts of which no arrival is written: reckoned as at hand",
    ),
    Column::new("not planned", Kind::Text, "why it is not planned"),
    Column::new("standing", Kind::Text, "a plan, not a promise"),
];

/// Hours by method.
pub const HOURS: &[Column] = &[
    Column::new("method", Kind::Text, "what is done with the panels; whole car is work on no panel"),
    Column::new("paintless", Kind::Hours, "hours of paintless work"),
    Column::new("body repair", Kind::Hours, "hours of conventional repair"),
    Column::new("fitting", Kind::Hours, "hours of removing, refitting and fitting"),
    Column::new("paint", Kind::Hours, "hours of painting"),
    Column::new("glass", Kind::Hours, "hours of glass"),
    Column::new("hours", Kind::Hours, "all of them"),
];

/// A row for each part of a model at one price.
pub const PARTS: &[Column] = &[
    Column::new("vehicle", Kind::Text, "maker, model and year as written"),
    Column::new("part", Kind::Text, "panel, item, or material of an operation"),
    Column::new("how many", Kind::Count, "pieces for the planned cars"),
    Column::new("currency", Kind::Text, "currency (ISO 4217)"),
    Column::new("price", Kind::Money, "price of each in the assessment, without tax"),
    Column::new("source", Kind::Text, "who quoted it and when, or the schedule"),
    Column::new("claims", Kind::Text, "the claims that need it"),
    Column::new("arrives", Kind::Text, "days of arrival that are written, with their claims"),
    Column::new("standing", Kind::Text, "a plan, not a promise"),
];

/// What one more does.
pub const ONE_MORE: &[Column] = &[
    Column::new("one more", Kind::Text, "technician with one skill, or bay"),
    Column::new("last car done", Kind::Date, "the day with one more"),
    Column::new("moved", Kind::Text, "against the plan"),
];

/// Rows of fields.
pub type Rows = Vec<Vec<Field>>;

/// A table: the sheet's name, its columns and its rows.
pub struct Sheet {
    /// Name of the sheet.
    pub name: &'static str,
    /// Its columns.
    pub columns: &'static [Column],
    /// Its rows.
    pub rows: Rows,
}

/// All tables of a plan.
pub fn sheets(of: &PlanOf<'_>) -> Vec<Sheet> {
    let sheet = |name, columns, rows| Sheet { name, columns, rows };
    vec![
        sheet("Plan", PLAN, plan(of)),
        sheet("Cars", CARS, cars(of)),
        sheet("Hours", HOURS, hours(of)),
        sheet("Parts", PARTS, parts(of)),
        sheet("One more", ONE_MORE, one_more(of)),
    ]
}

/// Day by day, technician by technician, in the order of the work.
pub fn plan(of: &PlanOf<'_>) -> Rows {
    let plan = of.plan;
    let mut rows: Vec<((usize, usize, u64), Vec<Field>)> = Vec::new();
    let date = |day: usize| plan.shop.calendar.date(day).map_or(Field::Blank, Field::Date);
    for car in &plan.cars {
        let claim = of.claim(car.intake);
        for step in &car.steps {
            let placed = &step.placed;
            for (index, (day, seconds)) in placed.days.iter().enumerate() {
                let from = if index == 0 { placed.start % A_DAY } else { 0 };
                let waits = step.parts_on > 0 && index == 0;
                let fields = vec![
                    date(*day),
                    Field::text(plan.shop.hands[placed.hand].name.as_str()),
                    Field::text(claim.key.text.as_str()),
                    Field::text(of.vehicle(car.intake)),
                    Field::written(claim.parties.lot.as_ref()),
                    Field::text(step.step.name()),
                    Field::text(step.step.skill().name()),
                    placed.bay.map_or(Field::Blank, |bay| Field::text(plan.bays[bay].as_str())),
                    Field::Hours(as_hours(from)),
                    Field::Hours(as_hours(*seconds)),
                    Field::Hours(step.hours),
                    if waits { date(step.parts_on) } else { Field::Blank },
                    Field::text(words::promise_short()),
                ];
                rows.push(((*day, placed.hand, from), fields));
            }
        }
    }
    rows.sort_by_key(|(place, _)| *place);
    rows.into_iter().map(|(_, fields)| fields).collect()
}

fn as_hours(seconds: u64) -> Hours {
    Hours::from_seconds(i64::try_from(seconds).unwrap_or(i64::MAX))
}

pub(super) fn cars(of: &PlanOf<'_>) -> Rows {
    let plan = of.plan;
    let date = |day: Option<usize>| {
        day.and_then(|day| plan.shop.calendar.date(day)).map_or(Field::Blank, Field::Date)
    };
    let planned = plan.cars.iter().map(|car| {
        let claim = of.claim(car.intake);
        let hours = of.hours_of(car);
        let mut all = Hours::ZERO;
        for hours in hours.values() {
            super::add(&mut all, *hours);
        }
        let steps = || car.steps.iter();
        let waits = steps().map(|step| step.parts_on).max().filter(|day| *day > 0);
        let first = steps().flat_map(|step| &step.placed.days).map(|(day, _)| *day).min();
        let last = steps().flat_map(|step| &step.placed.days).map(|(day, _)| *day).max();
        let mut fields = vec![
            Field::text(claim.key.text.as_str()),
            Field::text(of.vehicle(car.intake)),
            Field::written(claim.parties.lot.as_ref()),
            date(first),
            date(last),
            Field::Hours(all),
        ];
        fields.extend(
            Skill::ALL.iter().map(|skill| hours.get(skill).copied().map_or(Field::Blank, Field::Hours)),
        );
        fields.extend([
            date(waits),
            Field::text(of.without_arrival(car.intake).join("; ")),
            Field::Blank,
            Field::text(words::promise_short()),
        ]);
        fields
    });
    let not_planned = plan.unplanned.iter().map(|(intake, why)| {
        let claim = of.claim(*intake);
        let mut fields = vec![
            Field::text(claim.key.text.as_str()),
            Field::text(of.vehicle(*intake)),
            Field::written(claim.parties.lot.as_ref()),
        ];
        fields.resize(CARS.len() - 2, Field::Blank);
        fields.extend([Field::text(words::unplanned(*why)), Field::Blank]);
        fields
    });
    planned.chain(not_planned).collect()
}

pub(super) fn hours(of: &PlanOf<'_>) -> Rows {
    let hours = of.hours_by_method();
    let methods: Vec<Option<Method>> = Method::ALL.iter().copied().map(Some).chain([None]).collect();
    let mut rows = Rows::new();
    for method in methods {
        let mut all = Hours::ZERO;
        let mut fields = vec![Field::text(method.map_or("whole car", Method::name))];
        for skill in Skill::ALL {
            let own = hours.get(&(method, *skill)).copied();
            super::add(&mut all, own.unwrap_or(Hours::ZERO));
            fields.push(own.map_or(Field::Blank, Field::Hours));
        }
        fields.push(Field::Hours(all));
        if !all.is_zero() {
            rows.push(fields);
        }
    }
    rows
}

/// Model by model, panel by panel.
pub fn parts(of: &PlanOf<'_>) -> Rows {
    let row = |need: super::PartNeed| {
        vec![
            Field::text(need.model),
            Field::text(need.what),
            Field::Count(need.count),
            Field::text(need.price.currency().code()),
            Field::Money(need.price),
            Field::text(need.source),
            Field::text(need.claims.join("; ")),
            Field::text(need.arrives.join("; ")),
            Field::text(words::promise_short()),
        ]
    };
    of.part_needs().into_iter().map(row).collect()
}

pub(super) fn one_more(of: &PlanOf<'_>) -> Rows {
    let row = |(more, end): &(crate::plan::OneMore, Option<u64>)| {
        let (date, moved) = words::moved(of.plan, *end);
        vec![Field::text(words::one_more(*more)), date.map_or(Field::Blank, Field::Date), Field::text(moved)]
    };
    of.plan.one_more.iter().map(row).collect()
}

//! The tables of a workshop: technicians, bays, days off, the week, arrivals of parts, and the pace of paintless work.

mod forms;

use super::cells::Cells;
use super::columns::KEYS;
use super::own_words::OwnWords;
use super::panels::{Car, Panels};
use crate::claim::words::{find, folded, suggest};
use crate::claim::{
    Arrival, Bays, DaysOff, JobKey, KeyKind, Located, Pace, Skill, Technician, Weekday, Workshop,
};
use crate::problem::{Problem, catalogue::claim as say, catalogue::plan as plan_says};
use crate::table::{Form, Table};
pub(super) use forms::FORMS;

const KINDS: [KeyKind; 4] = [KeyKind::ClaimNumber, KeyKind::JobNumber, KeyKind::Registration, KeyKind::Vin];
/// Hours of a day.
const DAY: i64 = 24 * 3600;
/// Technicians of one workshop; more are taken for another kind of list.
const MOST: usize = 999;

/// Reads all tables of workshops. A row that cannot be used is told and left out.
pub fn workshop(tables: &[Table<'_>]) -> (Workshop, Vec<Problem>) {
    let (own, mut problems) = (OwnWords::default(), Vec::new());
    let mut shop = Workshop::default();
    let mut panels = Panels::default();
    for table in tables {
        for row in table.rows {
            let mut cells = Cells::new(table, row, &own);
            read_row(table.form, &mut cells, &mut shop, &mut panels);
            problems.append(&mut cells.problems);
        }
    }
    problems.extend(names(&mut shop));
    (shop, problems)
}

fn read_row(form: &Form, cells: &mut Cells<'_, '_>, shop: &mut Workshop, panels: &mut Panels) {
    if *form == forms::TECHNICIANS {
        shop.technicians.extend(technician(cells));
    } else if *form == forms::BAYS {
        shop.bays.extend(bays(cells));
    } else if *form == forms::DAYS_OFF {
        shop.days_off.extend(days_off(cells));
    } else if *form == forms::WEEK {
        let (day, worked) = (cells.word::<Weekday>("weekday"), cells.answer("worked"));
        match (day, worked) {
            (Some(day), Some(worked)) => shop.week.push((day.value, worked.value)),
            _ => lacking(cells, &["weekday", "worked"]),
        }
    } else if *form == forms::ARRIVALS {
        shop.arrivals.extend(arrival(cells, panels));
    } else if *form == forms::PACE {
        shop.paces.extend(pace(cells, &shop.paces));
    }
}

/// Names the first of some columns that is blank, unless the row was told already.
fn lacking(cells: &mut Cells<'_, '_>, needed: &[&str]) {
    if cells.problems.is_empty()
        && let Some(blank) = needed.iter().find(|id| !cells.has(id))
    {
        cells.lacks(blank);
    }
}

fn technician(cells: &mut Cells<'_, '_>) -> Option<Technician> {
    let (name, skills) = (cells.text("technician"), skills(cells, "skills"));
    let hours = cells.hours("hours a day");
    lacking(cells, &["technician", "skills", "hours a day"]);
    let (name, skills, hours) = (name?, skills?, hours?);
    if !(1..=DAY).contains(&hours.value.seconds()) {
        let written = hours.value.to_string();
        cells.problems.push(say::number_unreadable(hours.place, "hours a day", &written, "hours up to 24"));
        return None;
    }
    (!skills.is_empty()).then_some(Technician { name, skills, hours: hours.value })
}

fn bays(cells: &mut Cells<'_, '_>) -> Option<Bays> {
    let name = cells.text("bay");
    let used_for = if cells.has("used for") { skills(cells, "used for") } else { Some(Vec::new()) };
    let number =
        if cells.has("how many") { cells.ordinal("how many").map(|number| number.value) } else { Some(1) };
    lacking(cells, &["bay"]);
    Some(Bays { name: name?, number: number?, used_for: used_for? })
}

/// Skills, parted by commas, semicolons, `+`, `/`, `&` or `and`; `any` and `all` are every skill, which a bay has as none.
fn skills(cells: &mut Cells<'_, '_>, id: &str) -> Option<Vec<Skill>> {
    let cell = cells.cell(id)?;
    let text = cell.text();
    if matches!(folded(&text).as_str(), "any" | "all" | "everything" | "any work") {
        return Some(if id == "skills" { Skill::ALL.to_vec() } else { Vec::new() });
    }
    let mut found = Vec::new();
    let parts = text.split([',', ';', '+']).flat_map(|part| match find::<Skill>(part) {
        // Words that hold a sign or an "and" of their own are known as a whole.
        Some(_) => vec![part],
        None => part.split(['/', '&']).flat_map(|part| part.split(" and ")).collect(),
    });
    for part in parts {
        match find::<Skill>(part) {
            Some(skill) => found.push(skill),
            None if folded(part).is_empty() => {}
            None => {
                let all: Vec<&str> = Skill::ALL.iter().map(|skill| skill.name()).collect();
                let near = suggest::<Skill>(part);
                cells.problems.push(say::word_unknown(cell.place, id, part.trim(), &near, &all));
                return None;
            }
        }
    }
    found.sort_unstable();
    found.dedup();
    Some(found)
}

fn days_off(cells: &mut Cells<'_, '_>) -> Option<DaysOff> {
    let place = cells.place();
    let technician = cells.text("technician");
    let from = cells.date("off from");
    let until = if cells.has("off until") { cells.date("off until") } else { from };
    lacking(cells, &["off from"]);
    let (from, until) = (from?, until?);
    if until.value < from.value {
        cells.problems.push(plan_says::days_reversed(until.place, from.value, until.value));
        return None;
    }
    Some(DaysOff { place, technician, from: from.value, until: until.value })
}

fn arrival(cells: &mut Cells<'_, '_>, panels: &mut Panels) -> Option<Arrival> {
    let place = cells.place();
    let day = cells.date("arrives");
    let mut keys = KEYS.iter().zip(KINDS);
    let key = keys.find_map(|(column, kind)| Some(JobKey::new(kind, cells.text(column.id)?.value)));
    lacking(cells, &["arrives"]);
    let Some(key) = key else {
        cells.problems.push(say::row_incomplete(place, cells.table.form.name, "claim"));
        return None;
    };
    let has_panel = cells.has("panel");
    let panel = if has_panel { panels.of_row(cells, &Car::default()) } else { None };
    // A panel that cannot be told holds nothing up by itself, and must not hold up the whole car.
    (panel.is_some() == has_panel).then_some(Arrival {
        place,
        key,
        panel: panel.map(|panel| panel.value),
        day: day?.value,
        by_register: false,
    })
}

fn pace(cells: &mut Cells<'_, '_>, known: &[Pace]) -> Option<Pace> {
    let an_hour = cells.amount("paintless an hour", None);
    lacking(cells, &["paintless an hour"]);
    let an_hour = an_hour?;
    let column = "paintless an hour";
    if an_hour.value.currency.is_none() || an_hour.value.amount.is_zero() {
        let written = an_hour.value.amount.to_string();
        let wanted = "an amount above zero with its currency, such as 85.00 EUR";
        cells.problems.push(say::number_unreadable(an_hour.place, column, &written, wanted));
        return None;
    }
    if let Some(first) = known.iter().find(|pace| pace.an_hour.value.currency == an_hour.value.currency) {
        cells.problems.push(plan_says::pace_twice(an_hour.place, first.an_hour.place));
        return None;
    }
    Some(Pace { an_hour })
}

/// Who stands twice, who is named without standing in the table of technicians, and technicians beyond any workshop.
fn names(shop: &mut Workshop) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut kept: Vec<Technician> = Vec::new();
    for technician in shop.technicians.drain(..) {
        let name = folded(&technician.name.value);
        match kept.iter().find(|other| folded(&other.name.value) == name) {
            Some(first) => {
                problems.push(plan_says::technician_twice(
                    technician.name.place,
                    &technician.name.value,
                    first.name.place,
                ));
            }
            None if kept.len() == MOST => {
                problems.push(plan_says::too_many_technicians(technician.name.place, MOST));
                break;
            }
            None => kept.push(technician),
        }
    }
    shop.technicians = kept;
    let known = |name: &Located<String>| {
        shop.technicians.iter().any(|other| folded(&other.name.value) == folded(&name.value))
    };
    shop.days_off.retain(|off| match &off.technician {
        Some(name) if !known(name) => {
            problems.push(plan_says::technician_unknown(name.place, &name.value));
            false
        }
        _ => true,
    });
    problems
}

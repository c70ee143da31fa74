//! What changed between two editions of a schedule: every table as it was understood, row by row and cell by cell, so that
//! another order of columns or another way to write the same is no change.

use super::{Section, Shown, sections};
use crate::problem::Place;
use crate::schedule::Schedule;

/// What became of a row or a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Became {
    /// Only the second edition has it.
    Added,
    /// Only the first edition has it.
    Removed,
    /// Both have it, and it says something else.
    Changed,
}

impl Became {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Added => "added",
            Self::Removed => "removed",
            Self::Changed => "changed",
        }
    }
}

/// One difference: a cell that changed, or a row that is in one edition alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// The table.
    pub table: String,
    /// The row, by what names it.
    pub row: String,
    /// The column; empty for a whole row.
    pub column: String,
    /// What became of it.
    pub became: Became,
    /// What the first edition says, and its cell.
    pub before: (String, Option<Place>),
    /// What the second edition says, and its cell.
    pub after: (String, Option<Place>),
}

/// Everything that differs, in the order of the tables; empty for a schedule and itself.
pub fn changes(first: &Schedule, second: &Schedule) -> Vec<Change> {
    let (first, second) = (sections::of(first), sections::of(second));
    let mut changes = Vec::new();
    for section in titles(&first, &second) {
        let none = Section::new(section, &[]);
        let of = |all: &'_ [Section]| all.iter().position(|other| name(other) == section);
        let before = of(&first).map_or(&none, |index| &first[index]);
        let after = of(&second).map_or(&none, |index| &second[index]);
        compare(section, before, after, &mut changes);
    }
    changes
}

/// How the titles of rate grids begin; a group's name follows, and the currency in brackets.
const RATES: &str = "Rates of ";

/// A column that follows from the place of the row alone: a row put before others changes none of them.
const NUMBER: &str = "number";

/// The name of a table without what follows from its content: its currency, or the order of its rows.
fn name(section: &Section) -> &str {
    let title = section.title.as_str();
    let ends = if title.starts_with(RATES) { title.rfind(" (") } else { title.find(',') };
    &title[..ends.unwrap_or(title.len())]
}

/// The tables of both, those of the second alone where they stand in it.
fn titles<'s>(first: &'s [Section], second: &'s [Section]) -> Vec<&'s str> {
    let mut titles: Vec<&str> = first.iter().map(name).collect();
    let mut at = 0;
    for section in second.iter().map(name) {
        if let Some(index) = titles.iter().position(|title| *title == section) {
            at = index + 1;
        } else {
            titles.insert(at, section);
            at += 1;
        }
    }
    titles
}

/// The columns that name a row of a table: what a person would call it by.
fn keys(table: &str) -> &'static [&'static str] {
    match table {
        "Mark rates" => &["mark", "panel", "over"],
        "Factors" => &["factor", "panel"],
        "Typical prices" => &["panel", "vehicle class"],
        "Limits" => &["limit", "panel"],
        "Betterment" => &["betterment on", "panel", "item", "from years"],
        "Operations" => &["operation", "panel"],
        _ => &[],
    }
}

/// A column without the unit that its heading ends in: a change of currency is a change of the term alone.
fn column(heading: &str) -> &str {
    ["per hour", "each"]
        .into_iter()
        .find(|plain| heading.strip_prefix(plain).is_some_and(|unit| unit.starts_with(' ')))
        .unwrap_or(heading)
}

/// A row's name: its cells in the key columns, else its first.
fn key(table: &str, section: &Section, row: &[Shown]) -> String {
    let of = |heading: &&str| section.headings.iter().position(|own| own == heading);
    let named: Vec<&str> = keys(table)
        .iter()
        .filter_map(of)
        .filter_map(|index| row.get(index))
        .map(|shown| shown.text.as_str())
        .filter(|text| *text != "any" && !text.is_empty())
        .collect();
    if named.is_empty() {
        row.first().map_or_else(String::new, |shown| shown.text.clone())
    } else {
        named.join(", ")
    }
}

fn compare(table: &str, before: &Section, after: &Section, changes: &mut Vec<Change>) {
    let pairs = pairs(table, before, after);
    for (first, second) in pairs {
        match (first, second) {
            (Some(first), Some(second)) => compare_rows(table, (before, first), (after, second), changes),
            (Some(first), None) => changes.push(alone(table, (before, first), Became::Removed)),
            (None, Some(second)) => changes.push(alone(table, (after, second), Became::Added)),
            (None, None) => {}
        }
    }
}

type Pair<'s> = (Option<&'s [Shown]>, Option<&'s [Shown]>);

/// Rows of one name go together: those that say the same first, then in their order. What is left stands alone, rows of the
/// second edition after the row before them.
fn pairs<'s>(table: &str, before: &'s Section, after: &'s Section) -> Vec<Pair<'s>> {
    let keyed = |section: &'s Section| -> Vec<(String, &'s [Shown])> {
        section.rows.iter().map(|row| (key(table, section, row), row.as_slice())).collect()
    };
    let (first, second) = (keyed(before), keyed(after));
    let mut partner: Vec<Option<usize>> = vec![None; first.len()];
    let mut taken = vec![false; second.len()];
    for is_alike in [true, false] {
        for (index, (name, row)) in first.iter().enumerate() {
            if partner[index].is_some() {
                continue;
            }
            let says_the_same = |other: &[Shown]| {
                row.len() == other.len() && row.iter().zip(other).all(|(one, other)| one.text == other.text)
            };
            let found = second.iter().enumerate().position(|(at, (other, cells))| {
                !taken[at] && other == name && (!is_alike || says_the_same(cells))
            });
            if let Some(at) = found {
                taken[at] = true;
                partner[index] = Some(at);
            }
        }
    }
    let mut pairs: Vec<Pair<'s>> = Vec::new();
    let mut next = 0;
    for (index, (_, row)) in first.iter().enumerate() {
        if let Some(at) = partner[index] {
            pairs.extend((next..at).filter(|at| !taken[*at]).map(|at| (None, Some(second[at].1))));
            next = next.max(at + 1);
            pairs.push((Some(row), Some(second[at].1)));
        } else {
            pairs.push((Some(row), None));
        }
    }
    pairs.extend((next..second.len()).filter(|at| !taken[*at]).map(|at| (None, Some(second[at].1))));
    pairs
}

/// Where a row stands: its own cell, or the first of its cells.
fn place_of(row: &[Shown]) -> Option<Place> {
    row.iter().find_map(|shown| shown.place)
}

fn alone(table: &str, (section, row): (&Section, &[Shown]), became: Became) -> Change {
    // What names the row is said already.
    let is_name = |index: usize| {
        let heading = section.headings.get(index).map_or("", String::as_str);
        keys(table).contains(&heading) || heading == NUMBER || keys(table).is_empty() && index == 0
    };
    let said: Vec<&str> = row
        .iter()
        .enumerate()
        .filter(|(index, shown)| !is_name(*index) && !matches!(shown.text.as_str(), "" | "-"))
        .map(|(_, shown)| shown.text.as_str())
        .collect();
    let said = (said.join(", "), place_of(row));
    let nothing = (String::new(), None);
    let (before, after) = if became == Became::Added { (nothing, said) } else { (said, nothing) };
    Change {
        table: table.to_owned(),
        row: key(table, section, row),
        column: String::new(),
        became,
        before,
        after,
    }
}

fn compare_rows(
    table: &str,
    (before, first): (&Section, &[Shown]),
    (after, second): (&Section, &[Shown]),
    changes: &mut Vec<Change>,
) {
    let own = |section: &Section| -> Vec<String> {
        section.headings.iter().map(|heading| column(heading).to_owned()).collect()
    };
    let (own, others) = (own(before), own(after));
    let mut columns: Vec<&String> = own.iter().collect();
    columns.extend(others.iter().filter(|heading| !own.contains(heading)));
    let said = |headings: &[String], row: &[Shown], heading: &String| {
        let shown = headings.iter().position(|own| own == heading).and_then(|index| row.get(index));
        shown.map_or_else(
            || (String::new(), None),
            |shown| {
                let text = if shown.text == "-" { "" } else { shown.text.as_str() };
                (text.to_owned(), shown.place.or_else(|| place_of(row)))
            },
        )
    };
    for heading in columns.into_iter().filter(|heading| *heading != NUMBER) {
        let (one, other) = (said(&own, first, heading), said(&others, second, heading));
        if one.0 == other.0 {
            continue;
        }
        let became = match (one.0.is_empty(), other.0.is_empty()) {
            (true, _) => Became::Added,
            (_, true) => Became::Removed,
            _ => Became::Changed,
        };
        let row = key(table, before, first);
        changes.push(Change {
            table: table.to_owned(),
            row,
            column: heading.clone(),
            became,
            before: one,
            after: other,
        });
    }
}

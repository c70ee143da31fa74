use crate::claim::words::folded;
use crate::problem::{Place, Problem, catalogue::schedule as words, nearest};
use crate::quantity::LengthUnit;
use crate::schedule::forms::{self, Holds, holds};
use crate::table::{HeadedColumn, Table};

/// A unit in the heading of a column of amounts or times, to be compared with the terms.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::schedule) struct HeadedUnit {
    pub column: &'static str,
    pub unit: String,
    pub holds: Holds,
    pub place: Place,
}

/// Tells headings that nobody knows or that stand twice, and units that do not fit what the column holds.
pub(super) fn check(table: &Table<'_>, units: &mut Vec<HeadedUnit>, problems: &mut Vec<Problem>) {
    for column in &table.columns {
        if let Some(id) = column.id {
            check_unit(id, column, units, problems);
        } else if !column.in_family {
            check_unknown(table, column, problems);
        }
    }
}

fn check_unit(
    id: &'static str,
    column: &HeadedColumn,
    units: &mut Vec<HeadedUnit>,
    problems: &mut Vec<Problem>,
) {
    let Some(unit) = &column.unit else { return };
    let holds = holds(id);
    let lower = unit.to_lowercase();
    let fits = match holds {
        Holds::Money => is_currency(unit) || matches!(lower.as_str(), "$" | "\u{20ac}" | "\u{a3}"),
        Holds::Time => hours_per_unit(&lower).is_some(),
        Holds::Length => LengthUnit::from_word(unit).is_some(),
        Holds::Percent => lower == "%",
        Holds::Area => matches!(lower.as_str(), "m2" | "m\u{b2}" | "cm2" | "cm\u{b2}"),
        Holds::Words => true,
    };
    if !fits {
        problems.push(words::unit_clash(id, unit, None).at(column.place).written(column.heading.clone()));
    } else if is_currency(unit) || holds == Holds::Time {
        units.push(HeadedUnit { column: id, unit: unit.clone(), holds, place: column.place });
    }
}

fn is_currency(unit: &str) -> bool {
    unit.len() == 3 && unit.bytes().all(|b| b.is_ascii_uppercase())
}

/// What a word for a unit of time is called in the terms.
pub(in crate::schedule) fn hours_per_unit(unit: &str) -> Option<&'static str> {
    match unit.to_lowercase().as_str() {
        "h" | "hrs" | "hours" => Some("tenths"),
        "min" | "minutes" => Some("minutes"),
        "wu" => Some("work units"),
        _ => None,
    }
}

fn check_unknown(table: &Table<'_>, column: &HeadedColumn, problems: &mut Vec<Problem>) {
    let heading = folded(&column.heading);
    if forms::is_remark(&heading) {
        return;
    }
    let first = table.form.columns.iter().find(|known| known.goes_by(&heading));
    if let Some(first) = first {
        let other = table.column(first.id).map_or(column.place, |other| other.place);
        problems.push(words::column_twice(first.id, table.form.name).at(column.place).and(other));
    } else if table.form != &forms::TERMS {
        let near = nearest(&heading, table.form.columns.iter().map(|known| known.id));
        problems.push(
            words::column_unknown(&column.heading, table.form.name, &near)
                .at(column.place)
                .written(column.heading.clone()),
        );
    }
}

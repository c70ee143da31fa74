use super::super::Problem;
use super::{
    CAPTION_MISSING, CELL_MISSING, CELL_UNREADABLE, COLUMN_TWICE, COLUMN_UNKNOWN, NAME_TWICE, NAME_UNKNOWN,
    OUT_OF_RANGE, PERCENT_AS_FRACTION, TEXT_LOOSE, TOO_PRECISE, UNIT_CLASH, UNIT_MISSING, VALUE_CHOICE,
};
use crate::quantity::{DateFault, Decimal, DecimalMark, NumberFault};
use std::fmt::Display;

/// What to do with a grid cell that holds a dash or a word.
pub const LEAVE_EMPTY: &str = "Leave the cell empty where nothing is agreed";

/// A cell that the row cannot do without.
pub fn cell_missing(table: &str, column: &str) -> Problem {
    Problem::new(&CELL_MISSING, format!("a row of the {table} has nothing under {column}"))
}

/// An error value, a formula without a result, or a number that is none.
pub fn cell_fault(column: &str) -> Problem {
    Problem::new(&CELL_UNREADABLE, format!("the cell for {column} holds no value"))
        .help("Mend the formula in the spreadsheet program and save the file again")
}

/// A number that cannot be read.
pub fn unreadable(column: &str, fault: &NumberFault, mark: DecimalMark) -> Problem {
    let example = match mark {
        DecimalMark::Point => "12.50",
        DecimalMark::Comma => "12,50",
    };
    Problem::new(&CELL_UNREADABLE, format!("{column} cannot be read: {fault}"))
        .help(format!("Write a plain number such as {example}, without words or signs"))
}

/// A date that is none.
pub fn unreadable_date(column: &str, fault: DateFault) -> Problem {
    Problem::new(&CELL_UNREADABLE, format!("{column} cannot be read: {fault}"))
        .help("Write the day as 2026-05-01")
}

/// A length that is none.
pub fn unreadable_length(column: &str, fault: NumberFault) -> Problem {
    Problem::new(&CELL_UNREADABLE, format!("{column} is no length: {fault}"))
        .help("Write a length such as 12 mm or 1/2 in")
}

/// A date where a name or a number is needed.
pub fn date_for_words(column: &str) -> Problem {
    Problem::new(&CELL_UNREADABLE, format!("{column} is a date"))
        .help("Spreadsheet programs make dates of entries such as 5-10 or 1/2: format the cell as text and type it again")
}

/// A length without a unit.
pub fn no_unit(column: &str) -> Problem {
    Problem::new(&UNIT_MISSING, format!("{column} has no unit"))
        .help(format!("Write the unit into the cell (12 mm, 1/2 in) or into the heading ({column} mm)"))
}

/// A value that cannot be meant.
pub fn out_of_range(column: &str, why: &str) -> Problem {
    Problem::new(&OUT_OF_RANGE, format!("{column} is not possible: {why}"))
}

/// A value finer than its quantity.
pub fn too_precise(column: &str, finest: &str) -> Problem {
    Problem::new(&TOO_PRECISE, format!("{column} is too fine"))
        .help(format!("The finest that can be kept: {finest}"))
}

/// A percentage that looks like a fraction of one.
pub fn percent_as_fraction(column: &str, value: Decimal) -> Problem {
    let value = value.normalize();
    let hundredfold = (value * Decimal::ONE_HUNDRED).normalize();
    Problem::new(&PERCENT_AS_FRACTION, format!("{column} is read as {value} %, less than one percent"))
        .help(format!("If {hundredfold} % is meant, write {hundredfold}"))
}

/// A unit in a heading that does not fit its column, or that the terms contradict.
pub fn unit_clash(column: &str, unit: &str, expected: Option<&str>) -> Problem {
    match expected {
        Some(expected) => {
            Problem::new(&UNIT_CLASH, format!("the heading {column} says {unit}, the terms say {expected}"))
        }
        None => Problem::new(&UNIT_CLASH, format!("{column} is not written in {unit}")),
    }
}

/// A word that is none of those that can stand here.
pub fn unknown_name(what: &str, written: &str, near: &[&str], all: &[&str]) -> Problem {
    let problem = Problem::new(&NAME_UNKNOWN, format!("{what}: {written} is not known"));
    if !near.is_empty() {
        problem.help(format!("Nearest: {}", near.join(", ")))
    } else if !all.is_empty() && all.len() <= 24 {
        problem.help(format!("One of: {}", all.join(", ")))
    } else {
        problem
    }
}

/// A word that names neither a kind of panel nor a group nor how panels lie or are joined.
pub fn unknown_panels(written: &str, near: &[&str]) -> Problem {
    let problem = unknown_name("panel", written, near, &[]);
    if near.is_empty() {
        problem.help("Write a kind of panel without its side, a group of the rates, or horizontal, vertical, bolted, welded")
    } else {
        problem
    }
}

/// A currency that ISO 4217 does not list.
pub fn unknown_currency(written: &str, near: &[&str]) -> Problem {
    let problem = Problem::new(&NAME_UNKNOWN, format!("currency: {written} is no ISO 4217 code"));
    if near.is_empty() {
        problem.help("Write three letters such as EUR or USD")
    } else {
        problem.help(format!("Nearest: {}", near.join(", ")))
    }
}

/// Two rows that say the same.
pub fn twice(what: &str, name: &str) -> Problem {
    Problem::new(&NAME_TWICE, format!("{what}: {name} stands twice"))
}

/// A heading that no table of schedules has.
pub fn column_unknown(heading: &str, table: &str, near: &[&str]) -> Problem {
    let problem =
        Problem::new(&COLUMN_UNKNOWN, format!("{heading} is no column of the {table}; it is left out"));
    if near.is_empty() { problem } else { problem.help(format!("Nearest: {}", near.join(", "))) }
}

/// Two columns with one heading.
pub fn column_twice(column: &str, table: &str) -> Problem {
    Problem::new(&COLUMN_TWICE, format!("two columns of the {table} are headed {column}"))
}

/// A cell by itself under a table.
pub fn loose_text(table: &str) -> Problem {
    Problem::new(&TEXT_LOOSE, format!("text by itself under the {table} is not read as a row"))
}

/// A grid that does not say its group or what it gives.
pub fn caption_missing(caption: &str) -> Problem {
    let example = match caption {
        "gives" => "gives, amount per panel",
        _ => "rated as, and the group's name",
    };
    Problem::new(&CAPTION_MISSING, format!("no row above the grid says {caption}"))
        .help(format!("Add a row above the heading: {example}"))
}

/// Both of two cells are filled.
pub fn one_of_two(first: impl Display, second: impl Display) -> Problem {
    Problem::new(&VALUE_CHOICE, format!("the row has {first} and {second}, and only one of them can hold"))
}

/// Neither of two cells is filled.
pub fn neither_of_two(first: impl Display, second: impl Display) -> Problem {
    Problem::new(&VALUE_CHOICE, format!("the row has neither {first} nor {second}"))
}

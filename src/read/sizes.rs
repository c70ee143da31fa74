//! Sizes as headings and cells write them: ranges of diameters, or names that a schedule may list.

use super::cells::other;
use crate::claim::words::{find_folded, folded, named};
use crate::claim::{Place, SizeHeading};
use crate::problem::{Problem, catalogue};
use crate::quantity::{DateFault, DecimalMark, Length, LengthUnit, parse_date};
use crate::table::{
    HeadedColumn, LONGEST_HEADING, Row, Table, lacks_unit, parse_interval, parse_length, unit_in,
};
use std::collections::BTreeMap;
use std::sync::Arc;

named! {
    /// A size by a name: coins, letters, fruits.
    pub enum SizeName {
        Named = "named size",
    }
}

/// Words that say that a column holds sizes, and not which.
const GENERAL: [&str; 15] = [
    "size",
    "sizes",
    "band",
    "bands",
    "range",
    "of",
    "dent",
    "dents",
    "in",
    "inch",
    "inches",
    "mm",
    "cm",
    "millimetres",
    "millimeters",
];

/// Whether a heading of a wide table is a size: a range of diameters, a length with its unit, a known name of a size,
/// or anything that begins with `size` or `band`. A bare number is none: rows of data hold those.
pub(super) fn is_size(heading: &str) -> bool {
    if heading.len() > LONGEST_HEADING {
        return false;
    }
    let is_measure = |mark| {
        parse_interval(heading, Some(LengthUnit::Millimetre), mark).is_some()
            || parse_length(heading, None, mark).is_ok()
    };
    let name = folded(heading);
    // `size band` and `size (mm)` head a column of sizes; they are none themselves.
    let is_general = name.split(' ').all(|word| GENERAL.contains(&word));
    let begins =
        |word: &str| !is_general && name.strip_prefix(word).is_some_and(|rest| rest.starts_with(' '));
    is_measure(DecimalMark::Point)
        || is_measure(DecimalMark::Comma)
        || find_folded::<SizeName>(&name).is_some()
        || begins("size")
        || begins("band")
        || is_date(heading)
}

/// What a spreadsheet program makes of `3-5`: a date, stored or as text (`03-May`, `May-03`).
fn is_date(heading: &str) -> bool {
    const MONTHS: [&str; 12] =
        ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let name = folded(heading);
    let is_month = |word: &str| word.len() >= 3 && MONTHS.iter().any(|month| word.starts_with(month));
    let is_number = |word: &str| word.bytes().all(|byte| byte.is_ascii_digit());
    matches!(parse_date(heading), Ok(_) | Err(DateFault::Ambiguous | DateFault::ShortYear))
        || matches!(name.split(' ').collect::<Vec<_>>()[..], [a, b] if (is_month(a) && is_number(b)) || (is_number(a) && is_month(b)))
}

/// How the sizes of one table are read.
pub(super) struct Sizes {
    unit: Option<LengthUnit>,
    mark: DecimalMark,
    by_text: BTreeMap<String, Arc<SizeHeading>>,
}

/// A size column of a wide table.
pub(super) struct SizeColumn {
    pub(super) column: u16,
    pub(super) size: Arc<SizeHeading>,
    pub(super) place: Place,
}

impl Sizes {
    /// The unit of a table's sizes: of the heading of its column, of its other size headings, of the nearest title.
    pub(super) fn of(table: &Table<'_>) -> Self {
        let by_heading =
            table.column("size").and_then(|column| LengthUnit::from_word(column.unit.as_deref()?));
        let unit = by_heading.or_else(|| unit_of_headings(table)).or_else(|| unit_of_titles(table.above));
        Self { unit, mark: table.sheet.mark, by_text: BTreeMap::new() }
    }

    /// A size as written; the same text is the same size.
    pub(super) fn read(&mut self, text: &str) -> Arc<SizeHeading> {
        if let Some(size) = self.by_text.get(text) {
            return Arc::clone(size);
        }
        let interval = parse_interval(text, self.unit, self.mark);
        let size = Arc::new(SizeHeading { text: text.to_owned(), interval });
        self.by_text.insert(text.to_owned(), Arc::clone(&size));
        size
    }

    /// Whether a size would be a range if it had a unit.
    pub(super) fn lacks_unit(&self, text: &str) -> bool {
        self.unit.is_none() && lacks_unit(text, self.mark)
    }

    /// Whether a size would be a range with the decimal mark that the file does not use.
    pub(super) fn has_other_mark(&self, text: &str) -> bool {
        let unit = self.unit.or(Some(LengthUnit::Millimetre));
        parse_interval(text, unit, self.mark).is_none()
            && parse_interval(text, unit, other(self.mark)).is_some()
    }

    /// What is said of such a size.
    pub(super) fn other_mark(&self, place: Place, text: &str) -> Problem {
        catalogue::counts::other_mark(place, text, self.mark)
    }

    /// The size columns of a wide table, and what has to be asked about them: once for each claim of the table.
    pub(super) fn columns(&mut self, table: &Table<'_>) -> (Vec<SizeColumn>, Vec<Problem>) {
        let headed: Vec<_> = table.columns.iter().filter(|column| column.in_family).collect();
        let mut problems: Vec<Problem> = headed
            .iter()
            .filter(|column| is_date(&column.heading))
            .map(|column| catalogue::counts::size_is_date(column.place, &column.heading))
            .collect();
        let clashing = headed.iter().filter(|column| self.has_other_mark(&column.heading));
        problems.extend(clashing.map(|column| self.other_mark(column.place, &column.heading)));
        let oversize = headed.iter().filter(|column| is_oversize(table, column));
        problems
            .extend(oversize.map(|column| catalogue::counts::oversize_open(column.place, &column.heading)));
        problems.extend(self.absurd(&headed));
        let without: Vec<_> = headed.iter().filter(|column| self.lacks_unit(&column.heading)).collect();
        if let Some(first) = without.first() {
            let names: Vec<&str> = without.iter().map(|column| column.heading.as_str()).collect();
            problems.push(catalogue::counts::size_without_unit(first.place, &names));
        }
        let columns = headed.into_iter().map(|column| SizeColumn {
            column: column.column,
            size: self.read(&column.heading),
            place: column.place,
        });
        (columns.collect(), problems)
    }
}

impl Sizes {
    /// Sizes that are wider than a panel by their unit, or of which the largest is too small to see.
    fn absurd(&mut self, headed: &[&HeadedColumn]) -> Vec<Problem> {
        const WIDEST: i64 = 500_000_000;
        const SMALLEST: i64 = 3_000_000;
        let edge =
            |size: &SizeHeading| size.interval.map(|range| range.high.unwrap_or(range.low).nanometres());
        let edges: Vec<(&HeadedColumn, i64)> =
            headed.iter().filter_map(|column| Some((*column, edge(&self.read(&column.heading))?))).collect();
        let is_small = edges.len() > 1
            && edges.iter().map(|(_, edge)| *edge).max().is_some_and(|largest| largest < SMALLEST);
        let is_absurd = |(_, edge): &&(&HeadedColumn, i64)| is_small || *edge > WIDEST;
        let say = |(column, _): &(&HeadedColumn, i64)| {
            catalogue::tally::size_absurd(column.place, &column.heading, is_small)
        };
        // The answer to one settles the others that name no unit themselves.
        let first_without =
            edges.iter().filter(is_absurd).find(|(column, _)| unit_in(&column.heading).is_none());
        match first_without {
            Some(first) => vec![say(first)],
            None => edges.iter().filter(is_absurd).map(say).collect(),
        }
    }
}

/// Whether a column is headed `oversize` and nothing else, and holds a number that is not zero.
fn is_oversize(table: &Table<'_>, column: &HeadedColumn) -> bool {
    const WORDS: [&str; 6] =
        ["oversize", "oversized", "over size", "oversize dents", "oversized dents", "os"];
    let numbers =
        || table.rows.iter().filter_map(|row| row.cell(column.column)?.number(table.sheet.mark).ok());
    WORDS.contains(&folded(&column.heading).as_str()) && numbers().any(|number| !number.is_zero())
}

/// The one unit that some of the size headings carry.
fn unit_of_headings(table: &Table<'_>) -> Option<LengthUnit> {
    let headings = table.columns.iter().filter(|column| column.in_family);
    one(headings.filter_map(|column| unit_in(&column.heading)))
}

/// The one unit that the nearest of the rows above speaks of.
pub(super) fn unit_of_titles(above: &[Row]) -> Option<LengthUnit> {
    above.iter().rev().find_map(|row| one(row.cells.iter().filter_map(|cell| unit_in(&cell.text()))))
}

fn one(mut units: impl Iterator<Item = LengthUnit>) -> Option<LengthUnit> {
    let first = units.next()?;
    units.all(|unit| unit == first).then_some(first)
}

/// What sizes are sorted by, and known by: ranges by their edges, then names.
pub(super) fn rank(size: &SizeHeading) -> (bool, Length, Option<Length>, String) {
    match size.interval {
        // Within one lower edge the open-ended range is the largest.
        Some(interval) => (
            false,
            interval.low,
            Some(interval.high.unwrap_or(Length::from_nanometres(i64::MAX))),
            String::new(),
        ),
        None => (true, Length::ZERO, None, folded(&size.text)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_lengths_names_and_dates_are_sizes_and_words_are_not() {
        for heading in [
            "0-10 mm",
            "11 - 20",
            "50+",
            "20 mm",
            "dime",
            "XL",
            "Size 2",
            "band A",
            "03-May",
            "03-05-2026",
            "0,5-1 cm",
        ] {
            assert!(is_size(heading), "{heading}");
        }
        for heading in [
            "total",
            "remark",
            "material",
            "panel",
            "date",
            "checked",
            "bandage",
            "20",
            "0.3",
            "size band",
            "Size (mm)",
            "band size",
            "size in inches",
        ] {
            assert!(!is_size(heading), "{heading}");
        }
    }
}

use super::figure;
use crate::compare::statistics::{Choice, Statistic};
use crate::report::document::{Column, Entry};
use crate::report::wording::{sentence, so_many};
use serde::Serialize;

/// A list with named columns and a sentence that says what it shows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Table {
    /// What it lists.
    pub title: String,
    /// What to see in it.
    pub says: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, a cell for each column.
    pub rows: Vec<Vec<Option<Entry>>>,
    /// Rows that there was no room for, in words.
    pub more: Option<String>,
}

impl Table {
    /// A table by its headings, of which those that end in `#` are over numbers; `None` without rows.
    pub fn new(
        title: impl Into<String>,
        says: impl Into<String>,
        headings: &[&str],
        rows: Vec<Vec<Option<Entry>>>,
    ) -> Option<Self> {
        if rows.is_empty() {
            return None;
        }
        let columns = headings
            .iter()
            .map(|heading| {
                let (label, numeric) =
                    heading.strip_suffix('#').map_or((*heading, false), |label| (label, true));
                Column { label: label.to_owned(), numeric }
            })
            .collect();
        Some(Self { title: title.into(), says: says.into(), columns, rows, more: None })
    }

    /// Keeps so many rows and says how many more there are and where.
    #[must_use]
    pub fn at_most(mut self, most: usize, elsewhere: &str) -> Self {
        if self.rows.len() > most {
            let more = so_many(self.rows.len() - most, "more row", "more rows");
            self.more = Some(format!("{more}: {elsewhere}."));
            self.rows.truncate(most);
        }
        self
    }
}

/// A cell of our own words.
#[expect(clippy::unnecessary_wraps, reason = "a cell of a row, which may be blank")]
pub(super) fn words(text: impl Into<String>) -> Option<Entry> {
    Some(Entry::Words(text.into()))
}

/// A cell with a number in words.
#[expect(clippy::unnecessary_wraps, reason = "a cell of a row, which may be blank")]
pub(super) fn number(text: impl Into<String>) -> Option<Entry> {
    Some(Entry::Number(text.into()))
}

/// A cell with a whole number.
pub(super) fn count(count: usize) -> Option<Entry> {
    number(crate::report::wording::number(crate::quantity::Decimal::from(count)))
}

/// One number of the annex with everything that is needed to read it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StatisticRow {
    /// Its name.
    pub name: String,
    /// The number, or `none`.
    pub value: String,
    /// Its interval, or nothing.
    pub interval: String,
    /// Units that were used.
    pub used: String,
    /// Definition, choices, interval method, what was left out, source: in this order, a phrase each.
    pub about: Vec<String>,
}

impl StatisticRow {
    /// Of a statistic, by the unit that it counts in.
    pub fn new(statistic: &Statistic, unit: (&str, &str)) -> Self {
        Self::named(sentence(statistic.name), statistic, unit)
    }

    /// The same by another name.
    pub fn named(name: impl Into<String>, statistic: &Statistic, (one, many): (&str, &str)) -> Self {
        let none = |reason: &dyn std::fmt::Display| format!("none: {reason}");
        Self {
            name: name.into(),
            value: statistic.value.map_or_else(|reason| none(&reason), figure::plain),
            interval: match (statistic.value, figure::interval(statistic, figure::plain)) {
                (Ok(_), Ok(interval)) => interval,
                (Ok(_), Err(reason)) => none(&reason),
                (Err(_), _) => String::new(),
            },
            used: so_many(statistic.used, one, many),
            about: about(statistic),
        }
    }
}

/// What a number is, in phrases.
pub fn about(statistic: &Statistic) -> Vec<String> {
    let definition = &statistic.definition;
    let mut about = vec![format!("{}.", sentence(definition.says))];
    if !definition.choices.is_empty() {
        about.push(format!("{}.", sentence(&choices(&definition.choices))));
    }
    if let Ok(interval) = statistic.interval {
        about.push(format!("Interval: {}, {}.", figure::share(interval.level.get()), interval.method));
    }
    for other in &statistic.also {
        let (low, high) = (figure::plain(other.low), figure::plain(other.high));
        about.push(format!("Interval by {}: {low} to {high}.", other.method));
    }
    if let Some(test) = statistic.test {
        about.push(format!("Test: {}, p {}.", test.method, chance(test.p)));
    }
    for dropped in &statistic.dropped {
        about.push(format!("Left out: {}, {}.", dropped.units, dropped.why));
    }
    about.push(format!("Source: {}.", definition.source.trim_end_matches('.')));
    about
}

/// The decisions that a definition leaves open, as they were taken.
pub fn choices(choices: &[Choice]) -> String {
    let said: Vec<String> = choices
        .iter()
        .map(|choice| match choice {
            Choice::Constant(name, value) => format!("{name}: {}", figure::decimal(*value, 4)),
            other => format!("{}: {other}", other.name()),
        })
        .collect();
    said.join("; ")
}

/// A chance: `0.013`, `below 0.001`.
pub fn chance(p: f64) -> String {
    if p < 0.001 { "below 0.001".to_owned() } else { figure::decimal(p, 3) }
}

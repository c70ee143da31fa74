//! The rows of a run's tables, filled once and drawn alike by every format: what a CSV file holds, a workbook holds.

pub mod claims;
pub mod exceptions;
pub mod lines;
pub mod lots;
pub mod panels;
pub mod supplements;

use super::Subject;
use super::words::Words;
use crate::batch::{Done, Readiness};
use crate::claim::{InputFile, Located, Requirement};
use crate::problem::{Place, Problem, Sources};
use crate::quantity::{Date, Decimal, Hours, Money, Percent};
use crate::schedule::Schedule;
use std::fmt::{Display, Write as _};

/// What a run read: what rows cite.
#[derive(Debug, Clone, Copy)]
pub struct Run<'a> {
    /// The schedules; assessments count in them.
    pub schedules: &'a [Schedule],
    /// What places refer to.
    pub sources: &'a Sources,
    /// Every file of the run.
    pub files: &'a [InputFile],
    /// What insurers want a submission to hold.
    pub required: &'a [Requirement],
}

impl<'a> Run<'a> {
    /// Whether a claim can be sent; nothing where no requirement holds for its insurer.
    pub fn readiness(&self, done: &Done<'_>) -> Option<Readiness> {
        Readiness::of(&done.intake.claim, done.result.as_ref().ok(), self.required)
    }

    /// What a claim lacks before it can be sent, as problems of it.
    pub fn unready(&self, done: &Done<'_>) -> Vec<Problem> {
        self.readiness(done).map_or_else(Vec::new, |ready| ready.problems(&done.intake.claim))
    }

    /// What documents and rows may speak of; nothing for a claim that is not priced.
    pub fn subject<'b>(&self, done: &'b Done<'_>) -> Option<Subject<'b>>
    where
        'a: 'b,
    {
        let assessment = done.result.as_ref().ok()?;
        Some(Subject {
            claim: &done.intake.claim,
            assessment,
            schedule: &self.schedules[assessment.schedule],
            sources: self.sources,
            files: self.files,
            problems: &done.intake.problems,
            words: Words::english(),
        })
    }
}

/// What a column holds, and its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Words.
    Text,
    /// A whole number.
    Count,
    /// A number with its sign.
    Number,
    /// An amount in the row's currency, with that currency's decimals.
    Money,
    /// Hours and decimals of an hour.
    Hours,
    /// A number of hundredths.
    Percent,
    /// A day (ISO 8601 in text files, a date cell in workbooks).
    Date,
}

impl Kind {
    /// The words for it in the description of the files.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Count => "whole number",
            Self::Number => "number",
            Self::Money => "amount in `currency`",
            Self::Hours => "hours",
            Self::Percent => "percent",
            Self::Date => "date",
        }
    }
}

/// A column of a table: its heading in every format, what it holds, and what it means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Heading.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What it means, as the description of the files says it.
    pub about: &'static str,
}

impl Column {
    pub(in crate::report) const fn new(name: &'static str, kind: Kind, about: &'static str) -> Self {
        Self { name, kind, about }
    }
}

/// One cell of a row.
#[derive(Debug, Clone, PartialEq)]
pub enum Field {
    /// Nothing known or nothing that applies.
    Blank,
    /// Words.
    Text(String),
    /// A whole number.
    Count(u64),
    /// An amount.
    Money(Money),
    /// An amount as a claim sheet states it, or another number that is none of the crate's quantities.
    Number(Decimal),
    /// A time.
    Hours(Hours),
    /// A percentage.
    Percent(Percent),
    /// A day.
    Date(Date),
}

impl Field {
    /// Words, or blank when there are none.
    pub fn text(text: impl Into<String>) -> Self {
        let text = text.into();
        if text.is_empty() { Self::Blank } else { Self::Text(text) }
    }

    /// A number of things.
    pub fn count(count: usize) -> Self {
        Self::Count(count as u64)
    }

    /// `yes` or blank.
    pub fn yes(yes: bool) -> Self {
        if yes { Self::Text("yes".to_owned()) } else { Self::Blank }
    }

    /// An amount, if there is one.
    pub fn money(amount: Option<Money>) -> Self {
        amount.map_or(Self::Blank, Self::Money)
    }

    /// Words as written in a cell, if anything was.
    pub fn written<T: Display>(value: Option<&Located<T>>) -> Self {
        value.map_or(Self::Blank, |located| Self::text(located.value.to_string()))
    }

    /// A day as written in a cell, if one was.
    pub fn day(value: Option<&Located<Date>>) -> Self {
        value.map_or(Self::Blank, |located| Self::Date(located.value))
    }

    /// The field without any dress: what a text file holds, before its guard.
    pub fn plain(&self) -> String {
        let mut plain = String::new();
        self.write_plain(&mut plain);
        plain
    }

    /// Adds the same to a text.
    pub fn write_plain(&self, out: &mut String) {
        // Writing to a text does not fail.
        let _ = match self {
            Self::Blank => Ok(()),
            Self::Text(text) => out.write_str(text),
            Self::Count(count) => write!(out, "{count}"),
            Self::Money(money) => write!(out, "{money}"),
            Self::Number(number) => write!(out, "{number}"),
            Self::Hours(hours) => write!(out, "{hours}"),
            Self::Percent(percent) => write!(out, "{percent}"),
            Self::Date(date) => write!(out, "{date}"),
        };
    }
}

/// Places in short, parted by `; `.
fn places(places: &[Place], sources: &Sources) -> String {
    places.iter().map(|place| sources.short(*place)).collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rows of the table below a heading of the page.
    fn described(heading: &str) -> Vec<String> {
        let page = include_str!("../README.md");
        let below = page.split_once(&format!("\n## {heading}\n")).map_or("", |(_, below)| below);
        let section = below.split("\n## ").next().unwrap_or_default();
        section.lines().filter(|line| line.starts_with("| `")).map(str::to_owned).collect()
    }

    #[test]
    fn the_page_describes_every_column_of_every_table_in_order() {
        for (heading, columns) in [
            ("claims.csv", claims::COLUMNS),
            ("panels.csv", panels::COLUMNS),
            ("lines.csv", lines::COLUMNS),
            ("supplements.csv", supplements::COLUMNS),
            ("exceptions.csv and exceptions.xlsx", exceptions::COLUMNS),
        ] {
            let wanted: Vec<String> = columns
                .iter()
                .map(|column| format!("| `{}` | {} | {} |", column.name, column.kind.words(), column.about))
                .collect();
            assert_eq!(described(heading), wanted, "{heading}");
        }
    }
}

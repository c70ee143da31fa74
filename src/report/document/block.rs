use crate::quantity::Money;
use crate::report::words::Words;
use serde::{Serialize, Serializer};

/// An amount: a number to those who calculate with it, the form of its document's language to those who print it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure(pub Money, pub &'static Words);

impl Figure {
    /// On a document that is not translated yet.
    pub fn in_english(money: Money) -> Self {
        Self(money, Words::english())
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.1.amount(self.0))
    }
}

/// One thing that a fact or a cell of a list says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", content = "text", rename_all = "lowercase")]
pub enum Entry {
    /// Our own words, or a value in them.
    Words(String),
    /// As somebody wrote it, in any script and with anything in it.
    Said(String),
    /// An amount in the document's currency.
    Amount(Figure),
    /// A number, a time or a length, already in words.
    Number(String),
    /// A cell of a sheet, in short.
    Cell(String),
}

impl Entry {
    /// Our own words.
    pub fn words(text: impl Into<String>) -> Self {
        Self::Words(text.into())
    }

    /// As somebody wrote it.
    pub fn said(text: impl Into<String>) -> Self {
        Self::Said(text.into())
    }
}

/// A label and what it says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: &'static str,
    /// What it says.
    pub value: Entry,
    /// The cell of an amount, so that it can be followed.
    pub cell: Option<String>,
}

/// Facts that belong together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FactGroup {
    /// What they are about.
    pub title: &'static str,
    /// The facts, those that were written only.
    pub facts: Vec<Fact>,
}

/// A plain list with named columns. Columns in which nothing stands are left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Table {
    /// What it lists.
    pub title: &'static str,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, a cell for each column; `None` where nothing was written.
    pub rows: Vec<Vec<Option<Entry>>>,
}

/// A column of a [`Table`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Its heading.
    pub label: String,
    /// Whether its cells are numbers, which stand right.
    pub numeric: bool,
}

impl Table {
    /// A table of rows as long as the headings; `None` without rows.
    pub fn new<const N: usize>(
        title: &'static str,
        headings: [&str; N],
        rows: Vec<[Option<Entry>; N]>,
    ) -> Option<Self> {
        if rows.is_empty() {
            return None;
        }
        let used: Vec<bool> = (0..N).map(|column| rows.iter().any(|row| row[column].is_some())).collect();
        let numeric = |column: usize| {
            rows.iter()
                .filter_map(|row| row[column].as_ref())
                .all(|entry| matches!(entry, Entry::Amount(_) | Entry::Number(_)))
        };
        let columns = headings
            .iter()
            .enumerate()
            .filter(|(column, _)| used[*column])
            .map(|(column, label)| Column { label: (*label).to_owned(), numeric: numeric(column) })
            .collect();
        let rows = rows
            .into_iter()
            .map(|row| row.into_iter().zip(&used).filter(|(_, used)| **used).map(|(cell, _)| cell).collect())
            .collect();
        Some(Self { title, columns, rows })
    }
}

//! One row of a column map.

use crate::claim::Role;
use crate::claim::words::{find, folded};
use crate::problem::{Located, Problem, Source, catalogue::file as say, nearest};
use crate::quantity::{Decimal, DecimalMark, parse_decimal};
use crate::read::sizes::is_size;
use crate::read::tables::FORMS;
use crate::table::{Cell, Column, Form, Row, Sheet, Table, Value, named_among};

/// A column map. The columns beside the first five are for whoever fills it in.
pub(in crate::read) static FORM: Form =
    Form { name: "column map", columns: &COLUMNS, family: None, one_of: &["heading", "word"] };

static COLUMNS: [Column; 10] = [
    Column::optional("heading", &["in your file", "heading in your file", "your heading"]),
    Column::optional("word", &["word in your file", "written", "your word"]),
    Column::needed("means", &["meaning", "meaning here", "is read as", "answer", "your answer"]),
    Column::optional("beside", &["all headings", "headings beside it"]),
    Column::optional("file", &["in file"]),
    Column::optional("question", &[]),
    Column::optional("where", &[]),
    Column::optional("dents", &["cells"]),
    Column::optional("choices", &["choices and what each changes"]),
    Column::optional("rule", &["read as", "by which rule"]),
];

/// What an entry puts in the place of what it is about.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Means {
    /// Another word, or a number.
    Value(Value),
    /// Nothing: a blank cell, a column that is no part of the table.
    Nothing,
    /// The rows of a person or a pass are a count of this role.
    Role(Role),
}

/// What somebody said that a heading or a word means.
#[derive(Debug)]
pub(super) struct Entry {
    pub(super) heading: Option<String>,
    pub(super) word: Option<String>,
    pub(super) means: Located<Means>,
    /// The heading row that it was said of; every sheet with the same one is meant.
    beside: Option<String>,
    file: Option<String>,
}

impl Entry {
    /// Of a row; `None` for a question that is not answered yet, and for a row that cannot be understood, which is told.
    pub(super) fn of(table: &Table<'_>, row: &Row, problems: &mut Vec<Problem>) -> Option<Self> {
        let text = |id: &str| table.cell(row, id).map(|cell| compared(&cell.text()));
        let cell = table.cell(row, "means")?;
        let (heading, word) = (text("heading"), text("word"));
        if heading.is_none() && word.is_none() {
            problems.push(say::map_row_open(cell.place));
            return None;
        }
        let written = cell.text();
        let means = if word.is_some() {
            of_word(&written, heading.as_deref())
        } else {
            let means = of_heading(&written);
            if means.is_none() {
                let known = FORMS.iter().flat_map(|form| form.columns).map(|column| column.id);
                problems.push(say::map_meaning_unknown(
                    cell.place,
                    &written,
                    &nearest(&folded(&written), known),
                ));
            }
            means?
        };
        Some(Self {
            heading,
            word,
            means: Located::new(means, cell.place),
            beside: table.cell(row, "beside").map(Cell::text),
            file: table.cell(row, "file").map(Cell::text),
        })
    }

    /// Whether it was said of this sheet, or of one of its shape.
    pub(super) fn holds(&self, sheet: &Sheet, source: &Source) -> bool {
        let has_shape = |shape: &String| sheet.rows.iter().any(|row| shape_of(row) == *shape);
        self.beside.as_ref().is_none_or(has_shape)
            && self.file.as_ref().is_none_or(|file| source.file.ends_with(file.as_str()))
    }

    /// That nothing was found which it speaks of.
    pub(super) fn unused(&self) -> Problem {
        let what = self.word.as_ref().or(self.heading.as_ref());
        say::map_row_unused(self.means.place, what.map_or("", String::as_str))
    }
}

/// A row of headings as one text: files of one shape have the same.
pub fn shape_of(row: &Row) -> String {
    row.cells.iter().map(Cell::text).collect::<Vec<_>>().join(" | ")
}

/// Words as they are compared: case and spacing do not matter, signs do.
pub(super) fn compared(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

fn is_nothing(written: &str) -> bool {
    const WORDS: [&str; 10] = [
        "left out",
        "leave out",
        "not used",
        "ignore",
        "ignored",
        "blank",
        "not inspected",
        "not written",
        "nothing",
        "none written",
    ];
    WORDS.contains(&folded(written).as_str())
}

/// What a heading may mean: a column of some table, a size, a panel, whose count it is, or nothing.
fn of_heading(written: &str) -> Option<Means> {
    if is_nothing(written) || folded(written) == "note" {
        return Some(Means::Nothing);
    }
    let is_known = is_size(written)
        || FORMS.iter().any(|form| named_among(written, form.columns).is_some())
        || crate::read::panels::is_like_panel(written)
        || find::<Role>(written).is_some();
    is_known.then(|| Means::Value(Value::Text(written.to_owned())))
}

/// What a word in a cell may mean: a number, nothing, whose count it is, or another word.
fn of_word(written: &str, heading: Option<&str>) -> Means {
    let is_inspection = heading.is_some_and(|heading| {
        named_among(heading, &crate::read::columns::INSPECTION[..1]).is_some()
            || named_among(heading, &crate::read::columns::INSPECTION[3..4]).is_some()
    });
    if let Some(role) = find::<Role>(written).filter(|_| is_inspection) {
        return Means::Role(role);
    }
    if is_nothing(written) {
        return Means::Nothing;
    }
    if matches!(folded(written).as_str(), "no dents" | "zero" | "none") {
        return Means::Value(Value::Number(Decimal::ZERO));
    }
    let number = parse_decimal(written, DecimalMark::Point);
    Means::Value(number.map_or_else(|_| Value::Text(written.to_owned()), Value::Number))
}

//! One row of a column map.

use crate::claim::Role;
use crate::claim::words::{find, folded};
use crate::problem::{Located, Problem, Source, catalogue::asked as say, nearest};
use crate::quantity::{Decimal, DecimalMark, parse_decimal};
use crate::read::own_words::OwnWords;
use crate::read::sizes::is_size;
use crate::read::tables::FORMS;
use crate::table::{Cell, Column, Form, Row, Sheet, Table, Value, named_among};

/// A column map. The columns beside the first five are for whoever fills it in.
pub(in crate::read) static FORM: Form =
    Form { name: "column map", columns: &COLUMNS, family: None, one_of: &["heading", "word"] };

static COLUMNS: [Column; 11] = [
    Column::optional("heading", &["in your file", "heading in your file", "your heading"]),
    Column::optional("word", &["word in your file", "written", "your word"]),
    Column::needed("means", &["meaning here", "is read as", "answer", "your answer"]),
    Column::optional("beside", &["all headings", "headings beside it"]),
    Column::optional("file", &["in file"]),
    Column::optional("sheet", &["on sheet"]),
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
    sheet: Option<String>,
    /// What it says of parts of a sheet instead of a heading or a word.
    pub(super) part: Option<Part>,
}

/// What somebody said of parts of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Part {
    /// Whether what the file hides is read.
    Hidden(bool),
    /// Of several rows about one thing, those that do not hold.
    Rows(Vec<u32>),
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
        let part = Part::of(word.as_deref().filter(|_| heading.is_none()), &written);
        let is_part = part.is_some();
        let (heading, word) = if is_part { (None, None) } else { (heading, word) };
        let means = if is_part {
            Means::Nothing
        } else if word.is_some() {
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
            sheet: table.cell(row, "sheet").map(Cell::text),
            part,
        })
    }

    /// Whether it was said of this sheet, or of one of its shape.
    pub(super) fn holds(&self, sheet: &Sheet, source: &Source) -> bool {
        let has_shape = |shape: &String| sheet.rows.iter().any(|row| shape_of(row) == *shape);
        self.beside.as_ref().is_none_or(has_shape)
            && self.file.as_ref().is_none_or(|file| source.file.ends_with(file.as_str()))
            && self.sheet.as_ref().is_none_or(|name| compared(name) == compared(&source.sheet))
    }

    /// Whether it was said beside this very row of headings.
    pub(super) fn is_of_row(&self, row: &Row) -> bool {
        self.beside.as_ref().is_some_and(|shape| shape_of(row) == *shape)
    }

    /// That nothing was found which it speaks of.
    pub(super) fn unused(&self) -> Problem {
        let what = self.word.as_ref().or(self.heading.as_ref()).map(String::as_str);
        let what = what.unwrap_or(if matches!(self.part, Some(Part::Rows(_))) { "rows" } else { "hidden" });
        say::map_row_unused(self.means.place, what)
    }
}

impl Part {
    /// `hidden` means `read` or `left out`; `rows 4, 7` means `row 7`.
    fn of(word: Option<&str>, means: &str) -> Option<Self> {
        let word = word?;
        if word == "hidden" {
            return if folded(means) == "read" { Some(true) } else { is_nothing(means).then_some(false) }
                .map(Self::Hidden);
        }
        let row = |text: &str| text.trim().parse::<u32>().ok();
        let among: Option<Vec<u32>> = word.strip_prefix("rows ")?.split(',').map(row).collect();
        let holds = row(folded(means).strip_prefix("row ")?)?;
        let mut others = among.filter(|rows| rows.contains(&holds))?;
        others.retain(|other| *other != holds);
        Some(Self::Rows(others))
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
        || crate::read::panels::is_like_panel(written, &OwnWords::default())
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

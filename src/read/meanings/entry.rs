//! One row of a column map.

use crate::claim::Role;
use crate::claim::words::{find, folded};
use crate::problem::{Located, Place, Problem, Source, catalogue::asked as say, catalogue::words, nearest};
use crate::quantity::{DateOrder, Decimal, DecimalMark, parse_decimal};
use crate::read::columns::{INSPECTION, KEYS};
use crate::read::own_words::{self, OwnWords};
use crate::read::sizes::is_size;
use crate::read::tables::FORMS;
use crate::table::{Cell, Column, Form, Row, Seen, Sheet, Table, Value, named_among};

/// A column map. The columns beside the first six are for whoever fills it in.
pub(in crate::read) static FORM: Form =
    Form { name: "column map", columns: &COLUMNS, family: None, one_of: &["heading", "word"] };

static COLUMNS: [Column; 13] = [
    Column::optional("heading", &["in your file", "heading in your file", "your heading"]),
    Column::optional("word", &["word in your file", "written", "your word"]),
    Column::needed("means", &["meaning", "meaning here", "is read as", "answer", "your answer"]),
    Column::optional("beside", &["all headings", "headings beside it"]),
    Column::optional("file", &["in file"]),
    Column::optional("sheet", &["on sheet"]),
    Column::optional("question", &[]),
    Column::optional("where", &[]),
    Column::optional("dents", &["cells"]),
    Column::optional("choices", &["choices and what each changes"]),
    Column::optional("rule", &["read as", "by which rule"]),
    Column::optional("language", &[]),
    Column::optional("remark", &["remarks", "note", "notes"]),
];

/// What an entry puts in the place of what it is about.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Means {
    /// Another word, or a number.
    Value(Value),
    /// Nothing: a blank cell, a column that is no part of the table.
    Nothing,
    /// The rows of a person, a day, a pass or a car are a count of this role.
    Role(Role),
    /// The row holds for the left and for the right panel, each with all of its counts.
    EachSide,
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
    /// Whether it speaks of a word wherever it stands, also as a part of names.
    pub(super) is_own_word: bool,
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
    /// What parts decimals in the numbers of a column, or of the sheet.
    Mark(DecimalMark),
    /// Which part of its dates stands first.
    Dates(DateOrder),
    /// From where its left and right are seen.
    Sides(Seen),
    /// Whether the sheet is read at all.
    Sheet(bool),
}

/// The words by which a map speaks of how a column's numbers and dates are written.
pub(in crate::read) const DECIMAL_MARK: &str = "decimal mark";
pub(in crate::read) const ORDER_OF_DATES: &str = "order of dates";
/// The word by which it speaks of from where left and right are seen.
pub(in crate::read) const SIDES: &str = "sides";
/// The word by which it speaks of a whole sheet.
pub(in crate::read) const SHEET: &str = "this sheet";

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
        let part = word.as_deref().and_then(|word| Part::of(word, heading.is_some(), &written));
        let word = word.filter(|_| part.is_none());
        let is_bound =
            heading.is_some() || ["beside", "file", "sheet"].iter().any(|id| table.cell(row, id).is_some());
        let is_own_word = word.is_some() && !is_bound;
        let means = if part.is_some() {
            Means::Nothing
        } else if word.is_some() {
            let means = of_word(&written, heading.as_deref());
            // Said of every sheet and column, a slip would hold everywhere.
            if is_own_word && matches!(&means, Means::Value(Value::Text(text)) if !own_words::is_known(text))
            {
                problems.push(words::meaning_unknown(cell.place, &written, &own_words::near(&written)));
                return None;
            }
            means
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
            is_own_word,
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
        let what = what.unwrap_or(match self.part {
            Some(Part::Rows(_)) => "rows",
            Some(Part::Mark(_)) => DECIMAL_MARK,
            Some(Part::Dates(_)) => ORDER_OF_DATES,
            Some(Part::Sides(_)) => SIDES,
            Some(Part::Sheet(_)) => SHEET,
            Some(Part::Hidden(_)) | None => "hidden",
        });
        say::map_row_unused(self.means.place, what)
    }
}

impl Part {
    /// `hidden` means `read` or `left out`; `rows 4, 7` means `row 7`; `decimal mark` means `comma`; `order of dates` means
    /// `day first`; both may be said of the column below a heading. `sides` means `as seated` or `as seen from the front`, and
    /// `this sheet` means `left out` or `own`.
    fn of(word: &str, is_headed: bool, means: &str) -> Option<Self> {
        let answer = folded(means);
        match (word, answer.as_str(), means.trim()) {
            (DECIMAL_MARK, "point", _) | (DECIMAL_MARK, _, ".") => {
                return Some(Self::Mark(DecimalMark::Point));
            }
            (DECIMAL_MARK, "comma", _) | (DECIMAL_MARK, _, ",") => {
                return Some(Self::Mark(DecimalMark::Comma));
            }
            (ORDER_OF_DATES, "day first", _) => return Some(Self::Dates(DateOrder::DayFirst)),
            (ORDER_OF_DATES, "month first", _) => return Some(Self::Dates(DateOrder::MonthFirst)),
            _ if is_headed => return None,
            (SHEET, "own" | "read", _) => return Some(Self::Sheet(true)),
            (SHEET, ..) if is_nothing(means) => return Some(Self::Sheet(false)),
            (SIDES, "as seated", _) => return Some(Self::Sides(Seen::Seated)),
            (SIDES, "as seen from the front", _) => return Some(Self::Sides(Seen::FromTheFront)),
            _ => {}
        }
        if word == "hidden" {
            return if answer == "read" { Some(true) } else { is_nothing(means).then_some(false) }
                .map(Self::Hidden);
        }
        let row = |text: &str| text.trim().parse::<u32>().ok();
        let among: Option<Vec<u32>> = word.strip_prefix("rows ")?.split(',').map(row).collect();
        let holds = row(answer.strip_prefix("row ")?)?;
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

/// What a cell of a sheet said where it was written, as it is compared.
pub(super) fn as_written(sheet: &Sheet, place: Place) -> Option<String> {
    sheet.row(place.row)?.cell(place.column).map(|cell| compared(&cell.text()))
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

/// Whether a heading says whose count a row is: the person, the day, the pass, the car.
pub(super) fn is_whose(heading: &str) -> bool {
    let [assessor, date, _, pass, ..] = &INSPECTION;
    let name = folded(heading);
    let is = |column: &Column| column.id == name || column.words.contains(&name.as_str());
    [assessor, date, pass].into_iter().chain(&KEYS).any(is)
}

/// What a word in a cell may mean: a number, nothing, whose count it is, or another word.
fn of_word(written: &str, heading: Option<&str>) -> Means {
    if let Some(role) = find::<Role>(written).filter(|_| heading.is_some_and(is_whose)) {
        return Means::Role(role);
    }
    if folded(written) == "each side" {
        return Means::EachSide;
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

use super::{Form, Row, Sheet, Value};
use crate::claim::words::folded;
use crate::problem::Place;

/// A column of a recognised table.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadedColumn {
    /// Its column in the sheet, from 1.
    pub column: u16,
    /// Its heading as written.
    pub heading: String,
    /// Where the heading stands.
    pub place: Place,
    /// The form's column it was taken for; `None` for a column of the form's family or one that nobody knows.
    pub id: Option<&'static str>,
    /// Whether it belongs to the form's family (a size band).
    pub in_family: bool,
    /// The unit that the heading ends in, as written ("mm", "EUR").
    pub unit: Option<String>,
}

/// A table found on a sheet: its form, its headings and its rows.
#[derive(Debug, Clone)]
pub struct Table<'s> {
    /// The sheet it stands on.
    pub sheet: &'s Sheet,
    /// What it was taken for.
    pub form: &'static Form,
    /// Its heading row.
    pub heading_row: u32,
    /// Its columns in sheet order.
    pub columns: Vec<HeadedColumn>,
    /// The rows below the heading, up to the next heading or the end of the sheet.
    pub rows: &'s [Row],
    /// The rows between the previous table (or the top of the sheet) and this heading: titles, captions, notes.
    pub above: &'s [Row],
}

impl Table<'_> {
    /// The column of an id, if the table has it.
    pub fn column(&self, id: &str) -> Option<&HeadedColumn> {
        self.columns.iter().find(|column| column.id == Some(id))
    }

    /// The cell of a row under an id, if the table has the column and the cell is not blank.
    pub fn cell<'r>(&self, row: &'r Row, id: &str) -> Option<&'r super::Cell> {
        row.cell(self.column(id)?.column)
    }

    /// Columns that carry a heading which nobody knows.
    pub fn unknown(&self) -> impl Iterator<Item = &HeadedColumn> {
        self.columns.iter().filter(|column| column.id.is_none() && !column.in_family)
    }
}

/// What was found on a sheet.
#[derive(Debug)]
pub struct Recognition<'s> {
    /// The tables, from top to bottom.
    pub tables: Vec<Table<'s>>,
    /// Heading rows that fit two forms equally well: the row and the forms' names.
    pub ambiguous: Vec<(u32, Vec<&'static str>)>,
}

/// Finds the tables of a sheet. A row is a heading when it holds every needed column of a form (and one of its family
/// or alternatives, where it has any). Of several forms the one that knows most of the row's headings is taken; a
/// tie is told, not guessed.
pub fn recognise<'s>(sheet: &'s Sheet, forms: &[&'static Form]) -> Recognition<'s> {
    let mut ambiguous = Vec::new();
    let mut found: Vec<(usize, &'static Form, Vec<HeadedColumn>)> = Vec::new();
    for (index, row) in sheet.rows.iter().enumerate() {
        let mut best: Vec<(usize, &'static Form, Vec<HeadedColumn>)> = Vec::new();
        for form in forms {
            let Some(columns) = headings(row, form) else { continue };
            let known = columns.iter().filter(|c| c.id.is_some() || c.in_family).count();
            match best.first().map(|(most, ..)| known.cmp(most)) {
                Some(std::cmp::Ordering::Less) => {}
                Some(std::cmp::Ordering::Equal) => best.push((known, form, columns)),
                None | Some(std::cmp::Ordering::Greater) => best = vec![(known, form, columns)],
            }
        }
        if best.len() > 1 {
            ambiguous.push((row.number, best.iter().map(|(_, form, _)| form.name).collect()));
        } else if let Some((_, form, columns)) = best.pop() {
            found.push((index, form, columns));
        }
    }
    let starts: Vec<usize> = found.iter().map(|(index, ..)| *index).collect();
    let mut tables = Vec::with_capacity(found.len());
    let mut previous_end = 0;
    for (position, (index, form, columns)) in found.into_iter().enumerate() {
        let end = starts.get(position + 1).copied().unwrap_or(sheet.rows.len());
        tables.push(Table {
            sheet,
            form,
            heading_row: sheet.rows[index].number,
            columns,
            rows: &sheet.rows[index + 1..end],
            above: &sheet.rows[previous_end..index],
        });
        previous_end = end;
    }
    Recognition { tables, ambiguous }
}

/// The row's cells as headings of a form, or `None` when the row is no heading of it.
fn headings(row: &Row, form: &'static Form) -> Option<Vec<HeadedColumn>> {
    let mut columns: Vec<HeadedColumn> = Vec::with_capacity(row.cells.len());
    for cell in &row.cells {
        let heading = match &cell.value {
            Value::Text(text) => text.clone(),
            // Bands are sometimes headed by a bare number or by what a spreadsheet made of "3-5".
            Value::Number(_) | Value::Date(_) => cell.text(),
            Value::Bool(_) | Value::Fault(_) => return None,
        };
        let (id, unit) = known_column(&heading, form).map_or((None, None), |(id, unit)| (Some(id), unit));
        let taken = id.is_some_and(|id| columns.iter().any(|column| column.id == Some(id)));
        let in_family = id.is_none() && form.family.is_some_and(|is_member| is_member(&heading));
        columns.push(HeadedColumn {
            column: cell.column,
            heading,
            place: cell.place,
            id: if taken { None } else { id },
            in_family,
            unit,
        });
    }
    let has = |id: &str| columns.iter().any(|column| column.id == Some(id));
    let complete = form.columns.iter().filter(|column| column.needed).all(|column| has(column.id))
        && (form.one_of.is_empty() || form.one_of.iter().any(|id| has(id)))
        && (form.family.is_none() || columns.iter().any(|column| column.in_family));
    complete.then_some(columns)
}

/// The form's column that a heading names, and the unit it ends in.
fn known_column(heading: &str, form: &'static Form) -> Option<(&'static str, Option<String>)> {
    let exact = folded(heading);
    let named = |text: &str| {
        form.columns
            .iter()
            .find(|column| folded(column.id) == text || column.words.contains(&text))
            .map(|column| column.id)
    };
    if let Some(id) = named(&exact) {
        return Some((id, None));
    }
    let (name, unit) = split_unit(heading)?;
    named(&folded(name)).map(|id| (id, Some(unit.to_owned())))
}

/// `from mm`, `area (m2)`, `price [EUR]`, `share %`: the name, and the unit at its end.
fn split_unit(heading: &str) -> Option<(&str, &str)> {
    const UNITS: [&str; 22] = [
        "mm", "cm", "in", "inch", "inches", "\"", "m2", "m\u{b2}", "sq m", "cm2", "cm\u{b2}", "%", "h",
        "hrs", "hours", "min", "minutes", "wu", "dents", "$", "\u{20ac}", "\u{a3}",
    ];
    let trimmed = heading.trim().trim_end_matches([')', ']']).trim_end();
    let start = trimmed.rfind([' ', '(', '[', ','])?;
    let unit = trimmed[start + 1..].trim();
    let is_currency = unit.len() == 3 && unit.bytes().all(|b| b.is_ascii_uppercase());
    let is_unit = is_currency || UNITS.contains(&unit.to_lowercase().as_str());
    is_unit.then(|| (trimmed[..start].trim_end_matches([' ', '(', '[', ',']), unit))
}

use super::Edge;
use super::cell::{parse_edge, parse_free_text, parse_number, parse_percent, parse_text, parse_whole};
use crate::claim::words::folded;
use crate::problem::{Located, Place, Problem, catalogue::schedule as words};
use crate::quantity::{Decimal, DecimalMark, LengthUnit};
use crate::table::{Cell, Row, Table};

/// One row of a table, read cell by cell. What cannot be read is told at once, and the row is then no longer sound: what
/// is missing in it is not told a second time.
pub(super) struct RowReader<'a> {
    table: &'a Table<'a>,
    row: &'a Row,
    problems: &'a mut Vec<Problem>,
    sound: bool,
}

impl<'a> RowReader<'a> {
    pub fn new(table: &'a Table<'a>, row: &'a Row, problems: &'a mut Vec<Problem>) -> Self {
        Self { table, row, problems, sound: true }
    }

    /// The whole row.
    pub fn place(&self) -> Place {
        Place::row(self.table.sheet.source, self.row.number)
    }

    /// Whether everything in it could be read so far.
    pub fn is_sound(&self) -> bool {
        self.sound
    }

    /// The cell under a column, if it is not blank.
    pub fn cell(&self, id: &str) -> Option<&'a Cell> {
        self.table.cell(self.row, id)
    }

    /// The decimal mark of numbers written as text.
    pub fn mark(&self) -> DecimalMark {
        self.table.sheet.mark
    }

    /// Whether the table has a column.
    pub fn has_column(&self, id: &str) -> bool {
        self.table.column(id).is_some()
    }

    /// The unit in a column's heading.
    pub fn unit(&self, id: &str) -> Option<&'a str> {
        self.table.column(id).and_then(|column| column.unit.as_deref())
    }

    /// Tells what is wrong with the row.
    pub fn tell(&mut self, problem: Problem) {
        self.sound = false;
        self.problems.push(problem);
    }

    /// A cell as words.
    pub fn text(&mut self, id: &str) -> Option<Located<String>> {
        let parsed = self.cell(id).map(|cell| parse_text(cell, id));
        self.keep(id, parsed)
    }

    /// A cell as free words.
    pub fn free_text(&mut self, id: &str) -> Option<Located<String>> {
        let parsed = self.cell(id).map(|cell| parse_free_text(cell, id));
        self.keep(id, parsed)
    }

    /// A cell as a number.
    pub fn number(&mut self, id: &str) -> Option<Located<Decimal>> {
        let parsed = self.cell(id).map(|cell| parse_number(cell, id, self.table.sheet.mark));
        self.keep(id, parsed)
    }

    /// A cell as a percentage.
    pub fn percent(&mut self, id: &str) -> Option<Located<Decimal>> {
        let parsed = self.cell(id).map(|cell| parse_percent(cell, id, self.table.sheet.mark));
        self.keep(id, parsed)
    }

    /// A cell as a whole number.
    pub fn whole(&mut self, id: &str) -> Option<Located<u32>> {
        let parsed = self.cell(id).map(|cell| parse_whole(cell, id, self.table.sheet.mark));
        self.keep(id, parsed)
    }

    /// A cell as a length, in the heading's unit where it says none itself.
    pub fn edge(&mut self, id: &str) -> Option<Edge> {
        let unit = self.unit(id).and_then(LengthUnit::from_word);
        let parsed = self.cell(id).map(|cell| parse_edge(cell, id, unit, self.table.sheet.mark));
        self.keep(id, parsed).map(|edge| edge.value)
    }

    /// A value that the row cannot do without; a blank cell is told.
    pub fn needed<T>(&mut self, id: &str, read: impl FnOnce(&mut Self, &str) -> Option<T>) -> Option<T> {
        if self.cell(id).is_none() {
            let column = self.table.column(id).map_or(0, |column| column.column);
            let place = Place { column, ..self.place() };
            self.tell(words::cell_missing(self.table.form.name, id).at(place));
            return None;
        }
        read(self, id)
    }

    fn keep<T>(&mut self, id: &str, parsed: Option<Result<T, Problem>>) -> Option<Located<T>> {
        match parsed? {
            Ok(value) => self.cell(id).map(|cell| Located::new(value, cell.place)),
            Err(problem) => {
                self.tell(problem);
                None
            }
        }
    }
}

/// The rows that belong to a table: not the captions of a grid that follows, and not the titles and notes that stand by
/// themselves after a blank row. Notes are told, since somebody may have meant them as rows.
pub(super) fn body<'t>(table: &Table<'t>, problems: &mut Vec<Problem>) -> Vec<&'t Row> {
    let is_last = table.rows.last().map(|row| row.number) == table.sheet.rows.last().map(|row| row.number);
    let mut rows: Vec<&Row> = Vec::with_capacity(table.rows.len());
    let mut loose: Vec<&Row> = Vec::new();
    let mut previous = table.heading_row;
    for row in table.rows.iter().take_while(|row| caption_of(row).is_none()) {
        let after_gap = row.number > previous + 1;
        previous = row.number;
        if row.cells.len() == 1 && (after_gap || !loose.is_empty()) {
            loose.push(row);
        } else {
            tell_loose(table, &mut loose, problems);
            rows.push(row);
        }
    }
    if is_last {
        tell_loose(table, &mut loose, problems);
    }
    rows
}

fn tell_loose(table: &Table<'_>, loose: &mut Vec<&Row>, problems: &mut Vec<Problem>) {
    for row in loose.drain(..) {
        if let Some(cell) = row.cells.first() {
            problems.push(words::loose_text(table.form.name).at(cell.place).written(cell.text()));
        }
    }
}

/// What a caption row of a grid says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Caption {
    RatedAs,
    Gives,
}

/// Whether a row is a caption of a grid, by its first cell; and the cell that says it.
pub(super) fn caption_of(row: &Row) -> Option<(Caption, Option<&Cell>)> {
    let first = row.cells.first()?;
    let caption = match folded(&first.text()).as_str() {
        "rated as" => Caption::RatedAs,
        "gives" => Caption::Gives,
        _ => return None,
    };
    Some((caption, row.cells.get(1)))
}

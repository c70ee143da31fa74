use std::fmt::{self, Write as _};

/// Number of a source in its run's [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(pub u32);

/// Whether positions in a source are cells of a sheet or lines of a text file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SourceKind {
    /// A sheet of a workbook: positions are cells (B7).
    Sheet,
    /// A text file: positions are lines and columns (line 7, column B).
    Text,
}

/// One sheet or text file that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Path as the user gave it or as found below a given folder, with `/` between parts on every system.
    pub file: String,
    /// The sheet's name; empty for text files and for a whole workbook.
    pub sheet: String,
    /// How its positions are named.
    pub kind: SourceKind,
}

/// All sources of a run, so that a place is twelve bytes and still says its file.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sources {
    list: Vec<Source>,
}

impl Sources {
    /// None yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a source and returns its number.
    pub fn add(&mut self, source: Source) -> SourceId {
        self.list.push(source);
        SourceId(u32::try_from(self.list.len() - 1).unwrap_or(u32::MAX))
    }

    /// The number that the next source will have.
    pub fn next(&self) -> SourceId {
        SourceId(u32::try_from(self.list.len()).unwrap_or(u32::MAX))
    }

    /// The source of a number that this list gave.
    pub fn get(&self, id: SourceId) -> &Source {
        &self.list[id.0 as usize]
    }

    /// All of them, in the order they were added.
    pub fn iter(&self) -> impl Iterator<Item = (SourceId, &Source)> {
        self.list.iter().enumerate().map(|(i, s)| (SourceId(u32::try_from(i).unwrap_or(u32::MAX)), s))
    }

    /// The place in words: `storm.xlsx, sheet Counts, cell C12`; `east.csv, line 12, column C`; whole rows, sheets
    /// and files likewise.
    pub fn describe(&self, place: Place) -> String {
        let source = self.get(place.source);
        let mut out = source.file.clone();
        if !source.sheet.is_empty() {
            let _ = write!(out, ", sheet {}", source.sheet);
        }
        match (place.row, place.column, source.kind) {
            (0, 0, _) => {}
            (0, column, _) => {
                let _ = write!(out, ", column {}", column_letters(column));
            }
            (row, 0, SourceKind::Sheet) => {
                let _ = write!(out, ", row {row}");
            }
            (row, 0, SourceKind::Text) => {
                let _ = write!(out, ", line {row}");
            }
            (row, column, SourceKind::Sheet) => {
                let _ = write!(out, ", cell {}{row}", column_letters(column));
            }
            (row, column, SourceKind::Text) => {
                let _ = write!(out, ", line {row}, column {}", column_letters(column));
            }
        }
        out
    }

    /// The position alone, as a spreadsheet shows it: `C12`, `row 12`, `column C`, or nothing for a whole source.
    /// Lines of text files are named the same way, since they are opened in spreadsheets too.
    pub fn position(place: Place) -> String {
        match (place.row, place.column) {
            (0, 0) => String::new(),
            (0, column) => format!("column {}", column_letters(column)),
            (row, 0) => format!("row {row}"),
            (row, column) => format!("{}{row}", column_letters(column)),
        }
    }

    /// The place in short, for tables: `storm.xlsx Counts!C12`, `east.csv C12`.
    pub fn short(&self, place: Place) -> String {
        let source = self.get(place.source);
        let position = Self::position(place);
        match (source.sheet.is_empty(), position.is_empty()) {
            (true, true) => source.file.clone(),
            (true, false) => format!("{} {position}", source.file),
            (false, true) => format!("{} {}", source.file, source.sheet),
            (false, false) => format!("{} {}!{position}", source.file, source.sheet),
        }
    }
}

/// A position in a source. Row and column start at one; zero means the whole of that direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The sheet or text file.
    pub source: SourceId,
    /// Row of the sheet or line of the text file, from 1; 0 for no particular row.
    pub row: u32,
    /// Column from 1 (A); 0 for no particular column.
    pub column: u16,
}

impl Place {
    /// A cell.
    pub const fn cell(source: SourceId, row: u32, column: u16) -> Self {
        Self { source, row, column }
    }

    /// A whole row.
    pub const fn row(source: SourceId, row: u32) -> Self {
        Self { source, row, column: 0 }
    }

    /// A whole sheet or file.
    pub const fn whole(source: SourceId) -> Self {
        Self { source, row: 0, column: 0 }
    }
}

/// A value with the cell it was written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Located<T> {
    /// The value as understood.
    pub value: T,
    /// Where it was written.
    pub place: Place,
}

impl<T> Located<T> {
    /// A value at a place.
    pub const fn new(value: T, place: Place) -> Self {
        Self { value, place }
    }
}

/// A column's letters: 1 is A, 27 is AA.
pub fn column_letters(column: u16) -> String {
    let mut letters = Vec::new();
    let mut left = u32::from(column);
    while left > 0 {
        left -= 1;
        letters.push(char::from(b'A' + u8::try_from(left % 26).unwrap_or(0)));
        left /= 26;
    }
    letters.iter().rev().collect()
}

impl fmt::Display for SourceId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

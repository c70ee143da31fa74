//! What people said of their own words: column maps and answered questions, which are one kind of table. A row gives a
//! heading or a word as it stands in a file, and what it means here; it is put in that word's place before anything else
//! looks at the sheet, and keeps its cell.

mod apply;
mod entry;
mod parts;

pub use entry::shape_of;
pub(super) use entry::{DECIMAL_MARK, FORM, ORDER_OF_DATES, SHEET, SIDES};

use crate::problem::{Problem, SourceId, Sources};
use crate::table::{Sheet, recognise};
use entry::Entry;
use std::collections::BTreeSet;

/// Everything that was said, and how much of it was of use.
#[derive(Debug, Default)]
pub(super) struct Meanings {
    entries: Vec<Entry>,
    used: BTreeSet<usize>,
    /// Sheets that hold a map: nothing else is looked for on them.
    sources: BTreeSet<SourceId>,
}

impl Meanings {
    /// Reads the maps among the sheets.
    pub(super) fn of(sheets: &[Sheet], problems: &mut Vec<Problem>) -> Self {
        /// A map is read by people: a longer sheet is none, and is not searched for one.
        const MOST_ROWS: usize = 5_000;
        let mut meanings = Self::default();
        for sheet in sheets.iter().filter(|sheet| !sheet.is_hidden && sheet.rows.len() <= MOST_ROWS) {
            for table in recognise(sheet, &[&FORM]).tables {
                meanings.sources.insert(sheet.source);
                meanings.entries.extend(table.rows.iter().filter_map(|row| Entry::of(&table, row, problems)));
            }
        }
        meanings
    }

    /// Whether a sheet holds a map.
    pub(super) fn holds(&self, sheet: &Sheet) -> bool {
        self.sources.contains(&sheet.source)
    }

    /// Says which rows of a map were of no use.
    pub(super) fn unused(&self, problems: &mut Vec<Problem>) {
        // A word may stand among others in a name, which is seen later.
        let is_idle = |(index, entry): &(usize, &Entry)| !self.used.contains(index) && !entry.is_own_word;
        let idle = self.entries.iter().enumerate().filter(is_idle);
        problems.extend(idle.map(|(_, entry)| entry.unused()));
    }

    /// Which entries hold for a sheet, by number.
    fn holding<'m>(&'m self, sheet: &Sheet, sources: &Sources) -> Vec<(usize, &'m Entry)> {
        let source = sources.get(sheet.source);
        self.entries.iter().enumerate().filter(|(_, entry)| entry.holds(sheet, source)).collect()
    }
}

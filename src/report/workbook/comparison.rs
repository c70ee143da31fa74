//! `comparison.xlsx`: pairs, panels, money by cause and statistics, and what they were made from.

use super::listing::{Listing, Long};
use super::{book, guarded, save};
use crate::report::folder::{OutputFolder, Written};
use crate::report::tables::{Column, Field};
use rust_xlsxwriter::Workbook;
use std::io;

/// Rows of a sheet; the text file beside it holds all of them.
const ROWS: usize = 100_000;

/// The workbook of a comparison while it is written.
pub struct ComparisonBook {
    workbook: Workbook,
}

impl ComparisonBook {
    /// Begins the workbook.
    pub fn new(folder: &OutputFolder) -> io::Result<Self> {
        Ok(Self { workbook: book(folder, "Comparison of counts")? })
    }

    /// Adds a table as a sheet. What it has no room for is told by the name of the text file that holds all rows.
    pub fn sheet(
        &mut self,
        name: &str,
        columns: Vec<Column>,
        rows: impl Iterator<Item = io::Result<Vec<Field>>>,
        all_in: &str,
    ) -> io::Result<()> {
        self.add(name, columns, rows, all_in, Long::OneLine)
    }

    /// Adds a sheet of sentences, each over as many lines as it takes.
    pub fn sentences(
        &mut self,
        name: &str,
        columns: Vec<Column>,
        rows: impl Iterator<Item = io::Result<Vec<Field>>>,
        all_in: &str,
    ) -> io::Result<()> {
        self.add(name, columns, rows, all_in, Long::Wrapped)
    }

    fn add(
        &mut self,
        name: &str,
        columns: Vec<Column>,
        rows: impl Iterator<Item = io::Result<Vec<Field>>>,
        all_in: &str,
        long: Long,
    ) -> io::Result<()> {
        guarded(|| {
            let mut listing = Listing::new(&mut self.workbook, name, columns, long)?;
            let mut more = 0;
            for (number, row) in rows.enumerate() {
                let row = row?;
                if number < ROWS {
                    listing.row(&row)?;
                } else {
                    more += 1;
                }
            }
            if listing.rows() > 0 {
                listing.filter()?;
            }
            if more > 0 {
                listing.gap();
                listing.remark(&format!("{more} more rows are in {all_in}."))?;
            }
            listing.finish(&mut self.workbook)
        })
    }

    /// Ends the workbook.
    pub fn finish(self, folder: &OutputFolder, name: &str) -> io::Result<Written> {
        save(self.workbook, folder, name)
    }
}

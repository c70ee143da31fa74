//! `register.xlsx`: where claims stand, the sums, every row, and what to look at.

use super::bordereau::about;
use super::listing::{Listing, Long};
use super::{book, guarded, save};
use crate::report::folder::{OutputFolder, Written};
use crate::report::tables::{Column, Field, Run};
use rust_xlsxwriter::Workbook;
use std::io;

/// The workbook of a register while it is written.
pub struct RegisterBook {
    workbook: Workbook,
}

impl RegisterBook {
    /// Begins the workbook.
    pub fn new(folder: &OutputFolder) -> io::Result<Self> {
        Ok(Self { workbook: book(folder, "Register of claims")? })
    }

    /// Adds a table as a sheet.
    pub fn sheet(
        &mut self,
        name: &str,
        columns: &[Column],
        rows: impl Iterator<Item = Vec<Field>>,
    ) -> io::Result<()> {
        self.add(name, columns, rows, Long::OneLine)
    }

    /// Adds a sheet of sentences, each over as many lines as it takes.
    pub fn sentences(
        &mut self,
        name: &str,
        columns: &[Column],
        rows: impl Iterator<Item = Vec<Field>>,
    ) -> io::Result<()> {
        self.add(name, columns, rows, Long::Wrapped)
    }

    fn add(
        &mut self,
        name: &str,
        columns: &[Column],
        rows: impl Iterator<Item = Vec<Field>>,
        long: Long,
    ) -> io::Result<()> {
        guarded(|| {
            let mut listing = Listing::new(&mut self.workbook, name, columns.to_vec(), long)?;
            for row in rows {
                listing.row(&row)?;
            }
            if listing.rows() > 0 {
                listing.filter()?;
            }
            if listing.left_out() > 0 {
                listing.remark(&format!(
                    "{} more rows are in register.json: a sheet holds no more.",
                    listing.left_out()
                ))?;
            }
            listing.finish(&mut self.workbook)
        })
    }

    /// Adds what it was made by and from.
    pub fn made_from(&mut self, run: &Run<'_>) -> io::Result<()> {
        guarded(|| about(&mut self.workbook, run))
    }

    /// Ends the workbook.
    pub fn finish(self, folder: &OutputFolder, name: &str) -> io::Result<Written> {
        save(self.workbook, folder, name)
    }
}

//! The bordereau of a run in each of its forms, while it is written.

use super::bordereau_page::BordereauRows;
use super::folder::{OutputFolder, Written};
use super::groups::{GroupPiece, Groups};
use super::lot_page::Stated;
use super::output::{Draw, Part};
use super::tables::{Field, Run};
use super::workbook::Bordereau;
use crate::batch::Totals;
use crate::problem::{Problem, Severity};
use crate::quantity::Date;
use std::collections::{BTreeMap, BTreeSet};

const BOOK: &str = "bordereau.xlsx";
const PAGE: &str = "bordereau.html";

/// Workbook and page, as far as they are wanted, and the sums that both hold.
pub struct Listings {
    book: Option<Bordereau>,
    page: Option<BordereauRows>,
    groups: Groups,
}

impl Listings {
    /// Begins those that are wanted.
    pub fn begin(folder: &OutputFolder, parts: &BTreeSet<Part>) -> Result<Self, Problem> {
        let book = parts.contains(&Part::Workbooks).then(|| Bordereau::new(folder)).transpose();
        let book = book.map_err(|error| folder.refused(BOOK, &error))?;
        let page = parts.contains(&Part::Bordereau).then(BordereauRows::default);
        Ok(Self { book, page, groups: Groups::default() })
    }

    /// Whether there is any.
    pub fn is_wanted(&self) -> bool {
        self.book.is_some() || self.page.is_some()
    }

    /// Takes a row of the exceptions.
    pub fn exception(&mut self, severity: Severity, row: &[Field]) {
        if let Some(page) = &mut self.page {
            page.exception(severity, row);
        }
    }

    /// Takes a claim: its row of the claims table, and what it adds to sums.
    pub fn claim(
        &mut self,
        row: &[Field],
        insurer: &str,
        totals: &Totals,
        group: GroupPiece,
        folder: &OutputFolder,
    ) -> Result<(), Problem> {
        if let Some(book) = &mut self.book {
            book.claim(row).map_err(|error| folder.refused(BOOK, &error))?;
        }
        if let Some(page) = &mut self.page {
            page.claim(row);
        }
        if self.is_wanted() {
            self.groups.add(insurer, totals, group);
        }
        Ok(())
    }

    /// Ends them with the sums of the run.
    pub fn finish(
        self,
        (totals, by_insurer): (&Totals, &BTreeMap<String, Totals>),
        lots: &[Stated],
        run: &Run<'_>,
        date: Option<Date>,
        draw: &dyn Draw,
        folder: &OutputFolder,
    ) -> Result<Vec<Written>, Problem> {
        let mut written = Vec::new();
        if let Some(book) = self.book {
            let ended = book.finish((totals, by_insurer), &self.groups, lots, run, folder, BOOK);
            written.push(ended.map_err(|error| folder.refused(BOOK, &error))?);
        }
        if let Some(rows) = self.page {
            let page = draw.bordereau(&rows.finish(totals, &self.groups, run, date))?;
            written.push(folder.put(PAGE, page.as_bytes())?);
        }
        Ok(written)
    }
}

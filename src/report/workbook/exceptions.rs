//! `exceptions.xlsx`: every problem with a link to its cell, so that a storm's typing errors are mended in one sitting.

use super::listing::{Listing, Long};
use super::{book, guarded, save};
use crate::problem::{Place, Problem, SourceKind, Sources};
use crate::report::folder::{OutputFolder, Written};
use crate::report::tables::{Field, exceptions};
use rust_xlsxwriter::{ColNum, Workbook};
use std::collections::BTreeMap;
use std::io;

/// Most links that a sheet can hold.
const LINKS: usize = 65_000;

/// Where the files of a run stand as seen from the output folder: the source's file and the way to it, with `/`.
pub type Links = BTreeMap<String, String>;

/// The list of problems while it is written.
pub struct ExceptionsBook {
    workbook: Workbook,
    listing: Listing,
    links: Links,
    linked: usize,
}

impl ExceptionsBook {
    /// Begins the workbook.
    pub fn new(folder: &OutputFolder, links: Links) -> io::Result<Self> {
        let mut workbook = book(folder, "Exceptions")?;
        let listing = guarded(|| {
            Listing::new(&mut workbook, "Exceptions", exceptions::COLUMNS.to_vec(), Long::Wrapped)
        })?;
        Ok(Self { workbook, listing, links, linked: 0 })
    }

    /// Adds a problem with its row of the exceptions table.
    pub fn problem(&mut self, problem: &Problem, row: &[Field], sources: &Sources) -> io::Result<()> {
        let target = problem.place.and_then(|place| self.target(place, sources));
        guarded(|| {
            if !self.listing.row(row)? {
                return Ok(());
            }
            if let Some((target, text)) = target.filter(|_| self.linked < LINKS) {
                self.linked += 1;
                let column = ColNum::try_from(exceptions::CELL).unwrap_or_default();
                self.listing.link(column, &target, &text)?;
            }
            Ok(())
        })
    }

    /// The way to a place, and what stands for it in the sheet. A spreadsheet program opens a text file whole, and
    /// cannot be led to a file whose name holds `#` or `%`.
    fn target(&self, place: Place, sources: &Sources) -> Option<(String, String)> {
        let source = sources.get(place.source);
        let way = self.links.get(&source.file).filter(|way| !way.contains(['#', '%']))?;
        let position = Sources::position(place);
        let text = if position.is_empty() { "open".to_owned() } else { position };
        if source.kind == SourceKind::Text || source.sheet.is_empty() {
            return Some((way.clone(), text));
        }
        let cell = format!("{}{}", crate::problem::column_letters(place.column.max(1)), place.row.max(1));
        Some((format!("{way}#'{}'!{cell}", source.sheet.replace('\'', "''")), text))
    }

    /// Ends the workbook.
    pub fn finish(self, folder: &OutputFolder, name: &str) -> io::Result<Written> {
        let Self { mut workbook, mut listing, .. } = self;
        guarded(|| {
            if listing.rows() > 0 {
                listing.filter()?;
            } else {
                listing.remark("Nothing to report.")?;
            }
            if listing.left_out() > 0 {
                let left_out = listing.left_out();
                listing
                    .remark(&format!("{left_out} more are in exceptions.csv: a sheet holds no more rows"))?;
            }
            listing.finish(&mut workbook)
        })?;
        save(workbook, folder, name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{Source, SourceId};
    use tempfile::TempDir;

    #[test]
    fn a_link_leads_from_the_output_to_the_cell_of_a_workbook_and_to_a_text_file_as_a_whole() {
        let dir = TempDir::new().unwrap();
        let folder = OutputFolder::begin(&dir.path().join("out"), 1).unwrap();
        let mut sources = Sources::new();
        for (file, sheet, kind) in [
            ("storm/counts.xlsx", "Counts", SourceKind::Sheet),
            ("storm/east.csv", "", SourceKind::Text),
            ("storm/rates.xlsx", "Terms", SourceKind::Sheet),
        ] {
            sources.add(Source { file: file.to_owned(), sheet: sheet.to_owned(), kind });
        }
        let it = sources.add(Source {
            file: "storm/it's.xlsx".to_owned(),
            sheet: "Bob's #2".to_owned(),
            kind: SourceKind::Sheet,
        });
        let hash = sources.add(Source {
            file: "storm/no #1.xlsx".to_owned(),
            sheet: "Counts".to_owned(),
            kind: SourceKind::Sheet,
        });
        let links = ["storm/counts.xlsx", "storm/east.csv", "storm/it's.xlsx", "storm/no #1.xlsx"]
            .map(|file| (file.to_owned(), format!("../{file}")))
            .into();
        let book = ExceptionsBook::new(&folder, links).unwrap();
        let target = |source: SourceId, row, column| book.target(Place { source, row, column }, &sources);
        let link = |target: &str, text: &str| Some((target.to_owned(), text.to_owned()));
        assert_eq!(target(SourceId(0), 3, 4), link("../storm/counts.xlsx#'Counts'!D3", "D3"));
        assert_eq!(target(SourceId(0), 3, 0), link("../storm/counts.xlsx#'Counts'!A3", "row 3"));
        assert_eq!(target(SourceId(1), 3, 4), link("../storm/east.csv", "D3"));
        assert_eq!(target(it, 1, 1), link("../storm/it's.xlsx#'Bob''s #2'!A1", "A1"));
        assert_eq!(target(hash, 1, 1), None, "a spreadsheet program cannot be led there");
        assert_eq!(target(SourceId(2), 1, 1), None, "no way to the file is known");
    }
}

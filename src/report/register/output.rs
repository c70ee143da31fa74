//! Everything a register writes, swapped in when complete.

use super::{Filled, RegisterPage, RegisterView, tables};
use crate::problem::{Problem, catalogue::output};
use crate::register::Register;
use crate::report::folder::{OutputFolder, Written};
use crate::report::html::Pages;
use crate::report::run_record::{Dated, VERSION, close};
use crate::report::workbook::RegisterBook;
use serde::Serialize;
use std::io;

/// The page.
const PAGE: &str = "register.html";
/// The workbook.
const BOOK: &str = "register.xlsx";
/// The data.
const DATA: &str = "register.json";

/// What `run.json` says of a register.
#[derive(Serialize)]
struct Counted {
    claims: usize,
    rows: usize,
}

/// Writes everything into a folder that was begun, and puts it in its place.
pub fn write(folder: OutputFolder, filled: &Filled<'_>) -> Result<(), Problem> {
    let faulty = |fault| output::not_drawn("the register", &format!("{fault}"));
    let mut written = Vec::new();
    let page =
        Pages::new().and_then(|pages| pages.register(&RegisterPage::new(filled, VERSION))).map_err(faulty)?;
    written.push(folder.put(PAGE, page.as_bytes())?);
    let data = RegisterView::new(filled).to_bytes();
    let data = data.map_err(|error| folder.refused(DATA, &io::Error::from(error)))?;
    written.push(folder.put(DATA, &data)?);
    written.push(book(&folder, filled).map_err(|error| folder.refused(BOOK, &error))?);
    let Register { day, standings, rows, .. } = filled.register;
    let counted = Counted { claims: standings.len(), rows: *rows };
    close(folder, &filled.run, written, Dated::on(*day), counted)?;
    Ok(())
}

fn book(folder: &OutputFolder, filled: &Filled<'_>) -> io::Result<Written> {
    let register = filled.register;
    let mut book = RegisterBook::new(folder)?;
    book.sheet("Claims", tables::STANDING, register.standings.iter().map(tables::standing))?;
    book.sheet("Amounts", tables::SUMS, register.sums.values().map(tables::sums))?;
    book.sheet("Rows", tables::ROWS, tables::rows(filled))?;
    book.sentences("To look at", tables::FINDINGS, tables::findings(filled))?;
    book.made_from(&filled.run)?;
    book.finish(folder, BOOK)
}

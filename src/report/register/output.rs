//! Everything a register writes, swapped in when complete.

use super::{Filled, RegisterPage, RegisterView, tables};
use crate::problem::{Problem, catalogue::output};
use crate::report::folder::{OutputFolder, Written};
use crate::report::html::Pages;
use crate::report::run_record::{FORMAT, RECORD, ScheduleRecord, TOOL, VERSION, read_file};
use crate::report::workbook::RegisterBook;
use serde::Serialize;
use std::io;

/// The page.
const PAGE: &str = "register.html";
/// The workbook.
const BOOK: &str = "register.xlsx";
/// The data.
const DATA: &str = "register.json";

/// `run.json` of a register: what was read, and every file that was written.
#[derive(Serialize)]
struct Record<'a> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<String>,
    read: Vec<Written>,
    schedules: Vec<ScheduleRecord>,
    claims: usize,
    rows: usize,
    files: &'a [Written],
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
    written.sort_unstable();
    let register = filled.register;
    let record = Record {
        format: FORMAT,
        tool: TOOL,
        version: VERSION,
        date: register.day.map(|day| day.to_string()),
        read: filled.run.files.iter().map(read_file).collect(),
        schedules: filled.run.schedules.iter().map(ScheduleRecord::new).collect(),
        claims: register.standings.len(),
        rows: register.rows,
        files: &written,
    };
    let record = serde_json::to_vec_pretty(&record);
    let mut record = record.map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
    record.push(b'\n');
    folder.put(RECORD, &record)?;
    folder.swap_in()
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

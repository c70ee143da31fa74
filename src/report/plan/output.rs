//! Everything a plan writes, swapped in when complete.

use super::{PlanOf, fill, tables, words};
use crate::problem::{Problem, catalogue::output};
use crate::quantity::Date;
use crate::report::csv::CsvTable;
use crate::report::document::Imprint;
use crate::report::folder::{OutputFolder, Written};
use crate::report::html::{Pages, TemplateFault};
use crate::report::run_record::{FORMAT, RECORD, ScheduleRecord, TOOL, VERSION, read_file};
use crate::report::tables::Column;
use crate::report::words::Words;
use crate::report::workbook;
use serde::Serialize;
use std::io;

/// The page.
pub const PAGE: &str = "plan.html";
/// The workbook.
pub const BOOK: &str = "plan.xlsx";
/// The plan as a text file, and the parts.
pub const TABLE: &str = "plan.csv";
/// The parts as a text file.
pub const PARTS: &str = "parts.csv";

/// `run.json` of a plan: what was read, what came out, and every file that was written.
#[derive(Serialize)]
struct Record<'a> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    standing: &'static str,
    first_day: String,
    read: Vec<Written>,
    schedules: Vec<ScheduleRecord>,
    cars_planned: usize,
    cars_not_planned: usize,
    files: &'a [Written],
}

/// Writes everything into a folder that was begun, and puts it in its place.
pub fn write(folder: OutputFolder, of: &PlanOf<'_>, first: Date) -> Result<(), Problem> {
    let mut written = vec![
        text(&folder, TABLE, tables::PLAN, tables::plan(of))?,
        text(&folder, PARTS, tables::PARTS, tables::parts(of))?,
    ];
    written.push(workbook::plan::write(of, &folder, BOOK).map_err(|error| folder.refused(BOOK, &error))?);
    let faulty = |fault: TemplateFault| output::not_drawn("the plan", &fault.to_string());
    let imprint = Imprint { tool_version: VERSION, run_date: Some(first), words: Words::english() };
    let page = Pages::new().and_then(|pages| pages.plan(&fill(of, first, &imprint))).map_err(faulty)?;
    written.push(folder.put(PAGE, page.as_bytes())?);
    written.sort_unstable();
    let record = Record {
        format: FORMAT,
        tool: TOOL,
        version: VERSION,
        standing: words::promise_short(),
        first_day: first.to_string(),
        read: of.run.files.iter().map(read_file).collect(),
        schedules: of.run.schedules.iter().map(ScheduleRecord::new).collect(),
        cars_planned: of.plan.cars.len(),
        cars_not_planned: of.plan.unplanned.len(),
        files: &written,
    };
    let record = serde_json::to_vec_pretty(&record);
    let mut record = record.map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
    record.push(b'\n');
    folder.put(RECORD, &record)?;
    folder.swap_in()
}

fn text(
    folder: &OutputFolder,
    name: &str,
    columns: &[Column],
    rows: tables::Rows,
) -> Result<Written, Problem> {
    let write = || {
        let mut table = CsvTable::new(folder.create(name)?, columns)?;
        for row in rows {
            table.row(&row)?;
        }
        table.finish().finish()
    };
    write().map_err(|error: io::Error| folder.refused(name, &error))
}

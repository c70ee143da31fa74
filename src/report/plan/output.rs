//! Everything a plan writes, swapped in when complete.

use super::{PlanOf, fill, tables, words};
use crate::problem::{Problem, catalogue::output};
use crate::quantity::Date;
use crate::report::csv::CsvTable;
use crate::report::document::Imprint;
use crate::report::folder::{OutputFolder, Written};
use crate::report::html::{Pages, TemplateFault};
use crate::report::run_record::{VERSION, close};
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

/// What `run.json` says of a plan before the files.
#[derive(Serialize)]
struct Promised {
    standing: &'static str,
    first_day: String,
}

/// What it says behind them.
#[derive(Serialize)]
struct Counted {
    cars_planned: usize,
    cars_not_planned: usize,
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
    let promised = Promised { standing: words::promise_short(), first_day: first.to_string() };
    let counted = Counted { cars_planned: of.plan.cars.len(), cars_not_planned: of.plan.unplanned.len() };
    close(folder, &of.run, written, promised, counted)?;
    Ok(())
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

//! Everything a comparison writes, swapped in when complete.

use super::json::ComparisonView;
use super::{Compared, adjudication, tables};
use crate::compare::comparison::Comparison;
use crate::problem::Problem;
use crate::quantity::Date;
use crate::report::csv::CsvTable;
use crate::report::folder::{Digesting, OutputFolder, Written};
use crate::report::run_record::{FORMAT, RECORD, ScheduleRecord, TOOL, VERSION, read_file};
use crate::report::tables::Field;
use serde::Serialize;
use std::io;

/// The data of a comparison.
pub const DATA: &str = "comparison.json";

/// `run.json` of a comparison: what was read, what came out, and every file that was written.
#[derive(Serialize)]
struct Record<'a> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<String>,
    read: Vec<Written>,
    schedules: Vec<ScheduleRecord>,
    cars_compared: usize,
    looks_aside: usize,
    files: &'a [Written],
}

/// Writes everything into a folder that was begun, and puts it in its place.
pub fn write(
    folder: OutputFolder,
    compared: &Compared<'_>,
    date: Option<Date>,
) -> Result<Vec<Written>, Problem> {
    let mut written = Vec::new();
    let data = ComparisonView::new(compared).to_bytes();
    let data = data.map_err(|error| folder.refused(DATA, &io::Error::from(error)))?;
    written.push(folder.put(DATA, &data)?);
    for (name, columns, rows) in [
        ("pairs.csv", tables::PAIRS, tables::pairs(compared)),
        ("panels.csv", tables::PANELS, tables::panels(compared)),
        ("money.csv", tables::MONEY, tables::money(compared)),
        ("statistics.csv", tables::STATISTICS, tables::statistics(compared)),
    ] {
        let headings: Vec<&str> = columns.iter().map(|column| column.name).collect();
        written.push(table(&folder, name, &headings, &rows)?);
    }
    written.extend(to_agree(&folder, compared)?);
    written.sort_unstable();
    let Comparison { cars, aside, .. } = compared.comparison;
    let record = Record {
        format: FORMAT,
        tool: TOOL,
        version: VERSION,
        date: date.map(|date| date.to_string()),
        read: compared.run.files.iter().map(read_file).collect(),
        schedules: compared.run.schedules.iter().map(ScheduleRecord::new).collect(),
        cars_compared: cars.len(),
        looks_aside: aside.len(),
        files: &written,
    };
    let record = serde_json::to_vec_pretty(&record);
    let mut record = record.map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
    record.push(b'\n');
    folder.put(RECORD, &record)?;
    folder.swap_in()?;
    Ok(written)
}

fn table(
    folder: &OutputFolder,
    name: &str,
    headings: &[&str],
    rows: &[Vec<Field>],
) -> Result<Written, Problem> {
    let write = || {
        let mut table = CsvTable::headed(folder.create(name)?, headings.iter().copied())?;
        for row in rows {
            table.row(row)?;
        }
        table.finish().and_then(Digesting::finish)
    };
    write().map_err(|error| folder.refused(name, &error))
}

/// `to_agree.csv`, numbered where there are several: the tables in which people agree.
fn to_agree(folder: &OutputFolder, compared: &Compared<'_>) -> Result<Vec<Written>, Problem> {
    let tables = adjudication::tables(compared);
    let name = |number: usize| match tables.len() {
        1 => "to_agree.csv".to_owned(),
        _ => format!("to_agree_{}.csv", number + 1),
    };
    let write = |(number, to_agree): (usize, &adjudication::AdjudicationTable)| {
        let headings: Vec<&str> = to_agree.headings.iter().map(String::as_str).collect();
        table(folder, &name(number), &headings, &to_agree.rows)
    };
    tables.iter().enumerate().map(write).collect()
}

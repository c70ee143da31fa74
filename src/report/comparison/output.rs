//! Everything a comparison writes, swapped in when complete.

use super::json::ComparisonView;
use super::tables::Rows;
use super::{Compared, adjudication, by_counts, document, tables};
use crate::compare::comparison::Comparison;
use crate::problem::{Problem, catalogue::output};
use crate::quantity::Date;
use crate::report::csv::CsvTable;
use crate::report::document::Imprint;
use crate::report::folder::{OutputFolder, Written};
use crate::report::html::{Pages, TemplateFault};
use crate::report::run_record::{Dated, VERSION, close};
use crate::report::tables::Column;
use crate::report::words::Words;
use crate::report::workbook::{self, ComparisonBook};
use serde::Serialize;
use std::io;

/// The data of a comparison.
pub const DATA: &str = "comparison.json";

/// Its workbook.
const BOOK: &str = "comparison.xlsx";
/// The workbook in which people agree.
const TO_AGREE: &str = "to_agree.xlsx";

type RowsOf = for<'a> fn(&'a Compared<'a>) -> Rows<'a>;

/// Its tables: the text file, the sheet, the columns and the rows. A sheet is printed, so it leaves out the columns that
/// [`tables::in_text_alone`] names.
const TABLES: [(&str, &str, &[Column], RowsOf); 4] = [
    ("pairs.csv", "Pairs", tables::PAIRS, tables::pairs),
    ("panels.csv", "Panels", tables::PANELS, tables::panels),
    ("money.csv", "Money by cause", tables::MONEY, tables::money),
    ("statistics.csv", "Statistics", tables::STATISTICS, tables::statistics),
];

/// What `run.json` says of a comparison.
#[derive(Serialize)]
struct Counted {
    cars_compared: usize,
    cars_compared_by_counts_alone: usize,
    looks_aside: usize,
}

/// Writes everything into a folder that was begun, and puts it in its place.
pub fn write(
    folder: OutputFolder,
    compared: &Compared<'_>,
    date: Option<Date>,
    letters: bool,
) -> Result<Vec<Written>, Problem> {
    // Nothing that is written rests on another part of it.
    let ((as_data, as_tables), (as_sheets, as_pages)) = rayon::join(
        || rayon::join(|| data(&folder, compared), || tables_and_book(&folder, compared)),
        || rayon::join(|| sheets(&folder, compared), || pages(&folder, compared, date, letters)),
    );
    let mut written = vec![as_data?];
    for part in [as_tables?, as_sheets?, as_pages?] {
        written.extend(part);
    }
    let Comparison { cars, aside, by_counts, .. } = compared.comparison;
    let counted = Counted {
        cars_compared: cars.len(),
        cars_compared_by_counts_alone: by_counts.as_ref().map_or(0, |by_counts| by_counts.cars.len()),
        looks_aside: aside.len(),
    };
    close(folder, &compared.run, written, Dated::on(date), counted)
}

fn data(folder: &OutputFolder, compared: &Compared<'_>) -> Result<Written, Problem> {
    let write = || {
        let mut file = folder.create(DATA)?;
        ComparisonView(compared).write_to(&mut file)?;
        file.finish()
    };
    write().map_err(|error| folder.refused(DATA, &error))
}

/// The tables as text files, and the workbook that holds the same.
fn tables_and_book(folder: &OutputFolder, compared: &Compared<'_>) -> Result<Vec<Written>, Problem> {
    let mut written = Vec::new();
    let refused = |error: io::Error| folder.refused(BOOK, &error);
    let mut book = ComparisonBook::new(folder).map_err(refused)?;
    for (name, sheet, columns, rows) in TABLES {
        // The text file takes every row as it passes by on its way to the sheet.
        let mut text = folder.create(name).and_then(|file| CsvTable::new(file, columns)).map_err(refused)?;
        let is_shown = |number: &usize| !tables::in_text_alone(columns[*number].name);
        let shown: Vec<usize> = (0..columns.len()).filter(is_shown).collect();
        let of_sheet = shown.iter().map(|number| columns[*number]).collect();
        let passing = rows(compared)
            .map(|row| text.row(&row).map(|()| shown.iter().map(|number| row[*number].clone()).collect()));
        book.sheet(sheet, of_sheet, passing, name).map_err(refused)?;
        let ended = text.finish().finish();
        written.push(ended.map_err(|error| folder.refused(name, &error))?);
    }
    let definitions = tables::definitions(compared).map(Ok);
    book.sentences("Definitions", tables::DEFINITIONS.to_vec(), definitions, "statistics.csv")
        .map_err(refused)?;
    written.push(book.finish(folder, BOOK).map_err(refused)?);
    if let Some(counted) = &compared.comparison.by_counts {
        let rows = by_counts::rows(compared, counted);
        written.push(table(folder, by_counts::FILE, &by_counts::HEADINGS, rows)?);
    }
    Ok(written)
}

/// The tables in which people agree, and the workbook of them.
fn sheets(folder: &OutputFolder, compared: &Compared<'_>) -> Result<Vec<Written>, Problem> {
    let agreed = adjudication::tables(compared);
    let mut written = to_agree(folder, compared, &agreed)?;
    let filled = workbook::to_agree::write(compared, &agreed, folder, TO_AGREE);
    written.extend(filled.map_err(|error| folder.refused(TO_AGREE, &error))?);
    Ok(written)
}

/// The report, the sheets to agree on, and a letter for each pair of people.
fn pages(
    folder: &OutputFolder,
    compared: &Compared<'_>,
    date: Option<Date>,
    letters: bool,
) -> Result<Vec<Written>, Problem> {
    let mut written = Vec::new();
    let faulty = |fault: TemplateFault| output::not_drawn("the comparison", &fault.to_string());
    let pages = Pages::new().map_err(faulty)?;
    let report = document::fill(
        compared,
        &Imprint { tool_version: VERSION, run_date: date, words: Words::english() },
        letters,
    );
    let mut put = |name: &str, page: Result<String, TemplateFault>| {
        written.push(folder.put(name, page.map_err(faulty)?.as_bytes())?);
        Ok(())
    };
    put("comparison.html", pages.comparison(&report))?;
    put("to_agree.html", pages.adjudication(&report))?;
    if let [only] = &report.letters[..] {
        put("letter.html", pages.letter(&report, only))?;
        return Ok(written);
    }
    folder.folder(document::LETTERS)?;
    for letter in &report.letters {
        put(&letter.file, pages.letter(&report, letter))?;
    }
    Ok(written)
}

fn table(folder: &OutputFolder, name: &str, headings: &[&str], rows: Rows<'_>) -> Result<Written, Problem> {
    let write = || {
        let mut table = CsvTable::headed(folder.create(name)?, headings.iter().copied())?;
        for row in rows {
            table.row(&row)?;
        }
        table.finish().finish()
    };
    write().map_err(|error| folder.refused(name, &error))
}

/// `to_agree.csv`, numbered where there are several: the tables in which people agree.
fn to_agree(
    folder: &OutputFolder,
    compared: &Compared<'_>,
    tables: &[adjudication::AdjudicationTable],
) -> Result<Vec<Written>, Problem> {
    let name = |number: usize| match tables.len() {
        1 => "to_agree.csv".to_owned(),
        _ => format!("to_agree_{}.csv", number + 1),
    };
    let write = |(number, to_agree): (usize, &adjudication::AdjudicationTable)| {
        let headings: Vec<&str> = to_agree.headings.iter().map(String::as_str).collect();
        table(folder, &name(number), &headings, to_agree.rows(compared))
    };
    tables.iter().enumerate().map(write).collect()
}

//! XLSX workbooks, cell by cell.

use super::cell::{guarded, position, value};
use super::formats::{Formats, Shown};
use super::parts::{self, Layout};
use super::{Fault, RawSheet, UNREADABLE, check_merges, in_order, most_cells, scan};
use crate::problem::{Place, SourceId};
use crate::read::file::archive::Parts;
use crate::table::{Cell, Row, Value};
use calamine::{Reader as _, SheetType, SheetVisible, Xlsx};
use std::io::Cursor;
use std::thread;

type Workbook<'b> = Xlsx<Cursor<&'b [u8]>>;

/// Reads a workbook whose container was held against its bounds. Hidden sheets come without cells; charts and the like
/// hold none.
pub(in crate::read) fn read(
    bytes: &[u8],
    mut source: impl FnMut(&str) -> SourceId,
) -> Result<Vec<RawSheet>, Fault> {
    let mut workbook = guarded(|| Workbook::new(Cursor::new(bytes)).map_err(|_| UNREADABLE.to_owned()))
        .map_err(Fault::damaged)?;
    let mut parts = Parts::of(bytes).ok_or_else(|| Fault::damaged(UNREADABLE))?;
    let layout = Layout::of(&mut parts);
    let formats = Formats::of(&mut parts);
    let mut budget = most_cells(bytes.len());
    let shown: Vec<(String, bool)> = workbook
        .sheets_metadata()
        .iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet)
        .map(|sheet| (sheet.name.clone(), sheet.visible != SheetVisible::Visible))
        .collect();
    let mut sheets = Vec::new();
    for (name, is_hidden) in shown {
        let mut sheet = RawSheet::new(name.clone(), source(&name), is_hidden);
        let at = Place::whole(sheet.source);
        let path = layout.path(&name);
        if let Some(path) = path {
            sheet.notes = parts::notes(&mut parts, path, sheet.source);
        }
        fill(&mut workbook, bytes, path, &formats, &mut sheet, &mut budget).map_err(|fault| fault.at(at))?;
        sheets.push(sheet);
    }
    Ok(sheets)
}

fn fill(
    workbook: &mut Workbook<'_>,
    bytes: &[u8],
    path: Option<&str>,
    formats: &Formats,
    sheet: &mut RawSheet,
    budget: &mut usize,
) -> Result<(), Fault> {
    // Each pass unpacks the sheet and takes its marks apart, so that they take half the time beside each other.
    let (found, cells) = thread::scope(|scope| {
        let found = path.map(|path| scope.spawn(|| guarded_scan(bytes, path, formats)));
        let cells = gathered(workbook, &sheet.name, sheet.source, budget);
        (found.map(|found| found.join().unwrap_or_else(|_| Err(Fault::damaged(UNREADABLE)))), cells)
    });
    let found = found.transpose()?.unwrap_or_default();
    check_merges(&found.merges)?;
    sheet.rows = in_order(cells?)?;
    sheet.merges = found.merges;
    sheet.hidden_rows = found.hidden_rows;
    sheet.hidden_columns = found.hidden_columns;
    show(found.shown, formats, sheet);
    Ok(())
}

fn guarded_scan(bytes: &[u8], path: &str, formats: &Formats) -> Result<scan::Found, Fault> {
    let mut parts = Parts::of(bytes).ok_or_else(|| Fault::damaged(UNREADABLE))?;
    let part = parts.open(path).ok_or_else(|| Fault::damaged(UNREADABLE))?;
    scan::sheet(part, formats)
}

/// The rows of a sheet in the order of the file, with no more room than their cells need.
fn gathered(
    workbook: &mut Workbook<'_>,
    sheet: &str,
    source: SourceId,
    budget: &mut usize,
) -> Result<Vec<Row>, Fault> {
    let mut rows: Vec<Row> = Vec::new();
    stream(workbook, sheet, source, budget, |row, cell| match rows.last_mut() {
        Some(last) if last.number == row => last.cells.push(cell),
        last => {
            // Most rows are as wide as the one above; what is wider or narrower is cut to size.
            let width = last.map_or(1, |last| {
                last.cells.shrink_to_fit();
                last.cells.len()
            });
            let mut cells = Vec::with_capacity(width);
            cells.push(cell);
            rows.push(Row { number: row, cells });
        }
    })?;
    Ok(rows)
}

/// Marks percentages and amounts of a currency.
fn show(mut shown: Vec<(u32, u16, u32)>, formats: &Formats, sheet: &mut RawSheet) {
    shown.sort_unstable();
    let mut shown = shown.into_iter().peekable();
    for row in &mut sheet.rows {
        for cell in &mut row.cells {
            let here = (row.number, cell.column);
            // A cell may be formatted and blank.
            while shown.next_if(|(row, column, _)| (*row, *column) < here).is_some() {}
            let Some((.., format)) = shown.next_if(|(row, column, _)| (*row, *column) == here) else {
                continue;
            };
            match (formats.shown(format), &cell.value) {
                (Some(Shown::Share), Value::Number(_)) => sheet.shares.push((row.number, cell.column)),
                (Some(Shown::Money(sign)), Value::Number(number)) => {
                    cell.value = Value::Money(Box::new((*number, sign.clone())));
                }
                _ => {}
            }
        }
    }
}

/// Hands over all cells that are not blank, in the order of the file, with their rows.
fn stream(
    workbook: &mut Workbook<'_>,
    sheet: &str,
    source: SourceId,
    budget: &mut usize,
    mut take: impl FnMut(u32, Cell),
) -> Result<(), Fault> {
    let mut last = None;
    let read = guarded(|| {
        let mut reader = workbook.worksheet_cells_reader(sheet).map_err(|_| UNREADABLE.to_owned())?;
        while let Some(record) =
            reader.next_cell_with_formula_metadata().map_err(|_| UNREADABLE.to_owned())?
        {
            let (row, column) = position(record.pos).ok_or("a cell stands outside the sheet")?;
            let place = Place::cell(source, row, column);
            last = Some(place);
            let Some(value) = value(&record.value, record.formula.is_some()) else { continue };
            let Some(left) = budget.checked_sub(1) else { return Ok(false) };
            *budget = left;
            take(row, Cell { place, column, value, spread: false });
        }
        Ok(true)
    });
    match (read, last) {
        (Ok(true), _) => Ok(()),
        (Ok(false), last) => {
            let fault = Fault::too_large("more cells than a workbook of its size can mean");
            Err(Fault { place: last, ..fault })
        }
        (Err(why), None) => Err(Fault::damaged(why)),
        (Err(why), Some(place)) => {
            let at = crate::problem::Sources::position(place);
            Err(Fault::damaged(format!("{why}, after cell {at}")).at(place))
        }
    }
}

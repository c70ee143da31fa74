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
        fill(&mut workbook, &mut parts, path, &formats, &mut sheet, &mut budget)
            .map_err(|fault| fault.at(at))?;
        sheets.push(sheet);
    }
    Ok(sheets)
}

fn fill(
    workbook: &mut Workbook<'_>,
    parts: &mut Parts<'_>,
    path: Option<&str>,
    formats: &Formats,
    sheet: &mut RawSheet,
    budget: &mut usize,
) -> Result<(), Fault> {
    let mut shown = Vec::new();
    if let Some(path) = path {
        let part = parts.open(path).ok_or_else(|| Fault::damaged(UNREADABLE))?;
        let found = scan::sheet(part, formats)?;
        check_merges(&found.merges)?;
        sheet.merges = found.merges;
        sheet.hidden_rows = found.hidden_rows;
        sheet.hidden_columns = found.hidden_columns;
        shown = found.shown;
        sheet.notes = parts::notes(parts, path, sheet.source);
    }
    let mut shown = shown.into_iter().peekable();
    let (rows, shares) = (&mut sheet.rows, &mut sheet.shares);
    stream(workbook, &sheet.name, sheet.source, budget, |row, mut cell| {
        // Both passes meet the cells in the order of the file.
        if let Some((.., format)) = shown.next_if(|(at, column, _)| (*at, *column) == (row, cell.column)) {
            match (formats.shown(format), &cell.value) {
                (Some(Shown::Share), Value::Number(_)) => shares.push((row, cell.column)),
                (Some(Shown::Money(sign)), Value::Number(number)) => {
                    cell.value = Value::Money(Box::new((*number, sign.clone())));
                }
                _ => {}
            }
        }
        match rows.last_mut() {
            Some(last) if last.number == row => last.cells.push(cell),
            _ => rows.push(Row { number: row, cells: vec![cell] }),
        }
    })?;
    sheet.rows = in_order(std::mem::take(&mut sheet.rows))?;
    Ok(())
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

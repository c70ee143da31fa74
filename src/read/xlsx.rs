//! XLSX workbooks, cell by cell. Numbers arrive as floats here and leave as exact decimals.

use crate::problem::{Place, SourceId};
use crate::quantity::{Date, Decimal, parse_date};
use crate::table::{Cell, CellFault, Merge, Row, Value};
use calamine::{DataRef, Reader as _, SheetType, SheetVisible, Xlsx};
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Why a sheet is not taken.
#[derive(Debug)]
pub(super) enum Fault {
    Damaged(String),
    TooLarge(&'static str),
}

/// A sheet's name and whether it is shown.
#[derive(Debug)]
pub(super) struct SheetName {
    pub(super) text: String,
    pub(super) is_hidden: bool,
}

/// What stands on a sheet.
#[derive(Debug, Default)]
pub(super) struct Cells {
    pub(super) rows: Vec<Row>,
    pub(super) merges: Vec<Merge>,
}

/// An open workbook.
pub(super) struct Book<'b> {
    workbook: Xlsx<Cursor<&'b [u8]>>,
    cells: usize,
}

/// What the library that reads workbooks says of its parts helps nobody who has only the workbook.
const UNREADABLE: &str = "a part of it is missing or contradicts itself";

const MOST_CELLS: usize = 20_000_000;
/// Rows that all merged cells of a sheet may cover together.
const MOST_MERGED_ROWS: u64 = 10_000_000;

impl<'b> Book<'b> {
    /// Opens a workbook whose container was held against its bounds.
    pub(super) fn open(bytes: &'b [u8]) -> Result<Self, String> {
        let workbook = guarded(|| Xlsx::new(Cursor::new(bytes)).map_err(|_| UNREADABLE.to_owned()))?;
        Ok(Self { workbook, cells: 0 })
    }

    /// Its worksheets in order; charts and the like hold no cells.
    pub(super) fn sheets(&self) -> Vec<SheetName> {
        self.workbook
            .sheets_metadata()
            .iter()
            .filter(|sheet| sheet.typ == SheetType::WorkSheet)
            .map(|sheet| SheetName {
                text: sheet.name.clone(),
                is_hidden: sheet.visible != SheetVisible::Visible,
            })
            .collect()
    }

    /// Reads a sheet. The cells of all sheets of a workbook are counted together.
    pub(super) fn read(&mut self, sheet: &str, source: SourceId) -> Result<Cells, Fault> {
        let merges =
            guarded(|| self.workbook.merge_cells_by_sheet_name(sheet).map_err(|_| UNREADABLE.to_owned()));
        let merges: Vec<Merge> = merges
            .map_err(Fault::Damaged)?
            .iter()
            .filter_map(|merged| merge(merged.start, merged.end))
            .collect();
        let covered: u64 = merges.iter().map(|merge| u64::from(merge.last_row - merge.first_row) + 1).sum();
        if covered > MOST_MERGED_ROWS {
            return Err(Fault::TooLarge("over 10 million rows under merged cells"));
        }
        let budget = MOST_CELLS - self.cells;
        let read = guarded(|| rows(&mut self.workbook, sheet, source, budget));
        let Read { rows, cells } = read.map_err(Fault::Damaged)?;
        if cells > budget {
            return Err(Fault::TooLarge("over 20 million cells"));
        }
        self.cells += cells;
        Ok(Cells { rows: in_order(rows).map_err(Fault::Damaged)?, merges })
    }
}

/// Runs a step of the library that reads workbooks: on bad input it may panic.
fn guarded<T>(step: impl FnOnce() -> Result<T, String>) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(step)).unwrap_or_else(|_| Err(UNREADABLE.to_owned()))
}

struct Read {
    rows: Vec<Row>,
    cells: usize,
}

/// All cells that are not blank, in the order of the file; stops one beyond the budget.
fn rows(
    workbook: &mut Xlsx<Cursor<&[u8]>>,
    sheet: &str,
    source: SourceId,
    budget: usize,
) -> Result<Read, String> {
    let mut reader = workbook.worksheet_cells_reader(sheet).map_err(|_| UNREADABLE.to_owned())?;
    let mut read = Read { rows: Vec::new(), cells: 0 };
    while let Some(record) = reader.next_cell_with_formula_metadata().map_err(|_| UNREADABLE.to_owned())? {
        let Some(value) = value(&record.value, record.formula.is_some()) else { continue };
        let (row, column) = position(record.pos).ok_or("a cell stands outside the sheet")?;
        read.cells += 1;
        if read.cells > budget {
            break;
        }
        let cell = Cell { place: Place::cell(source, row, column), column, value, spread: false };
        match read.rows.last_mut() {
            Some(last) if last.number == row => last.cells.push(cell),
            _ => read.rows.push(Row { number: row, cells: vec![cell] }),
        }
    }
    Ok(read)
}

/// Rows and cells by position. Files from other programs may list them in any order; two cells in one place
/// contradict each other.
fn in_order(mut rows: Vec<Row>) -> Result<Vec<Row>, String> {
    rows.sort_by_key(|row| row.number);
    rows.dedup_by(|later, earlier| {
        let is_same = later.number == earlier.number;
        if is_same {
            earlier.cells.append(&mut later.cells);
        }
        is_same
    });
    for row in &mut rows {
        row.cells.sort_by_key(|cell| cell.column);
        if let Some(twice) = row.cells.windows(2).find(|pair| pair[0].column == pair[1].column) {
            let at = crate::problem::Sources::position(twice[0].place);
            return Err(format!("cell {at} stands in it twice"));
        }
    }
    Ok(rows)
}

/// Row and column from 1, inside the bounds of the format.
fn position((row, column): (u32, u32)) -> Option<(u32, u16)> {
    let row = row.checked_add(1).filter(|row| *row <= 1_048_576)?;
    let column = column.checked_add(1).filter(|column| *column <= 16_384)?;
    Some((row, u16::try_from(column).ok()?))
}

fn merge(start: (u32, u32), end: (u32, u32)) -> Option<Merge> {
    let (first_row, first_column) = position(start)?;
    let (last_row, last_column) = position(end)?;
    (first_row <= last_row && first_column <= last_column).then_some(Merge {
        first_row,
        last_row,
        first_column,
        last_column,
    })
}

fn value(data: &DataRef<'_>, is_formula: bool) -> Option<Value> {
    match data {
        DataRef::Empty => is_formula.then_some(Value::Fault(CellFault::NoStoredValue)),
        DataRef::String(text) | DataRef::DurationIso(text) => text_value(text),
        DataRef::SharedString(text) => text_value(text),
        DataRef::Int(number) => Some(Value::Number(Decimal::from(*number))),
        DataRef::Float(number) => Some(number_value(*number)),
        DataRef::Bool(value) => Some(Value::Bool(*value)),
        DataRef::Error(error) => Some(Value::Fault(CellFault::Error(error.to_string()))),
        DataRef::DateTime(moment) if moment.is_duration() => Some(time_value(moment.as_f64())),
        DataRef::DateTime(moment) => Some(date_value(moment.as_f64(), moment.to_ymd_hms_milli())),
        DataRef::DateTimeIso(text) => {
            Some(parse_date(text).map_or_else(|_| Value::Text(text.clone()), Value::Date))
        }
    }
}

fn text_value(text: &str) -> Option<Value> {
    let text = text.trim();
    (!text.is_empty()).then(|| Value::Text(text.to_owned()))
}

/// A number as the workbook shows it, to its 15 significant digits.
fn number_value(number: f64) -> Value {
    match Decimal::try_from(number) {
        // What is too small to keep must not become a zero.
        Ok(decimal) if decimal.is_zero() && number != 0.0 => Value::Fault(CellFault::NotFinite),
        Ok(decimal) => Value::Number(decimal.normalize()),
        Err(_) => Value::Fault(CellFault::NotFinite),
    }
}

/// The day of a date; a time of day without one as text. The 29th of February 1900, which some programs count and no
/// calendar has, stays text, so that it is told as impossible.
fn date_value(serial: f64, (year, month, day, ..): (u16, u8, u8, u8, u8, u8, u16)) -> Value {
    if (0.0..1.0).contains(&serial) {
        return time_value(serial);
    }
    let civil = i16::try_from(year).ok().zip(i8::try_from(month).ok()).zip(i8::try_from(day).ok());
    let in_range = serial.is_finite() && (0.0..2_958_466.0).contains(&serial);
    match civil.and_then(|((year, month), day)| Date::new(year, month, day).ok()) {
        Some(date) if in_range => Value::Date(date),
        _ => Value::Text(format!("{year:04}-{month:02}-{day:02}")),
    }
}

/// A part of a day, or more than one day, as hours and minutes.
fn time_value(days: f64) -> Value {
    let minutes = Decimal::try_from(days)
        .ok()
        .and_then(|days| days.checked_mul(Decimal::from(24 * 60)))
        .and_then(|minutes| u64::try_from(minutes.checked_add(Decimal::new(5, 1))?.floor()).ok());
    match minutes {
        Some(minutes) => Value::Text(format!("{}:{:02}", minutes / 60, minutes % 60)),
        None => Value::Fault(CellFault::NotFinite),
    }
}

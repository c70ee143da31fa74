//! The starter schedule as a workbook, a sheet for each table.

use super::{as_io, guarded};
use crate::report::starter::{STARTER, StarterTable};
use rust_xlsxwriter::{ColNum, DocProperties, ExcelDateTime, Format, Workbook, Worksheet, XlsxError};
use std::io;

/// Widths of the first column and of the others.
const WIDTHS: (u32, u32) = (22, 16);

/// The whole workbook; the same bytes every time.
pub fn starter() -> io::Result<Vec<u8>> {
    let mut workbook = Workbook::new();
    let created = ExcelDateTime::from_ymd(2000, 1, 1).map_err(as_io)?;
    workbook.set_properties(
        &DocProperties::new().set_title("Starter schedule, invented").set_creation_datetime(&created),
    );
    guarded(|| {
        for table in &STARTER {
            fill(workbook.add_worksheet().set_name(table.name)?, table)?;
        }
        workbook.save_to_buffer()
    })
}

fn fill(sheet: &mut Worksheet, table: &StarterTable) -> Result<(), XlsxError> {
    let (bold, note) = (Format::new().set_bold(), Format::new().set_italic());
    sheet.write_string_with_format(0, 0, table.note, &note)?;
    for column in 0..ColNum::try_from(table.width()).map_err(|_| XlsxError::RowColumnLimitError)? {
        sheet.set_column_width(column, if column == 0 { WIDTHS.0 } else { WIDTHS.1 })?;
    }
    // A blank row parts the note from the table.
    for (row, cells) in (2..).zip(table.rows) {
        for (column, cell) in (0..).zip(*cells).filter(|(_, cell)| !cell.is_empty()) {
            match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(row, column, number)?,
                Err(_) if row == 2 => sheet.write_string_with_format(row, column, *cell, &bold)?,
                Err(_) => sheet.write_string(row, column, *cell)?,
            };
        }
    }
    Ok(())
}

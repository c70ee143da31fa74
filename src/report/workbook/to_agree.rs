//! `to_agree.xlsx`: the tables in which people agree, with framed cells to fill in. Filled in, each is read as an
//! ordinary table of counts.

use super::{book, guarded, save};
use crate::report::comparison::Compared;
use crate::report::comparison::adjudication::AdjudicationTable;
use crate::report::folder::{OutputFolder, Written};
use crate::report::tables::Field;
use rust_xlsxwriter::{ColNum, Format, FormatAlign, FormatBorder, RowNum, Worksheet, XlsxError};
use std::io;

/// Stands above the headings. It holds no number and no unit, for it is read, too.
const ASKS: &str = "Write the agreed numbers of dents into the framed cells. A row that is left blank changes nothing; a \
                    framed cell that is left blank beside others is none.";
/// Widths of columns: what is read back, sizes, and what stands beside them to be read by people.
const WIDTHS: (u32, u32, u32) = (11, 10, 36);
/// Rows above the first panel.
const ABOVE: RowNum = 3;
/// Panels of a sheet, in the order of the batch; the text file beside it holds all of them.
const ROWS: usize = 20_000;
/// Said where there are more. No number in it, as above.
const MORE: &str = "This sheet holds the first panels only: the text file to_agree holds all of them.";
/// Lines of text that a row shows at most.
const LINES: u32 = 8;

/// Writes the workbook; nothing where nobody has anything to agree on.
pub fn write(
    compared: &Compared<'_>,
    tables: &[AdjudicationTable],
    folder: &OutputFolder,
    name: &str,
) -> io::Result<Option<Written>> {
    if tables.is_empty() {
        return Ok(None);
    }
    let mut workbook = book(folder, "Counts to agree on")?;
    guarded(|| {
        for (number, table) in tables.iter().enumerate() {
            let sheet = workbook.add_worksheet();
            sheet.set_name(if number == 0 {
                "To agree".to_owned()
            } else {
                format!("To agree {}", number + 1)
            })?;
            fill(sheet, compared, table)?;
        }
        Ok(())
    })?;
    save(workbook, folder, name).map(Some)
}

fn fill(sheet: &mut Worksheet, compared: &Compared<'_>, table: &AdjudicationTable) -> Result<(), XlsxError> {
    let bold = Format::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let heading = bold.clone().set_border_bottom(FormatBorder::Thin);
    let plain = Format::new().set_align(FormatAlign::Top).set_text_wrap();
    let beside = plain.clone().set_indent(1);
    let framed = Format::new().set_align(FormatAlign::Top).set_border(FormatBorder::Thin);
    sheet.write_string(0, 0, ASKS)?;
    if table.panels > ROWS {
        sheet.write_string(1, 0, MORE)?;
    }
    let is_size = |column: usize| table.sizes.contains(&column);
    for (number, name) in (0..).zip(&table.headings) {
        sheet.write_string_with_format(ABOVE - 1, number, name, &heading)?;
        let width = match usize::from(number) {
            column if is_size(column) => WIDTHS.1,
            column if column >= table.sizes.end => WIDTHS.2,
            _ => WIDTHS.0,
        };
        sheet.set_column_width(number, width)?;
    }
    for (row, fields) in (ABOVE..).zip(table.rows(compared).take(ROWS)) {
        let mut lines = 1;
        for (number, field) in fields.iter().enumerate() {
            let column = ColNum::try_from(number).map_err(|_| XlsxError::RowColumnLimitError)?;
            if is_size(number) {
                sheet.write_blank(row, column, &framed)?;
            } else if *field != Field::Blank {
                let text = field.plain();
                let (width, format) =
                    if number >= table.sizes.end { (WIDTHS.2, &beside) } else { (WIDTHS.0, &plain) };
                lines = lines.max(u32::try_from(text.chars().count()).unwrap_or(u32::MAX) / width + 1);
                sheet.write_string_with_format(row, column, text, format)?;
            }
        }
        sheet.set_row_height(row, 15 * lines.min(LINES))?;
    }
    sheet.set_freeze_panes(ABOVE, 0)?;
    sheet.set_repeat_rows(ABOVE - 1, ABOVE - 1)?;
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
    sheet.set_footer("&L&A&RPage &P of &N");
    Ok(())
}

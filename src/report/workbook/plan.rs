//! `plan.xlsx`: the calendar, and the tables of a plan.

use super::listing::{Listing, Long};
use super::{book, guarded, save};
use crate::report::folder::{OutputFolder, Written};
use crate::report::plan::{PlanOf, Week, sheets, weeks, words};
use rust_xlsxwriter::{ColNum, Format, FormatAlign, FormatBorder, RowNum, Workbook, Worksheet, XlsxError};
use std::io;

/// Widths of the columns of names and of days, in characters.
const WIDTHS: (u32, u32) = (26, 27);
/// Width of a sheet of sentences.
const SENTENCE: u32 = 100;
/// Height of a line of text, in points.
const LINE_HEIGHT: u32 = 15;
/// Lines that a row shows at most: a row of a sheet is no higher than 409 points.
const LINES: u32 = 27;
/// Rows of a sheet; the text file holds all of them.
const ROWS: usize = 100_000;

/// Writes the workbook.
pub fn write(of: &PlanOf<'_>, folder: &OutputFolder, name: &str) -> io::Result<Written> {
    let mut workbook = book(folder, "Plan of work")?;
    let weeks = weeks(of);
    guarded(|| {
        calendar(&mut workbook, &weeks)?;
        about(&mut workbook)?;
        for sheet in sheets(of) {
            let mut listing = Listing::new(&mut workbook, sheet.name, sheet.columns.to_vec(), Long::OneLine)?;
            for row in sheet.rows.iter().take(ROWS) {
                listing.row(row)?;
            }
            if listing.rows() > 0 {
                listing.filter()?;
            }
            if sheet.rows.len() > ROWS {
                listing.gap();
                listing.remark(&format!("{} more rows are in plan.csv.", sheet.rows.len() - ROWS))?;
            }
            listing.finish(&mut workbook)?;
        }
        Ok(())
    })?;
    save(workbook, folder, name)
}

/// Week below week: a row for each technician, a column for each day.
fn calendar(workbook: &mut Workbook, weeks: &[Week]) -> Result<(), XlsxError> {
    let sheet = workbook.add_worksheet();
    sheet.set_name("Calendar")?;
    let wrapped =
        Format::new().set_text_wrap().set_align(FormatAlign::Top).set_border_bottom(FormatBorder::Hair);
    let indented = wrapped.clone().set_indent(1);
    let bold = Format::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let heading = bold.clone().set_border_bottom(FormatBorder::Thin);
    sheet.write_string(0, 0, words::PROMISE)?;
    sheet.set_column_width(0, WIDTHS.0)?;
    let mut row: RowNum = 2;
    for week in weeks {
        sheet.write_string_with_format(row, 0, format!("Week from {}", week.from), &heading)?;
        for (column, day) in (1..).zip(&week.days) {
            let text = if day.open { day.words.clone() } else { format!("{} (closed)", day.words) };
            sheet.set_column_width(column, WIDTHS.1)?;
            sheet.write_string_with_format(row, column, text, &heading)?;
        }
        let last = ColNum::try_from(week.days.len() + 1).map_err(|_| XlsxError::RowColumnLimitError)?;
        sheet.write_string_with_format(row, last, "hours", &heading)?;
        row += 1;
        for technician in &week.rows {
            let name = format!("{}\n{}", technician.technician, technician.skills);
            sheet.write_string_with_format(row, 0, super::listing::clipped(&name), &wrapped)?;
            let mut lines = 2;
            for (column, cell) in (1..).zip(&technician.cells) {
                let work = cell.work.iter().map(|work| {
                    let goes_on = if work.goes_on { ", goes on" } else { "" };
                    let bay = work.bay.as_ref().map_or_else(String::new, |bay| format!(", {bay}"));
                    format!("{} {}: {}{goes_on}{bay}", work.claim, work.hours, work.step)
                });
                let work: Vec<String> = cell.off.then(|| "off".to_owned()).into_iter().chain(work).collect();
                let height =
                    |line: &String| u32::try_from(line.chars().count()).unwrap_or(LINES) / WIDTHS.1 + 1;
                lines = lines.max(work.iter().map(height).sum());
                let text = super::listing::clipped(&work.join("\n"));
                sheet.write_string_with_format(row, column, text, &indented)?;
            }
            sheet.write_string_with_format(row, last, &technician.sum, &wrapped)?;
            sheet.set_row_height(row, LINE_HEIGHT * lines.min(LINES))?;
            row += 1;
        }
        sheet.write_string_with_format(row, 0, "Hours of all", &bold)?;
        for (column, sum) in (1..).zip(&week.sums) {
            sheet.write_string_with_format(row, column, sum, &bold)?;
        }
        sheet.write_string_with_format(row, last, &week.sum, &bold)?;
        row += 2;
    }
    printed(sheet)
}

/// What a plan is, and its rule.
fn about(workbook: &mut Workbook) -> Result<(), XlsxError> {
    let sheet = workbook.add_worksheet();
    sheet.set_name("About")?;
    sheet.set_column_width(0, SENTENCE)?;
    let wrapped = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    for (row, text) in (0..).zip([words::PROMISE].into_iter().chain(words::RULE)) {
        let lines = u32::try_from(text.chars().count()).unwrap_or(LINES) / (SENTENCE - 10) + 1;
        sheet.write_string_with_format(row, 0, text, &wrapped)?;
        sheet.set_row_height(row, LINE_HEIGHT * lines)?;
    }
    printed(sheet)
}

fn printed(sheet: &mut Worksheet) -> Result<(), XlsxError> {
    sheet.set_freeze_panes(0, 1)?;
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
    sheet.set_footer("&LPlan of work: a plan, not a promise&RPage &P of &N");
    Ok(())
}

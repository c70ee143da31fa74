//! Workbooks to count in. Each table is one that the reader takes as it is; blank rows and cells say nothing.

mod columns;

use super::{guarded, properties};
use crate::report::form::{Body, CountForm, MOST_DENTS};
use columns::{Check, Column, car, counts, in_list, marks};
use rust_xlsxwriter::{
    DataValidation, DataValidationRule, ExcelDateTime, Format, FormatAlign, FormatBorder, RowNum, Workbook,
    Worksheet, XlsxError,
};
use std::io;

/// Stands above the tables. It is read, too: no unit, no colon and no label may stand in it.
const HOW: [&str; 3] = [
    "Write whole numbers of dents into the framed cells. Blank means that nobody looked. Write a 0 on a panel that was \
     looked at and is whole.",
    "Left and right are as seated, facing forward. Cells of words have a list to choose from.",
    "Dents beyond the largest size, creases and crowns are measured and stand among the marks, a row each.",
];
const HOW_SHEET: &str = "Fill in the claim, job, registration or VIN. Delete a sheet that you do not use.";
const HOW_LIST: &str = "Write the registration or the claim on every row, the same on all three sheets. A blank one is that of the row above.";
/// What is known of a car beside its tables, each a row of its own, so that a blank one is no value's neighbour.
const FACTS: [&str; 6] = ["claim", "job", "registration", "vin", "assessor", DATE];
const DATE: &str = "date of inspection";
/// Blank rows below the listed panels, and of marks.
const FURTHER: usize = 4;
const MARKS: usize = 14;
/// Blank rows of a list: cars, counts, marks.
const LISTED: [usize; 3] = [100, 1_000, 200];
/// Height of a row to write in, in points.
const ROW: u32 = 19;

/// A workbook with a sheet for each car.
pub fn sheets(form: &CountForm) -> io::Result<Vec<u8>> {
    let mut workbook = Workbook::new();
    guarded(|| {
        workbook.set_properties(&properties("Dent count")?);
        for body in &form.bodies {
            for copy in 1..=form.copies {
                let sheet = workbook.add_worksheet();
                let name =
                    if form.copies == 1 { body.name.to_owned() } else { format!("{} {copy}", body.name) };
                sheet.set_name(name)?;
                one_car(&mut Drawn { sheet, next: 0 }, form, body)?;
            }
        }
        workbook.save_to_buffer()
    })
}

/// A workbook with many cars in one table, and their marks and vehicles in two others.
pub fn list(form: &CountForm) -> io::Result<Vec<u8>> {
    let mut workbook = Workbook::new();
    let tables = [
        ("Cars", in_list(&car(form), form)),
        ("Counts", in_list(&counts(form, &form.kinds()), form)),
        ("Marks", in_list(&marks(form, &form.kinds()), form)),
    ];
    guarded(|| {
        workbook.set_properties(&properties("Dent counts")?);
        for ((name, columns), rows) in tables.iter().zip(LISTED) {
            let sheet = workbook.add_worksheet();
            sheet.set_name(*name)?;
            let mut drawn = Drawn { sheet, next: 0 };
            drawn.title(&format!("{name}, for {}", form.schedule))?;
            drawn.notes(&[HOW_LIST])?;
            if *name == "Counts" {
                drawn.notes(&HOW)?;
            }
            drawn.next += 1;
            let heading = drawn.next;
            drawn.table(columns, &[], rows)?;
            for (number, column) in (0..).zip(columns) {
                drawn.sheet.set_column_width(number, column.width)?;
            }
            drawn.sheet.set_freeze_panes(heading + 1, 0)?;
            drawn.sheet.set_repeat_rows(heading, heading)?;
            drawn.paper();
        }
        workbook.save_to_buffer()
    })
}

fn one_car(drawn: &mut Drawn<'_>, form: &CountForm, body: &Body) -> Result<(), XlsxError> {
    let kinds = body.kinds();
    let (counts, car, marks) = (counts(form, &kinds), car(form), marks(form, &kinds));
    drawn.title(&format!("Dent count of a car, {}, for {}", body.name, form.schedule))?;
    drawn.notes(&[HOW_SHEET])?;
    drawn.notes(&HOW)?;
    drawn.next += 1;
    for label in FACTS {
        drawn.fact(label)?;
    }
    drawn.next += 1;
    let panels: Vec<Vec<&str>> =
        body.panels.iter().map(|panel| [panel.kind].into_iter().chain(panel.side).collect()).collect();
    drawn.table(&counts, &panels, FURTHER)?;
    drawn.next += 1;
    drawn.caption("The car and its claim")?;
    let before_body = car.iter().take_while(|column| column.heading != "body type").map(|_| "");
    drawn.table(&car, &[before_body.chain([body.name]).collect()], 0)?;
    drawn.next += 1;
    drawn.caption("Marks that are measured one by one")?;
    drawn.table(&marks, &[], MARKS)?;
    for (number, column) in (0..).zip(counts.iter().chain(car.iter().skip(counts.len()))) {
        drawn.sheet.set_column_width(number, column.width)?;
    }
    drawn.paper();
    Ok(())
}

/// A sheet that is filled from the top down.
struct Drawn<'d> {
    sheet: &'d mut Worksheet,
    next: RowNum,
}

fn framed() -> Format {
    Format::new().set_align(FormatAlign::Top).set_border(FormatBorder::Thin)
}

impl Drawn<'_> {
    fn title(&mut self, text: &str) -> Result<(), XlsxError> {
        self.sheet.write_string_with_format(
            self.next,
            0,
            text,
            &Format::new().set_bold().set_font_size(14),
        )?;
        self.next += 1;
        Ok(())
    }

    fn caption(&mut self, text: &str) -> Result<(), XlsxError> {
        self.sheet.write_string_with_format(self.next, 0, text, &Format::new().set_bold())?;
        self.next += 1;
        Ok(())
    }

    fn notes(&mut self, notes: &[&str]) -> Result<(), XlsxError> {
        for note in notes {
            self.sheet.write_string(self.next, 0, *note)?;
            self.next += 1;
        }
        Ok(())
    }

    /// A label and room for its value over three columns.
    fn fact(&mut self, label: &str) -> Result<(), XlsxError> {
        let row = self.next;
        let check = if label == DATE { Check::Date } else { Check::Free };
        self.sheet.write_string(row, 0, label)?;
        self.sheet.merge_range(row, 1, row, 3, "", &format_of(&check))?;
        if let Some(rule) = rule(&check)? {
            self.sheet.add_data_validation(row, 1, row, 1, &rule)?;
        }
        self.sheet.set_row_height(row, ROW)?;
        self.next += 1;
        Ok(())
    }

    /// A table: its headings, rows whose first cells are filled in, and blank ones.
    fn table(&mut self, columns: &[Column], filled: &[Vec<&str>], blank: usize) -> Result<(), XlsxError> {
        let heading = framed().set_bold().set_text_wrap();
        let first = self.next + 1;
        let none = Vec::new();
        let rows = filled.iter().chain(std::iter::repeat_n(&none, blank));
        for (row, texts) in (first..).zip(rows) {
            for (number, column) in (0..).zip(columns) {
                match texts.get(usize::from(number)).filter(|text| !text.is_empty()) {
                    Some(text) => self.sheet.write_string_with_format(row, number, *text, &framed())?,
                    None => self.sheet.write_blank(row, number, &format_of(&column.check))?,
                };
            }
            self.sheet.set_row_height(row, ROW)?;
            self.next = row;
        }
        for (number, column) in (0..).zip(columns) {
            self.sheet.write_string_with_format(first - 1, number, &column.heading, &heading)?;
            if let Some(rule) = rule(&column.check)? {
                self.sheet.add_data_validation(first, number, self.next, number, &rule)?;
            }
        }
        self.next += 1;
        Ok(())
    }

    fn paper(&mut self) {
        self.sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
        self.sheet.set_margins(0.5, 0.5, 0.5, 0.6, 0.3, 0.3);
        self.sheet.set_footer("&L&A&RPage &P of &N");
    }
}

/// What a cell takes; nothing where it takes any text.
fn rule(check: &Check) -> Result<Option<DataValidation>, XlsxError> {
    let rule = DataValidation::new();
    let (rule, title, message) = match check {
        Check::Free => return Ok(None),
        Check::Word(words) => {
            (rule.allow_list_strings(words)?, "Not in the list", "Choose a word of the list.")
        }
        Check::Dents => (
            rule.allow_whole_number(DataValidationRule::Between(0, MOST_DENTS)),
            "No count",
            "Write a whole number of dents, 0 or more.",
        ),
        Check::Year => (
            rule.allow_whole_number(DataValidationRule::Between(1900, 2100)),
            "No year",
            "Write the year as four digits.",
        ),
        Check::Amount => (
            rule.allow_decimal_number(DataValidationRule::GreaterThanOrEqualTo(0.0)),
            "No amount",
            "Write a plain number, without a currency.",
        ),
        Check::Length => (
            rule.allow_decimal_number(DataValidationRule::GreaterThan(0.0)),
            "No length",
            "Write millimetres as a plain number.",
        ),
        Check::Date => (
            rule.allow_date(DataValidationRule::GreaterThanOrEqualTo(ExcelDateTime::from_ymd(2000, 1, 1)?)),
            "No date",
            "Write the date as year, month and day, such as 2026-06-14.",
        ),
    };
    Ok(Some(rule.set_error_title(title)?.set_error_message(message)?))
}

fn format_of(check: &Check) -> Format {
    match check {
        Check::Date => framed().set_num_format("yyyy-mm-dd").set_align(FormatAlign::Left),
        Check::Free | Check::Word(_) => framed().set_num_format("@"),
        Check::Dents | Check::Year | Check::Amount | Check::Length => framed(),
    }
}

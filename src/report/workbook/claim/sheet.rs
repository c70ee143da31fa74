//! A sheet of the claim workbook while it is filled: what every one of them has in common.

use super::plan::{at, column};
use super::rounding::quotient;
use crate::quantity::{Currency, Hours, Money};
use crate::report::workbook::listing::clipped;
use rust_xlsxwriter::{
    ColNum, Color, ConditionalFormatFormula, Format, FormatAlign, FormatBorder, Formula, RowNum, Workbook,
    Worksheet, XlsxError,
};

/// Height of a line of text, in points.
const LINE: u32 = 15;
/// Most lines of text that a row shows.
const LINES: usize = 12;
/// Minor units from which on a spreadsheet would not hold an amount exactly.
pub(super) const MOST: u64 = 100_000_000_000_000;

/// How cells are dressed; made once for a workbook.
pub(super) struct Dress {
    pub title: Format,
    pub text: Format,
    pub strong: Format,
    pub quiet: Format,
    /// Words right behind a number, which would touch it.
    pub beside: Format,
    pub quiet_beside: Format,
    pub quiet_right: Format,
    pub heading: Format,
    pub heading_right: Format,
    pub group: Format,
    pub amount: Format,
    pub total: Format,
    pub total_text: Format,
    pub value: Format,
    pub hours: Format,
    pub number: Format,
    pub percent: Format,
    pub framed: Format,
    pub status: Format,
    pub alarm: Format,
}

impl Dress {
    pub fn new(currency: Currency) -> Self {
        let money = match currency.decimals() {
            0 => "#,##0".to_owned(),
            decimals => format!("#,##0.{}", "0".repeat(decimals as usize)),
        };
        let plain = || Format::new().set_align(FormatAlign::Top);
        let number = |shape: &str| plain().set_num_format(shape);
        let heading = plain().set_bold().set_text_wrap().set_border_bottom(FormatBorder::Thin);
        let quiet = plain().set_text_wrap().set_font_color(Color::RGB(0x0059_5959));
        Self {
            title: plain().set_bold().set_font_size(16),
            text: plain().set_text_wrap(),
            strong: plain().set_bold().set_text_wrap(),
            beside: plain().set_text_wrap().set_align(FormatAlign::Left).set_indent(1),
            quiet_beside: quiet.clone().set_align(FormatAlign::Left).set_indent(1),
            quiet_right: quiet.clone().set_align(FormatAlign::Right),
            heading_right: heading.clone().set_align(FormatAlign::Right),
            heading,
            group: plain()
                .set_bold()
                .set_text_wrap()
                .set_border_top(FormatBorder::Hair)
                .set_align(FormatAlign::Left),
            amount: number(&money),
            total: number(&money).set_bold().set_border_top(FormatBorder::Thin),
            total_text: plain().set_bold().set_text_wrap().set_border_top(FormatBorder::Thin),
            value: number(&money).set_font_color(Color::RGB(0x0059_5959)),
            hours: number("0.0##"),
            number: number("#,##0.######"),
            percent: number("0.######\" %\""),
            framed: number("0").set_border(FormatBorder::Thin),
            status: plain().set_bold().set_text_wrap().set_border(FormatBorder::Thin).set_indent(1),
            alarm: Format::new().set_bold().set_background_color(Color::RGB(0x00FF_E699)),
            quiet,
        }
    }
}

/// A sheet and how its cells are dressed.
pub(super) struct Sheet<'w> {
    pub inner: &'w mut Worksheet,
    pub dress: &'w Dress,
    widths: Vec<u32>,
}

impl<'w> Sheet<'w> {
    /// A sheet with its title, its widths, and its print set-up.
    pub fn new(
        workbook: &'w mut Workbook,
        dress: &'w Dress,
        (name, title): (&str, &str),
        widths: &[u32],
    ) -> Result<Self, XlsxError> {
        let inner = workbook.add_worksheet();
        inner.set_name(name)?;
        for (number, width) in (0..).zip(widths) {
            inner.set_column_width(number, *width)?;
        }
        // One page wide on A4; on Letter it is scaled to fit.
        inner.set_paper_size(9).set_print_fit_to_pages(1, 0).set_margins(0.6, 0.6, 0.7, 0.7, 0.3, 0.3);
        inner.set_footer("&L&A&RPage &P of &N");
        inner.set_screen_gridlines(false);
        inner.write_string_with_format(0, 0, clipped(title), &dress.title)?;
        inner.set_row_height(0, 24)?;
        Ok(Self { inner, dress, widths: widths.to_vec() })
    }

    /// Landscape, for many columns.
    pub fn wide(&mut self) {
        self.inner.set_landscape();
    }

    /// Headings that stay in view and are repeated on every page; those of numbers stand right.
    pub fn headings(&mut self, row: RowNum, headings: &[(&str, bool)]) -> Result<(), XlsxError> {
        for (number, (heading, right)) in (0..).zip(headings) {
            let behind_number = !right && usize::from(number) > 0 && headings[usize::from(number) - 1].1;
            let format = match (right, behind_number) {
                (true, _) => self.dress.heading_right.clone(),
                (false, true) => self.dress.heading.clone().set_align(FormatAlign::Left).set_indent(1),
                (false, false) => self.dress.heading.clone(),
            };
            self.inner.write_string_with_format(row, number, clipped(heading), &format)?;
        }
        let texts: Vec<(usize, &str)> = headings.iter().map(|(heading, _)| *heading).enumerate().collect();
        self.height(row, &texts)?;
        self.inner.set_freeze_panes(row + 1, 0)?;
        self.inner.set_repeat_rows(row, row)?;
        Ok(())
    }

    /// Words over columns from the first on, as high as they need.
    pub fn words(&mut self, row: RowNum, last: ColNum, text: &str, format: &Format) -> Result<(), XlsxError> {
        self.inner.merge_range(row, 0, row, last, &clipped(text), format)?;
        let width: u32 = self.widths.iter().take(usize::from(last) + 1).sum();
        self.inner.set_row_height(row, LINE * lines(text, width))?;
        Ok(())
    }

    /// Text in a cell; nothing for no text.
    pub fn text(
        &mut self,
        row: RowNum,
        column: ColNum,
        text: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        if !text.is_empty() {
            self.inner.write_string_with_format(row, column, clipped(text), format)?;
        }
        Ok(())
    }

    /// As high as the texts of a row need in their columns.
    pub fn height(&mut self, row: RowNum, texts: &[(usize, &str)]) -> Result<(), XlsxError> {
        let needed =
            texts.iter().map(|(column, text)| lines(text, self.widths.get(*column).copied().unwrap_or(10)));
        self.inner.set_row_height(row, LINE * needed.max().unwrap_or(1))?;
        Ok(())
    }

    /// A number as its digits say it; as text where a spreadsheet would not hold it.
    pub fn number(
        &mut self,
        row: RowNum,
        column: ColNum,
        plain: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let digits = plain.bytes().filter(u8::is_ascii_digit).count();
        match plain.parse::<f64>() {
            Ok(value) if digits <= 15 => self.inner.write_number_with_format(row, column, value, format)?,
            _ => self.inner.write_string_with_format(row, column, plain, format)?,
        };
        Ok(())
    }

    /// An amount.
    pub fn money(
        &mut self,
        row: RowNum,
        column: ColNum,
        money: Money,
        format: &Format,
    ) -> Result<(), XlsxError> {
        self.number(row, column, &money.to_string(), format)
    }

    /// A time in hours; one that has no short decimal as seconds of an hour.
    pub fn time(
        &mut self,
        row: RowNum,
        column: ColNum,
        time: Hours,
        format: &Format,
    ) -> Result<(), XlsxError> {
        if time.seconds() % 36 == 0 {
            return self.number(row, column, &time.to_string(), format);
        }
        self.formula(row, column, &format!("{}/3600", time.seconds()), &hours(time), format)
    }

    /// A formula with our result.
    pub fn formula(
        &mut self,
        row: RowNum,
        column: ColNum,
        formula: &str,
        result: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let formula = Formula::new(format!("={formula}")).set_result(result);
        self.inner.write_formula_with_format(row, column, formula, format)?;
        Ok(())
    }

    /// Marks cells where a rule holds.
    pub fn mark_where(
        &mut self,
        first: (RowNum, ColNum),
        last: (RowNum, ColNum),
        rule: &str,
    ) -> Result<(), XlsxError> {
        let rule = ConditionalFormatFormula::new()
            .set_rule(format!("={rule}").as_str())
            .set_format(&self.dress.alarm);
        self.inner.add_conditional_format(first.0, first.1, last.0, last.1, &rule)?;
        Ok(())
    }
}

/// Hours in digits.
pub(super) fn hours(time: Hours) -> String {
    quotient(time.seconds().into(), 3600)
}

/// Lines that a text takes in a width, at most those that a row shows.
fn lines(text: &str, width: u32) -> u32 {
    // A width counts digits, and text runs a little narrower.
    let width = (width.max(1) * 21 / 20).max(1) as usize;
    let needed: usize = text.split('\n').map(|line| line.chars().count().div_ceil(width).max(1)).sum();
    at(needed.min(LINES))
}

/// The number of a column behind so many others.
pub(super) fn behind(columns: usize) -> ColNum {
    column(columns)
}

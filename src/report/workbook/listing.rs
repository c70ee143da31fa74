use crate::quantity::Date;
use crate::report::tables::{Column, Field, Kind};
use rust_xlsxwriter::{
    ColNum, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, RowNum, Url, Workbook, Worksheet,
    XlsxError,
};

/// Rows that a sheet can hold, less some for totals and remarks below.
const ROWS: RowNum = 1_048_500;
/// Longest text of a cell, in UTF-16 units.
const LONGEST_TEXT: usize = 32_767;
/// Digits that a spreadsheet's numbers hold exactly.
const EXACT_DIGITS: usize = 15;
/// Height of a line of text, in points.
const LINE_HEIGHT: u32 = 15;
/// Columns that two sheets of paper hold.
const MANY: usize = 24;
/// Narrowest and widest column, in characters.
const WIDTHS: (usize, usize) = (7, 46);

/// One sheet with headings that stay in view, filled row by row.
pub(super) struct Listing {
    sheet: Worksheet,
    columns: Vec<Column>,
    /// Characters of the widest cell of each column.
    widths: Vec<usize>,
    next: RowNum,
    /// Rows that the sheet had no room for.
    left_out: u64,
    rows: Dress,
    sums: Dress,
}

/// How long texts stand in a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Long {
    /// On one line: a listing that is skimmed.
    OneLine,
    /// Over several lines: sentences that are read.
    Wrapped,
}

impl Listing {
    /// A sheet with its headings.
    pub fn new(
        workbook: &mut Workbook,
        name: &str,
        columns: Vec<Column>,
        long: Long,
    ) -> Result<Self, XlsxError> {
        let mut sheet = workbook.new_worksheet_with_constant_memory()?;
        sheet.set_name(name)?;
        let heading = Format::new()
            .set_bold()
            .set_text_wrap()
            .set_align(FormatAlign::Top)
            .set_border_bottom(FormatBorder::Thin);
        // A heading may break between words, so its longest word counts.
        let longest = |column: &Column| column.name.split(' ').map(str::len).max().unwrap_or(0);
        let widths: Vec<usize> = columns.iter().map(longest).collect();
        let lines =
            columns.iter().zip(&widths).map(|(column, width)| lines_of(column.name, width_of(*width)));
        sheet.set_row_height(0, LINE_HEIGHT * lines.max().unwrap_or(1))?;
        for (number, column) in (0..).zip(&columns) {
            let align = if is_number(column.kind) { FormatAlign::Right } else { FormatAlign::Left };
            let indent = u8::from(follows_number(&columns, usize::from(number)));
            let heading = heading.clone().set_align(align).set_indent(indent);
            sheet.write_string_with_format(0, number, column.name, &heading)?;
        }
        sheet.set_freeze_panes(1, 1)?;
        sheet.set_repeat_rows(0, 0)?;
        // Two sheets of paper side by side, the claim on each: on one its figures would be too small to read. Three for a
        // listing of many columns.
        sheet.set_repeat_columns(0, 0)?;
        sheet
            .set_landscape()
            .set_paper_size(9)
            .set_print_fit_to_pages(if columns.len() > MANY { 3 } else { 2 }, 0);
        sheet.set_footer("&L&A&RPage &P of &N");
        let bold = Format::new().set_bold().set_border_top(FormatBorder::Thin);
        let plain = Format::new().set_align(FormatAlign::Top);
        let (rows, sums) = (Dress::new(&plain, long), Dress::new(&bold, Long::OneLine));
        Ok(Self { sheet, columns, widths, next: 1, left_out: 0, rows, sums })
    }

    /// Adds a row; returns whether there was room for it.
    pub fn row(&mut self, fields: &[Field]) -> Result<bool, XlsxError> {
        if self.next >= ROWS {
            self.left_out += 1;
            return Ok(false);
        }
        for (number, field) in (0..).zip(fields) {
            self.put(number, field, false)?;
        }
        self.next += 1;
        Ok(true)
    }

    /// Turns a text cell of the row that was added last into a link to another file.
    pub fn link(&mut self, column: ColNum, target: &str, text: &str) -> Result<(), XlsxError> {
        let url = Url::new(format!("file:///{target}")).set_text(clipped(text));
        // A link that the format cannot hold is no reason to lose the row: its text stands there already.
        match self.sheet.write_url(self.next - 1, column, url) {
            Ok(_) | Err(XlsxError::MaxUrlLengthExceeded) => Ok(()),
            Err(error) => Err(error),
        }
    }

    /// Adds a row of sums: a label that may run on over empty cells, and below each column named the sum of its cells, as a formula with its result.
    pub fn sums(
        &mut self,
        label: &str,
        (column, currency): (usize, &str),
        sums: &[(usize, String, Field)],
    ) -> Result<(), XlsxError> {
        self.sheet.write_string_with_format(self.next, 0, clipped(label), &self.sums.text)?;
        let number = ColNum::try_from(column).map_err(|_| XlsxError::RowColumnLimitError)?;
        self.put(number, &Field::text(currency), true)?;
        for (column, formula, result) in sums {
            let number = ColNum::try_from(*column).map_err(|_| XlsxError::RowColumnLimitError)?;
            if self.left_out == 0 && *result != Field::Blank {
                self.widen(*column, shown(result).len() + 1);
                let formula = Formula::new(formula).set_result(result.plain());
                self.sheet.write_formula_with_format(self.next, number, formula, self.sums.of(result))?;
            } else {
                self.put(number, result, true)?;
            }
        }
        self.next += 1;
        Ok(())
    }

    /// Adds a remark below the rows, over the columns.
    pub fn remark(&mut self, text: &str) -> Result<(), XlsxError> {
        self.sheet.write_string(self.next, 0, clipped(text))?;
        self.next += 1;
        Ok(())
    }

    /// Leaves a row free.
    pub fn gap(&mut self) {
        self.next += 1;
    }

    /// The cells of a column under the headings, as formulas name them; the rows added so far.
    pub fn range(&self, column: usize) -> String {
        let letters = crate::problem::column_letters(u16::try_from(column + 1).unwrap_or(u16::MAX));
        format!("{letters}2:{letters}{}", self.next.max(2))
    }

    /// Rows under the headings.
    pub fn rows(&self) -> RowNum {
        self.next - 1
    }

    /// Rows there was no room for.
    pub fn left_out(&self) -> u64 {
        self.left_out
    }

    /// Lets the reader pick rows by their values.
    pub fn filter(&mut self) -> Result<(), XlsxError> {
        let last = ColNum::try_from(self.columns.len().saturating_sub(1)).unwrap_or(ColNum::MAX);
        self.sheet.autofilter(0, 0, self.rows().max(1), last).map(|_| ())
    }

    /// Ends the sheet: its columns get their widths, and it joins the workbook.
    pub fn finish(mut self, workbook: &mut Workbook) -> Result<(), XlsxError> {
        for (number, width) in (0..).zip(&self.widths) {
            self.sheet.set_column_width(number, width_of(*width))?;
        }
        workbook.push_worksheet(self.sheet);
        Ok(())
    }

    fn widen(&mut self, column: usize, width: usize) {
        if let Some(widest) = self.widths.get_mut(column) {
            *widest = width.max(*widest);
        }
    }

    fn put(&mut self, column: ColNum, field: &Field, is_sum: bool) -> Result<(), XlsxError> {
        if *field == Field::Blank {
            return Ok(());
        }
        self.widen(usize::from(column), shown(field).chars().count());
        let dress = if is_sum { &self.sums } else { &self.rows };
        let format = match field {
            Field::Text(_) if follows_number(&self.columns, usize::from(column)) => &dress.indented,
            other => dress.of(other),
        };
        let (sheet, row) = (&mut self.sheet, self.next);
        let plain = field.plain();
        match field {
            Field::Blank | Field::Text(_) => {
                sheet.write_string_with_format(row, column, clipped(&plain), format)?
            }
            Field::Date(date) => match day(*date) {
                Some(day) => sheet.write_datetime_with_format(row, column, day, format)?,
                None => sheet.write_string_with_format(row, column, plain, format)?,
            },
            _ => match plain.parse::<f64>() {
                Ok(value) if digits(&plain) <= EXACT_DIGITS => {
                    sheet.write_number_with_format(row, column, value, format)?
                }
                // A spreadsheet would show other figures than ours.
                _ => sheet.write_string_with_format(row, column, plain, format)?,
            },
        };
        Ok(())
    }
}

/// How the cells of a row are dressed, by what they hold; made once, for a sheet has many cells.
struct Dress {
    text: Format,
    /// Words right behind a number, which would touch it.
    indented: Format,
    count: Format,
    decimal: Format,
    date: Format,
    /// Amounts by decimals of their currency, from none to four.
    money: [Format; 5],
}

impl Dress {
    fn new(base: &Format, long: Long) -> Self {
        let number = |shape: &str| base.clone().set_num_format(shape);
        let text = if long == Long::Wrapped { base.clone().set_text_wrap() } else { base.clone() };
        Self {
            indented: text.clone().set_align(FormatAlign::Left).set_indent(1),
            text,
            count: number("0"),
            decimal: number("0.##"),
            date: number("yyyy-mm-dd").set_align(FormatAlign::Left),
            money: ["#,##0", "#,##0.0", "#,##0.00", "#,##0.000", "#,##0.0000"].map(number),
        }
    }

    fn of(&self, field: &Field) -> &Format {
        match field {
            Field::Blank | Field::Text(_) => &self.text,
            Field::Count(_) => &self.count,
            Field::Hours(_) | Field::Percent(_) => &self.decimal,
            Field::Date(_) => &self.date,
            // A whole number has no decimals, a small coefficient enough to be read.
            Field::Number(number) => match number.normalize().scale() {
                0 => &self.money[0],
                1 | 2 => &self.money[2],
                3 => &self.money[3],
                _ => &self.money[4],
            },
            Field::Money(money) => {
                self.money.get(money.currency().decimals() as usize).unwrap_or(&self.money[2])
            }
        }
    }
}

/// The width of a column whose widest cell has so many characters.
fn width_of(characters: usize) -> u32 {
    u32::try_from((characters + 2).clamp(WIDTHS.0, WIDTHS.1)).unwrap_or(10)
}

/// Lines that a heading takes in a column of a width.
fn lines_of(heading: &str, width: u32) -> u32 {
    let mut lines = 1;
    let mut used = 0;
    for word in heading.split(' ') {
        let needed = u32::try_from(word.len()).unwrap_or(u32::MAX);
        if used > 0 && used + 1 + needed > width {
            lines += 1;
            used = needed;
        } else {
            used += needed + u32::from(used > 0);
        }
    }
    lines
}

/// Whether words stand right behind a column of numbers.
fn follows_number(columns: &[Column], number: usize) -> bool {
    let before = number.checked_sub(1).and_then(|before| columns.get(before));
    before.is_some_and(|before| is_number(before.kind))
        && columns.get(number).is_some_and(|column| !is_number(column.kind))
}

const fn is_number(kind: Kind) -> bool {
    !matches!(kind, Kind::Text | Kind::Date)
}

fn digits(plain: &str) -> usize {
    plain.bytes().filter(u8::is_ascii_digit).count()
}

/// A field about as the sheet shows it, for its width: amounts with their groups.
fn shown(field: &Field) -> String {
    let plain = field.plain();
    match field {
        Field::Money(_) | Field::Number(_) => {
            let groups = digits(plain.split('.').next().unwrap_or_default()) / 3;
            format!("{plain}{}", " ".repeat(groups))
        }
        _ => plain,
    }
}

/// A day as a spreadsheet counts it; `None` before the year 1900, which it does not know.
fn day(date: Date) -> Option<ExcelDateTime> {
    let year = u16::try_from(date.year()).ok()?;
    let (month, day) = (u8::try_from(date.month()).ok()?, u8::try_from(date.day()).ok()?);
    ExcelDateTime::from_ymd(year, month, day).ok()
}

/// Text that a cell can hold; what is cut off ends in three points.
pub(super) fn clipped(text: &str) -> String {
    if text.encode_utf16().count() <= LONGEST_TEXT {
        return text.to_owned();
    }
    let mut units = 0;
    let kept = text.chars().take_while(|c| {
        units += c.len_utf16();
        units < LONGEST_TEXT
    });
    kept.chain(['\u{2026}']).collect()
}

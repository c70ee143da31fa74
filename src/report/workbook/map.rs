//! Column maps as workbooks: a row for each heading or word, with a framed cell for what it means and a drop-down of what
//! it may mean. Filled in and put beside the files it is read like any other table.

use super::{as_io, guarded};
use rust_xlsxwriter::{
    ColNum, DataValidation, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, RowNum,
    Workbook, Worksheet, XlsxError,
};
use std::io;

/// A row of a column map.
#[derive(Debug, Clone, Default)]
pub struct MapRow {
    /// What is asked, or by which rule the meaning was found.
    pub says: String,
    /// Where the heading or the word first stands.
    pub place: String,
    /// How many cells it concerns.
    pub cells: String,
    /// The heading as it stands in the file.
    pub heading: String,
    /// The word as it stands in cells below the heading; empty where the row is about the heading.
    pub word: String,
    /// What it means; empty for a question.
    pub means: String,
    /// What it may mean, and what that changes.
    pub choices: Vec<(String, String)>,
    /// The heading row that it is said of.
    pub beside: String,
    /// The sheet and the file that it is said of; empty where it holds for others, too.
    pub of: (String, String),
}

/// Headings and widths of the columns; the reading stage knows them by these words.
const COLUMNS: [(&str, u32); 10] = [
    ("question", 36),
    ("where", 18),
    ("cells", 6),
    ("heading", 16),
    ("word", 15),
    ("means", 18),
    ("choices", 46),
    ("beside", 40),
    ("sheet", 12),
    ("file", 18),
];
/// The column of `means`.
const MEANS: ColNum = 5;
/// Choices that are written out with what they change; longer lists are read in the drop-down.
const SHOWN: usize = 8;
/// The last column that is printed: what follows ties the answer to its files, and would make the rest too small to read.
const LAST_PRINTED: ColNum = 6;
/// Where the answers of the drop-downs stand, right of a blank column.
const ANSWERS: ColNum = 11;

/// The bytes of the workbook. `says` heads the first column: `question`, or `rule`.
pub fn write(rows: &[MapRow], says: &str, title: &str) -> io::Result<Vec<u8>> {
    let mut workbook = Workbook::new();
    let created = ExcelDateTime::from_ymd(2000, 1, 1).map_err(as_io)?;
    workbook.set_properties(&DocProperties::new().set_title(title).set_creation_datetime(&created));
    guarded(|| {
        let sheet = workbook.add_worksheet();
        sheet.set_name(title)?;
        sheet
            .set_landscape()
            .set_paper_size(9)
            .set_print_fit_to_pages(1, 0)
            .set_margins(0.4, 0.4, 0.6, 0.6, 0.3, 0.3);
        fill(sheet, rows, says)?;
        workbook.save_to_buffer()
    })
}

fn fill(sheet: &mut Worksheet, rows: &[MapRow], says: &str) -> Result<(), XlsxError> {
    let heading = Format::new().set_bold().set_border_bottom(FormatBorder::Thin);
    let plain = Format::new().set_align(FormatAlign::Top).set_text_wrap();
    let framed = plain.clone().set_border(FormatBorder::Thin);
    for (column, (name, width)) in (0..).zip(COLUMNS) {
        sheet.write_string_with_format(0, column, if column == 0 { says } else { name }, &heading)?;
        sheet.set_column_width(column, width)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    let last = RowNum::try_from(rows.len()).unwrap_or(RowNum::MAX);
    sheet.set_print_area(0, 0, last, LAST_PRINTED)?;
    sheet.set_repeat_rows(0, 0)?;
    for (at, row) in (1..).zip(rows) {
        let choices: Vec<String> =
            row.choices.iter().map(|(answer, effect)| format!("{answer}: {effect}")).collect();
        let mut shown = choices.iter().take(SHOWN).cloned().collect::<Vec<_>>().join("\n");
        if choices.len() > SHOWN {
            shown.push_str("\n(more in the list)");
        }
        let (sheet_name, file) = (&row.of.0, &row.of.1);
        let said = [&row.says, &row.place, &row.cells, &row.heading, &row.word];
        let [says, place, cells, heading, word] = said;
        let texts = [says, place, cells, heading, word, &row.means, &shown, &row.beside, sheet_name, file];
        for (column, text) in (0..).zip(texts) {
            let format = if column == MEANS { &framed } else { &plain };
            if text.is_empty() {
                sheet.write_blank(at, column, format)?;
            } else {
                sheet.write_string_with_format(at, column, text, format)?;
            }
        }
        sheet.set_row_height(at, LINE * lines(&texts))?;
        offer(sheet, at, row)?;
    }
    Ok(())
}

/// Points that a line of text takes.
const LINE: u32 = 15;

/// How many lines the longest text of a row takes in its column.
fn lines(texts: &[&String; 10]) -> u32 {
    let of_line = |line: &str, width: u32| u32::try_from(line.chars().count()).unwrap_or(width) / width + 1;
    let of_text = |(text, (_, width)): (&&String, (&str, u32))| -> u32 {
        text.split('\n').map(|line| of_line(line, width)).sum()
    };
    texts.iter().zip(COLUMNS).map(of_text).max().unwrap_or(1)
}

/// The drop-down of a row. Its answers stand right of the table; anything else may be written, too.
fn offer(sheet: &mut Worksheet, at: RowNum, row: &MapRow) -> Result<(), XlsxError> {
    let mut last = ANSWERS;
    for (column, (answer, _)) in (ANSWERS..).zip(&row.choices) {
        sheet.write_string(at, column, answer)?;
        last = column;
    }
    if row.choices.is_empty() {
        return Ok(());
    }
    let letters = crate::problem::column_letters;
    let (from, to) = (letters(ANSWERS + 1), letters(last + 1));
    let answers = Formula::new(format!("=${from}${number}:${to}${number}", number = at + 1));
    let validation = DataValidation::new().allow_list_formula(answers).show_error_message(false);
    sheet.add_data_validation(at, MEANS, at, MEANS, &validation)?;
    Ok(())
}

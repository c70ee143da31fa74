//! ODS workbooks (`OpenDocument` 1.2, part 1, sections 9 and 19), cell by cell from `content.xml`. Values stand there as
//! text, so that numbers are exact. Repeated blank cells and rows cost nothing; repeated cells that hold something are
//! counted like all others.

use super::cell::{number_of_text, text_value};
use super::formats::{attribute, is_true};
use super::{Fault, MOST_COLUMNS, MOST_ROWS, RawSheet, UNREADABLE, Why, check_merges, in_order, most_cells};
use crate::problem::{Place, SourceId};
use crate::quantity::{Date, parse_date};
use crate::read::file::archive::Parts;
use crate::table::{Cell, CellFault, Merge, Row, Value};
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};
use std::collections::BTreeSet;
use std::io::BufRead;

/// Letters of one cell; more are cut off, as a spreadsheet does at some 32 thousand.
const MOST_LETTERS: usize = 65_536;

/// Reads a workbook whose container was held against its bounds. Hidden sheets come without cells.
pub(in crate::read) fn read(
    bytes: &[u8],
    source: impl FnMut(&str) -> SourceId,
) -> Result<Vec<RawSheet>, Fault> {
    let mut parts = Parts::of(bytes).ok_or_else(|| Fault::damaged(UNREADABLE))?;
    let part = parts.open("content.xml").ok_or_else(|| Fault::damaged("it has no content"))?;
    let mut content = Content {
        reader: Reader::from_reader(part),
        buffer: Vec::new(),
        hidden_styles: BTreeSet::new(),
        budget: most_cells(bytes.len()),
    };
    content.reader.config_mut().check_end_names = false;
    content.reader.config_mut().expand_empty_elements = true;
    let sheets = content.sheets(source)?;
    if sheets.is_empty() {
        return Err(Fault::damaged("it has no sheets"));
    }
    Ok(sheets)
}

/// `content.xml` while it is read.
struct Content<R: BufRead> {
    reader: Reader<R>,
    buffer: Vec<u8>,
    /// Styles of tables that are not displayed.
    hidden_styles: BTreeSet<String>,
    /// Cells that may still be kept.
    budget: usize,
}

/// What happens next in the file, as far as it matters.
enum Step {
    Start(BytesStart<'static>),
    End(String),
    Text(String),
    Other,
}

/// A cell as it stands in the file, before it is repeated.
struct Written {
    value: Option<Value>,
    is_share: bool,
    note: String,
    repeated: u32,
    rows_spanned: u32,
    columns_spanned: u32,
}

impl<R: BufRead> Content<R> {
    fn step(&mut self) -> Result<Step, Fault> {
        self.buffer.clear();
        match self.reader.read_event_into(&mut self.buffer) {
            Ok(Event::Start(element)) => Ok(Step::Start(element.into_owned())),
            Ok(Event::End(element)) => Ok(Step::End(element.name().as_ref().to_owned())),
            Ok(Event::Text(text)) => Ok(Step::Text(text.xml_content(XmlVersion::Implicit1_0).into_owned())),
            Ok(Event::CData(text)) => Ok(Step::Text(text.xml_content(XmlVersion::Implicit1_0).into_owned())),
            Ok(Event::GeneralRef(reference)) => {
                let known = quick_xml::escape::unescape(&format!("&{};", &*reference)).map(Into::into);
                Ok(Step::Text(known.unwrap_or_default()))
            }
            Ok(Event::Eof) => Err(Fault::damaged("its end is missing")),
            Ok(_) => Ok(Step::Other),
            Err(_) => Err(Fault::damaged(UNREADABLE)),
        }
    }

    fn sheets(&mut self, mut source: impl FnMut(&str) -> SourceId) -> Result<Vec<RawSheet>, Fault> {
        let (mut sheets, mut style) = (Vec::new(), String::new());
        loop {
            match self.step()? {
                Step::Start(element) => match element.name().as_ref() {
                    "style:style" => style = attribute(&element, "name").unwrap_or_default(),
                    "style:table-properties"
                        if attribute(&element, "display").as_deref() == Some("false") =>
                    {
                        self.hidden_styles.insert(style.clone());
                    }
                    "table:table" => {
                        let name = attribute(&element, "name").unwrap_or_default();
                        let style = attribute(&element, "style-name").unwrap_or_default();
                        let is_hidden = self.hidden_styles.contains(&style);
                        let mut sheet = RawSheet::new(name.clone(), source(&name), is_hidden);
                        let at = Place::whole(sheet.source);
                        self.table(&mut sheet).map_err(|fault| fault.at(at))?;
                        sheets.push(sheet);
                    }
                    _ => {}
                },
                Step::End(name) if name == "office:spreadsheet" => return Ok(sheets),
                _ => {}
            }
        }
    }

    fn table(&mut self, sheet: &mut RawSheet) -> Result<(), Fault> {
        let (mut row, mut column, mut inner) = (1_u32, 1_u32, 0_u32);
        loop {
            match self.step()? {
                Step::Start(element) => match element.name().as_ref() {
                    // A table inside a shape or a cell is none of this sheet's.
                    "table:table" => inner += 1,
                    _ if inner > 0 => {}
                    "table:table-column" => {
                        let repeated = repeated(&element, "number-columns-repeated")?;
                        if is_out_of_sight(&element) {
                            let first = u16::try_from(column).unwrap_or(u16::MAX);
                            let last = column.saturating_add(repeated - 1).min(u32::from(MOST_COLUMNS));
                            let last = u16::try_from(last).unwrap_or(MOST_COLUMNS);
                            sheet.hidden_columns.extend(first..=last);
                        }
                        column = column.saturating_add(repeated);
                    }
                    "table:table-row" => {
                        let repeated = repeated(&element, "number-rows-repeated")?;
                        let is_hidden = is_out_of_sight(&element);
                        self.row(sheet, row, repeated, is_hidden)?;
                        row = row.saturating_add(repeated);
                    }
                    _ => {}
                },
                Step::End(name) if name == "table:table" => {
                    if inner == 0 {
                        break;
                    }
                    inner -= 1;
                }
                _ => {}
            }
        }
        check_merges(&sheet.merges)?;
        sheet.rows = in_order(std::mem::take(&mut sheet.rows))?;
        Ok(())
    }

    /// One row, repeated as often as the file says.
    fn row(
        &mut self,
        sheet: &mut RawSheet,
        number: u32,
        repeated: u32,
        is_hidden: bool,
    ) -> Result<(), Fault> {
        let source = sheet.source;
        let row_place = |number| Place::row(source, number);
        let (mut column, mut cells, mut shares) = (1_u32, Vec::new(), Vec::new());
        loop {
            match self.step()? {
                Step::Start(element)
                    if matches!(element.name().as_ref(), "table:table-cell" | "table:covered-table-cell") =>
                {
                    let written = self.cell(&element)?;
                    let last = column.saturating_add(written.repeated - 1);
                    let is_something = written.value.is_some() || !written.note.is_empty();
                    if is_something && (last > u32::from(MOST_COLUMNS) || number > MOST_ROWS) {
                        let fault = Fault::damaged("a cell stands outside the sheet");
                        return Err(fault.at(row_place(number.min(MOST_ROWS))));
                    }
                    self.place(sheet, &written, (number, column), &mut cells, &mut shares)?;
                    column = last.saturating_add(1);
                }
                Step::End(name) if name == "table:table-row" => break,
                _ => {}
            }
        }
        let last = number.saturating_add(repeated - 1);
        if is_hidden && !cells.is_empty() {
            sheet.hidden_rows.extend(number..=last.min(MOST_ROWS));
        }
        if cells.is_empty() {
            return Ok(());
        }
        if last > MOST_ROWS {
            return Err(Fault::damaged("a cell stands outside the sheet").at(row_place(number)));
        }
        let more = cells.len().saturating_mul(usize::try_from(repeated - 1).unwrap_or(usize::MAX));
        self.take(more, Place::row(sheet.source, number))?;
        for number in number..=last {
            let moved =
                |cell: &Cell| Cell { place: Place::cell(sheet.source, number, cell.column), ..cell.clone() };
            sheet.rows.push(Row { number, cells: cells.iter().map(moved).collect() });
            sheet.shares.extend(shares.iter().map(|column| (number, *column)));
        }
        Ok(())
    }

    /// Puts a cell into its row as often as it is repeated.
    fn place(
        &mut self,
        sheet: &mut RawSheet,
        written: &Written,
        (row, column): (u32, u32),
        cells: &mut Vec<Cell>,
        shares: &mut Vec<u16>,
    ) -> Result<(), Fault> {
        let Ok(first) = u16::try_from(column) else { return Ok(()) };
        let place = Place::cell(sheet.source, row, first);
        if !written.note.is_empty() {
            sheet.notes.push((place, written.note.clone()));
        }
        if written.rows_spanned > 1 || written.columns_spanned > 1 {
            let last = (row.saturating_add(written.rows_spanned - 1)).min(MOST_ROWS);
            let right = column.saturating_add(written.columns_spanned - 1).min(u32::from(MOST_COLUMNS));
            sheet.merges.push(Merge {
                first_row: row,
                last_row: last,
                first_column: first,
                last_column: u16::try_from(right).unwrap_or(MOST_COLUMNS),
            });
        }
        let Some(value) = &written.value else { return Ok(()) };
        self.take(usize::try_from(written.repeated).unwrap_or(usize::MAX), place)?;
        let last = u16::try_from(column.saturating_add(written.repeated - 1)).unwrap_or(MOST_COLUMNS);
        for column in first..=last {
            let place = Place::cell(sheet.source, row, column);
            cells.push(Cell { place, column, value: value.clone(), spread: false });
            if written.is_share {
                shares.push(column);
            }
        }
        Ok(())
    }

    /// Takes cells out of the budget.
    fn take(&mut self, cells: usize, place: Place) -> Result<(), Fault> {
        let left = self.budget.checked_sub(cells);
        self.budget = left
            .ok_or_else(|| Fault::too_large("more cells than a workbook of its size can mean").at(place))?;
        Ok(())
    }

    /// A cell, read to its end.
    fn cell(&mut self, element: &BytesStart<'_>) -> Result<Written, Fault> {
        let (mut text, mut note, mut paragraphs) = (String::new(), String::new(), 0_u32);
        // How deep in a paragraph, in a note, and in what is neither (a table in a shape).
        let (mut in_paragraph, mut in_note, mut in_table) = (0_u32, 0_u32, 0_u32);
        let ending = element.name().as_ref().to_owned();
        loop {
            let out = if in_note > 0 { &mut note } else { &mut text };
            match self.step()? {
                Step::Start(inner) => match inner.name().as_ref() {
                    "table:table" => in_table += 1,
                    "office:annotation" => in_note += 1,
                    "text:p" | "text:h" => {
                        if in_note == 0 && in_table == 0 {
                            paragraphs += 1;
                        }
                        if !out.is_empty() && in_table == 0 {
                            out.push('\n');
                        }
                        in_paragraph += 1;
                    }
                    "text:s" if in_table == 0 => {
                        let spaces =
                            attribute(&inner, "c").and_then(|c| c.parse::<usize>().ok()).unwrap_or(1);
                        out.extend(std::iter::repeat_n(' ', spaces.min(100)));
                    }
                    "text:tab" if in_table == 0 => out.push('\t'),
                    "text:line-break" if in_table == 0 => out.push('\n'),
                    _ => {}
                },
                Step::Text(written) if in_paragraph > 0 && in_table == 0 && out.len() < MOST_LETTERS => {
                    out.push_str(&written);
                }
                Step::End(name) => match name.as_str() {
                    name if name == ending && in_table == 0 => break,
                    "table:table" => in_table = in_table.saturating_sub(1),
                    "office:annotation" => in_note = in_note.saturating_sub(1),
                    "text:p" | "text:h" => in_paragraph = in_paragraph.saturating_sub(1),
                    _ => {}
                },
                _ => {}
            }
        }
        let get = |name| attribute(element, name);
        let shown = (paragraphs > 0).then_some(text.as_str());
        let kind = get("value-type").unwrap_or_default();
        Ok(Written {
            value: value(element, &kind, shown),
            is_share: kind == "percentage",
            note: note.trim().to_owned(),
            repeated: repeated(element, "number-columns-repeated")?,
            rows_spanned: repeated(element, "number-rows-spanned")?,
            columns_spanned: repeated(element, "number-columns-spanned")?,
        })
    }
}

/// What a cell holds by its type, its stored value and the text that is shown.
fn value(element: &BytesStart<'_>, kind: &str, shown: Option<&str>) -> Option<Value> {
    let get = |name| attribute(element, name);
    let is_error = element
        .attributes()
        .with_checks(false)
        .flatten()
        .any(|found| found.key.as_ref() == "calcext:value-type" && found.value.as_ref() == "error");
    if is_error {
        return Some(Value::Fault(CellFault::Error(shown.unwrap_or("#N/A").to_owned())));
    }
    let number = || get("value").map_or(Value::Fault(CellFault::NoStoredValue), |text| number_of_text(&text));
    match kind {
        "float" | "percentage" => Some(number()),
        "currency" => Some(match (number(), get("currency")) {
            (Value::Number(number), Some(code)) => Value::Money(Box::new((number, code))),
            (value, _) => value,
        }),
        "date" => get("date-value").map(|text| date(&text)),
        "time" => get("time-value").map(|text| Value::Text(clock(&text).unwrap_or(text))),
        "boolean" => Some(Value::Bool(is_true(get("boolean-value").as_deref()))),
        "" if get("formula").is_some() => Some(Value::Fault(CellFault::NoStoredValue)),
        _ => get("string-value").as_deref().or(shown).and_then(text_value),
    }
}

fn date(text: &str) -> Value {
    let day = text.split('T').next().unwrap_or_default();
    parse_date(day).map_or_else(|_| Value::Text(text.to_owned()), |day: Date| Value::Date(day))
}

/// `PT01H30M00S` as `1:30`.
fn clock(text: &str) -> Option<String> {
    let (hours, rest) = text.strip_prefix("PT")?.split_once('H')?;
    let (minutes, _) = rest.split_once('M')?;
    let (hours, minutes) = (hours.parse::<u32>().ok()?, minutes.parse::<u32>().ok()?);
    Some(format!("{hours}:{minutes:02}"))
}

/// How often something stands in a row: at least once, and beyond the largest sheet no further.
fn repeated(element: &BytesStart<'_>, name: &str) -> Result<u32, Fault> {
    let Some(text) = attribute(element, name) else { return Ok(1) };
    let digits = text.trim();
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(Fault {
            why: Why::Damaged(format!("a cell is repeated \"{digits}\" times")),
            place: None,
        });
    }
    Ok(digits.parse::<u32>().unwrap_or(u32::MAX).clamp(1, MOST_ROWS * 4))
}

fn is_out_of_sight(element: &BytesStart<'_>) -> bool {
    matches!(attribute(element, "visibility").as_deref(), Some("collapse" | "filter"))
}

//! How a workbook shows its numbers: only percentages and currencies are of interest, since both change what a number
//! means. Dates are told by the library that reads workbooks.

use super::{format_code, parts};
use crate::read::file::archive::Parts;
use quick_xml::Reader;
use quick_xml::escape::unescape;
use quick_xml::events::{BytesStart, Event};
use std::collections::BTreeMap;
use std::io::BufRead;

/// What a format adds to a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Shown {
    /// A stored 0.5 is shown as 50 %.
    Share,
    /// The code of a currency, or its sign where it may be of several.
    Money(String),
}

/// Formats of cells by their number in the workbook, as far as they add something.
#[derive(Debug, Default)]
pub(super) struct Formats {
    by_style: BTreeMap<u32, Shown>,
}

/// An attribute of an element, unescaped.
pub(super) fn attribute(element: &BytesStart<'_>, name: &str) -> Option<String> {
    let found = element
        .attributes()
        .with_checks(false)
        .flatten()
        .find(|found| found.key.local_name().as_ref() == name)?;
    unescape(&found.value).ok().map(Into::into)
}

/// Whether an attribute says yes, as XML Schema writes it.
pub(super) fn is_true(value: Option<&str>) -> bool {
    matches!(value, Some("1" | "true"))
}

impl Formats {
    pub(super) fn of(parts: &mut Parts<'_>) -> Self {
        let workbook = parts::workbook(parts);
        let folder = workbook.rsplit_once('/').map_or("", |(folder, _)| folder);
        parts.open(&format!("{folder}/styles.xml")).map(read).unwrap_or_default()
    }

    pub(super) fn shown(&self, style: u32) -> Option<&Shown> {
        self.by_style.get(&style)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.by_style.is_empty()
    }
}

/// Reads a styles part as far as it can be read: without it numbers are taken as stored.
fn read(part: impl BufRead) -> Formats {
    let mut reader = Reader::from_reader(part);
    reader.config_mut().check_end_names = false;
    let (mut buffer, mut codes, mut formats) = (Vec::new(), BTreeMap::new(), Formats::default());
    // Percentages by number: the two that every workbook has.
    codes.insert(9, Shown::Share);
    codes.insert(10, Shown::Share);
    let (mut is_in_cells, mut style) = (false, 0_u32);
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer) {
            Ok(Event::Start(element) | Event::Empty(element)) => match element.local_name().as_ref() {
                "numFmt" => {
                    let id = attribute(&element, "numFmtId").and_then(|id| id.parse::<u32>().ok());
                    let code = attribute(&element, "formatCode");
                    if let Some((id, shown)) = id.zip(code.and_then(|code| format_code::shown(&code))) {
                        codes.insert(id, shown);
                    }
                }
                "cellXfs" => is_in_cells = true,
                "xf" if is_in_cells => {
                    let id = attribute(&element, "numFmtId").and_then(|id| id.parse::<u32>().ok());
                    if let Some(shown) = id.and_then(|id| codes.get(&id)) {
                        formats.by_style.insert(style, shown.clone());
                    }
                    style = style.saturating_add(1);
                }
                _ => {}
            },
            Ok(Event::End(element)) if element.local_name().as_ref() == "cellXfs" => return formats,
            Ok(Event::Eof) | Err(_) => return formats,
            Ok(_) => {}
        }
    }
}

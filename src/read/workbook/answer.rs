//! The other side of [`super::apart`]: reads an old workbook in a process that has set its own limits.

use super::cell::{guarded, merge, position, value};
use super::{UNREADABLE, wire};
use calamine::{Data, DataRef, Reader as _, SheetType, SheetVisible, Xls, Xlsb};
use std::io::{Cursor, Read, Write};

type Shown = Vec<(String, bool)>;

/// Reads a workbook from `input`, an XLS or XLSB file, and tells its cells to `output`. Sets limits of memory and
/// computing time for the whole process first: call it in a process of its own, and take an answer without its closing
/// line for none.
pub fn answer(mut input: impl Read, mut output: impl Write) -> std::io::Result<()> {
    let mut bytes = Vec::new();
    input.read_to_end(&mut bytes)?;
    limits::set(bytes.len())?;
    let mut out = String::new();
    let told = guarded(|| {
        if bytes.starts_with(b"PK") { xlsb(&bytes, &mut out, &mut output) } else { xls(&bytes, &mut out) }
    });
    match told {
        Ok(()) => wire::end(&mut out),
        Err(why) => wire::refusal(&mut out, &why),
    }
    output.write_all(out.as_bytes())?;
    output.flush()
}

fn shown(sheets: &[calamine::Sheet]) -> Shown {
    sheets
        .iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet)
        .map(|sheet| (sheet.name.clone(), sheet.visible != SheetVisible::Visible))
        .collect()
}

fn xls(bytes: &[u8], out: &mut String) -> Result<(), String> {
    let mut workbook = Xls::new(Cursor::new(bytes)).map_err(|_| UNREADABLE.to_owned())?;
    for (name, is_hidden) in shown(workbook.sheets_metadata()) {
        wire::sheet(out, &name, is_hidden);
        let merges = workbook.merge_cells_by_sheet_name(&name).map_err(|_| UNREADABLE.to_owned())?;
        merges
            .iter()
            .filter_map(|found| merge(found.start, found.end))
            .for_each(|found| wire::merge(out, found));
        let range = workbook.worksheet_range(&name).map_err(|_| UNREADABLE.to_owned())?;
        let (top, left) = range.start().unwrap_or_default();
        for (row, column, data) in range.used_cells() {
            let at = |start: u32, offset: usize| u32::try_from(offset).ok()?.checked_add(start);
            let place = at(top, row).zip(at(left, column)).and_then(position);
            let (row, column) = place.ok_or("a cell stands outside the sheet")?;
            if let Some(value) = value(&borrowed(data), false) {
                wire::cell(out, row, column, &value);
            }
        }
    }
    Ok(())
}

fn xlsb(bytes: &[u8], out: &mut String, output: &mut impl Write) -> Result<(), String> {
    const WORTH_SENDING: usize = 1 << 20;
    let mut workbook = Xlsb::new(Cursor::new(bytes)).map_err(|_| UNREADABLE.to_owned())?;
    for (name, is_hidden) in shown(workbook.sheets_metadata()) {
        wire::sheet(out, &name, is_hidden);
        let mut cells = workbook.worksheet_cells_reader(&name).map_err(|_| UNREADABLE.to_owned())?;
        while let Some(cell) = cells.next_cell().map_err(|_| UNREADABLE.to_owned())? {
            let Some(value) = value(cell.get_value(), false) else { continue };
            let (row, column) = position(cell.get_position()).ok_or("a cell stands outside the sheet")?;
            wire::cell(out, row, column, &value);
            if out.len() > WORTH_SENDING {
                output.write_all(out.as_bytes()).map_err(|error| error.to_string())?;
                out.clear();
            }
        }
    }
    Ok(())
}

fn borrowed(data: &Data) -> DataRef<'_> {
    match data {
        Data::Int(number) => DataRef::Int(*number),
        Data::Float(number) => DataRef::Float(*number),
        Data::String(text) => DataRef::SharedString(text),
        Data::Bool(value) => DataRef::Bool(*value),
        Data::DateTime(moment) => DataRef::DateTime(*moment),
        Data::DateTimeIso(text) => DataRef::DateTimeIso(text.clone()),
        Data::DurationIso(text) => DataRef::DurationIso(text.clone()),
        Data::Error(error) => DataRef::Error(error.clone()),
        Data::Empty => DataRef::Empty,
    }
}

#[cfg(unix)]
mod limits {
    use rustix::process::{Resource, Rlimit, setrlimit};

    /// Address space for the program itself and for what a small workbook needs, and more as the file is larger.
    const MEMORY: u64 = 256 << 20;
    const MEMORY_PER_BYTE: u64 = 6;
    const MOST_MEMORY: u64 = 2 << 30;

    pub(super) fn set(bytes: usize) -> std::io::Result<()> {
        let bytes = u64::try_from(bytes).unwrap_or(u64::MAX);
        let memory = MEMORY.saturating_add(bytes.saturating_mul(MEMORY_PER_BYTE)).min(MOST_MEMORY);
        // A limit that the system does not know (of address space, on some) is one less; the others hold.
        let _ = limit(Resource::As, memory);
        limit(Resource::Core, 0)?;
        limit(Resource::Cpu, super::super::apart::seconds(bytes))
    }

    fn limit(resource: Resource, most: u64) -> std::io::Result<()> {
        Ok(setrlimit(resource, Rlimit { current: Some(most), maximum: Some(most) })?)
    }
}

#[cfg(not(unix))]
mod limits {
    /// Other systems have no such limits: the process is ended when its time is over, and its answer is counted.
    #[expect(clippy::unnecessary_wraps, reason = "as where there are limits")]
    pub(super) fn set(_bytes: usize) -> std::io::Result<()> {
        Ok(())
    }
}

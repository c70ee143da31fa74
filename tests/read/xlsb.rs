//! A small XLSB workbook, record by record, since no free program writes one. Source: [MS-XLSB], 2.1.4 (records),
//! 2.4 (their content).

use crate::hostile::packed_bytes;
use crate::{Run, VEHICLES, panel, tally, write};
use tempfile::tempdir;

/// A record: its kind and length in groups of seven bits, then its content.
fn record(kind: u16, content: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let low = u8::try_from(kind & 0x7f).unwrap();
    if kind < 0x80 {
        out.push(low);
    } else {
        out.extend([low | 0x80, u8::try_from(kind >> 7).unwrap()]);
    }
    let mut length = content.len();
    while length >= 0x80 {
        out.push(u8::try_from(length & 0x7f).unwrap() | 0x80);
        length >>= 7;
    }
    out.push(u8::try_from(length).unwrap());
    out.extend(content);
    out
}

fn text(text: &str) -> Vec<u8> {
    let wide: Vec<u16> = text.encode_utf16().collect();
    let length = u32::try_from(wide.len()).unwrap().to_le_bytes();
    [length.to_vec(), wide.iter().flat_map(|unit| unit.to_le_bytes()).collect()].concat()
}

/// A workbook of one sheet with these cells; whole numbers are written as numbers.
pub(crate) fn workbook(rows: &[&[&str]]) -> Vec<u8> {
    let bundle =
        [0_u32.to_le_bytes().to_vec(), 1_u32.to_le_bytes().to_vec(), text("rId1"), text("S")].concat();
    let book = [record(0x83, &[]), record(0x9c, &bundle), record(0x90, &[]), record(0x84, &[])].concat();
    let mut sheet = [record(0x81, &[]), record(0x94, &[0; 16]), record(0x91, &[])].concat();
    for (row, cells) in (0_u32..).zip(rows) {
        sheet.extend(record(0, &[row.to_le_bytes().to_vec(), vec![0; 13]].concat()));
        for (column, cell) in (0_u32..).zip(*cells) {
            let head = [column.to_le_bytes(), [0; 4]].concat();
            sheet.extend(match cell.parse::<u32>() {
                Ok(number) => record(5, &[head, f64::from(number).to_le_bytes().to_vec()].concat()),
                Err(_) if cell.is_empty() => continue,
                Err(_) => record(6, &[head, text(cell)].concat()),
            });
        }
    }
    sheet.extend(record(0x92, &[]));
    let relations = "<Relationships><Relationship Id=\"rId1\" Type=\"x/worksheet\" Target=\"worksheets/sheet1.bin\"/></Relationships>";
    packed_bytes(&[
        ("[Content_Types].xml".to_owned(), b"<Types/>".to_vec()),
        ("xl/workbook.bin".to_owned(), book),
        ("xl/_rels/workbook.bin.rels".to_owned(), relations.into()),
        ("xl/worksheets/sheet1.bin".to_owned(), sheet),
    ])
}

#[test]
fn a_binary_workbook_is_read_like_any_other() {
    let rows: &[&[&str]] =
        &[&["claim", "panel", "0-10 mm", "11-20 mm"], &["A-1", "roof", "12", ""], &["A-1", "hood", "0", "3"]];
    let folder = tempdir().unwrap();
    let book = write(folder.path(), "counts.xlsb", &workbook(rows));
    let cars = write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[book, cars]);
    assert_eq!(run.of_files(), ["hidden-unseen counts.xlsb"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(12)), ("11-20 mm", None)]);
    assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(0)), ("11-20 mm", Some(3))]);
}

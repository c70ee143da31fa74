//! Files as they lie in folders: formats, encodings, names that lie, things that are no spreadsheets.

use crate::{Run, VEHICLES, panel, tally, write};
use rust_xlsxwriter::{Format, Workbook, Worksheet};
use stipple::claim::Claim;
use stipple::quantity::DecimalMark;
use tempfile::tempdir;

/// A sheet of texts; whole numbers are written as numbers.
fn fill(sheet: &mut Worksheet, rows: &[&[&str]]) {
    for (row, cells) in (0_u32..).zip(rows) {
        for (column, text) in (0_u16..).zip(*cells) {
            if text.is_empty() {
                continue;
            }
            match text.parse::<u32>() {
                Ok(number) => sheet.write_number(row, column, number).unwrap(),
                Err(_) => sheet.write_string(row, column, *text).unwrap(),
            };
        }
    }
}

fn workbook(rows: &[&[&str]]) -> Vec<u8> {
    let mut book = Workbook::new();
    fill(book.add_worksheet(), rows);
    book.save_to_buffer().unwrap()
}

/// A claim without what says where it was read.
fn without_places(claim: &Claim) -> String {
    crate::shuffled::without_places(claim)
}

#[test]
fn a_workbook_and_a_text_file_of_one_table_give_one_claim() {
    let rows: &[&[&str]] = &[
        &["Claim", "Panel", "0-10 mm", "11-20 mm", "material", "date of inspection"],
        &["A-1", "roof", "12", "", "steel", "2026-06-16"],
        &["A-1", "LF door", "0", "3", "alu", "2026-06-16"],
    ];
    let text: String = rows.iter().map(|row| row.join(";") + "\r\n").collect();
    let folder = tempdir().unwrap();
    let book = write(folder.path(), "counts.xlsx", &workbook(rows));
    let csv = write(folder.path(), "counts.csv", format!("\u{feff}{text}").as_bytes());
    let vehicles = write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let (one, other) = (Run::of(&[book, vehicles.clone()]), Run::of(&[csv, vehicles]));
    assert_eq!(one.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(without_places(one.claim("A-1")), without_places(other.claim("A-1")));
}

#[test]
fn merged_names_hold_for_all_their_rows_and_dates_are_days() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    sheet.set_name("Counts").unwrap();
    let rows: &[&[&str]] = &[
        &["Storm counts"],
        &["claim", "panel", "date of inspection", "0-10 mm", "11-20 mm"],
        &["", "roof", "", "12", "1"],
        &["", "hood", "", "3", ""],
    ];
    fill(sheet, rows);
    let plain = Format::new();
    sheet.merge_range(0, 0, 0, 4, "Storm counts", &plain).unwrap();
    sheet.merge_range(2, 0, 3, 0, "A-1", &plain).unwrap();
    let day = Format::new().set_num_format("dd/mm/yyyy");
    // 16 June 2026 in the 1900 system.
    sheet.merge_range(2, 2, 3, 2, "", &day).unwrap();
    sheet.write_number_with_format(2, 2, 46_189, &day).unwrap();
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", &book.save_to_buffer().unwrap());
    write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let claim = run.claim("A-1");
    assert_eq!(claim.inspections[0].date.unwrap().value.to_string(), "2026-06-16");
    assert_eq!(tally(panel(claim, "hood")), [("0-10 mm", Some(3)), ("11-20 mm", None)]);
    let place = panel(claim, "hood").tally[0].place;
    assert!(run.opened.sources.short(place).ends_with("counts.xlsx Counts!D4"));
}

#[test]
fn numbers_of_a_workbook_are_exact() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    fill(sheet, &[&["claim", "item", "price"], &["A-1", "lamp"]]);
    sheet.write_number(1, 2, 0.1 + 0.2).unwrap();
    let folder = tempdir().unwrap();
    write(folder.path(), "items.xlsx", &book.save_to_buffer().unwrap());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.claim("A-1").items[0].price.unwrap().value.amount.to_string(), "0.3");
}

#[test]
fn hidden_sheets_are_told_and_not_read() {
    let mut book = Workbook::new();
    fill(book.add_worksheet(), &[&["claim", "panel", "0-10 mm"], &["A-1", "roof", "4"]]);
    let hidden = book.add_worksheet();
    fill(hidden, &[&["claim", "panel", "0-10 mm"], &["A-1", "roof", "9"]]);
    hidden.set_hidden(true);
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", &book.save_to_buffer().unwrap());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_files(), ["sheet-hidden counts.xlsx Sheet2"]);
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(4))]);
}

#[test]
fn a_file_is_what_its_bytes_say_and_that_is_told() {
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    write(
        folder.path(),
        "vehicles.csv",
        &workbook(&[&["claim", "make", "insurer"], &["A-1", "Larch", "Alder"]]),
    );
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_files(), ["file-seems-other counts.xlsx", "file-seems-other vehicles.csv"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn what_is_no_spreadsheet_is_refused_by_name_and_left_out_in_a_folder() {
    let folder = tempdir().unwrap();
    let pdf = write(folder.path(), "report.pdf", b"%PDF-1.7 ...");
    write(folder.path(), "photo.jpg", b"\xff\xd8\xff\xe0");
    write(folder.path(), "notes.txt", b"call back");
    write(folder.path(), ".hidden.csv", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    write(folder.path(), "~$counts.xlsx", b"lock");
    assert_eq!(Run::of(&[folder.path().to_owned()]).of_files(), ["files-left-out", "folder-empty"]);
    let run = Run::of(&[pdf]);
    assert_eq!(run.of_files(), ["file-wrong-type report.pdf"]);
    assert!(run.problems[0].message.ends_with("is a PDF document"), "{}", run.problems[0].message);
    assert!(run.opened.files.is_empty());
}

#[test]
fn broken_locked_and_foreign_workbooks_are_refused_with_a_remedy() {
    let wide = |name: &str| name.encode_utf16().flat_map(u16::to_le_bytes).collect::<Vec<u8>>();
    let compound =
        |name: &str| [b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1".to_vec(), vec![0; 64], wide(name)].concat();
    let folder = tempdir().unwrap();
    write(folder.path(), "a.xls", &compound("Workbook"));
    write(folder.path(), "b.xlsx", &compound("EncryptedPackage"));
    write(folder.path(), "c.ods", &archive(&[("mimetype", "application/vnd.oasis.opendocument.text")]));
    write(folder.path(), "d.xlsb", &archive(&[("[Content_Types].xml", ""), ("xl/workbook.bin", "")]));
    write(folder.path(), "e.xls", b"<html><p>claim</p></html>");
    write(folder.path(), "f.csv", b"claim,panel\0\0");
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(
        run.of_files(),
        [
            "file-damaged a.xls",
            "file-locked b.xlsx",
            "file-wrong-type c.ods",
            "file-damaged d.xlsb",
            "file-wrong-type e.xls",
            "file-wrong-type f.csv"
        ]
    );
    assert!(run.problems.iter().all(|problem| problem.help.is_some()));
}

#[test]
fn damaged_and_overfull_workbooks_are_refused_whole() {
    let good = workbook(&[&["claim", "panel", "0-10 mm"], &["A-1", "roof", "4"]]);
    let folder = tempdir().unwrap();
    write(folder.path(), "cut.xlsx", &good[..good.len() / 2]);
    let no_sheets = archive(&[("[Content_Types].xml", "<Types/>"), ("xl/workbook.xml", "<workbook/>")]);
    write(folder.path(), "hollow.xlsx", &no_sheets);
    let texts = "<sst uniqueCount=\"99999999999\"></sst>";
    write(folder.path(), "texts.xlsx", &archive(&[("xl/workbook.xml", ""), ("xl/sharedStrings.xml", texts)]));
    let names: Vec<String> = (0..5000).map(|part| format!("part{part}")).collect();
    let parts: Vec<(&str, &str)> =
        names.iter().map(|name| (name.as_str(), "")).chain([("xl/workbook.xml", "")]).collect();
    write(folder.path(), "parts.xlsx", &archive(&parts));
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(
        run.of_files(),
        [
            "file-damaged cut.xlsx",
            "file-damaged hollow.xlsx",
            "file-too-large parts.xlsx",
            "file-damaged texts.xlsx"
        ]
    );
    let message = &run.problems[0].message;
    assert!(message.ends_with("is cut off or damaged: its end is missing"), "{message}");
    assert!(run.intakes.is_empty() && run.opened.files.is_empty());
}

#[test]
fn text_that_cannot_be_read_is_told_with_its_line() {
    let folder = tempdir().unwrap();
    write(folder.path(), "a.csv", b"claim,owner\nA-1,K\x81hler\n");
    write(folder.path(), "b.csv", b"claim,owner\nA-1,\"Smith\nA-2,Jones\n");
    write(folder.path(), "d.csv", b"");
    let run = Run::of(&[folder.path().to_owned(), folder.path().join("nowhere")]);
    assert_eq!(
        run.of_files(),
        ["file-missing", "file-not-utf8 a.csv row 2", "file-open-quote b.csv row 2", "file-empty d.csv"]
    );
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_told() {
    let folder = tempdir().unwrap();
    // A link to itself can be opened by nobody, whatever rights the tests run with.
    let looped = folder.path().join("loop.csv");
    std::os::unix::fs::symlink(&looped, &looped).unwrap();
    assert_eq!(Run::of(&[looped]).of_files(), ["file-unreadable"]);
}

#[test]
fn earlier_output_is_not_read_as_input_and_no_file_is_read_twice() {
    let folder = tempdir().unwrap();
    let counts = write(folder.path(), "in/counts.csv", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    write(folder.path(), "in/vehicles.csv", VEHICLES.as_bytes());
    write(folder.path(), "in/out/run.json", br#"{"tool":"stipple"}"#);
    write(folder.path(), "in/out/panels.csv", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    let run = Run::of(&[counts, folder.path().join("in")]);
    assert_eq!(run.of_files(), ["folder-left-out"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let names: Vec<&str> = run.opened.files.iter().filter_map(|file| file.path.rsplit('/').next()).collect();
    assert_eq!(names, ["counts.csv", "vehicles.csv"]);
}

#[test]
fn a_digest_is_that_of_the_bytes() {
    let folder = tempdir().unwrap();
    // Source: FIPS 180-2, appendix B.1: the digest of "abc".
    write(folder.path(), "a.csv", b"abc");
    let run = Run::of(&[folder.path().to_owned()]);
    let file = &run.opened.files[0];
    assert_eq!(file.bytes, 3);
    assert_eq!(file.sha256, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

#[test]
fn the_decimal_mark_is_proved_by_the_numbers_of_the_file() {
    let of = |text: &str| {
        let run = Run::texts(&[("a.csv", text)]);
        (run.opened.sheets[0].mark, run.opened.sheets[0].proof.is_some())
    };
    assert_eq!(of("item;price\nlamp;12,50\n"), (DecimalMark::Comma, true));
    assert_eq!(of("item;price\nlamp;12.5\n"), (DecimalMark::Point, true));
    assert_eq!(of("item;price\nlamp;12\n"), (DecimalMark::Comma, false));
    assert_eq!(of("item,price\nlamp,\"1,234\"\n"), (DecimalMark::Point, false));
}

#[test]
fn where_a_file_proves_both_marks_each_column_is_read_with_the_one_it_proves() {
    let run = Run::texts(&[(
        "marks.csv",
        "claim;make;panel;mark;length mm;width mm;depth\n\
         A-1;Larch;roof;crease;12,5;3.5;\nA-1;Larch;hood;crease;1,250;1.250;\n",
    )]);
    let claim = run.claim("A-1");
    let marks = claim.inspections[0].panels.iter().flat_map(|panel| &panel.marks);
    let shown: Vec<String> = marks
        .filter_map(|mark| Some(format!("{} x {}", mark.length.as_ref()?.value, mark.width.as_ref()?.value)))
        .collect();
    assert_eq!(shown, ["1.25 mm x 1.25 mm", "12.5 mm x 3.5 mm"]);
    assert!(!run.of_claim("A-1").iter().any(|said| said.starts_with("number-")), "{:?}", run.of_claim("A-1"));
}

/// A zip archive of stored parts.
fn archive(parts: &[(&str, &str)]) -> Vec<u8> {
    use std::io::Write as _;
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let stored = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    for (name, text) in parts {
        zip.start_file(*name, stored).unwrap();
        zip.write_all(text.as_bytes()).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

#[test]
fn a_named_text_file_is_read_whatever_it_is_called() {
    let folder = tempdir().unwrap();
    let counts = write(folder.path(), "counts.txt", b"job\tpanel\t0-10 mm\nJ1\troof\t4\n");
    let run = Run::of(&[counts]);
    assert_eq!(tally(panel(run.claim("J1"), "roof")), [("0-10 mm", Some(4))]);
}

//! One table in every kind of file that is read.

use crate::{Run, VEHICLES, panel, tally, write};
use rust_xlsxwriter::{Format, Note, Workbook};
use std::path::{Path, PathBuf};
use stipple::problem::Sources;
use tempfile::tempdir;

/// Files written by other programs: `counts.xlsx` by openpyxl 3.1, the others from it by `LibreOffice` 7.4.
fn written(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/read/written").join(name)
}

fn model(run: &Run) -> String {
    crate::shuffled::without_places(run.claim("A-1"))
}

#[test]
fn workbooks_of_three_kinds_by_two_programs_give_one_claim() {
    let xlsx = Run::of(&[written("counts.xlsx")]);
    assert_eq!(xlsx.of_claim("A-1"), Vec::<String>::new());
    let claim = xlsx.claim("A-1");
    assert_eq!(tally(panel(claim, "roof")), [("0-10 mm", Some(12)), ("11-20 mm", Some(3))]);
    assert_eq!(tally(panel(claim, "hood")), [("0-10 mm", Some(4)), ("11-20 mm", None)]);
    assert_eq!(claim.inspections[0].date.unwrap().value.to_string(), "2026-06-16");
    assert_eq!(claim.items[0].price.unwrap().value.amount.to_string(), "0.3");
    for other in ["counts.ods", "counts.xls"] {
        let run = Run::of(&[written(other)]);
        assert_eq!(run.of_claim("A-1"), expected_questions(other), "{other}");
        if other == "counts.ods" {
            assert_eq!(model(&run), model(&xlsx), "{other}");
        }
        let place = panel(run.claim("A-1"), "hood").tally[0].place;
        assert!(run.opened.sources.short(place).ends_with(&format!("{other} Counts!D4")));
    }
}

/// How a number is shown is not seen in an XLS workbook.
fn expected_questions(file: &str) -> Vec<String> {
    let asked = (file == "counts.xls").then(|| "percent-as-fraction counts.xls Cars!E2".to_owned());
    asked.into_iter().collect()
}

#[test]
fn hidden_sheets_of_every_workbook_are_told_and_not_read() {
    let of = |name| Run::of(&[written(name)]).of_files();
    let hidden = |name: &str| format!("sheet-hidden {name} Old");
    assert!(of("counts.xlsx").contains(&hidden("counts.xlsx")));
    assert!(of("counts.ods").contains(&hidden("counts.ods")), "{:?}", of("counts.ods"));
    assert!(of("counts.xls").contains(&hidden("counts.xls")), "{:?}", of("counts.xls"));
    assert!(of("counts.xls").contains(&"hidden-unseen counts.xls".to_owned()));
}

#[test]
fn a_workbook_is_read_as_what_it_is_under_any_name() {
    let folder = tempdir().unwrap();
    for (from, to) in [("counts.ods", "a.xlsx"), ("counts.xls", "b.xlsx"), ("counts.xlsx", "c.xls")] {
        std::fs::copy(written(from), folder.path().join(to)).unwrap();
    }
    for name in ["a.xlsx", "b.xlsx", "c.xls"] {
        let run = Run::of(&[folder.path().join(name)]);
        assert_eq!(run.of_files()[0], format!("file-seems-other {name}"));
        assert_eq!(tally(panel(run.claim("A-1"), "roof"))[0], ("0-10 mm", Some(12)));
    }
}

#[test]
fn hidden_rows_and_columns_of_a_workbook_are_found() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, text) in ["panel", "roof", "hood", "roof"].iter().enumerate() {
        sheet.write_string(u32::try_from(row).unwrap(), 0, *text).unwrap();
    }
    sheet.set_row_hidden(2).unwrap();
    sheet.set_column_hidden(3).unwrap();
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "a.xlsx", &book.save_to_buffer().unwrap());
    let run = Run::of(&[path]);
    let sheet = &run.opened.sheets[0];
    assert_eq!(sheet.hidden_rows.iter().collect::<Vec<_>>(), [&3]);
    assert_eq!(sheet.hidden_columns.iter().collect::<Vec<_>>(), [&4]);
}

#[test]
fn percentages_and_currencies_are_read_as_they_are_shown() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, text) in (0..).zip(["claim", "make", "insurer", "tax share", "excess"]) {
        sheet.write_string(0, column, text).unwrap();
    }
    for (column, text) in (0..).zip(["A-1", "Larch", "Alder Mutual"]) {
        sheet.write_string(1, column, text).unwrap();
    }
    sheet.write_number_with_format(1, 3, 0.125, &Format::new().set_num_format("0.0%")).unwrap();
    let euro = Format::new().set_num_format("#,##0.00\\ [$\u{20ac}-407]");
    sheet.write_number_with_format(1, 4, 1.234, &euro).unwrap();
    // Formatted and blank, in a row above.
    sheet.write_blank(0, 7, &euro).unwrap();
    let folder = tempdir().unwrap();
    write(folder.path(), "a.xlsx", &book.save_to_buffer().unwrap());
    write(folder.path(), "counts.csv", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let shown = format!("{:?}", run.claim("A-1"));
    assert!(shown.contains("Percent { micro: 12500000 }"), "{shown}");
    assert!(shown.contains("amount: 1.234, currency: Some(EUR)"), "{shown}");
}

#[test]
fn a_count_shown_with_a_currency_is_no_number_of_dents() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, text) in (0..).zip(["claim", "panel", "0-10 mm"]) {
        sheet.write_string(0, column, text).unwrap();
    }
    sheet.write_string(1, 0, "A-1").unwrap();
    sheet.write_string(1, 1, "roof").unwrap();
    sheet.write_number_with_format(1, 2, 12, &Format::new().set_num_format("0 \"EUR\"")).unwrap();
    let folder = tempdir().unwrap();
    write(folder.path(), "a.xlsx", &book.save_to_buffer().unwrap());
    write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_claim("A-1"), ["count-not-a-number a.xlsx Sheet1!C2"]);
}

#[test]
fn notes_at_cells_are_told() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    sheet.write_string(0, 0, "panel").unwrap();
    sheet.insert_note(3, 1, &Note::new("counted by the owner").set_author("nobody")).unwrap();
    sheet.insert_note(4, 1, &Note::new("twice")).unwrap();
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "a.xlsx", &book.save_to_buffer().unwrap());
    let run = Run::of(&[path]);
    assert_eq!(run.of_files()[0], "notes-unread a.xlsx Sheet1!B4");
    assert!(run.problems[0].message.starts_with("2 notes"), "{}", run.problems[0].message);
    let shown = stipple::problem::render_text(&run.problems[0], &run.opened.sources);
    assert!(shown.contains("counted by the owner"), "{shown}");
}

#[test]
fn dates_of_both_systems_are_the_same_days() {
    // 16 June 2026: 46 189 in the 1900 system, 1462 less in the 1904 one. Source: ECMA-376 part 1, 18.17.4.
    for (attribute, serial) in [("", "46189"), ("<workbookPr date1904=\"1\"/>", "44727")] {
        let book = crate::hostile::book_with(
            attribute,
            &format!("<row r=\"1\"><c r=\"A1\" s=\"1\"><v>{serial}</v></c></row>"),
        );
        let folder = tempdir().unwrap();
        let path = write(folder.path(), "a.xlsx", &book);
        let run = Run::of(&[path]);
        assert_eq!(run.opened.sheets[0].rows[0].cells[0].text(), "2026-06-16", "{attribute}");
    }
}

#[test]
fn links_to_other_workbooks_are_told() {
    let mut parts = crate::hostile::parts("", "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>");
    parts.push(("xl/externalLinks/externalLink1.xml".to_owned(), "<externalLink/>".to_owned()));
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "a.xlsx", &crate::hostile::packed(&parts));
    assert!(Run::of(&[path]).of_files().contains(&"workbook-linked a.xlsx".to_owned()));
}

#[test]
fn text_files_in_other_encodings_are_read_and_told() {
    let text = "claim;owner;make\r\nA-1;K\u{fc}hler;Larch\r\n";
    let wide = |mark: [u8; 2], order: fn(u16) -> [u8; 2]| {
        [mark.to_vec(), text.encode_utf16().flat_map(order).collect()].concat()
    };
    let old: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let folder = tempdir().unwrap();
    let files = [
        ("a.csv", wide([0xff, 0xfe], u16::to_le_bytes)),
        ("b.csv", wide([0xfe, 0xff], u16::to_be_bytes)),
        ("c.csv", old),
    ];
    for (name, bytes) in files {
        let path = write(folder.path(), name, &bytes);
        let run = Run::of(&[path]);
        assert_eq!(run.of_files()[0], format!("file-encoding {name}"));
        assert!(run.problems[0].help.as_ref().unwrap().contains("K\u{fc}hler"));
        assert!(format!("{:?}", run.claim("A-1")).contains("K\u{fc}hler"));
    }
}

#[test]
fn a_web_page_under_the_name_of_a_workbook_is_read() {
    let folder = tempdir().unwrap();
    let page = "<html><body><table><tr><th>claim</th><th>panel</th><th>0-10 mm</th></tr>\
                <tr><td rowspan=2>A-1</td><td>roof</td><td>4</td></tr><tr><td>hood</td><td>1</td></tr></table>";
    let path = write(folder.path(), "e.xls", page.as_bytes());
    let cars = write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[path, cars]);
    assert_eq!(run.of_files(), ["file-seems-other e.xls"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(1))]);
}

#[test]
fn cells_of_an_ods_workbook_keep_what_they_are() {
    let content = "<office:document-content><office:automatic-styles><style:style style:name=\"ta2\">\
        <style:table-properties table:display=\"false\"/></style:style></office:automatic-styles>\
        <office:body><office:spreadsheet><table:table table:name=\"S\">\
        <table:table-column/><table:table-column table:visibility=\"collapse\" table:number-columns-repeated=\"2\"/>\
        <table:table-row table:number-rows-repeated=\"2\"><table:table-cell table:number-columns-repeated=\"1024\"/></table:table-row>\
        <table:table-row table:visibility=\"filter\">\
        <table:table-cell office:value-type=\"float\" office:value=\"0.1\"><text:p>0,1</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"percentage\" office:value=\"0.5\"><text:p>50%</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"currency\" office:currency=\"EUR\" office:value=\"12\"><text:p>12</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"date\" office:date-value=\"2026-06-16T10:00:00\"/>\
        <table:table-cell office:value-type=\"time\" office:time-value=\"PT01H30M00S\"/>\
        <table:table-cell office:value-type=\"boolean\" office:boolean-value=\"true\"/>\
        <table:table-cell table:formula=\"of:=[.A1]\"/>\
        <table:table-cell office:value-type=\"string\" calcext:value-type=\"error\"><text:p>#REF!</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"string\"><office:annotation><text:p>say</text:p></office:annotation><text:p>a<text:s text:c=\"2\"/>&amp;</text:p><text:p>b</text:p></table:table-cell>\
        <table:table-cell table:number-columns-repeated=\"2\" office:value-type=\"string\"><text:p>x</text:p></table:table-cell>\
        </table:table-row></table:table><table:table table:name=\"T\" table:style-name=\"ta2\"/></office:spreadsheet></office:body></office:document-content>";
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "a.ods", &crate::hostile::ods(content));
    let run = Run::of(&[path]);
    let sheet = &run.opened.sheets[0];
    let cells: Vec<(String, String)> =
        sheet.rows[0].cells.iter().map(|cell| (Sources::position(cell.place), cell.text())).collect();
    let expected = [
        ("A3", "0.1"),
        ("B3", "50%"),
        ("C3", "12 EUR"),
        ("D3", "2026-06-16"),
        ("E3", "1:30"),
        ("F3", "true"),
        ("G3", "(formula without a stored value)"),
        ("H3", "#REF!"),
        ("I3", "a  &\nb"),
        ("J3", "x"),
        ("K3", "x"),
    ];
    let expected: Vec<(String, String)> = expected.iter().map(|(a, b)| ((*a).into(), (*b).into())).collect();
    assert_eq!(cells, expected);
    assert_eq!(sheet.hidden_rows.iter().collect::<Vec<_>>(), [&3]);
    assert_eq!(sheet.hidden_columns.iter().collect::<Vec<_>>(), [&2, &3]);
    assert_eq!(
        run.of_files()[..3],
        ["notes-unread a.ods S!I3", "part-hidden a.ods S!A3", "sheet-hidden a.ods T"]
    );
}

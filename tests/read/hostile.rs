//! Files that are broken, or made to break a reader: each is one clear problem, and the rest of the batch is done.

use crate::{Run, VEHICLES, panel, tally, write};
use std::io::Write as _;
use tempfile::tempdir;
use zip::write::SimpleFileOptions;

const SHEETS: &str = "<sheets><sheet name=\"S\" sheetId=\"1\" r:id=\"rId1\"/></sheets>";
/// The second style is a date.
const STYLES: &str =
    "<styleSheet><cellXfs count=\"2\"><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/></cellXfs></styleSheet>";

/// The parts of an XLSX workbook of one sheet: what stands before the list of sheets, and its rows.
pub(crate) fn parts(settings: &str, rows: &str) -> Vec<(String, String)> {
    let of_type = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    [
        ("[Content_Types].xml", "<Types/>".to_owned()),
        ("xl/workbook.xml", format!("<workbook>{settings}{SHEETS}</workbook>")),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships><Relationship Id=\"rId1\" Type=\"{of_type}/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"
            ),
        ),
        ("xl/styles.xml", STYLES.to_owned()),
        ("xl/worksheets/sheet1.xml", format!("<worksheet><sheetData>{rows}</sheetData></worksheet>")),
        (
            "_rels/.rels",
            format!(
                "<Relationships><Relationship Id=\"rId1\" Type=\"{of_type}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            ),
        ),
    ]
    .into_iter()
    .map(|(name, text)| (name.to_owned(), text))
    .collect()
}

pub(crate) fn packed(parts: &[(String, String)]) -> Vec<u8> {
    let parts: Vec<(String, Vec<u8>)> =
        parts.iter().map(|(name, text)| (name.clone(), text.clone().into_bytes())).collect();
    packed_bytes(&parts)
}

pub(crate) fn packed_bytes(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    for (name, content) in parts {
        zip.start_file(name.as_str(), SimpleFileOptions::default()).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

pub(crate) fn book_with(settings: &str, rows: &str) -> Vec<u8> {
    packed(&parts(settings, rows))
}

pub(crate) fn ods(content: &str) -> Vec<u8> {
    let parts = [
        ("mimetype", "application/vnd.oasis.opendocument.spreadsheet"),
        ("META-INF/manifest.xml", "<manifest/>"),
        ("content.xml", content),
    ];
    packed(&parts.map(|(name, text)| (name.to_owned(), text.to_owned())))
}

fn table(rows: &str) -> Vec<u8> {
    ods(&format!(
        "<office:document-content><office:spreadsheet><table:table table:name=\"S\">{rows}</table:table></office:spreadsheet></office:document-content>"
    ))
}

/// What is said of a file that stands beside a good claim, which must be read all the same.
fn said(name: &str, bytes: &[u8]) -> Vec<String> {
    let folder = tempdir().unwrap();
    let bad = write(folder.path(), name, bytes);
    let counts = write(folder.path(), "good.csv", b"claim,panel,0-10 mm\nA-1,roof,4\n");
    let cars = write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[bad, counts, cars]);
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(4))], "{name}");
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new(), "{name}");
    run.of_files()
}

#[test]
fn a_part_that_unpacks_to_far_more_than_it_weighs_is_refused() {
    let rows = " ".repeat(40 << 20);
    assert_eq!(said("bomb.xlsx", &book_with("", &rows)), ["file-too-large bomb.xlsx"]);
    assert_eq!(said("bomb.ods", &table(&rows)), ["file-too-large bomb.ods"]);
}

#[test]
fn entities_are_not_multiplied() {
    let mut parts = parts("", "<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>&d;</t></is></c></row>");
    parts[4]
        .1
        .insert_str(0, "<!DOCTYPE x [<!ENTITY a \"aaaaaaaa\"><!ENTITY b \"&a;&a;\"><!ENTITY d \"&b;&b;\">]>");
    let said = said("laughs.xlsx", &packed(&parts));
    assert_eq!(said.len(), 1, "{said:?}");
}

#[test]
fn two_cells_at_the_corners_of_a_sheet_are_two_cells() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row><row r=\"1048576\"><c r=\"XFD1048576\"><v>2</v></c></row>";
    let mut parts = parts("", rows);
    parts[4].1.insert_str(11, "<dimension ref=\"A1:XFD1048576\"/>");
    assert_eq!(said("wide.xlsx", &packed(&parts)), ["nothing-recognised wide.xlsx S"]);
}

#[test]
fn cells_outside_the_sheet_are_told_with_the_last_good_one() {
    for reference in ["XFE1", "A1048577", "ZZZZZZZZZZ1", "A99999999999", "AAAAAAAAAAAAAAAAAAAAAAA1"] {
        let rows = format!("<row r=\"1\"><c r=\"A1\"><v>1</v></c><c r=\"{reference}\"><v>2</v></c></row>");
        assert_eq!(said("far.xlsx", &book_with("", &rows)), ["file-damaged far.xlsx S!A1"], "{reference}");
    }
}

#[test]
fn repeated_cells_and_rows_are_bounded() {
    let blank = "<table:table-row table:number-rows-repeated=\"99999999999999999999\"><table:table-cell table:number-columns-repeated=\"4294967295\"/></table:table-row>";
    assert_eq!(said("blank.ods", &table(blank)), ["file-empty blank.ods"]);
    let cell = "<table:table-cell office:value-type=\"float\" office:value=\"1\" table:number-columns-repeated=\"16384\"/>";
    let full = format!("<table:table-row table:number-rows-repeated=\"1048576\">{cell}</table:table-row>");
    assert_eq!(said("full.ods", &table(&full)), ["file-too-large full.ods S!row 1"]);
    let beyond = "<table:table-row><table:table-cell office:value-type=\"float\" office:value=\"1\" table:number-columns-repeated=\"16385\"/></table:table-row>";
    assert_eq!(said("beyond.ods", &table(beyond)), ["file-damaged beyond.ods S!row 1"]);
    let slip = "<table:table-row table:number-rows-repeated=\"-5\"/>";
    assert_eq!(said("slip.ods", &table(slip)), ["file-damaged slip.ods S"]);
    let last = "<table:table-row table:number-rows-repeated=\"1048575\"/><table:table-row><table:table-cell office:value-type=\"float\" office:value=\"1\"/></table:table-row>";
    assert_eq!(said("last.ods", &table(last)), ["nothing-recognised last.ods S"]);
}

#[test]
fn cut_workbooks_are_told() {
    for name in ["counts.xlsx", "counts.ods", "counts.xls"] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/read/written").join(name);
        let whole = std::fs::read(path).unwrap();
        assert_eq!(said(name, &whole[..whole.len() / 2]), [format!("file-damaged {name}")]);
    }
}

#[test]
fn shared_texts_that_are_missing_are_told_after_the_last_good_cell() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>1</v></c><c r=\"B1\" t=\"s\"><v>7</v></c></row>";
    assert_eq!(said("texts.xlsx", &book_with("", rows)), ["file-damaged texts.xlsx S!A1"]);
    let rows = "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>99999999999999999999</v></c></row>";
    assert_eq!(said("texts.xlsx", &book_with("", rows)), ["file-damaged texts.xlsx S"]);
}

#[test]
fn numbers_that_are_none_dates_that_no_calendar_has_and_errors_stay_at_their_cells() {
    let cells = "<c r=\"A1\"><v>1e400</v></c><c r=\"B1\"><v>NaN</v></c><c r=\"C1\" s=\"1\"><v>99999999</v></c>\
                 <c r=\"D1\" t=\"e\"><v>#REF!</v></c><c r=\"E1\"><f>A1</f></c><c r=\"F1\"><v>1e-300</v></c>";
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "a.xlsx", &book_with("", &format!("<row r=\"1\">{cells}</row>")));
    let run = Run::of(&[path]);
    let texts: Vec<String> =
        run.opened.sheets[0].rows[0].cells.iter().map(stipple::table::Cell::text).collect();
    assert_eq!(texts[0], "(not a finite number)");
    assert_eq!(texts[1], "(not a finite number)");
    assert_eq!(texts[2], "########");
    assert_eq!(texts[3..], ["#REF!", "(formula without a stored value)", "(not a finite number)"]);
}

#[test]
fn a_million_blank_rows_cost_nothing_and_16_384_columns_are_read() {
    let rows = "<row/>".repeat(1_000_000);
    assert_eq!(said("blank.xlsx", &book_with("", &rows)), ["file-empty blank.xlsx"]);
    let cells: String = (0..16_384).map(|_| "<c><v>1</v></c>").collect();
    assert_eq!(
        said("wide.xlsx", &book_with("", &format!("<row>{cells}</row>"))),
        ["nothing-recognised wide.xlsx S"]
    );
    let cells: String = (0..16_385).map(|_| "<c><v>1</v></c>").collect();
    assert_eq!(
        said("wider.xlsx", &book_with("", &format!("<row>{cells}</row>"))),
        ["file-damaged wider.xlsx S!XFD1"]
    );
}

#[test]
fn a_workbook_within_a_password_is_told() {
    let parts = [
        ("mimetype", "application/vnd.oasis.opendocument.spreadsheet"),
        (
            "META-INF/manifest.xml",
            "<manifest><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest>",
        ),
        ("content.xml", "\u{1}\u{2}"),
    ];
    let bytes = packed(&parts.map(|(name, text)| (name.to_owned(), text.to_owned())));
    assert_eq!(said("secret.ods", &bytes), ["file-locked secret.ods"]);
}

#[test]
fn merged_cells_over_whole_sheets_are_bounded() {
    let mut parts = parts("", "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>");
    let merge = "<mergeCell ref=\"A1:XFD1048576\"/>".repeat(20);
    let end = parts[4].1.len() - "</worksheet>".len();
    parts[4].1.insert_str(end, &format!("<mergeCells>{merge}</mergeCells>"));
    assert_eq!(said("merged.xlsx", &packed(&parts)), ["file-too-large merged.xlsx S"]);
}

//! Every problem of reading, provoked at its cell; only its own claim drops out.

use crate::{Run, VEHICLES, panel, tally, write};
use rust_xlsxwriter::{Format, Formula, Workbook};
use tempfile::tempdir;

/// Problems of claim A-1 from rows below `claim,panel,0-10 mm,11-20 mm`; A-2 stays whole in every case.
fn of_rows(rows: &str) -> Vec<String> {
    let run = Run::counts(&format!("claim,panel,0-10 mm,11-20 mm\nA-2,roof,1,\n{rows}\n"));
    assert_eq!(run.of_claim("A-2"), Vec::<String>::new());
    assert_eq!(tally(panel(run.claim("A-2"), "roof")), [("0-10 mm", Some(1)), ("11-20 mm", None)]);
    run.of_claim("A-1")
}

/// The same from one count in C3.
fn of_count(count: &str) -> Vec<String> {
    of_rows(&format!("A-1,roof,{count},"))
}

/// The same from one panel's name in B3.
fn of_panel(name: &str) -> Vec<String> {
    of_rows(&format!("A-1,{name},1,"))
}

#[test]
fn counts_that_are_none_are_told_at_their_cell() {
    for (count, id) in [
        ("-3", "count-negative"),
        ("1.5", "count-fractional"),
        ("2001", "count-absurd"),
        ("99999999999999999999999999999999", "count-not-a-number"),
        ("123456789", "count-absurd"),
        ("abc", "count-not-a-number"),
        ("1e3", "count-not-a-number"),
        ("100+", "count-estimate"),
        ("~80", "count-estimate"),
        ("30-40", "count-estimate"),
        ("about 12", "count-estimate"),
        ("-", "count-word"),
        ("none", "count-word"),
        ("n/a", "count-word"),
        ("\"1,234\"", "number-both-ways"),
    ] {
        assert_eq!(of_count(count), [format!("{id} counts.csv C3")], "{count}");
    }
    assert_eq!(of_count("2000"), Vec::<String>::new());
    assert_eq!(of_count("0"), Vec::<String>::new());
}

#[test]
fn panels_that_cannot_be_understood_are_told_at_their_cell() {
    for (name, id) in [
        ("bonet", "panel-unknown"),
        ("left wung", "panel-unknown"),
        ("door", "panel-which"),
        ("fender", "side-missing"),
        ("left roof", "side-needless"),
        ("left right fender", "side-clash"),
        ("nearside wing", "side-relative"),
        ("sliding door", "panel-lacking"),
    ] {
        assert_eq!(of_panel(name), [format!("{id} counts.csv B3")], "{name}");
    }
    let run = Run::counts("claim,panel,0-10 mm\nA-1,bonet,1\nA-2,RR door,1\nA-3,left quarter panel,2\n");
    let help = |key: &str| run.intake(key).problems[0].help.clone().unwrap_or_default();
    assert_eq!(help("A-1"), "did you mean bonnet (hood)?");
    assert_eq!(help("A-2"), "there it has front door or quarter panel");
    assert_eq!(help("A-3"), "there it has rear van side");
    assert_eq!(of_rows("A-1,,4,"), ["panel-missing counts.csv row 3"]);
}

#[test]
fn a_panel_twice_under_one_inspection_names_both_cells() {
    let run =
        Run::counts("claim,panel,0-10 mm,11-20 mm\nA-1,roof,4,5\nA-1,roof,4,5\nA-2,roof,4,\nA-2,roof,,5\n");
    assert_eq!(run.of_claim("A-1"), ["panel-twice counts.csv C3"]);
    assert_eq!(run.intake("A-1").problems[0].also.len(), 1);
    assert_eq!(run.of_claim("A-2"), Vec::<String>::new(), "two rows for two sizes are one panel");
}

#[test]
fn a_total_that_differs_names_its_cell_and_the_first_it_adds_up() {
    let run = Run::counts(
        "claim,panel,0-10 mm,11-20 mm,total\n\
         A-1,roof,4,5,10\n\
         A-1,hood,1,,1\n\
         A-1,total,6,5,11\n",
    );
    assert_eq!(run.of_claim("A-1"), ["total-disagrees counts.csv E2", "total-disagrees counts.csv C4"]);
    assert!(!run.intake("A-1").is_stopped());
    let run = Run::counts("claim,panel,0-10 mm\nA-1,roof,4\nA-2,hood,1\nsum,,6\n");
    assert_eq!(run.of_files(), ["total-disagrees counts.csv C4"]);
}

#[test]
fn sizes_without_a_unit_or_turned_into_dates_are_asked_about() {
    let run = Run::counts("claim,panel,0-10,11-20\nA-1,roof,4,5\n");
    assert_eq!(run.of_claim("A-1"), ["size-without-unit counts.csv C1"]);
    let run = Run::counts("claim,panel,size,dents\nA-1,roof,0-10,5\nA-2,roof,,5\n");
    assert_eq!(run.of_claim("A-1"), ["size-without-unit counts.csv C2"]);
    assert_eq!(run.of_claim("A-2"), ["size-missing counts.csv D3"]);
    let run = Run::counts("claim,panel,0-2 mm,03-May\nA-1,roof,4,5\n");
    assert_eq!(run.of_claim("A-1"), ["size-is-date counts.csv D1"]);
}

#[test]
fn errors_formulas_and_merged_counts_of_a_workbook_are_told_at_their_cell() {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, heading) in (0_u16..).zip(["claim", "panel", "0-10 mm", "11-20 mm"]) {
        sheet.write_string(0, column, heading).unwrap();
    }
    for (row, (claim, name)) in
        (1_u32..).zip([("A-1", "roof"), ("A-2", "roof"), ("A-3", "roof"), ("A-3", "hood")])
    {
        sheet.write_string(row, 0, claim).unwrap();
        sheet.write_string(row, 1, name).unwrap();
    }
    sheet.write_formula(1, 2, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
    sheet.write_number_with_format(2, 2, 46_189, &Format::new().set_num_format("yyyy-mm-dd")).unwrap();
    sheet.merge_range(3, 2, 4, 2, "", &Format::new()).unwrap();
    sheet.write_number(3, 2, 12).unwrap();
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", &book.save_to_buffer().unwrap());
    write(folder.path(), "vehicles.csv", VEHICLES.as_bytes());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_claim("A-1"), ["cell-fault counts.xlsx Sheet1!C2"]);
    assert_eq!(run.of_claim("A-2"), ["count-is-date counts.xlsx Sheet1!C3"]);
    assert_eq!(run.of_claim("A-3"), ["count-merged counts.xlsx Sheet1!C4"]);
}

#[test]
fn a_formula_whose_result_was_never_stored_is_no_blank() {
    use std::io::Write as _;
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let stored = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    let cell = |at: &str, text: &str| format!(r#"<c r="{at}" t="inlineStr"><is><t>{text}</t></is></c>"#);
    let sheet = format!(
        r#"<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">{}{}{}</row><row r="2">{}{}<c r="C2"><f>A1+1</f></c></row></sheetData></worksheet>"#,
        cell("A1", "job"),
        cell("B1", "panel"),
        cell("C1", "0-10 mm"),
        cell("A2", "J1"),
        cell("B2", "roof"),
    );
    let office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let package = "http://schemas.openxmlformats.org/package/2006/relationships";
    let relation = |kind: &str, target: &str| {
        format!(
            r#"<Relationships xmlns="{package}"><Relationship Id="r1" Type="{office}/{kind}" Target="{target}"/></Relationships>"#
        )
    };
    let workbook = format!(
        r#"<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="{office}"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>"#
    );
    for (name, text) in [
        ("_rels/.rels", relation("officeDocument", "xl/workbook.xml")),
        ("xl/workbook.xml", workbook),
        ("xl/_rels/workbook.xml.rels", relation("worksheet", "worksheets/sheet1.xml")),
        ("xl/worksheets/sheet1.xml", sheet),
    ] {
        zip.start_file(name, stored).unwrap();
        zip.write_all(text.as_bytes()).unwrap();
    }
    let folder = tempdir().unwrap();
    write(folder.path(), "counts.xlsx", &zip.finish().unwrap().into_inner());
    let run = Run::of(&[folder.path().to_owned()]);
    assert_eq!(run.of_files(), Vec::<String>::new());
    assert_eq!(
        run.of_claim("J1"),
        ["job-without-vehicle counts.xlsx S!row 2", "cell-fault counts.xlsx S!C2"]
    );
}

#[test]
fn lengths_are_told_at_their_cell() {
    let run = Run::texts(&[
        (
            "marks.csv",
            "job,panel,mark,length\nJ1,roof,crease,80\nJ2,roof,crease,long\nJ3,roof,crease,-5 mm\nJ4,roof,,5 mm\n",
        ),
        ("vehicles.csv", "job,make\nJ1,Larch\nJ2,Larch\nJ3,Larch\nJ4,Larch\n"),
    ]);
    assert_eq!(run.of_claim("J1"), ["length-without-unit marks.csv D2"]);
    assert_eq!(run.of_claim("J2"), ["length-unreadable marks.csv D3"]);
    assert_eq!(run.of_claim("J3"), ["length-unreadable marks.csv D4"]);
    assert_eq!(run.of_claim("J4"), ["row-incomplete marks.csv row 5"]);
}

#[test]
fn rows_that_belong_to_no_claim_or_to_two_are_told() {
    let run = Run::texts(&[
        ("counts.csv", "claim,registration,panel,0-10 mm\n,,roof,4\n,AB 1,hood,1\n"),
        ("vehicles.csv", "claim,registration,make,insurer\nA-1,AB 1,Larch,Alder\nA-2,AB 1,Larch,Alder\n"),
    ]);
    assert_eq!(run.of_files(), ["key-missing counts.csv row 2"]);
    for key in ["A-1", "A-2"] {
        assert!(
            run.of_claim(key).contains(&"key-ambiguous counts.csv B3".to_owned()),
            "{:?}",
            run.of_claim(key)
        );
    }
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, heading) in (0_u16..).zip(["claim", "make", "insurer"]) {
        sheet.write_string(0, column, heading).unwrap();
        sheet.write_string(1, column, "Larch").unwrap();
    }
    sheet.write_number_with_format(1, 0, 46_189, &Format::new().set_num_format("d-mmm")).unwrap();
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "v.xlsx", &book.save_to_buffer().unwrap());
    assert_eq!(Run::of(&[path]).of_files(), ["key-unreadable v.xlsx Sheet1!A2"]);
}

#[test]
fn facts_that_contradict_each_other_name_both_cells() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm,material\nA-1,roof,4,alu\nA-1,roof,,steel\nA-2,roof,1,\n"),
        ("v1.csv", "claim,make,insurer\nA-1,Larch,Alder\nA-2,Larch,Alder\n"),
        ("v2.csv", "claim,make\nA-1,larch\nA-2,Birch\n"),
    ]);
    assert_eq!(run.of_claim("A-1"), ["facts-disagree counts.csv D3"]);
    assert_eq!(run.of_claim("A-2"), ["facts-disagree v2.csv B3"]);
    assert_eq!(run.intake("A-2").problems[0].also.len(), 1);
}

#[test]
fn vehicles_and_counts_without_each_other_are_told() {
    let run = Run::texts(&[
        ("counts.csv", "claim,job,panel,0-10 mm\nA-O1,,roof,4\n,J1,roof,4\n"),
        ("vehicles.csv", "claim,make,insurer\nA-01,Larch,Alder\nA-02,Larch,\nA-02,Larch,\n"),
        ("more.csv", "claim,panel,0-10 mm\nA-02,roof,1\n"),
    ]);
    assert_eq!(run.of_claim("A-O1"), ["claim-without-vehicle counts.csv row 2"]);
    assert_eq!(run.intake("A-O1").problems[0].help.as_deref(), Some("did you mean A-01?"));
    assert!(run.intake("A-O1").is_stopped());
    assert_eq!(run.of_claim("J1"), ["job-without-vehicle counts.csv row 3"]);
    assert_eq!(run.of_claim("A-01"), ["vehicle-without-counts vehicles.csv row 2"]);
    assert_eq!(
        run.of_claim("A-02"),
        ["claim-twice vehicles.csv row 4", "claim-without-insurer vehicles.csv row 4"]
    );
}

#[test]
fn words_dates_and_numbers_of_a_vehicle_are_told_at_their_cell() {
    let run = Run::texts(&[
        ("counts.csv", "job,panel,0-10 mm\nJ1,roof,4\nJ2,roof,4\nJ3,roof,4\n"),
        (
            "vehicles.csv",
            "job,make,body type,date of loss,year,excess,market value,salvage,tax share\n\
             J1,Larch,hatchbak,30.02.2026,21,-5,12 XQX,much,120\n\
             J2,Larch,,05/06/2026,2021,$300,,,\n\
             J3,Larch,,soon,,,,,\n",
        ),
    ]);
    assert_eq!(
        run.of_claim("J1"),
        [
            "word-unknown vehicles.csv C2",
            "date-impossible vehicles.csv D2",
            "number-unreadable vehicles.csv E2",
            "amount-unreadable vehicles.csv F2",
            "currency-wrong vehicles.csv G2",
            "amount-unreadable vehicles.csv H2",
            "number-unreadable vehicles.csv I2",
        ]
    );
    assert_eq!(
        run.intake("J1").problems[0].help.as_deref(),
        Some("did you mean hatchback or notchback (sedan)?")
    );
    assert_eq!(run.of_claim("J2"), ["date-ambiguous vehicles.csv D3", "currency-open vehicles.csv F3"]);
    assert_eq!(run.of_claim("J3"), ["date-unreadable vehicles.csv D4"]);
}

#[test]
fn an_item_taken_off_or_replaced_is_asked_about() {
    let run = Run::texts(&[
        ("items.csv", "job,item,action,price USD\nJ1,lamp,R&R,12 EUR\nJ2,lamp,R&I,12\n,,,13\n"),
        ("vehicles.csv", "job,make\nJ1,Larch\nJ2,Larch\n"),
    ]);
    let of = |key| run.of_claim(key).into_iter().filter(|said| !said.contains("vehicle")).collect::<Vec<_>>();
    assert_eq!(of("J1"), ["word-open items.csv C2", "currency-wrong items.csv D2"]);
    assert_eq!(of("J2"), ["row-incomplete items.csv row 4"]);
    assert_eq!(run.claim("J2").items[0].action.unwrap().value.name(), "refit");
}

#[test]
fn a_vin_is_a_hint_and_in_north_america_a_warning() {
    let run = Run::texts(&[(
        "vehicles.csv",
        "claim,make,insurer,market,vin\n\
         A-1,Larch,Alder,,1G4AH59H55G118341\n\
         A-2,Larch,Alder,USA,1G4AH59H55G118341\n\
         A-3,Larch,Alder,Germany,1G4AH59H55G118341\n\
         A-4,Larch,Alder,,1G4AH59H45G11834\n\
         A-5,Larch,Alder,,WP0ZZZ99ZTS392124\n\
         A-6,Larch,Alder,Canada,1O4AH59H45G118341\n",
    )]);
    let ids = |key: &str| {
        let said = run.of_claim(key);
        said.into_iter().filter(|said| said.starts_with("vin")).collect::<Vec<_>>()
    };
    assert_eq!(ids("A-1"), ["vin-odd vehicles.csv E2"]);
    assert_eq!(ids("A-2"), ["vin-wrong vehicles.csv E3"]);
    assert_eq!(ids("A-3"), Vec::<String>::new());
    assert_eq!(ids("A-4"), ["vin-odd vehicles.csv E5"]);
    assert_eq!(ids("A-5"), Vec::<String>::new());
    assert_eq!(ids("A-6"), ["vin-wrong vehicles.csv E7"]);
}

#[test]
fn sheets_without_a_known_table_are_told_with_the_nearest() {
    let run = Run::texts(&[
        ("a.csv", "shopping,list\nmilk,2\n"),
        ("b.csv", "claim,pannel,0-10 mm,11-20 mm\nA-1,roof,4,5\n"),
        ("c.csv", "panel,colour of the sky\nroof,grey\n"),
    ]);
    assert_eq!(
        run.of_files(),
        ["nothing-recognised a.csv", "table-incomplete b.csv row 1", "nothing-recognised c.csv"]
    );
    let help = run.problems[1].help.as_deref().unwrap();
    assert!(help.contains("\"pannel\": did you mean `panel`?"), "{help}");
    assert!(run.problems[1].message.contains("wide counts") && run.problems[1].message.contains("`panel`"));
}

#[test]
fn a_heading_that_fits_two_tables_is_told_and_what_is_below_it_not_used() {
    let run =
        Run::texts(&[("a.csv", "job,panel,0-10 mm\nJ1,roof,4\n\njob,panel,paid,part price\nJ1,hood,4,5\n")]);
    assert_eq!(run.of_files(), ["heading-ambiguous a.csv row 4"]);
    assert_eq!(run.claim("J1").inspections[0].panels.len(), 1);
    assert!(run.claim("J1").parts.is_empty() && run.claim("J1").paid_before.is_empty());
}

#[test]
fn unknown_and_repeated_columns_are_told() {
    let run = Run::counts("claim,panel,0-10 mm,materal,panels,weather\nA-1,roof,4,alu,hood,wet\n");
    assert_eq!(
        run.of_files(),
        ["column-unknown counts.csv D1", "column-twice counts.csv E1", "column-unknown counts.csv F1"]
    );
    assert_eq!(run.problems[0].help.as_deref(), Some("did you mean `material`?"));
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn text_beside_and_below_a_table_is_told() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,roof,4,seen by A. Sample\n\nAll counted at noon.\n");
    assert_eq!(run.of_files(), ["text-unread counts.csv D2"]);
    assert_eq!(run.problems[0].written.as_deref(), Some("seen by A. Sample"));
}

#[test]
fn html_formulas_and_paths_in_cells_do_no_harm() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm,remark\n../../x,roof,4,=HYPERLINK(1)\n"),
        ("vehicles.csv", "claim,make,owner,insurer\n../../x,Larch,<script>alert(1)</script>,Alder\n"),
    ]);
    let claim = run.claim("../../x");
    assert_eq!(claim.parties.owner.as_ref().unwrap().value, "<script>alert(1)</script>");
    assert_eq!(panel(claim, "roof").remarks[0].value, "=HYPERLINK(1)");
    assert_eq!(run.of_claim("../../x"), Vec::<String>::new());
}

//! What `schedule check` and `schedule show` print, and which tables make a schedule.

use crate::support::{Tables, sheet};
use stipple::cli::schedule::{Printed, report};
use stipple::problem::{Source, SourceKind};
use stipple::quantity::{Decimal, DecimalMark, Percent};
use stipple::read::Opened;
use stipple::schedule::{forms, groups};
use stipple::table::{Table, recognise};

/// A check as it is without options.
fn verdict() -> Printed {
    Printed::Verdict { cliff: Percent::from_decimal(Decimal::ONE_HUNDRED).unwrap(), all: false }
}

/// Exit code, result, and what is told beside it.
fn printed(opened: &Opened, printed: Printed) -> (u8, String, String) {
    let (mut out, mut aside) = (Vec::new(), Vec::new());
    let code = report(opened, forms(), printed, &mut out, &mut aside).unwrap();
    (code.code(), String::from_utf8(out).unwrap(), String::from_utf8(aside).unwrap())
}

/// The page's tables as the sheets of a workbook, or the files of a folder.
fn add(opened: &mut Opened, tables: &Tables, home: &str, kind: SourceKind) {
    for (name, text) in &tables.0 {
        let source = match kind {
            SourceKind::Sheet => Source { file: home.to_owned(), sheet: name.clone(), kind },
            SourceKind::Text => Source { file: format!("{home}{name}.csv"), sheet: String::new(), kind },
        };
        let source = opened.sources.add(source);
        opened.sheets.push(sheet(source, text, DecimalMark::Point));
    }
}

#[test]
fn a_check_prints_problems_and_a_verdict_and_ends_with_its_exit_code() {
    let (code, out, aside) = printed(&Tables::of_the_page().opened(), verdict());
    assert_eq!((code, aside.as_str()), (0, ""));
    assert_eq!(
        out,
        "example/: Example for the page of the tables, edition 1 stands; nothing to say about it\n\n"
    );
    let warned = Tables::of_the_page().with("flat", "133", "70").with("sizes", "27 mm,45", "28 mm,45");
    let (code, out, _) = printed(&warned.opened(), verdict());
    assert_eq!(code, 0, "warnings do not keep a schedule from standing");
    assert!(out.ends_with("edition 1 stands; 3 warnings, 1 note\n\n"), "{out}");
    let broken = warned.with("terms", "EUR", "EURO");
    let (code, out, _) = printed(&broken.opened(), verdict());
    assert_eq!(code, 1);
    let first = "error: currency: EURO is no ISO 4217 code (schedule-name-unknown)\n  at example/terms.csv, line 6, column B\n  written: EURO\n  \
                 Nearest: EUR\n";
    assert!(out.starts_with(first), "{out}");
    assert!(out.ends_with("example/: the schedule does not stand; 1 error, 1 note\n\n"), "{out}");
}

#[test]
fn nothing_that_is_a_schedule_ends_with_2() {
    let (code, out, _) = printed(&Opened::default(), verdict());
    assert_eq!(
        (code, out.as_str()),
        (2, "error: no table of a schedule was found (schedule-tables-none)\n\n")
    );
}

#[test]
fn several_schedules_are_each_told_and_one_that_fails_fails_the_check() {
    let mut opened = Opened::default();
    add(&mut opened, &Tables::of_the_page(), "storm/north.xlsx", SourceKind::Sheet);
    add(&mut opened, &Tables::of_the_page().without("taxes"), "storm/house/", SourceKind::Text);
    let (code, out, _) = printed(&opened, verdict());
    assert_eq!(code, 1);
    assert!(out.contains("storm/north.xlsx: Example for the page of the tables, edition 1 stands"), "{out}");
    assert!(out.contains("storm/house/: the schedule does not stand; 1 error\n"), "{out}");
    let (code, out, aside) = printed(&opened, Printed::Tables);
    assert_eq!((code, out.matches("Size bands").count()), (1, 1));
    assert!(aside.contains("error: the schedule has no taxes"), "{aside}");
}

#[test]
fn two_workbooks_and_a_folder_of_files_are_three_schedules() {
    let mut opened = Opened::default();
    let page = Tables::of_the_page();
    add(&mut opened, &page, "storm/north.xlsx", SourceKind::Sheet);
    add(&mut opened, &page, "storm/south.xlsx", SourceKind::Sheet);
    add(&mut opened, &page, "storm/house/", SourceKind::Text);
    let counts = opened.sources.add(Source {
        file: "storm/counts.csv".to_owned(),
        sheet: String::new(),
        kind: SourceKind::Text,
    });
    opened.sheets.push(sheet(counts, "claim,panel,0-10 mm\nA-1,hood,3", DecimalMark::Point));
    let tables: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    let groups = groups(&tables, &opened.sources);
    let homes: Vec<(&str, usize)> = groups
        .iter()
        .map(|tables| (stipple::schedule::home(opened.sources.get(tables[0].sheet.source)), tables.len()))
        .collect();
    assert_eq!(homes, [("storm/north.xlsx", 14), ("storm/south.xlsx", 14), ("storm/house/", 14)]);
}

#[test]
fn what_was_understood_is_shown_with_its_cells() {
    let (code, out, aside) = printed(&Tables::of_the_page().opened(), Printed::Tables);
    assert_eq!(code, 0);
    assert!(aside.ends_with("stands; nothing to say about it\n\n"));
    let digest = Tables::of_the_page().read().stands().digest.clone();
    let without_digests: Vec<String> = out
        .lines()
        .filter(|line| !line.contains("  example/"))
        .map(|line| line.replace(&digest, "(digest)") + "\n")
        .collect();
    let without_digests = without_digests.concat();
    assert_eq!(without_digests, include_str!("understood.txt"), "\n{without_digests}");
}

#[test]
fn data_holds_every_value_with_its_cell() {
    let (code, out, _) = printed(&Tables::of_the_page().opened(), Printed::Data);
    let data: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(code, 0);
    assert_eq!(data[0]["edition"], "1");
    assert_eq!(data[0]["files"].as_array().unwrap().len(), 14);
    let tables = data[0]["tables"].as_array().unwrap();
    let flat = tables.iter().find(|table| table["table"] == "Rates of flat (EUR)").unwrap();
    assert_eq!(flat["columns"][2], "medium");
    assert_eq!(flat["rows"][1][2], serde_json::json!({ "value": "133.00", "cell": "example/flat.csv C6" }));
}

#[test]
fn of_many_warnings_of_a_kind_the_first_are_printed_and_the_rest_counted_and_errors_all() {
    let mut tables = Tables::of_the_page();
    for number in 0..9 {
        tables = tables.plus("factors", &format!("taken off {number},access,open,{},,-5,,", 10 + number));
    }
    let opened = tables.opened();
    let (code, out, _) = printed(&opened, verdict());
    assert_eq!((code, out.matches("(schedule-takes-off)").count()), (0, 5), "{out}");
    assert!(out.contains("and 4 more schedule-takes-off: --all prints them"), "{out}");
    assert!(out.contains("9 warnings"), "{out}");
    let Printed::Verdict { cliff, .. } = verdict() else { panic!() };
    let (_, out, _) = printed(&opened, Printed::Verdict { cliff, all: true });
    assert_eq!(out.matches("(schedule-takes-off)").count(), 9);
    let mut wrong = Tables::of_the_page();
    for number in 0..9 {
        wrong = wrong.plus("terms", &format!("no such term {number},1"));
    }
    let (_, out, _) = printed(&wrong.opened(), verdict());
    assert_eq!(out.matches("(schedule-name-unknown)").count(), 9, "{out}");
}

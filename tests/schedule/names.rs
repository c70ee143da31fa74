//! Names, headings and tables that are not known, and what is told beside them.

use crate::support::{Tables, read, sheet};
use stipple::problem::{Source, SourceId, SourceKind};
use stipple::quantity::DecimalMark;
use stipple::read::Opened;
use stipple::schedule::forms;
use stipple::table::recognise;

fn page() -> Tables {
    Tables::of_the_page()
}

/// Table, a text in it, a slip for it, what is then told, and the help.
const UNKNOWN: &[(&str, &str, &str, &str, &str)] = &[
    (
        "terms",
        "readying",
        "redying",
        "terms.csv A12 | term: redying share is not known",
        "Nearest: readying share",
    ),
    ("terms", "EUR", "EURO", "terms.csv B6 | currency: EURO is no ISO 4217 code", "Nearest: EUR"),
    (
        "terms",
        "half away",
        "half way",
        "terms.csv B9 | rounding: half way from zero is not known",
        "Nearest: half away from zero",
    ),
    (
        "terms",
        "each band",
        "each bnad",
        "terms.csv B10 | mixed sizes: each bnad is not known",
        "Nearest: each band",
    ),
    ("terms", "tenths", "tents", "terms.csv B11 | time unit: tents is not known", "Nearest: tenths"),
    (
        "terms",
        "at least",
        "above",
        "terms.csv B16 | total loss when: above is not known",
        "One of: over, at least",
    ),
    (
        "terms",
        "cash with tax,no",
        "cash with tax,perhaps",
        "terms.csv B19 | cash with tax: perhaps is not known",
        "One of: yes, no",
    ),
    ("labour", "refinish", "refinsh", "labour.csv A5 | labour: refinsh is not known", "Nearest: refinish"),
    (
        "panels",
        "horizontal,bolted",
        "horizonal,bolted",
        "panels.csv C2 | lies: horizonal is not known",
        "Nearest: horizontal",
    ),
    ("side", "small,1-4", "smal,1-4", "side.csv B2 | size band: smal is not known", "Nearest: small"),
    ("side", "small,1-4", "small,1-5", "side.csv C2 | count band: 1-5 is not known", "Nearest: 1-4"),
    ("side", "2.9,panel", "2.9,car", "side.csv E7 | per: car is not known", "One of: panel, dent"),
    ("flat", "rated as,flat", "rated as,flet", "flat.csv B2 | group: flet is not known", "Nearest: flat"),
    ("flat", "medium", "medum", "flat.csv C4 | size band: medum is not known", "Nearest: medium"),
    (
        "flat",
        "amount per panel",
        "amount each",
        "flat.csv B3 | gives: amount each is not known",
        "One of: amount per panel, amount per dent, hours per panel, hours per dent",
    ),
    (
        "marks",
        "oversize dent,,45 mm",
        "oversize dnet,,45 mm",
        "marks.csv A2 | mark: oversize dnet is not known",
        "Nearest: oversize dent",
    ),
    (
        "marks",
        "crease,,0",
        "dent,,0",
        "marks.csv A4 | mark: dent is not known",
        "One of: oversize dent, crease, crown, brace mark",
    ),
    ("marks", "welded", "wedled", "marks.csv B6 | panel: wedled is not known", "Nearest: welded"),
    (
        "factors",
        "material",
        "materiel",
        "factors.csv B2 | looks at: materiel is not known",
        "Nearest: material",
    ),
    (
        "factors",
        "material,aluminium",
        "material,alumnium",
        "factors.csv C2 | material: alumnium is not known",
        "Nearest: aluminium",
    ),
    ("factors", "22,,base", "22,,bse", "factors.csv G2 | of: bse is not known", "Nearest: base"),
    (
        "limits",
        "share of replacing",
        "share of replacment",
        "limits.csv B8 | measures: share of replacment is not known",
        "Nearest: share of replacing",
    ),
    (
        "limits",
        "dents of large",
        "dents of lage",
        "limits.csv B6 | size band: lage is not known",
        "Nearest: large",
    ),
    (
        "limits",
        "conventional repair,\ntoo",
        "paintless,\ntoo",
        "limits.csv D4 | then: paintless is not known",
        "One of: paintless, then refinish, conventional repair, replace, refer to a person",
    ),
    (
        "operations",
        "vehicle,airbag",
        "car,airbag",
        "operations.csv H2 | once per: car is not known",
        "One of: vehicle, side, panel",
    ),
    (
        "operations",
        "roof,,",
        "roof,glue onyl,",
        "operations.csv C2 | access: glue onyl is not known",
        "Nearest: glue only",
    ),
];

#[test]
fn unknown_names_come_with_the_nearest_right_ones() {
    for (table, from, to, line, help) in UNKNOWN {
        let outcome = page().with(table, from, to).read();
        let line = format!("schedule-name-unknown | {line}");
        assert!(outcome.lines().contains(&line), "{line}\n{}", outcome.text());
        assert!(outcome.schedule.is_none());
        let problem =
            outcome.problems.iter().find(|problem| problem.code.id == "schedule-name-unknown").unwrap();
        assert_eq!(problem.help.as_deref(), Some(*help), "{line}");
    }
    let outcome = page().with("operations", "front door", "something else").read();
    assert_eq!(
        outcome.help(),
        "Write a kind of panel without its side, a group of the rates, or horizontal, vertical, bolted, welded"
    );
    let outcome = page().with("panels", "hood,flat", "left hod,flat").read();
    assert!(outcome.text().contains("panel: left hod is not known"));
}

#[test]
fn headings_that_nobody_knows_are_told_and_remarks_are_not() {
    let outcome = page().with("panels", "floor", "flor").read();
    outcome
        .says(&["schedule-column-unknown | panels.csv F1 | flor is no column of the panels; it is left out"]);
    assert_eq!(outcome.help(), "Nearest: floor");
    page().with("panels", "floor", "Remark").read().says(&[]);
    page().with("flat", "small,medium,large", "small,medium,large,Notes").read().says(&[]);
    page().with("terms", "term,value", "term,value,why").read().says(&[]);
    page()
        .with("terms", "term,value", "term,value,remark,comment")
        .plus("terms", "note,agreed by letter")
        .read()
        .says(&[]);
}

#[test]
fn a_heading_that_stands_twice_is_told_with_both_places() {
    let outcome = page().with("panels", "floor", "area").read();
    outcome.says(&["schedule-column-twice | panels.csv F1 | two columns of the panels are headed area"]);
    assert_eq!(outcome.problems[0].also.len(), 1);
    let twice = page().with("flat", "small,medium,large", "small,medium,large,,count band,small");
    assert!(twice.read().text().contains("two columns of the rate grid are headed count band"));
}

#[test]
fn text_by_itself_after_a_blank_row_is_a_note_and_not_a_row() {
    page().plus("counts", "\nCounts as agreed in spring\n").read().says(&[
        "schedule-text-loose | counts.csv A6 | text by itself under the count bands is not read as a row",
    ]);
    // Without a blank row above it, it is a row that lacks its cells.
    let outcome = page().plus("counts", "Counts as agreed in spring").read();
    assert_eq!(
        outcome.lines(),
        ["schedule-cell-missing | counts.csv B5 | a row of the count bands has nothing under from dents",]
    );
}

#[test]
fn everything_that_is_wrong_is_told_at_once() {
    let outcome = page()
        .with("terms", "EUR", "EURO")
        .with("sizes", "medium,14 mm,27 mm", "medium,14 mm,27")
        .with("flat", "133", "x")
        .with("limits", "dents,40", "dents,many")
        .with("operations", "vehicle,airbag", "car,airbag")
        .read();
    let files: Vec<&str> = outcome
        .problems
        .iter()
        .map(|problem| outcome.sources.get(problem.place.unwrap().source).file.as_str())
        .collect();
    assert_eq!(
        files,
        [
            "example/terms.csv",
            "example/sizes.csv",
            "example/flat.csv",
            "example/limits.csv",
            "example/operations.csv"
        ]
    );
}

#[test]
fn without_any_table_there_is_no_schedule() {
    let outcome = read(Opened::default());
    assert_eq!(outcome.lines(), ["schedule-tables-none |  | no table of a schedule was found"]);
    let mut opened = Opened::default();
    opened.sources.add(Source { file: "a.csv".to_owned(), sheet: String::new(), kind: SourceKind::Text });
    opened.sheets.push(sheet(SourceId(0), "panel,0-10 mm\nhood,3", DecimalMark::Point));
    assert_eq!(read(opened).lines().len(), 1);
}

/// Headings of tables that belong to claims, as people write them.
const OF_CLAIMS: &[&str] = &[
    "claim,insurer,owner,make,model,body type,vehicle class,market value,excess",
    "claim,panel,side,0-10 mm,10-20 mm,20-30 mm,total,remark",
    "claim,panel,size,dents",
    "claim,panel,size band,dents",
    "claim,panel,mark,length,width,depth,position,cause",
    "claim,item,price,hours,source",
    "claim,panel,part price,fitting,conventional,refinish,paint material,source,date of price",
    "registration,panel,part,fitting,refinish",
    "claim,photograph,shows,panel",
    "claim,panel,method,decided by,reason",
    "claim,panel,paid,event",
    "count,panel,small,large",
    "dents,from,to",
];

#[test]
fn no_table_of_a_claim_is_taken_for_one_of_a_schedule() {
    for heading in OF_CLAIMS {
        let sheet = sheet(SourceId(0), &format!("{heading}\n1,2,3,4"), DecimalMark::Point);
        let found: Vec<&str> =
            recognise(&sheet, forms()).tables.iter().map(|table| table.form.name).collect();
        assert!(found.is_empty(), "{heading} is taken for {found:?}");
    }
}

#[test]
fn every_table_of_the_page_is_recognised_as_itself_and_nothing_else() {
    let opened = page().opened();
    let names: Vec<Vec<&str>> = opened
        .sheets
        .iter()
        .map(|sheet| {
            let found = recognise(sheet, forms());
            assert!(found.ambiguous.is_empty(), "{:?}", found.ambiguous);
            found.tables.iter().map(|table| table.form.name).collect()
        })
        .collect();
    assert_eq!(
        names.concat(),
        [
            "terms",
            "labour rates",
            "taxes",
            "size bands",
            "count bands",
            "panels",
            "rate grid",
            "rates",
            "mark rates",
            "factors",
            "typical prices",
            "limits",
            "operations",
            "title rules",
        ]
    );
}

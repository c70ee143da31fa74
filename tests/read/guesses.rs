//! What a reader could guess or pass over in silence is asked about or told instead.

use crate::{Run, panel, tally, write};
use rust_xlsxwriter::{Format, Workbook};
use tempfile::tempdir;

#[test]
fn dates_with_two_readings_or_a_doubt_after_them_are_never_guessed() {
    let run = Run::texts(&[(
        "vehicles.csv",
        "job,make,date of loss\n\
         J1,Larch,05-06-2026\n\
         J2,Larch,2026-06-20 or 2025-06-21\n\
         J3,Larch,02.03.2026 approx\n\
         J4,Larch,2026-06-20 09:30\n",
    )]);
    let of = |key| run.of_claim(key).into_iter().filter(|said| said.starts_with("date")).collect::<Vec<_>>();
    assert_eq!(of("J1"), ["date-ambiguous vehicles.csv C2"]);
    assert_eq!(of("J2"), ["date-unreadable vehicles.csv C3"]);
    assert_eq!(of("J3"), ["date-unreadable vehicles.csv C4"]);
    assert_eq!(of("J4"), Vec::<String>::new());
    assert_eq!(run.claim("J4").event.date.unwrap().value.to_string(), "2026-06-20");
}

#[test]
fn a_bare_tax_share_up_to_one_is_asked_about() {
    let run = Run::texts(&[(
        "vehicles.csv",
        "job,make,tax share\nJ1,Larch,0.5\nJ2,Larch,0.5 %\nJ3,Larch,50\nJ4,Larch,1\nJ5,Larch,0\nJ6,Larch,50%\n",
    )]);
    let of = |key| run.of_claim(key).into_iter().filter(|said| said.contains("percent")).collect::<Vec<_>>();
    let share = |key| run.claim(key).parties.tax_share.map(|share| share.value.to_string());
    assert_eq!((of("J1"), share("J1")), (vec!["percent-as-fraction vehicles.csv C2".to_owned()], None));
    assert_eq!((of("J4"), share("J4")), (vec!["percent-as-fraction vehicles.csv C5".to_owned()], None));
    for (key, read) in [("J2", "0.5"), ("J3", "50"), ("J5", "0"), ("J6", "50")] {
        assert_eq!((of(key), share(key).as_deref()), (Vec::new(), Some(read)), "{key}");
    }
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, (heading, value)) in (0_u16..).zip([("job", "J1"), ("make", "Larch")]) {
        sheet.write_string(0, column, heading).unwrap();
        sheet.write_string(1, column, value).unwrap();
    }
    sheet.write_string(0, 2, "tax share").unwrap();
    sheet.write_number_with_format(1, 2, 0.5, &Format::new().set_num_format("0%")).unwrap();
    let folder = tempdir().unwrap();
    let path = write(folder.path(), "v.xlsx", &book.save_to_buffer().unwrap());
    let run = Run::of(&[path]);
    let share = run.claim("J1").parties.tax_share.unwrap();
    assert_eq!(share.value.to_string(), "50", "a workbook that shows 50 % means it");
}

#[test]
fn the_word_total_beside_a_panel_takes_no_row_away() {
    let run = Run::texts(&[
        (
            "counts.csv",
            "remark,claim,panel,size,dents\n\
             total,A-1,bonnet,0-10 mm,5\n\
             total,A-1,,11-20 mm,7\n\
             ,A-1,roof,0-10 mm,4\n\
             total,,,,16\n",
        ),
        ("vehicles.csv", "settlement,claim,make,insurer\ntotal,A-1,Larch,Alder\ntotal,,,\n"),
    ]);
    let problems = run.of_claim("A-1");
    assert_eq!(problems, ["panel-missing counts.csv row 3"]);
    assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(5))]);
    assert_eq!(run.claim("A-1").parties.settlement.unwrap().value.name(), "total loss");
    assert_eq!(run.of_files(), ["text-unread vehicles.csv A3"]);
}

#[test]
fn totals_of_amounts_are_held_against_their_cells() {
    let run = Run::texts(&[
        ("items.csv", "job,item,price\nJ1,rear lamp,300\nJ1,Total,999\n"),
        ("paid.csv", "job,panel,paid\nJ1,roof,50\nTotal,,70\n"),
        ("vehicles.csv", "job,make\nJ1,Larch\n"),
    ]);
    assert_eq!(run.of_claim("J1")[..2], ["total-disagrees items.csv C3", "total-disagrees paid.csv C3"]);
    assert_eq!((run.claim("J1").items.len(), run.claim("J1").paid_before.len()), (1, 1));
}

#[test]
fn numbers_below_an_unknown_heading_are_asked_about_once_for_each_claim_that_has_some() {
    let run = Run::counts(
        "claim,panel,0-10 mm,10-2O mm,bay,bay (note),PDR EUR,weight\n\
         A-1,roof,4,5,north,7,100,1.5\n\
         A-1,hood,1,2,,7,100,2\n\
         A-2,roof,3,,south,7,100,3\n",
    );
    assert_eq!(run.of_claim("A-1"), ["column-open counts.csv D1"]);
    assert!(run.intake("A-1").is_stopped());
    assert_eq!(run.of_claim("A-2"), Vec::<String>::new());
    let unknown = |column: &str| format!("column-unknown counts.csv {column}1");
    assert_eq!(run.of_files(), ["E", "F", "G", "H"].map(unknown));
    let run = Run::counts("claim,panel,size,dents,10-2O mm\nA-1,roof,0-10 mm,4,5\n");
    assert_eq!(run.of_claim("A-1"), ["column-open counts.csv E1"]);
}

#[test]
fn a_word_in_many_rows_of_a_claim_is_told_once_with_the_number_of_the_others() {
    let run = Run::counts(
        "claim,panel,size,dents,material\n\
         A-1,bonet,0-10 mm,1,tin\n\
         A-1,bonet,11-20 mm,2,tin\n\
         A-1,roof,0-10 mm,-1,tin\n\
         A-1,roof,11-20 mm,-1,tni\n\
         A-1,bonet,21-30 mm,3,\n\
         A-2,bonet,0-10 mm,1,\n",
    );
    assert_eq!(
        run.of_claim("A-1"),
        [
            "panel-unknown counts.csv B2",
            "word-unknown counts.csv E2",
            "count-negative counts.csv D4",
            "count-negative counts.csv D5",
            "word-unknown counts.csv E5",
        ]
    );
    let message = |key: &str| run.intake(key).problems[0].message.clone();
    assert_eq!(message("A-1"), "no panel is called \"bonet\" (here and in 2 more cells)");
    assert_eq!(message("A-2"), "no panel is called \"bonet\"");
}

#[test]
fn tally_strokes_are_counted_where_they_have_one_reading() {
    let run = Run::counts(
        "claim,panel,0-10 mm,11-20 mm,total\nA-1,roof,||||| ||,|||,10\nA-1,hood,|||| ||,IIII,\nA-1,left fender,II,,\n",
    );
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(7)), ("11-20 mm", Some(3))]);
    assert_eq!(run.of_claim("A-1"), ["count-strokes counts.csv C3", "count-not-a-number counts.csv C4"]);
    let help = run.intake("A-1").problems[0].help.clone();
    assert_eq!(help.as_deref(), Some("write 6 or 7"));
}

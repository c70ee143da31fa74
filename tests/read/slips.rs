//! Slips in the layout of a table: what stands outside its columns and rows is never dropped quietly.

use crate::{Run, panel, tally};

#[test]
fn numbers_below_a_blank_heading_are_asked_about_once_in_each_claim_that_has_one() {
    let run = Run::counts(
        "claim,panel,0-10 mm,,21-30 mm\nA-1,hood,8,,\nA-2,roof,3,4,5\nA-2,hood,1,2,\nA-3,roof,3,,\n",
    );
    assert_eq!(run.of_claim("A-2"), ["column-unheaded counts.csv D3"]);
    let question = &run.intake("A-2").problems[0];
    assert!(question.message.contains("column D"), "{}", question.message);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_claim("A-3"), Vec::<String>::new());
    assert_eq!(run.of_files(), Vec::<String>::new(), "asked about, so no unread text");
    let numbered = Run::counts(",claim,panel,0-10 mm\n1,A-1,hood,8\n2,A-2,roof,3\n");
    assert_eq!(numbered.of_claim("A-1"), Vec::<String>::new(), "a column that numbers the rows");
    assert_eq!(numbered.of_files(), ["text-unread counts.csv A2"]);
}

#[test]
fn a_row_that_stands_in_one_cell_takes_the_claim_out_that_it_names() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\nA-2;roof;3\n\"X-9,roof,3\"\nA-3,roof,3\n");
    assert_eq!(run.of_claim("A-2"), ["row-run-together counts.csv A3"]);
    assert_eq!(run.of_files(), ["row-run-together counts.csv A4"]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let below = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\n\n\"Counted, checked, 14\"\n");
    assert_eq!(below.of_files(), ["text-unread counts.csv A4"], "a note below the table stays one");
}

#[test]
fn a_key_fills_down_only_over_rows_that_stand_together() {
    for between in [",,", "total,,9", "second car,,", ",,\n,,"] {
        let run = Run::counts(&format!(
            "claim,panel,0-10 mm\nA-1,hood,8\n,roof,1\n{between}\n,decklid,2\n,left fender,2\n"
        ));
        let row = 5 + between.matches('\n').count();
        assert_eq!(
            run.of_claim("A-1"),
            [format!("key-parted counts.csv row {row}"), format!("key-parted counts.csv row {}", row + 1)],
            "{between}"
        );
        assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(8))]);
        assert_eq!(run.claim("A-1").inspections[0].panels.len(), 2, "{between}");
    }
    let own = Run::counts("claim,panel,0-10 mm\nA-1,hood,8\n\nA-2,roof,1\n,hood,2\n");
    assert_eq!(own.of_claim("A-2"), Vec::<String>::new());
}

#[test]
fn a_mark_with_a_count_stands_for_as_many_equal_marks() {
    for heading in ["Count", "Number", "Qty", "Dents", "No. off", "Pieces"] {
        let run = Run::texts(&[(
            "m.csv",
            &format!("job,panel,mark,length mm,{heading}\nJ1,roof,crease,60,2\nJ1,roof,crease,90,\n"),
        )]);
        assert_eq!(run.of_files(), Vec::<String>::new(), "{heading}");
        let marks = &panel(run.claim("J1"), "roof").marks;
        let lengths: Vec<i64> =
            marks.iter().map(|mark| mark.length.unwrap().value.nanometres() / 1_000_000).collect();
        assert_eq!(lengths, [60, 60, 90], "{heading}");
    }
    for bad in ["0", "1000", "1.5", "two", "-1"] {
        let run =
            Run::texts(&[("m.csv", &format!("job,panel,mark,length mm,count\nJ1,roof,crease,60,{bad}\n"))]);
        assert!(run.of_claim("J1").contains(&"number-unreadable m.csv E2".to_owned()), "{bad}");
    }
}

#[test]
fn claim_numbers_that_differ_in_case_or_spacing_are_joined_and_told() {
    let run = Run::counts("claim,panel,0-10 mm\na-1,hood,8\nA-1,roof,1\nA-2,roof,1\n");
    assert_eq!(run.of_claim("A-1"), ["key-spellings counts.csv A3"]);
    assert_eq!(run.intake("A-1").problems[0].also.len(), 1);
    assert!(!run.intake("A-1").is_stopped());
    assert_eq!(run.of_claim("A-2"), Vec::<String>::new());
}

#[test]
fn every_bad_cell_of_a_row_is_told() {
    let run = Run::counts("claim,panel,0-10 mm,11-20 mm,material\nA-1,rof,x,-1,cheese\nA-2,,x,1,\n");
    assert_eq!(
        run.of_claim("A-1"),
        [
            "panel-unknown counts.csv B2",
            "count-word counts.csv C2",
            "count-negative counts.csv D2",
            "word-unknown counts.csv E2",
        ]
    );
    assert_eq!(run.of_claim("A-2"), ["panel-missing counts.csv row 3", "count-word counts.csv C3"]);
    let amounts =
        Run::texts(&[("v.csv", "job,make,market value,excess\nJ1,Larch,1e400,99999999999999999999999\n")]);
    assert_eq!(amounts.of_claim("J1"), ["amount-unreadable v.csv C2", "amount-unreadable v.csv D2"]);
    let marks = Run::texts(&[("m.csv", "job,panel,mark,length mm\nJ1,rof,,long\n")]);
    assert_eq!(
        marks.of_claim("J1"),
        [
            "job-without-vehicle m.csv row 2",
            "row-incomplete m.csv row 2",
            "panel-unknown m.csv B2",
            "length-unreadable m.csv D2",
        ]
    );
}

#[test]
fn a_number_with_the_other_decimal_mark_is_told_as_that() {
    // The last size holds numbers with both marks: neither is proved there.
    let comma =
        Run::counts("claim;panel;0-12.5 mm;13-20 mm;frame m2\nA-1;roof;4;4.0;0,5\nA-1;hood;4;5,0;0,5\n");
    assert_eq!(comma.of_claim("A-1"), ["number-other-mark counts.csv C1", "number-other-mark counts.csv D2"]);
    let said = &comma.intake("A-1").problems[0].message;
    assert!(said.contains("writes decimals with a comma"), "{said}");
    let long = Run::counts("claim;panel;size;dents;frame m2\nA-1;roof;0-12.5 mm;4;0,5\n");
    assert_eq!(long.of_claim("A-1"), ["number-other-mark counts.csv C2"]);
    let point =
        Run::texts(&[("i.csv", "job,item,price,hours\nJ1,lamp,\"130,00\",1.5\nJ1,mirror,99.50,\"1,5\"\n")]);
    let ids = point.of_claim("J1");
    assert_eq!(ids[1..], ["number-other-mark i.csv C2", "number-other-mark i.csv D3"], "{ids:?}");
    assert!(point.intake("J1").problems[1].message.contains("writes decimals with a point"));
    let marks =
        Run::texts(&[("m.csv", "job;panel;mark;length\nJ1;roof;crease;60,5 mm\nJ1;roof;crease;70.5 mm\n")]);
    assert!(marks.of_claim("J1").contains(&"number-other-mark m.csv D3".to_owned()));
}

#[test]
fn a_formula_as_text_is_neither_an_estimate_nor_a_panel() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,roof,=1+2\nA-2,=bonnet,2\n");
    assert_eq!(run.of_claim("A-1"), ["formula-as-text counts.csv C2"]);
    assert_eq!(run.of_claim("A-2"), ["formula-as-text counts.csv B3"]);
    let run = Run::texts(&[("v.csv", "job,make,excess\nJ1,Larch,=100*2\n")]);
    assert_eq!(run.of_claim("J1")[0], "formula-as-text v.csv C2");
}

#[test]
fn dates_with_month_names_are_read_and_years_of_two_digits_are_told() {
    for date in ["14 May 2026", "May 14, 2026", "14-May-2026", "14th may 2026"] {
        let run = Run::texts(&[("v.csv", &format!("job,make,date of loss\nJ1,Larch,\"{date}\"\n"))]);
        assert_eq!(run.claim("J1").event.date.unwrap().value.to_string(), "2026-05-14", "{date}");
    }
    for (date, says) in [
        ("14/5/26", "two digits"),
        ("14 May 26", "two digits"),
        ("soon", "no date"),
        ("31 April 2026", "no such day"),
    ] {
        let run = Run::texts(&[("v.csv", &format!("job,make,date of loss\nJ1,Larch,{date}\n"))]);
        let problem = &run.intake("J1").problems[0];
        assert!(problem.message.contains(says), "{date}: {}", problem.message);
        assert!(
            !problem.help.as_deref().unwrap_or_default().contains("20"),
            "no date that looks like a correction"
        );
    }
}

#[test]
fn a_side_that_needs_the_market_is_asked_about_once_in_a_claim() {
    let run = Run::counts(
        "claim,panel,0-10 mm\nA-1,nearside wing,8\nA-1,offside wing,1\nA-1,n/s quarter panel,1\n",
    );
    assert_eq!(run.of_claim("A-1"), ["side-relative counts.csv B2"]);
    let question = &run.intake("A-1").problems[0];
    assert_eq!(question.also.len(), 2);
    assert!(question.help.as_deref().unwrap().contains("`market`"));
}

#[test]
fn suggestions_are_in_the_words_that_the_writer_uses() {
    let run = Run::counts("claim,panel,0-10 mm\nA-1,bonet,8\nA-2,left front wng,1\n");
    let help = |run: &Run, key: &str| run.intake(key).problems[0].help.clone().unwrap_or_default();
    assert_eq!(help(&run, "A-1"), "did you mean bonnet (hood)?");
    assert!(help(&run, "A-2").starts_with("did you mean front wing (fender)"), "{}", help(&run, "A-2"));
    let run = Run::texts(&[("v.csv", "job,make,body type\nJ1,Larch,salon\n")]);
    assert!(help(&run, "J1").starts_with("did you mean saloon (sedan)"), "{}", help(&run, "J1"));
}

#[test]
fn a_heading_row_of_slips_is_held_against_the_nearest_words() {
    let run = Run::texts(&[("c.csv", "clam no,panle,0-13 mm,13-25 mm,wether\nA-1,roof,4,5,wet\n")]);
    assert_eq!(run.of_files(), ["table-incomplete c.csv row 1"]);
    let problem = &run.problems[0];
    assert!(problem.message.contains("wide counts"), "{}", problem.message);
    assert_eq!(
        problem.help.as_deref(),
        Some(
            "\"clam no\": did you mean `claim no`?; \"panle\": did you mean `panel`?; known here: 0-13 mm, 13-25 mm"
        )
    );
    let long = Run::texts(&[("c.csv", "clam no,panle,siez,dnets\nA-1,roof,4,5\n")]);
    assert_eq!(long.of_files(), ["table-incomplete c.csv row 1"]);
}

#[test]
fn a_claim_number_above_a_table_without_key_is_its_key() {
    let table = "Panel,0-10 mm,11-20 mm\nroof,3,4\nhood,5,\n";
    for above in [
        "Claim no,A-1\nReg,AB 12 CDE\n\n",
        "Claim no:,A-1,Date of inspection:,2026-05-20\n\n",
        "Claim no A-1\n",
        "Claim no: A-1\nCounted by: P. Sample\n\n",
        "VIN,,,,Claim number,A-1\n",
        "Registration: AB 12 CDE\n\n",
    ] {
        let run = Run::counts(&format!("{above}{table}"));
        let problems: Vec<String> = run.of_files().into_iter().chain(run.of_claim("A-1")).collect();
        let left =
            if above.starts_with("VIN") { vec!["text-unread counts.csv A1".to_owned()] } else { Vec::new() };
        assert_eq!(problems, left, "{above}");
        assert_eq!(tally(panel(run.claim("A-1"), "hood"))[0], ("0-10 mm", Some(5)), "{above}");
        let inspection = &run.claim("A-1").inspections[0];
        assert_eq!(inspection.date.is_some(), above.contains("Date"), "{above}");
        assert_eq!(inspection.assessor.is_some(), above.contains("Sample"), "{above}");
    }
    let bad = Run::counts(&format!("Claim no: A-1\nDate of inspection: 5/6/2026\n\n{table}"));
    assert_eq!(bad.of_claim("A-1"), ["date-ambiguous counts.csv A2"]);
}

#[test]
fn two_claim_numbers_above_a_table_or_a_title_are_no_key() {
    for above in ["Claim no,A-1\nClaim no,A-2\n\n", "Claim for hail 2026\n\n"] {
        let run = Run::counts(&format!("{above}panel,0-10 mm\nroof,3\n"));
        assert!(run.intakes.iter().any(|intake| intake.claim.key.text.contains("counts.csv")), "{above}");
    }
}

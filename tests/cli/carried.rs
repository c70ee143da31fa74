//! Documents taken over from an earlier output: whatever changed in between, the output is that of a full run.

use crate::storm::{Ran, Storm};
use std::fs;

const ASSESS: &str = "assess storm --schedule prices";

/// A file for one claim, so that each can change by itself.
fn file(claim: u32, dents: u32) -> String {
    format!(
        "claim,insurer,make,body type,date of loss,panel,date of inspection,0-10 mm,10-20 mm\n\
         HC-{claim},Example Mutual,Example,hatchback,2026-06-14,hood,2026-06-20,{dents},1\n\
         HC-{claim},Example Mutual,Example,hatchback,2026-06-14,roof,2026-06-20,3,\n"
    )
}

/// Four claims in as many files, and their full output in `one`.
fn storm() -> Storm {
    let storm = Storm::new();
    fs::remove_dir_all(storm.path("storm")).unwrap();
    for claim in 1..=4 {
        storm.put(&format!("storm/c{claim}.csv"), &file(claim, 5 + claim));
    }
    storm.run(&format!("{ASSESS} --out one")).ended(0);
    storm
}

fn incremental(storm: &Storm, more: &str) -> Ran {
    storm.run(&format!("{ASSESS} --out two --reuse one {more}"))
}

/// Runs with the earlier output and without, holds both against each other, and makes sure of how many were taken over.
fn is_a_full_run(storm: &Storm, more: &str, taken_over: &str) {
    let ran = incremental(storm, more).ended(0);
    storm.run(&format!("{ASSESS} --out full {more}")).ended(0);
    let (two, full) = (storm.files("two"), storm.files("full"));
    assert_eq!(two.keys().collect::<Vec<_>>(), full.keys().collect::<Vec<_>>());
    for (name, bytes) in &full {
        // Nothing of it stands in any file: which files were read is told by their paths, and these are the same.
        assert!(two[name] == *bytes, "{name}");
    }
    let line = format!("documents of {taken_over} taken over from one");
    assert!(ran.out.contains(&line), "{line}:\n{}", ran.out);
}

#[test]
fn documents_of_claims_of_which_nothing_changed_are_taken_over() {
    let storm = storm();
    is_a_full_run(&storm, "", "4 claims");
    storm.put("storm/c2.csv", &file(2, 9));
    is_a_full_run(&storm, "", "3 claims");
    // Sorts before all others, so that every sheet has another number than it had.
    storm.put("storm/a.csv", &file(9, 4));
    is_a_full_run(&storm, "", "3 claims");
    fs::remove_file(storm.path("storm/c3.csv")).unwrap();
    is_a_full_run(&storm, "", "2 claims");
    // A further row of a claim in another file.
    storm.put("storm/d.csv", "claim,panel,date of inspection,0-10 mm\nHC-4,left front door,2026-06-20,2\n");
    is_a_full_run(&storm, "", "1 claim");
}

#[test]
fn another_schedule_date_or_word_draws_every_document_anew() {
    let storm = storm();
    is_a_full_run(&storm, "--date 2026-07-01", "0 claims");
    storm.put("storm/words.csv", "word,means\nbonny,hood\n");
    is_a_full_run(&storm, "", "0 claims");
    fs::remove_file(storm.path("storm/words.csv")).unwrap();
    is_a_full_run(&storm, "", "4 claims");
    let taxes = fs::read_to_string(storm.path("prices/taxes.csv")).unwrap();
    storm.put("prices/taxes.csv", &taxes.replace("parts,20", "parts,21"));
    is_a_full_run(&storm, "", "0 claims");
}

#[test]
fn parts_that_the_earlier_output_lacks_are_drawn() {
    let storm = storm();
    storm.run(&format!("{ASSESS} --out one --write documents")).ended(0);
    is_a_full_run(&storm, "", "0 claims");
    is_a_full_run(&storm, "--write documents", "4 claims");
}

#[test]
fn an_earlier_document_that_was_changed_is_not_trusted() {
    let storm = storm();
    let page = storm.path("one/claims/HC-1.html");
    let text = fs::read_to_string(&page).unwrap();
    fs::write(&page, text.replace("HC-1", "HC-7")).unwrap();
    fs::remove_file(storm.path("one/claim-workbooks/HC-2.xlsx")).unwrap();
    is_a_full_run(&storm, "", "2 claims");
}

#[test]
fn an_output_takes_over_from_the_one_that_it_replaces() {
    let storm = storm();
    let before = storm.files("one");
    let ran = storm.run(&format!("{ASSESS} --out one --reuse one")).ended(0);
    assert!(ran.out.contains("documents of 4 claims taken over from one"), "{}", ran.out);
    assert!(storm.files("one") == before);
}

#[test]
fn a_folder_that_is_no_output_gives_nothing_to_take_over() {
    let storm = storm();
    let ran = storm.run(&format!("{ASSESS} --out two --reuse storm")).ended(2);
    assert!(ran.err.contains("nothing-to-reuse"), "{}", ran.err);
    assert!(!storm.path("two").exists());
}

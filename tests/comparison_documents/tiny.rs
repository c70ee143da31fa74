//! Tiny and degenerate batches: one pair, no spread, all blank. Every output stands, and says so in words.

use super::drawn::{pages, texts};
use super::fixture::{COUNTS, Case, vehicles};
use proptest::prelude::*;
use std::fmt::Write as _;
use stipple::report::comparison::json::ComparisonView;
use stipple::report::comparison::tables;
use stipple::report::tables::Field;

/// What a cell holds: blank, nothing, a few, very many.
const CELLS: [&str; 6] = ["", "0", "1", "7", "7", "4000000"];
const PANELS: [&str; 4] = ["hood,", "roof,", "fender,left", "fender,right"];

/// Counts of a few people on a few cars and panels.
fn counts() -> impl Strategy<Value = String> {
    let row = (0..3_usize, 0..3_usize, 0..PANELS.len(), prop::array::uniform3(0..CELLS.len()));
    prop::collection::btree_map(row.clone().prop_map(|(car, who, panel, _)| (car, who, panel)), row, 1..14)
        .prop_map(|rows| {
            let mut text = COUNTS.to_owned();
            for ((car, who, panel), (.., cells)) in rows {
                let (name, role) = [("Ada", "own"), ("Bo", "second"), ("Cy", "second")][who];
                let [a, b, c] = cells.map(|cell| CELLS[cell]);
                let _ = writeln!(text, "EX-00{},{name},{role},{},{a},{b},{c}", car + 1, PANELS[panel]);
            }
            text
        })
}

/// That no text holds a number that is none.
fn assert_readable(text: &str, of: &str) {
    let is_none = |word: &&str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '-');
        ["nan", "-nan", "inf", "-inf", "infinity", "-0", "-0.0", "-0.00", "null"]
            .contains(&word.to_lowercase().as_str())
    };
    let found = text.split_whitespace().find(is_none);
    assert!(found.is_none(), "{of}: {found:?}");
}

fn assert_stands(case: &Case) {
    for (name, page) in pages(case) {
        assert_readable(&texts(&page), &name);
    }
    let compared = case.compared();
    for rows in [tables::pairs, tables::panels, tables::money, tables::statistics] {
        for field in rows(&compared).flatten() {
            assert_readable(&field.plain(), "table");
            assert!(!matches!(field, Field::Text(ref text) if text.contains("  ")), "{field:?}");
        }
    }
    let mut bytes = Vec::new();
    ComparisonView(&compared).write_to(&mut bytes).unwrap();
    let data: serde_json::Value = serde_json::from_slice(&bytes).unwrap();
    for statistic in data["statistics"].as_array().unwrap() {
        assert_eq!(statistic["value"].is_null(), statistic["reason"].is_string(), "{statistic}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn every_output_of_a_tiny_batch_stands_and_holds_no_number_that_is_none(counts in counts()) {
        if let Some(case) = Case::tried(&vehicles(3), &counts) {
            assert_stands(&case);
        }
    }
}

#[test]
fn one_pair_of_panels_without_dents_is_said_in_words() {
    let rows = "EX-001,Ada,own,hood,,0,0,0\nEX-001,Bo,second,hood,,0,0,0\n";
    let case = Case::of(&vehicles(1), &format!("{COUNTS}{rows}"));
    assert_stands(&case);
    let page = &pages(&case)[0].1;
    assert!(page.contains("Small numbers"), "{page}");
}

//! Supplements: what changed since an agreed version, and nothing else.

use crate::storm::{Ran, Storm};
use serde_json::Value;
use std::collections::BTreeMap;

const AGREED: &str = "assess storm --schedule prices --out agreed";
const NOW: &str = "assess storm --schedule prices --out now --agreed agreed/assessments.jsonl";

/// The storm as it was agreed, with one text of its tables replaced since.
fn changed(old: &str, new: &str) -> Storm {
    let storm = Storm::new();
    storm.run(AGREED).ended(0);
    for name in ["storm/vehicles.csv", "storm/counts.csv", "prices/rates.csv"] {
        let text = std::fs::read_to_string(storm.path(name)).unwrap();
        if text.contains(old) {
            storm.put(name, &text.replace(old, new));
            return storm;
        }
    }
    panic!("{old} is in no table");
}

fn by_claim(storm: &Storm) -> BTreeMap<String, BTreeMap<String, String>> {
    storm.rows("now/supplements.csv").into_iter().map(|row| (row["claim"].clone(), row)).collect()
}

fn page(storm: &Storm, name: &str) -> String {
    std::fs::read_to_string(storm.path(&format!("now/supplements/{name}.html"))).unwrap()
}

/// Its line of `assessments.jsonl`.
fn data(storm: &Storm, claim: &str) -> Value {
    let text = std::fs::read_to_string(storm.path("now/assessments.jsonl")).unwrap();
    let mut lines = text.lines().map(|line| serde_json::from_str::<Value>(line).unwrap());
    lines.find(|line| line["claim"] == claim).unwrap()
}

fn refused(storm: &Storm, code: &str) -> Ran {
    let ran = storm.run(NOW).ended(2);
    assert!(ran.err.contains(code), "{}", ran.err);
    assert!(!storm.path("now").exists());
    ran
}

#[test]
fn nothing_changed_says_so_also_where_rows_were_moved() {
    let storm = Storm::new();
    storm.run(AGREED).ended(0);
    let counts = std::fs::read_to_string(storm.path("storm/counts.csv")).unwrap();
    let (head, rows) = counts.split_once('\n').unwrap();
    storm.put("storm/counts.csv", &format!("{head}\n{}", rows.replacen("HC-1,,hood", "\nHC-1,,hood", 1)));
    storm.run(NOW).ended(0);
    for (claim, row) in by_claim(&storm) {
        assert_eq!(
            (row["since agreed"].as_str(), row["difference"].as_str()),
            ("nothing changed", "0.00"),
            "{claim}"
        );
        assert_eq!((row["why"].as_str(), row["panels changed"].as_str()), ("", "0"), "{claim}");
    }
    let page = page(&storm, "HC-1");
    assert!(page.contains("Nothing changed."));
    assert!(!page.contains("Panels that changed") && !page.contains("Agreed to"), "{page}");
}

#[test]
fn another_count_is_told_with_the_old_sum_the_difference_and_the_new_one() {
    // 9 dents of middle size in place of 4 stay in their count band; 12 fall into the next one: 130.00 in place of 60.00,
    // 70.00 more net, 84.00 with 20 % tax. HC-1 was 354.00.
    let storm = changed("HC-1,,hood,2026-06-20,12,4", "HC-1,,hood,2026-06-20,12,12");
    storm.run(NOW).ended(0);
    let rows = by_claim(&storm);
    let row = &rows["HC-1"];
    let shown = ["since agreed", "gross agreed", "difference", "gross", "panels changed", "lines changed"];
    assert_eq!(shown.map(|name| row[name].as_str()), ["changed", "354.00", "84.00", "438.00", "1", "1"]);
    assert_eq!(row["why"], "hood (dents middle: 4, now 12)");
    assert_eq!([&rows["HC-2"]["since agreed"], &rows["J-7"]["since agreed"]], ["nothing changed"; 2]);
    let page = page(&storm, "HC-1");
    for words in
        ["Gross EUR 84.00 more than agreed.", "+84.00", "438.00", "dents middle: 4, now 12", "+70.00"]
    {
        assert!(page.contains(words), "{words}");
    }
    assert!(!page.contains(">roof<"), "only what changed");
    let supplement = &data(&storm, "HC-1")["supplement"];
    assert_eq!(supplement["is"], "changed");
    assert_eq!(supplement["panels"][0]["reasons"][0]["cause"], "count");
    assert_eq!(supplement["panels"][0]["difference"], "70.00");
    let run: Value = serde_json::from_slice(&storm.files("now")["run.json"]).unwrap();
    assert_eq!(run["agreed"]["path"], "agreed/assessments.jsonl");
    let sha = run["agreed"]["sha256"].as_str().unwrap();
    assert!(page.contains(sha), "the page names what it was held against");
}

#[test]
fn the_differences_of_a_claim_lead_from_the_agreed_sums_to_the_new_ones() {
    let storm = changed("HC-1,,roof,2026-06-20,30,", "HC-1,,roof,2026-06-20,3,5");
    storm.run(NOW).ended(0);
    let supplement = &data(&storm, "HC-1")["supplement"];
    let cents =
        |value: &Value| -> i64 { value.as_str().map_or(0, |text| text.replace('.', "").parse().unwrap()) };
    for list in ["panels", "lines", "sums"] {
        let rows = supplement[list].as_array().unwrap();
        assert!(!rows.is_empty(), "{list}");
        for row in rows {
            assert_eq!(cents(&row["now"]) - cents(&row["before"]), cents(&row["difference"]), "{row}");
        }
    }
    let sum = |list: &str| -> i64 {
        supplement[list].as_array().unwrap().iter().map(|row| cents(&row["difference"])).sum()
    };
    let net = supplement["sums"].as_array().unwrap().iter().find(|sum| sum["sum"] == "net").unwrap();
    assert_eq!((sum("lines"), sum("panels")), (cents(&net["difference"]), cents(&net["difference"])));
}

#[test]
fn another_rate_is_laid_to_the_schedule_and_not_to_the_counts() {
    let storm = changed("top,small,11 to 50,90.00", "top,small,11 to 50,95.00");
    storm.run(NOW).ended(0);
    let supplement = &data(&storm, "HC-1")["supplement"];
    let causes: Vec<&str> = supplement["panels"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|panel| panel["reasons"].as_array().unwrap())
        .map(|reason| reason["cause"].as_str().unwrap())
        .collect();
    assert_eq!(causes, ["rate", "rate"], "hood and roof");
    assert_eq!(supplement["reasons"][0]["cause"], "schedule");
    assert!(page(&storm, "HC-1").contains("whose files were changed since"));
}

#[test]
fn a_panel_that_becomes_open_says_why_and_what_its_sum_leaves_out() {
    let storm = changed("HC-1,,roof,2026-06-20,30,", "HC-1,,roof,2026-06-20,50,30");
    storm.run(NOW).ended(0);
    let page = page(&storm, "HC-1");
    for words in
        ["dents small: 30, now 50", "method: paintless, now refer to a person", "without 1 open panel"]
    {
        assert!(page.contains(words), "{words}\n{page}");
    }
    assert_eq!(by_claim(&storm)["HC-1"]["difference"], "-108.00");
}

#[test]
fn a_claim_that_is_new_and_one_that_is_gone_are_told() {
    let storm = changed("HC-2", "HC-9");
    let counts = std::fs::read_to_string(storm.path("storm/counts.csv")).unwrap();
    storm.put("storm/counts.csv", &counts.replace("HC-2", "HC-9"));
    storm.run(NOW).ended(0);
    let rows = by_claim(&storm);
    assert_eq!(
        (rows["HC-9"]["since agreed"].as_str(), rows["HC-9"]["difference"].as_str()),
        ("new", "54.00")
    );
    let gone = &rows["HC-2"];
    let shown = ["since agreed", "gross agreed", "gross", "difference", "document"];
    assert_eq!(shown.map(|name| gone[name].as_str()), ["gone", "54.00", "", "", ""]);
    let told = storm.rows("now/exceptions.csv");
    assert!(told.iter().any(|row| row["code"] == "agreed-claim-gone" && row["claim"] == "HC-2"), "{told:?}");
    assert!(page(&storm, "HC-9").contains("The agreed version does not hold this claim"));
}

#[test]
fn a_claim_that_is_not_priced_now_has_no_difference() {
    let storm = changed("HC-1,,hood,2026-06-20,12,4", "HC-1,,hood,2026-06-20,many,4");
    storm.run(NOW).ended(1);
    let row = &by_claim(&storm)["HC-1"];
    assert_eq!((row["since agreed"].as_str(), row["difference"].as_str()), ("no longer priced", ""));
}

#[test]
fn a_damaged_or_foreign_file_is_refused_at_its_line() {
    let storm = Storm::new();
    storm.run(AGREED).ended(0);
    let path = "agreed/assessments.jsonl";
    let whole = std::fs::read_to_string(storm.path(path)).unwrap();
    let lines: Vec<&str> = whole.lines().collect();
    storm.put(path, &format!("{}\n{}\n", lines[0], &lines[1][..lines[1].len() / 2]));
    let ran = refused(&storm, "agreed-not-read");
    assert!(ran.err.contains("agreed/assessments.jsonl, line 2,"), "{}", ran.err);
    storm.put(path, "claim,panel\nHC-1,hood\n");
    refused(&storm, "agreed-not-read");
    storm.put(path, "");
    refused(&storm, "agreed-not-read");
    storm.put(path, &lines[0].replacen("\"format\":1", "\"format\":2", 1));
    refused(&storm, "agreed-not-read");
    storm.put(path, &lines[0].replacen("\"gross\":\"", "\"gross\":\"x", 1));
    assert!(refused(&storm, "agreed-not-read").err.contains("is no amount in EUR"));
    storm.put(path, &format!("{}\n{}\n", lines[0], lines[0]));
    assert!(refused(&storm, "agreed-version-twice").err.contains("lines 1 and 2"));
    std::fs::remove_file(storm.path(path)).unwrap();
    refused(&storm, "agreed-not-read");
}

#[test]
fn an_amount_too_large_to_subtract_is_told_and_all_else_is_written() {
    let storm = Storm::new();
    storm.run(AGREED).ended(0);
    let path = "agreed/assessments.jsonl";
    let text = std::fs::read_to_string(storm.path(path)).unwrap();
    storm.put(path, &text.replacen("\"gross\":\"354.00\"", "\"gross\":\"-92233720368547758.00\"", 1));
    storm.run(NOW).ended(1);
    let told = storm.rows("now/exceptions.csv");
    assert!(
        told.iter().any(|row| row["code"] == "agreed-not-compared" && row["claim"] == "HC-1"),
        "{told:?}"
    );
    assert_eq!(by_claim(&storm).keys().collect::<Vec<_>>(), ["HC-2", "J-7"]);
    assert!(storm.path("now/claims/HC-1.html").exists());
}

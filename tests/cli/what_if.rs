//! What if: every claim assessed two ways, on the terminal, as data and as a table.

use crate::storm::Storm;
use serde_json::Value;
use std::fs;

const WHAT_IF: &str = "what-if storm --schedule prices";

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn another_tax_moves_gross_amounts_claim_by_claim_and_in_total() {
    let data = json(&Storm::new().run(&format!("{WHAT_IF} --tax labour=10 --json")).ended(0).out);
    let euro = &data["totals"]["EUR"];
    // Net 295.00, 45.00 and 40.00 with 20 % and with 10 %.
    assert_eq!((&euro["gross"], &euro["gross_then"]), (&"456.00".into(), &"418.00".into()));
    assert_eq!(euro["difference"], "-38.00");
    assert_eq!(euro["difference_by_part"], serde_json::json!({ "tax": "-38.00" }));
    let of = |index: usize| data["claims"][index]["difference"]["gross"].clone();
    assert_eq!([of(0), of(1), of(2)], ["-29.50", "-4.50", "-4.00"]);
    // The excess of 50.00 stays the owner's; the quotation has no insurer.
    assert_eq!(euro["difference_insurer_pays"], "-34.00");
}

#[test]
fn another_rule_is_named_as_the_terms_name_it_and_parts_sum_to_the_difference() {
    let ran = Storm::new().run_with(WHAT_IF, &["--term", "Mixed sizes=largest present"]).ended(0);
    // The hood of HC-1 has 12 small and 4 middle dents: 90.00 and 60.00 by themselves, 16 middle ones at 130.00. Its 20.00
    // less and 20 % tax are 24.00.
    for words in ["Mixed sizes = largest present", "3 priced both ways", "-20.00  hood", "-4.00  tax"] {
        assert!(ran.out.contains(words), "{words}:\n{}", ran.out);
    }
    let line = ran.out.lines().find(|line| line.contains("HC-1")).unwrap();
    assert_eq!(line.split_whitespace().collect::<Vec<_>>(), ["HC-1", "EUR", "354.00", "330.00", "-24.00"]);
}

#[test]
fn a_term_that_was_not_there_can_be_asked_for_and_one_that_is_can_be_taken_away() {
    let storm = Storm::new();
    let data = json(&storm.run_with(WHAT_IF, &["--json", "--term", "minimum per vehicle=60"]).ended(0).out);
    // J-7 is 40.00 and comes to 60.00; on HC-2 a panel is open and the minimum waits.
    let gross = |index: usize| data["claims"][index]["difference"]["gross"].clone();
    assert_eq!([gross(0), gross(1), gross(2)], ["0.00", "0.00", "24.00"]);
    let terms = fs::read_to_string(storm.path("prices/terms.csv")).unwrap();
    storm.put("prices/terms.csv", &format!("{terms}minimum per vehicle,60\n"));
    let without = json(&storm.run_with(WHAT_IF, &["--json", "--term", "minimum per vehicle="]).ended(0).out);
    assert_eq!(without["claims"][2]["difference"]["gross"], "-24.00");
}

#[test]
fn claims_that_open_or_are_no_longer_priced_are_listed_and_the_table_holds_all() {
    let storm = Storm::new();
    storm.put("other/limits.csv", "limit,measures,beyond,then\ntoo many dents,dents,10,refer to a person\n");
    for name in ["terms", "taxes", "labour", "sizes", "counts", "panels", "rates"] {
        let text = fs::read_to_string(storm.path(&format!("prices/{name}.csv"))).unwrap();
        storm.put(
            &format!("other/{name}.csv"),
            &text.replace("valid from,2026-01-01", "valid from,2031-01-01"),
        );
    }
    let ran = storm.run(&format!("{WHAT_IF} --instead other")).ended(0);
    assert!(
        ran.out.contains("HC-1: repair becomes needs a person; open panels and items: 0 become 2"),
        "{}",
        ran.out
    );
    let table = storm.run(&format!("{WHAT_IF} --instead other --csv")).ended(0).out;
    assert_eq!(table.lines().count(), 4, "{table}");
    assert!(
        table.lines().nth(1).unwrap().starts_with("HC-1,EUR,354.00,66.00,-288.00,304.00,16.00,-288.00,"),
        "{table}"
    );
}

#[test]
fn an_edition_in_another_currency_is_not_subtracted() {
    let storm = Storm::new();
    for name in ["terms", "taxes", "labour", "sizes", "counts", "panels", "rates"] {
        let text = fs::read_to_string(storm.path(&format!("prices/{name}.csv"))).unwrap();
        storm.put(&format!("other/{name}.csv"), &text.replace("currency,EUR", "currency,SEK"));
    }
    let data = json(&storm.run(&format!("{WHAT_IF} --instead other --json")).ended(0).out);
    assert_eq!(data["totals"], serde_json::json!({}));
    assert_eq!(data["claims"][0]["remark"], "EUR becomes SEK: not subtracted");
    assert_eq!(data["claims"][0]["difference"], Value::Null);
    // Both together hold for the same, so each claim names its own.
    let labour = "what-if storm --schedule prices --schedule other --labour paintless=90";
    let ran = storm.run(labour).ended(2);
    assert!(ran.err.contains("amount-in-currencies") && ran.err.contains("EUR and SEK"), "{}", ran.err);
}

#[test]
fn what_cannot_be_asked_for_is_told_and_nothing_is_shown() {
    let storm = Storm::new();
    let none = storm.run(WHAT_IF).ended(2);
    assert!(none.err.contains("nothing-asked") && none.out.is_empty(), "{}", none.err);
    let name = storm.run_with(WHAT_IF, &["--term", "mixed sises=largest present"]).ended(2);
    for words in ["asked-does-not-stand", "Nearest: mixed sizes"] {
        assert!(name.err.contains(words), "{}", name.err);
    }
    let value = storm.run_with(WHAT_IF, &["--term", "mixed sizes=the largest"]).ended(2);
    assert!(
        value.err.contains("the largest") && value.err.contains("schedule-name-unknown"),
        "{}",
        value.err
    );
    let only = storm.run_with(WHAT_IF, &["--tax", "labour=10", "--only", "Other prices"]).ended(2);
    assert!(only.err.contains("no-such-schedule") && only.err.contains("Invented prices"), "{}", only.err);
    let number = storm.run_with(WHAT_IF, &["--labour", "paintless=much"]).ended(2);
    assert!(number.err.contains("much is no number"), "{}", number.err);
}

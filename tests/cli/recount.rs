//! Recount: which panels are worth counting again.

use crate::storm::Storm;
use serde_json::Value;

const RECOUNT: &str = "recount storm --schedule prices";

#[test]
fn panels_are_ranked_by_what_one_dent_moves() {
    let storm = Storm::new();
    let data: Value = serde_json::from_str(&storm.run(&format!("{RECOUNT} --json")).ended(0).out).unwrap();
    let ranked = data["worth_counting_again"]["EUR"].as_array().unwrap();
    let first: Vec<(&str, &str, u64, &str)> = ranked
        .iter()
        .map(|it| {
            let text = |name: &str| it[name].as_str().unwrap();
            (text("claim"), text("panel"), it["dents"].as_u64().unwrap(), text("difference_gross"))
        })
        .take(3)
        .collect();
    // One dent of a size that is not there yet, with 20 % tax: 60.00 on a roof or a hood, 55.00 on a door.
    assert_eq!(
        first,
        [("HC-1", "roof", 1, "72.00"), ("HC-2", "hood", 1, "72.00"), ("J-7", "right front door", 1, "66.00"),]
    );
    let jobs = data["claims"].as_array().unwrap();
    // Both dents of the hood of HC-2 away: no damage.
    let fewest = serde_json::json!({ "dents": 2, "change": "method", "is": "exact" });
    assert_eq!(jobs[1]["fewest_dents_that_change_a_decision"], fewest);
}

#[test]
fn the_screen_shows_a_panel_a_line_and_the_table_every_change() {
    let storm = Storm::new();
    let text = storm.run(&format!("{RECOUNT} --dents 3 --panels 2")).ended(0).out;
    assert!(text.contains("3 claims; one size of one panel, up to 3 dents more or fewer"), "{text}");
    let panels = text.lines().filter(|line| line.contains("another band")).count();
    assert_eq!(panels, 2, "{text}");
    assert!(text.contains("HC-1: 3 dents change a method"), "{text}");
    let csv = storm.run(&format!("{RECOUNT} --dents 3 --csv")).ended(0).out;
    let row =
        "HC-1,left front door,small,0,1 more,band,another band,EUR,354.00,48.00,3 dents change a method";
    assert!(csv.lines().any(|line| line == row), "{csv}");
}

#[test]
fn a_claim_that_is_not_priced_is_told_and_the_others_are_counted_again() {
    let storm = Storm::but("HC-2,,hood,2026-06-20,2,0", "HC-2,,hood,2026-06-20,twelve,0");
    let ran = storm.run(RECOUNT).ended(1);
    assert!(ran.out.contains("2 claims, and 1 not priced"), "{}", ran.out);
    assert!(ran.err.contains(">> twelve <<"), "{}", ran.err);
    assert!(storm.run("recount storm").ended(2).err.contains("schedule-missing"));
}

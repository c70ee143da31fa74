//! Editions of a schedule: a new one, what differs between two, and what that moves.

use crate::storm::{Storm, rows};
use std::fs;

/// The storm with a second edition beside the first, with some texts of its tables replaced.
fn second(changes: &[(&str, &str, &str)]) -> Storm {
    let storm = Storm::new();
    for name in ["terms", "taxes", "labour", "sizes", "counts", "panels", "rates", "limits"] {
        let mut text = fs::read_to_string(storm.path(&format!("prices/{name}.csv"))).unwrap();
        for (_, old, new) in changes.iter().filter(|(table, ..)| *table == name) {
            assert!(text.contains(old), "{old} in {text}");
            text = text.replace(old, new);
        }
        storm.put(&format!("later/{name}.csv"), &text);
    }
    storm
}

#[test]
fn a_schedule_and_itself_do_not_differ_also_where_it_is_written_otherwise() {
    let storm = second(&[("panels", "hood,top", "bonnet,top")]);
    // The columns of the terms the other way round.
    let text = fs::read_to_string(storm.path("later/terms.csv")).unwrap();
    let turned = text.lines().filter_map(|line| line.split_once(',')).map(|(a, b)| format!("{b},{a}"));
    storm.put("later/terms.csv", &turned.collect::<Vec<_>>().join("\n"));
    for other in ["prices", "later"] {
        let ran = storm.run(&format!("schedule diff prices {other}")).ended(0);
        assert!(ran.out.contains("Differs     nothing"), "{}", ran.out);
        let data: serde_json::Value =
            serde_json::from_str(&storm.run(&format!("schedule diff prices {other} --json")).ended(0).out)
                .unwrap();
        assert_eq!(data["changes"], serde_json::json!([]));
        let csv = storm.run(&format!("schedule diff prices {other} --csv")).ended(0).out;
        assert_eq!(csv.lines().count(), 1);
    }
}

#[test]
fn what_differs_is_told_table_by_table_with_both_cells() {
    let storm = second(&[
        ("terms", "edition,2026", "edition,2027"),
        ("rates", "top,small,11 to 50,90.00", "top,small,11 to 50,99.00"),
        ("rates", "side,middle,11 to 50,115.00\n", ""),
        ("limits", "too many dents,dents,60", "too many dents,dents,55"),
        ("panels", "front door,side", "rear door,side,vertical,bolted\nfront door,side"),
    ]);
    let csv = storm.run("schedule diff prices later --csv").ended(0).out;
    assert_eq!(
        csv.lines().skip(1).collect::<Vec<_>>(),
        [
            "Terms,edition,value,changed,2026,prices/terms.csv B3,2027,later/terms.csv B3",
            "Panels,rear door,,added,,,\"side, vertical, bolted\",later/panels.csv row 4",
            "Rates of top,11 to 50,small,changed,90.00,prices/rates.csv D3,99.00,later/rates.csv D3",
            "Rates of side,11 to 50,middle,removed,115.00,prices/rates.csv D9,,later/rates.csv D7",
            "Limits,too many dents,beyond,changed,60,prices/limits.csv C2,55,later/limits.csv C2",
        ]
    );
    let text = storm.run("schedule diff prices later").ended(0).out;
    assert!(text.contains("changed  11 to 50  small  90.00 (D3) -> 99.00 (D3)"), "{text}");
}

#[test]
fn what_an_edition_moves_is_told_by_kind_of_panel_and_by_claim_whatever_its_dates() {
    let storm = second(&[
        ("terms", "valid from,2026-01-01", "valid from,2027-01-01"),
        ("rates", "top,small,11 to 50,90.00", "top,small,11 to 50,99.00"),
    ]);
    let ran = storm.run("schedule diff prices later --on storm --json").ended(0);
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    // Only HC-1 has more than 10 small dents on its hood and on its roof: 9.00 each, and 20 % tax.
    let by_part = serde_json::json!({ "hood": "9.00", "roof": "9.00", "tax": "3.60" });
    assert_eq!(data["totals"]["EUR"]["difference_by_part"], by_part);
    assert_eq!(data["totals"]["EUR"]["difference"], "21.60");
    let differ: Vec<&str> = data["claims"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|claim| claim["difference"]["gross"] != "0.00")
        .map(|claim| claim["claim"].as_str().unwrap())
        .collect();
    assert_eq!(differ, ["HC-1"]);
}

#[test]
fn a_path_without_one_schedule_is_told() {
    let storm = second(&[("terms", "currency,EUR", "currency,EURO")]);
    let ran = storm.run("schedule diff prices later").ended(2);
    assert!(ran.err.contains("not-one-edition") && ran.err.contains("no schedule stands"), "{}", ran.err);
    let both = storm.run("schedule diff prices .").ended(2);
    assert!(both.err.contains("not-one-edition"), "{}", both.err);
    let claims = storm.run("schedule diff prices prices --on later").ended(2);
    assert!(claims.err.contains("claims-missing"), "{}", claims.err);
}

#[test]
fn editions_of_one_run_that_overlap_are_warned_about() {
    let storm = second(&[("terms", "valid from,2026-01-01", "valid from,2026-09-01")]);
    let ran = storm.run("check storm --schedule prices --schedule later").ended(0);
    assert!(ran.err.contains("schedule-editions-overlap"), "{}", ran.err);
    let ended = second(&[("terms", "valid from,2026-01-01", "valid from,2025-01-01\nvalid to,2025-11-30")]);
    let ran = ended.run("schedule check prices later").ended(0);
    assert!(
        ran.out.contains(
            "nothing holds for any insurer and jobs without an insurer from 2025-12-01 to 2025-12-31"
        ),
        "{}",
        ran.out
    );
}

#[test]
fn a_new_schedule_stands_as_a_workbook_and_as_a_folder_and_rates_a_claim() {
    let storm = Storm::new();
    for path in ["new.xlsx", "new"] {
        storm.run(&format!("schedule new {path}")).ended(0);
        let ran = storm.run(&format!("schedule check {path}")).ended(0);
        assert!(
            ran.out.ends_with("Starter schedule, edition draft 1 stands; nothing to say about it\n\n"),
            "{}",
            ran.out
        );
        storm.run(&format!("assess storm --schedule {path} --out out-{path}")).ended(0);
        let claims = rows(&storm.path(&format!("out-{path}/claims.csv")));
        let net: Vec<&str> = claims.iter().map(|row| row["net"].as_str()).collect();
        // HC-1: hood 77 (12 small) and 55 (4 middle), roof 77, door 44, and a headliner of 2.2 h and door trim of 0.6 h at 66.
        // HC-2: hood 44, roof 80 dents: 122 and 88, headliner. J-7: door 33 and trim 39.60, above the minimum.
        assert_eq!(net, ["437.80", "399.20", "72.60"], "{path}");
    }
    let same = storm.run("schedule diff new new.xlsx").ended(0);
    assert!(same.out.contains("Differs     nothing"), "{}", same.out);
}

#[test]
fn a_new_schedule_never_takes_the_place_of_anything() {
    let storm = Storm::new();
    storm.put("mine.xlsx", "mine");
    for path in ["mine.xlsx", "prices"] {
        let ran = storm.run(&format!("schedule new {path}")).ended(2);
        assert!(ran.err.contains("starter-exists"), "{}", ran.err);
    }
    assert_eq!(fs::read_to_string(storm.path("mine.xlsx")).unwrap(), "mine");
    let ran = storm.run("schedule new prices.ods").ended(2);
    assert!(ran.err.contains("starter-ending"), "{}", ran.err);
    assert!(storm.run("schedule new no/such/folder.xlsx").ended(2).err.contains("output-not-written"));
}

//! Comparing two people's counts, and taking back what they agreed on.

use crate::storm::Storm;
use std::fmt::Write as _;
use std::fs;

/// Two people's counts of two cars; they differ on one roof and one door.
const TWICE: &str = "claim,job,assessor,role,panel,0-10 mm,10-20 mm\n\
    HC-1,,Ada,own,hood,8,2\nHC-1,,Ada,own,roof,20,4\nHC-1,,Bo,second,hood,8,2\nHC-1,,Bo,second,roof,9,4\n\
    HC-2,,Ada,own,left front door,9,0\nHC-2,,Bo,second,left front door,12,0\n\
    ,J-7,Ada,own,hood,3,0\n";

pub fn storm() -> Storm {
    let vehicles = "claim,job,insurer,owner,make,body type,date of loss,excess\n\
        HC-1,,Example Mutual,A. Owner,Example,hatchback,2026-06-14,50.00\n\
        HC-2,,Example Mutual,B. Owner,Example,hatchback,2026-06-14,0\n\
        ,J-7,,C. Owner,Example,hatchback,2026-06-14,\n";
    Storm::with(vehicles, TWICE)
}

#[test]
fn two_counts_are_compared_and_everything_is_written() {
    let storm = storm();
    let ran = storm.run("compare storm prices").ended(0);
    assert!(ran.out.contains("2 cars of 3, 3 panels that both inspected"), "{}", ran.out);
    assert!(ran.out.contains("nobody else counted this car"), "{}", ran.out);
    assert!(ran.out.lines().all(|line| line.chars().count() <= 120), "{}", ran.out);
    let pairs = storm.rows("storm-compared/pairs.csv");
    assert_eq!(pairs[0]["dents difference"], "11");
    assert_eq!(pairs[0]["amount difference"], "45.00");
    assert_eq!(pairs[1]["amount difference"], "-40.00");
    let money = storm.rows("storm-compared/money.csv");
    let roof = money.iter().filter(|row| row["panel"] == "roof" && row["claim"] == "HC-1");
    let cents: i64 = roof.map(|row| row["amount"].replace('.', "").parse::<i64>().unwrap()).sum();
    assert_eq!(cents, 4500);
    for row in storm.rows("storm-compared/statistics.csv") {
        assert!(!row["definition"].is_empty() && !row["unit"].is_empty(), "{row:?}");
        assert_ne!(row["value"].is_empty(), row["no value because"].is_empty(), "{row:?}");
    }
    let data: serde_json::Value =
        serde_json::from_slice(&fs::read(storm.path("storm-compared/comparison.json")).unwrap()).unwrap();
    assert_eq!(data["format"], 1);
    for statistic in data["statistics"].as_array().unwrap() {
        assert!(statistic["definition"]["says"].is_string());
        assert_eq!(statistic["value"].is_null(), statistic["reason"].is_string(), "{statistic}");
    }
}

#[test]
fn comparing_again_replaces_the_output_with_the_same_bytes() {
    let storm = storm();
    storm.run("compare storm prices --threads 1").ended(0);
    let before = storm.files("storm-compared");
    storm.run("compare storm prices --threads 2").ended(0);
    assert_eq!(before, storm.files("storm-compared"));
}

#[test]
fn letters_stand_for_names_in_every_file() {
    let storm = storm();
    let ran = storm.run("compare storm prices --letters --reference bo").ended(0);
    assert!(ran.out.contains("A (reference) minus B"), "{}", ran.out);
    for (name, bytes) in storm.files("storm-compared") {
        assert!(!String::from_utf8_lossy(&bytes).contains("Ada"), "{name}");
    }
}

#[test]
fn what_people_agreed_on_is_read_back_and_assessed() {
    let storm = storm();
    storm.run("compare storm prices").ended(0);
    let table = fs::read_to_string(storm.path("storm-compared/to_agree.csv")).unwrap();
    let mut agreed = String::new();
    for line in table.lines() {
        // The sizes stand behind nine columns; the roof was agreed at 10 and 4, the door is left open.
        let filled = line.replacen("HC-1,agreed,roof,,,,,,,,", "HC-1,agreed,roof,,,,,,,10,4", 1);
        let _ = writeln!(agreed, "{filled}");
    }
    assert!(agreed.contains("roof,,,,,,,10,4"), "{agreed}");
    storm.put("storm/agreed.csv", &agreed);
    storm.run("assess storm prices").ended(0);
    let panels = storm.rows("storm-assessed/panels.csv");
    let roof = panels.iter().find(|row| row["claim"] == "HC-1" && row["panel"] == "roof").unwrap();
    assert_eq!(roof["dents"], "14");
    let door = panels.iter().find(|row| row["claim"] == "HC-2").unwrap();
    assert_eq!(door["dents"], "9");
    let ran = storm.run("compare storm prices").ended(0);
    assert!(ran.out.contains("2 counts: an agreed or supplementary count"), "{}", ran.out);
}

#[test]
fn a_batch_with_one_count_a_car_and_a_reference_that_is_nobody_are_told() {
    let ran = Storm::new().run("compare storm prices").ended(2);
    assert!(ran.err.contains("no-car-counted-twice"), "{}", ran.err);
    let ran = storm().run("compare storm prices --reference Adda").ended(2);
    assert!(ran.err.contains("no-such-reference") && ran.err.contains("Ada"), "{}", ran.err);
}

#[test]
fn a_sample_is_drawn_alike_from_its_seed_and_read_when_it_was_counted() {
    let storm = storm();
    let ran = storm.run("sample storm prices --seed harbour --quality 6.5").ended(0);
    assert!(ran.out.contains("code letter A: 2 of 3 cars; accept at 0 off or fewer"), "{}", ran.out);
    assert_eq!(ran.out, storm.run("sample storm prices --seed harbour --quality 6.5").ended(0).out);
    let all = storm.run("sample storm prices --seed harbour --quality 4").ended(0);
    assert!(all.out.contains("all 3 cars"), "{}", all.out);
    assert!(all.out.contains("HC-1: counted, off, 54.00 EUR gross"), "{}", all.out);
    assert!(all.out.contains("2 of 3 drawn cars counted again, 2 off"), "{}", all.out);
    storm.run("sample storm prices --seed harbour --quality 5").ended(2);
    let data: serde_json::Value = serde_json::from_str(
        &storm.run("sample storm prices --seed harbour --quality 6.5 --json").ended(0).out,
    )
    .unwrap();
    assert_eq!(data["plan"]["sample"], 2);
    assert_eq!(data["drawn"].as_array().unwrap().len(), 2);
}

#[test]
fn cars_whose_recount_could_move_most_stand_beside_the_sample() {
    // Six cars counted once: one with dents at the edge of a band, one far from any.
    let mut counts = "job,date of inspection,assessor,panel,0-10 mm,10-20 mm\n".to_owned();
    for (car, dents) in [(1, 3), (2, 10), (3, 3), (4, 3), (5, 3), (6, 3)] {
        let _ = writeln!(counts, "J-{car},2026-06-20,Ada,roof,{dents},0");
    }
    let storm = Storm::with("job,owner\nJ-1,A. Owner\n", &counts);
    let ran = storm.run("sample storm prices --seed a --quality 6.5 --level S-1 --json").ended(0);
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let drawn = data["drawn"].as_array().unwrap().iter().any(|car| car["claim"] == "J-2");
    let beside = data["beside"].as_array().unwrap();
    assert!(drawn || beside[0]["claim"] == "J-2", "{}", ran.out);
    let none = storm.run("sample storm prices --seed a --quality 6.5 --beside 0 --json").ended(0);
    let data: serde_json::Value = serde_json::from_str(&none.out).unwrap();
    assert!(data["beside"].as_array().unwrap().is_empty());
}

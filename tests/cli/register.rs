//! Registers: where claims stand by dated rows, what they wait for, and what does not fit.

use crate::storm::Storm;
use serde_json::Value;

/// The storm with a register, and what `register` says of it as data. HC-1 comes to 354.00 gross, 304.00 of it the insurer's;
/// HC-2 has an open roof; J-7 has no insurer.
fn register_of(rows: &str, more: &[&str]) -> (Storm, Value) {
    let storm = Storm::new();
    storm.put("storm/register.csv", rows);
    let ran = storm.run_with("register storm prices --out out --json", more).ended(0);
    let told = serde_json::from_str(&ran.out).unwrap();
    (storm, told)
}

/// One line for each claim: where it stands, what it waits for, since when, and its amounts.
fn standings(register: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().unwrap_or("-").to_owned();
    let claims = register["claims"].as_array().unwrap().iter().map(|claim| {
        let amounts =
            ["submitted", "agreed", "paid", "still_to_pay"].map(|name| text(&claim[name])).join(" ");
        format!(
            "{}: {}; {} {}; {} {}; {amounts}",
            text(&claim["claim"]),
            text(&claim["stands"]),
            text(&claim["waits_for"]),
            text(&claim["what_for"]),
            text(&claim["since"]),
            claim["days"],
        )
    });
    claims.collect()
}

/// Code and sentence of each finding, with the claim and the cells.
fn findings(register: &Value) -> Vec<String> {
    let findings = register["findings"].as_array().unwrap().iter().map(|finding| {
        let cell =
            |at: &Value| at.as_str().unwrap_or_default().rsplit(' ').next().unwrap_or_default().to_owned();
        let also: Vec<String> = finding["also_at"].as_array().into_iter().flatten().map(cell).collect();
        format!(
            "{} {} {} [{}]: {}",
            finding["code"].as_str().unwrap(),
            finding["claim"].as_str().unwrap_or("-"),
            cell(&finding["at"]),
            also.join(" "),
            finding["wrong"].as_str().unwrap()
        )
    });
    findings.collect()
}

#[test]
fn each_claim_stands_where_its_latest_row_says_and_what_waits_longest_comes_first() {
    let (storm, register) = register_of(
        "claim,date,event,amount,by\n\
         HC-1,2026-06-20,inspected,,\n\
         ,2026-06-22,submitted,354.00,A. Brinkwell\n\
         ,2026-07-01,agreed,354.00,\n\
         J-7,2026-06-28,inspected,,\n",
        &["--date", "2026-07-10"],
    );
    assert_eq!(
        standings(&register),
        [
            "HC-2: -; the technician to begin; 2026-06-20 20; - - - -",
            "J-7: inspected; the technician to submit; 2026-06-28 12; - - - -",
            "HC-1: agreed; the technician to repair; 2026-07-01 9; 354.00 354.00 - 354.00",
        ]
    );
    assert_eq!(
        findings(&register),
        ["claim-without-register-row HC-2 C3 []: no row of the register is for this claim"]
    );
    assert_eq!(register["sums"][0]["submitted"], "354.00");
    for file in ["register.html", "register.xlsx", "register.json", "run.json"] {
        assert!(storm.path("out").join(file).is_file(), "{file}");
    }
    let page = std::fs::read_to_string(storm.path("out/register.html")).unwrap();
    assert!(page.contains("longest 20 days: HC-2, to begin"), "{page}");
    // A second run replaces its own output; the same files give the same bytes.
    let before = storm.files("out");
    storm.run("register storm prices --out out --date 2026-07-10").ended(0);
    assert_eq!(before, storm.files("out"));
}

#[test]
fn a_claim_goes_through_its_whole_course_day_by_day() {
    let rows = "date,claim,event,amount\n\
         2026-06-15,HC-1,listed,\n\
         2026-06-20,HC-1,inspected,\n\
         2026-06-21,HC-1,submitted,EUR 300\n\
         2026-06-24,HC-1,supplement,EUR 54\n\
         2026-06-28,HC-1,agreed,EUR 354\n\
         2026-07-03,HC-1,repaired,\n\
         2026-07-04,HC-1,handed over,\n\
         2026-07-08,HC-1,paid,EUR 300\n\
         2026-07-15,HC-1,paid,EUR 54\n";
    let on = |day: &str| {
        let (_, register) = register_of(rows, &["--date", day]);
        let claim = standings(&register).into_iter().find(|line| line.starts_with("HC-1")).unwrap();
        let (_, rest) = claim.split_once(": ").unwrap();
        rest.to_owned()
    };
    assert_eq!(on("2026-06-14"), "-; the technician to begin; 2026-06-20 0; - - - -");
    assert_eq!(on("2026-06-19"), "listed; the technician to inspect; 2026-06-15 4; - - - -");
    assert_eq!(on("2026-06-20"), "inspected; the technician to submit; 2026-06-20 0; - - - -");
    assert_eq!(on("2026-06-23"), "submitted; the insurer to agree; 2026-06-21 2; 300.00 - - -");
    assert_eq!(
        on("2026-06-27"),
        "supplement; the insurer to agree to the supplement; 2026-06-24 3; 354.00 - - -"
    );
    assert_eq!(on("2026-07-01"), "agreed; the technician to repair; 2026-06-28 3; 354.00 354.00 - 354.00");
    assert_eq!(
        on("2026-07-03"),
        "repaired; the owner to fetch the car; 2026-07-03 0; 354.00 354.00 - 354.00"
    );
    assert_eq!(on("2026-07-06"), "handed over; the insurer to pay; 2026-07-04 2; 354.00 354.00 - 354.00");
    assert_eq!(
        on("2026-07-10"),
        "handed over; the insurer to pay the rest; 2026-07-08 2; 354.00 354.00 300.00 54.00"
    );
    assert_eq!(on("2026-07-20"), "handed over; - -; 2026-07-15 null; 354.00 354.00 354.00 0.00");
    let (_, later) = register_of(rows, &["--date", "2026-07-10"]);
    assert!(
        findings(&later)
            .contains(&"register-row-later - 10 []: this is of 2026-07-15, after 2026-07-10".to_owned()),
        "{:?}",
        findings(&later)
    );
}

#[test]
fn parts_that_are_replaced_are_waited_for_and_cash_waits_for_nothing_but_its_payment() {
    let storm = Storm::new();
    storm.put("storm/items.csv", "claim,item,price\nHC-1,left lamp,90.00\n");
    storm.put("storm/settled.csv", "claim,make,settlement\nHC-2,Example,cash in place of repair\n");
    let rows = "claim,date,event\nHC-1,2026-07-01,agreed\nHC-2,2026-07-01,agreed\n";
    storm.put("storm/register.csv", rows);
    let told = |storm: &Storm| -> Vec<String> {
        let ran = storm.run("register storm prices --out out --json");
        let register: Value = serde_json::from_str(&ran.out).unwrap();
        let waits = register["claims"].as_array().unwrap().iter();
        waits
            .map(|claim| {
                format!("{} {} {}", claim["claim"], claim["waits_for"], claim["what_for"]).replace('"', "")
            })
            .collect()
    };
    assert_eq!(told(&storm)[1..], ["HC-1 parts to arrive", "HC-2 the insurer to pay"]);
    storm.put("storm/register.csv", &format!("{rows}HC-1,2026-07-02,parts in\nHC-2,2026-07-03,paid\n"));
    assert_eq!(told(&storm)[1..], ["HC-1 the technician to repair", "HC-2 null null"]);
}

#[test]
fn what_does_not_fit_is_told_with_its_cells() {
    let (_, register) = register_of(
        "claim,date,event,amount\n\
         HC-1,2026-06-25,submitted,EUR 300\n\
         HC-1,2026-06-22,agreed,EUR 304\n\
         HC-1,2026-06-28,paid,EUR 200\n\
         HC-1,2026-06-29,paid,EUR 200\n\
         HC-2,2026-06-20,submitted,USD 100\n\
         HC-2,2026-06-21,agreed,EUR 10.0005\n\
         HC-9,2026-06-21,listed,\n\
         J-7,2026-06-28,inspected,\n",
        &[],
    );
    assert_eq!(
        findings(&register),
        [
            "register-row-without-claim - A8 []: no claim of the files has this number or car",
            "register-amount-differs HC-1 D2 []: submitted: EUR 300.00; the files come to EUR 354.00 gross",
            "register-out-of-order HC-1 B3 [B2]: agreed on 2026-06-22, and submitted only on 2026-06-25",
            "register-paid-more HC-1 D5 [D3]: with this payment EUR 400.00 is paid, and EUR 304.00 was agreed",
            "register-amount-unusable HC-2 D6 []: the amount counts in no sum: other amounts of the claim are in EUR",
            "register-amount-unusable HC-2 D7 []: the amount counts in no sum: the value has too many decimals",
        ]
    );
    assert_eq!(register["rows_without_claim"][0]["key"], "HC-9");
}

#[test]
fn currencies_are_never_added_and_an_amount_without_any_counts_in_no_sum() {
    let storm = Storm::new();
    storm.put(
        "storm/register.csv",
        "claim,date,event,amount\nHC-1,2026-06-20,paid,USD 100\nHC-2,2026-06-20,paid,EUR 50\nJ-7,2026-06-20,paid,70\n",
    );
    // Without a schedule nothing is assessed, and nothing says which currency is meant.
    let ran = storm.run("register storm --out out --json").ended(0);
    let register: Value = serde_json::from_str(&ran.out).unwrap();
    let sums: Vec<String> = register["sums"]
        .as_array()
        .unwrap()
        .iter()
        .map(|sums| format!("{} {}", sums["currency"], sums["paid"]))
        .collect();
    assert_eq!(sums, ["\"EUR\" \"50.00\"", "\"USD\" \"100.00\""]);
    let unusable =
        findings(&register).into_iter().filter(|line| line.starts_with("register-amount-unusable"));
    assert_eq!(
        unusable.collect::<Vec<_>>(),
        [
            "register-amount-unusable J-7 D4 []: the amount counts in no sum: nothing says which currency it is in"
        ]
    );
}

#[test]
fn without_a_register_nothing_is_written_and_a_row_that_cannot_be_read_leaves_the_others() {
    let storm = Storm::new();
    let ran = storm.run("register storm prices --out out").ended(2);
    assert!(ran.err.contains("register-missing"), "{}", ran.err);
    assert!(!storm.path("out").exists());
    storm
        .put("storm/register.csv", "claim,date,event\nHC-1,2026-06-20,inspectd\nHC-2,2026-06-20,inspected\n");
    let ran = storm.run("register storm prices --out out").ended(1);
    assert!(ran.err.contains("word-unknown") && ran.err.contains("did you mean inspected"), "{}", ran.err);
    assert!(ran.out.contains("HC-2"), "{}", ran.out);
}

#[test]
fn a_car_of_an_earlier_run_in_another_claim_is_told_with_both_cells() {
    let vehicles = |first: &str, second: &str| {
        format!(
            "claim,registration,vin,insurer,make,body type,date of loss\n{first},AB 123,,Example Mutual,Example,hatchback,\
             2026-06-14\n{second},CD 4,1M8GDM9AXKP042788,Example Mutual,Example,hatchback,2026-06-14\n"
        )
    };
    let counts =
        |first: &str, second: &str| format!("claim,panel,0-10 mm\n{first},hood,3\n{second},hood,4\n");
    let storm = Storm::with(&vehicles("S-1", "S-2"), &counts("S-1", "S-2"));
    storm.run("assess storm prices --out spring").ended(0);
    storm.put("storm/vehicles.csv", &vehicles("S-1", "T-9"));
    storm.put("storm/counts.csv", &counts("S-1", "T-9"));
    storm.put("storm/register.csv", "claim,date,event\nT-9,2026-06-20,inspected\n");
    let earlier = ["--earlier", "spring"];
    storm.run_with("assess storm prices --out out", &earlier).ended(0);
    let told: Vec<String> = storm
        .rows("out/exceptions.csv")
        .iter()
        .filter(|row| row["code"] == "car-in-earlier-run")
        .map(|row| format!("{} {}: {}", row["claim"], row["cell"], row["what is wrong"]))
        .collect();
    assert_eq!(told, ["T-9 C3: this VIN stands in S-2 of the earlier run (spring/claims.csv L3)"]);
    let check = storm.run_with("check storm prices", &earlier).ended(0);
    assert!(check.err.contains("car-in-earlier-run"), "{}", check.err);
    let register = storm.run_with("register storm prices --out reg --json", &earlier).ended(0);
    let register: Value = serde_json::from_str(&register.out).unwrap();
    assert!(findings(&register).iter().any(|line| line.starts_with("car-in-earlier-run T-9")), "{register}");
    let missing = storm.run_with("assess storm prices --out out", &["--earlier", "storm"]).ended(2);
    assert!(missing.err.contains("earlier-run-missing"), "{}", missing.err);
}

//! What insurers want a submission to hold, and what claims lack of it.

use crate::storm::{Storm, rows};
use std::fs;

/// A PNG of no picture: its sign and its last chunk (ISO/IEC 15948, 5.2 and 11.2.5).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\0IEND\xae\x42\x60\x82";

fn storm_with(required: &str) -> Storm {
    let storm = Storm::new();
    storm.put("storm/required.csv", required);
    fs::write(storm.path("storm/a.png"), PNG).unwrap();
    storm
}

/// The columns of `claims.csv` about sending, by claim.
fn readiness(storm: &Storm) -> Vec<String> {
    storm.run("assess storm prices --out out");
    let rows = rows(&storm.path("out/claims.csv"));
    rows.iter()
        .map(|row| format!("{} {}: {}", row["claim"], row["ready to send"], row["still to fetch"]))
        .collect()
}

#[test]
fn what_a_claim_lacks_is_listed_in_the_order_in_which_it_is_fetched_and_the_listing_marks_it() {
    let storm = storm_with(
        "insurer,required,which,per,at least,above\n\
         Example Mutual,consent,,,,300 EUR\n\
         Example Mutual,document,signed order,,,\n\
         example mutual,odometer,,,,\n\
         any,photograph,,panel,1,\n\
         any,photograph,plate,,1,\n\
         any,owner,,,,\n",
    );
    storm.put(
        "storm/photographs.csv",
        "claim,photograph,shows,panel\nHC-1,a.png,roof,roof\nHC-1,gone.png,hood,hood\nHC-2,a.png,the plate and the front,\n",
    );
    storm.put(
        "storm/papers.csv",
        "claim,document,date of document\nHC-2,The signed order (two pages),2026-06-20\n",
    );
    let found = readiness(&storm);
    // HC-1 is 295.00 net and 354.00 gross; HC-2 is below 300 without its open roof. J-7 has no insurer.
    assert_eq!(
        found,
        [
            "HC-1 no: at the car: 1 photograph each of the hood, left front door (none is there); 1 photograph that shows: \
             plate (none is there); the odometer. from the owner: signed order. from the insurer: the insurer's consent, \
             since the gross amount is above EUR 300",
            "HC-2 no: at the car: 1 photograph each of the hood, roof (none is there); the odometer",
            "J-7 : ",
        ]
    );
    let exceptions = storm.rows("out/exceptions.csv");
    let told: Vec<(&str, &str)> = exceptions
        .iter()
        .filter(|row| row["code"] == "claim-not-ready")
        .map(|row| (row["claim"].as_str(), row["see also"].as_str()))
        .collect();
    let list = "storm/required.csv";
    assert_eq!(
        told,
        [
            ("HC-1", &*format!("{list} row 4; {list} row 5; {list} row 6")),
            ("HC-1", &*format!("{list} row 3")),
            ("HC-1", &*format!("{list} row 2")),
            ("HC-2", &*format!("{list} row 4; {list} row 5")),
        ]
    );
    let check = storm.run("check storm prices");
    let at = |text: &str| check.err.find(text).unwrap_or_else(|| panic!("no {text} in {}", check.err));
    assert!(
        at("at the car: 1 photograph") < at("from the owner: signed")
            && at("from the owner") < at("from the insurer")
    );
}

#[test]
fn a_claim_that_holds_all_of_it_is_ready_and_one_that_is_not_priced_is_not() {
    let storm = storm_with(
        "insurer,required,per,at least,since,until\n\
         Example Mutual,count,panel,,,\n\
         Example Mutual,count,,2,,\n\
         Example Mutual,photograph,mark,,,\n\
         Example Mutual,odometer,,,2026-06-15,\n\
         Example Mutual,odometer,,,,2026-06-13\n\
         Another,odometer,,,,\n",
    );
    assert_eq!(readiness(&storm), ["HC-1 yes: ", "HC-2 yes: ", "J-7 : "]);
    storm.put(
        "storm/marks.csv",
        "claim,panel,mark,length,date of inspection\nHC-1,roof,crease,40 mm,2026-06-20\nHC-1,roof,dent,30 mm,2026-06-20\n",
    );
    storm.put("storm/photographs.csv", "claim,photograph,shows,panel,mark\nHC-1,a.png,crease,roof,crease\n");
    storm.put("storm/more.csv", "claim,panel,date of inspection,0-10 mm\nHC-2,hood,2026-06-20,3\n");
    let found = readiness(&storm);
    assert_eq!(found[0], "HC-1 no: at the car: 2 photographs of marks on the roof (1 is there)");
    assert_eq!(found[1], "HC-2 no: ");
}

#[test]
fn a_row_of_requirements_that_cannot_be_understood_is_told_and_asks_for_nothing() {
    let storm = storm_with(
        "insurer,required,which,per,at least\n\
         Example Mutual,odometr,,,\n\
         Example Mutual,owner,,panel,\n\
         Example Mutual,document,,,\n\
         Example Mutual,photograph,,,many\n\
         ,photograph,,,\n",
    );
    assert_eq!(readiness(&storm), ["HC-1 : ", "HC-2 : ", "J-7 : "]);
    let told: Vec<String> = storm
        .rows("out/exceptions.csv")
        .iter()
        .filter(|row| row["file"].ends_with("required.csv"))
        .map(|row| format!("{} {} {}", row["code"], row["cell"], row["what would be right"]))
        .collect();
    assert_eq!(
        told,
        [
            "requirement-unknown B2 did you mean odometer?",
            "requirement-per D3 write claim, or leave it blank",
            "row-incomplete row 4 ",
            "number-unreadable E5 write a whole number from 1 to 99",
            "row-incomplete row 6 ",
        ]
    );
}

//! Lots: an excess for each vehicle, and a cap on what they bear together after one event.

use crate::storm::{Ran, Storm};

/// HC-1 (354.00 gross), HC-2 (54.00, with an open roof) and a vehicle without counts, of one lot.
fn lot(first: &str, second: &str) -> Storm {
    let head = "claim,insurer,owner,make,body type,event,date of loss,lot,lot excess cap,excess\n";
    let row = |claim: &str, lot: &str, cap: &str| {
        format!(
            "{claim},Example Mutual,Example Fleet,Example,hatchback,Example Storm,2026-06-14,{lot},{cap},50.00\n"
        )
    };
    let vehicles = [
        head.to_owned(),
        row("HC-1", "Fleet", first),
        row("HC-2", "FLEET", second),
        row("HC-3", "Fleet", ""),
    ];
    let counts = "claim,panel,date of inspection,0-10 mm,10-20 mm\n\
        HC-1,hood,2026-06-20,12,4\nHC-1,roof,2026-06-20,30,\nHC-1,left front door,2026-06-20,,3\n\
        HC-2,hood,2026-06-20,2,0\nHC-2,roof,2026-06-20,50,30\n";
    Storm::with(&vehicles.concat(), counts)
}

fn assessed(storm: &Storm, code: i32) -> Ran {
    storm.run("assess storm --schedule prices --out out").ended(code)
}

#[test]
fn the_cap_of_a_lot_is_applied_once_on_its_statement_and_the_claims_keep_their_own_excess() {
    let storm = lot("60.00", "");
    assessed(&storm, 1);
    let claims = storm.rows("out/claims.csv");
    assert_eq!([&claims[0]["excess"], &claims[1]["excess"]], ["50.00", "50.00"]);
    // 60.00 over 50.00 and 50.00; 354.00 - 30.00 and 54.00 - 30.00.
    let rows = storm.rows("out/lots.csv");
    let column = |name: &str| -> Vec<&str> { rows.iter().map(|row| row[name].as_str()).collect() };
    assert_eq!(column("claim"), ["HC-1", "HC-2", "HC-3"]);
    assert_eq!(column("own excess"), ["50.00", "50.00", ""]);
    assert_eq!(column("excess"), ["30.00", "30.00", ""]);
    assert_eq!(column("insurer pays"), ["324.00", "24.00", ""]);
    assert_eq!(column("owner bears"), ["30.00", "30.00", ""]);
    assert_eq!(column("open"), ["0", "1", ""]);
    let files = storm.files("out");
    let page = String::from_utf8(files[&rows[0]["statement"]].clone()).unwrap();
    for words in
        ["Statement of a lot", "408.00", "348.00", "../claims/HC-1.html", "not priced", "without 1 open"]
    {
        assert!(page.contains(words), "{words}");
    }
    let own = String::from_utf8(files["claims/HC-1.html"].clone()).unwrap();
    assert!(own.contains("in the folder lots"));
    let mut book = calamine::open_workbook_auto(storm.path("out/bordereau.xlsx")).unwrap();
    let sheet = calamine::Reader::worksheet_range(&mut book, "Lots").unwrap();
    assert_eq!(sheet.get_size().0, 4, "a heading and three claims");
    let described = String::from_utf8(files["datapackage.json"].clone()).unwrap();
    assert!(described.contains("lots.csv"));
}

#[test]
fn two_caps_for_one_lot_are_told_with_both_cells_and_one_without_a_lot_has_no_effect() {
    let storm = lot("60.00", "70.00");
    assessed(&storm, 1);
    let told = storm.rows("out/exceptions.csv");
    let found = told.iter().find(|row| row["code"] == "lot-caps-disagree").unwrap();
    assert_eq!((found["claim"].as_str(), found["cell"].as_str()), ("HC-2", "I3"));
    assert!(found["see also"].contains("I2"), "{found:?}");
    let storm = Storm::with(
        "claim,insurer,make,date of loss,lot excess cap\nHC-1,Example Mutual,Example,2026-06-14,60.00\n",
        "claim,panel,date of inspection,0-10 mm\nHC-1,hood,2026-06-20,2\n",
    );
    assessed(&storm, 0);
    let told = storm.rows("out/exceptions.csv");
    assert!(told.iter().any(|row| row["code"] == "lot-cap-idle"), "{told:?}");
    assert!(!storm.path("out/lots.csv").exists());
}

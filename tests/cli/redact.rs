//! Redacted runs: what names a person or a car is in no byte of what is written.

use crate::storm::Storm;
use std::collections::BTreeMap;
use std::io::{Cursor, Read};

/// What must be nowhere, as letters and digits in lower case: owners, plates, VINs and their ends, assessors, policies,
/// jobs, places, remarks, file and sheet names, cells that a problem would quote.
const HIDDEN: [&str; 16] = [
    "athelwray",
    "corbin",
    "demo117",
    "demo118",
    "jkl123456",
    "brinkwell",
    "pol88",
    "neighbour",
    "marlgate",
    "telephone",
    "5550100",
    "secretphoto",
    "hidingfile",
    "quotedcell",
    "tolmarsh",
    "fleetofathel",
];

fn storm() -> Storm {
    let storm = Storm::with(
        "claim,job,insurer,owner,policy,registration,vin,make,model,body type,date of loss,place of loss,excess,lot,lot excess cap\n\
         HC-1,,Example Mutual,Corbin Athelwray,POL-88,DEMO 117,ABCDEFGHJKL123456,Example,One,hatchback,2026-06-14,Marlgate,50.00,Fleet of Athel,60.00\n\
         Claim of Athelwray,,Example Mutual,Corbin Athelwray,POL-88,DEMO 118,,Example,Demo-118 special,hatchback,2026-06-14,Marlgate,0,,\n\
         ,the neighbour,,Corbin Athelwray,,,,Example,Two,hatchback,2026-06-14,,,,\n",
        "claim,job,panel,assessor,date of inspection,0-10 mm,10-20 mm,remark\n\
         HC-1,,hood,Odda Brinkwell,2026-06-20,12,4,telephone 555 0100\n\
         HC-1,,roof,Odda Brinkwell,2026-06-20,30,,\n\
         Claim of Athelwray,,hood,Odda Brinkwell,2026-06-20,2,0,\n\
         Claim of Athelwray,,roof,Odda Brinkwell,2026-06-20,50,30,\n\
         ,the neighbour,right front door,Odda Brinkwell,2026-06-20,9,,\n",
    );
    storm.put(
        "storm/hiding file DEMO 117.csv",
        "registration,panel,assessor,date of inspection,0-10 mm\nDEMO 119,hood,Odda Brinkwell,2026-06-20,quoted cell\n\
         DEMO 118 Athelwray,roof,Odda Brinkwell,2026-06-20,3\n",
    );
    storm.put(
        "storm/photographs.csv",
        "claim,photograph,shows,panel\nHC-1,secret photo.jpg,plate DEMO 117,hood\n",
    );
    storm.put(
        "storm/items.csv",
        "claim,item,action,price,source\nHC-1,windscreen,replace,100.00,Glazier Tolmarsh\n",
    );
    storm
}

/// Letters and digits in lower case.
fn squeezed(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes)
        .chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// Every file and every part of an archive in it, with its name.
fn parts(files: &BTreeMap<String, Vec<u8>>) -> Vec<(String, Vec<u8>)> {
    let mut parts = Vec::new();
    for (name, bytes) in files {
        parts.push((name.clone(), bytes.clone()));
        if bytes.starts_with(b"PK") {
            let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
            for index in 0..archive.len() {
                let mut part = archive.by_index(index).unwrap();
                let mut unpacked = Vec::new();
                part.read_to_end(&mut unpacked).unwrap();
                parts.push((format!("{name} {:?}", part.name().unwrap()), unpacked));
            }
        }
    }
    parts
}

fn found(storm: &Storm, folder: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (name, bytes) in parts(&storm.files(folder)) {
        let (named, text) = (squeezed(name.as_bytes()), squeezed(&bytes));
        let hits = HIDDEN.iter().filter(|hidden| named.contains(**hidden) || text.contains(**hidden));
        found.extend(hits.map(|hidden| format!("{hidden} in {name}")));
    }
    found
}

#[test]
fn nothing_that_is_redacted_stands_in_any_byte_or_name_that_is_written() {
    let storm = storm();
    let ran = storm.run("assess storm --schedule prices --out out --redact").ended(1);
    assert!(storm.path("out/claims/HC-1.html").exists(), "{}", ran.err);
    assert_eq!(found(&storm, "out"), Vec::<String>::new());
    // The same run without it shows that the search can find each of them.
    storm.run("assess storm --schedule prices --out whole").ended(1);
    let whole = found(&storm, "whole");
    for hidden in HIDDEN {
        assert!(whole.iter().any(|hit| hit.starts_with(hidden)), "{hidden} would not be found: {whole:?}");
    }
}

#[test]
fn a_redacted_run_has_the_same_amounts_and_counts_of_problems() {
    let storm = storm();
    storm.run("assess storm --schedule prices --out out --redact").ended(1);
    storm.run("assess storm --schedule prices --out whole").ended(1);
    let figures = |folder: &str| -> Vec<Vec<String>> {
        let rows = storm.rows(&format!("{folder}/claims.csv"));
        let names =
            ["outcome", "net", "tax", "gross", "insurer pays", "owner bears", "dents", "errors", "questions"];
        rows.iter().map(|row| names.map(|name| row[name].clone()).to_vec()).collect()
    };
    assert_eq!(figures("out"), figures("whole"));
    let codes = |folder: &str| -> Vec<String> {
        storm.rows(&format!("{folder}/exceptions.csv")).iter().map(|row| row["code"].clone()).collect()
    };
    assert_eq!(codes("out"), codes("whole"));
    let claims: Vec<String> = storm.rows("out/claims.csv").iter().map(|row| row["claim"].clone()).collect();
    assert!(claims.contains(&"HC-1".to_owned()) && claims.contains(&"job 2".to_owned()), "{claims:?}");
}

#[test]
fn a_redacted_supplement_is_not_asked_for() {
    let storm = Storm::new();
    let ran = storm.run("assess storm --schedule prices --redact --agreed x.jsonl").ended(2);
    assert!(ran.err.contains("cannot be used with"), "{}", ran.err);
}

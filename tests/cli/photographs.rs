//! Lists of photographs and the files that they name, and what stands in two claims of a run.

use crate::storm::{Storm, rows};
use std::fmt::Write as _;
use std::fs;

/// A JPEG of no picture: a start, the camera's day, the start of a scan, and its end. The layout of the segments is that of
/// ITU-T T.81 annex B, that of the day JEITA CP-3451 (Exif 2.3), 4.5 and 4.6.
fn jpeg(day: &str, scan: &[u8]) -> Vec<u8> {
    let mut exif = b"Exif\0\0II*\0\x08\0\0\0".to_vec();
    let entry = |tag: u16, kind: u16, count: u32, value: u32| {
        let mut entry = vec![1, 0];
        entry.extend(tag.to_le_bytes());
        entry.extend(kind.to_le_bytes());
        entry.extend(count.to_le_bytes());
        entry.extend(value.to_le_bytes());
        entry.extend([0; 4]);
        entry
    };
    exif.extend(entry(0x8769, 4, 1, 26));
    exif.extend(entry(0x9003, 2, 20, 44));
    exif.extend(format!("{day} 10:30:00\0").into_bytes());
    let mut bytes = b"\xff\xd8\xff\xe1".to_vec();
    bytes.extend(u16::try_from(exif.len() + 2).unwrap().to_be_bytes());
    bytes.extend(exif);
    bytes.extend(b"\xff\xda\0\x02");
    bytes.extend(scan);
    bytes.extend(b"\xff\xd9");
    bytes
}

/// A PNG of no picture: its sign and its last chunk (ISO/IEC 15948, 5.2 and 11.2.5).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\0IEND\xae\x42\x60\x82";

fn storm_with(list: &str, files: &[(&str, Vec<u8>)]) -> Storm {
    let storm = Storm::new();
    storm.put("storm/photographs.csv", list);
    for (name, bytes) in files {
        let path = storm.path(&format!("storm/{name}"));
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    storm
}

/// Codes, places and messages of the exceptions of an assessment, by claim.
fn exceptions(storm: &Storm, more: &[&str]) -> Vec<String> {
    storm.run_with("assess storm prices --out out", more);
    let rows = rows(&storm.path("out/exceptions.csv"));
    let said = |row: &std::collections::BTreeMap<String, String>| {
        format!("{} {} {} {}: {}", row["claim"], row["code"], row["file"], row["cell"], row["what is wrong"])
    };
    rows.iter()
        .filter(|row| row["code"].contains("photograph") || row["code"].contains("car-in"))
        .map(said)
        .collect()
}

#[test]
fn photographs_that_are_there_whole_and_of_the_day_say_nothing_and_are_kept_with_their_digests() {
    let list = "claim,photograph,shows,panel,mark,date taken\n\
                HC-1,a.jpg,roof under the board,roof,,2026-06-20\n\
                HC-1,below\\b.png,crease with a scale,hood,crease,\n";
    let storm = storm_with(list, &[("a.jpg", jpeg("2026:06:20", b"one")), ("below/b.png", PNG.to_vec())]);
    assert_eq!(exceptions(&storm, &["--date", "2026-07-01"]), Vec::<String>::new());
    let lines = fs::read_to_string(storm.path("out/assessments.jsonl")).unwrap();
    let first: serde_json::Value = serde_json::from_str(lines.lines().next().unwrap()).unwrap();
    let photographs = &first["written"]["photographs"];
    assert_eq!(photographs[0]["image"]["format"], "JPEG");
    assert_eq!(photographs[0]["image"]["taken"], "2026-06-20");
    assert_eq!(photographs[0]["image"]["sha256"].as_str().unwrap().len(), 64);
    assert_eq!(photographs[1]["image"]["format"], "PNG");
    assert_eq!(photographs[1]["mark"]["value"], "crease");
}

#[test]
fn photographs_that_are_missing_or_broken_or_of_another_day_or_panel_are_told_at_their_cells() {
    let broken = jpeg("2026:06:20", b"one");
    let list = "claim,photograph,shows,panel,date taken\n\
                HC-1,gone.jpg,roof,roof,\n\
                HC-1,../storm/a.jpg,roof,roof,\n\
                HC-1,short.jpg,roof,roof,\n\
                HC-1,text.jpg,roof,roof,\n\
                HC-1,before.jpg,roof,roof,2026-06-20\n\
                HC-1,after.jpg,door,left rear door,2026-08-01\n";
    let storm = storm_with(
        list,
        &[
            ("short.jpg", broken[..broken.len() - 2].to_vec()),
            ("text.jpg", b"a text".to_vec()),
            ("before.jpg", jpeg("2026:06:01", b"one")),
            ("after.jpg", PNG.to_vec()),
        ],
    );
    let found = exceptions(&storm, &["--date", "2026-07-01"]);
    let list = "storm/photographs.csv";
    assert_eq!(
        found,
        [
            format!("HC-1 photograph-missing {list} B2: there is no such file in the folder of the list"),
            format!("HC-1 photograph-missing {list} B3: the path leads out of the folder of the list"),
            format!(
                "HC-1 photograph-unreadable {list} B4: the file is no whole photograph: it ends before its picture does"
            ),
            format!(
                "HC-1 photograph-unreadable {list} B5: the file is no whole photograph: it is neither JPEG, PNG, WebP nor HEIF"
            ),
            format!(
                "HC-1 photograph-date {list} E6: the camera says that it was taken on 2026-06-01, before the loss on 2026-06-14"
            ),
            format!(
                "HC-1 photograph-date {list} E6: the list says that it was taken on 2026-06-20, the camera says 2026-06-01"
            ),
            format!(
                "HC-1 photograph-of-other-panel {list} D7: the claim has no counts of the left rear door that this shows"
            ),
            format!(
                "HC-1 photograph-date {list} E7: the list says that it was taken on 2026-08-01, and this run is of 2026-07-01"
            ),
        ]
    );
}

#[test]
fn one_picture_or_one_car_in_two_claims_is_told_at_both() {
    let list =
        "claim,photograph,shows,panel\nHC-1,a.jpg,roof,roof\nHC-1,a.jpg,hood,hood\nHC-2,b.jpg,roof,roof\n";
    let picture = jpeg("2026:06:20", b"one");
    let storm = storm_with(list, &[("a.jpg", picture.clone()), ("b.jpg", picture)]);
    let with_plates = "claim,job,registration,vin,insurer,owner,make,body type,date of loss,excess\n\
        HC-1,,ab 12-3,,Example Mutual,A. Owner,Example,hatchback,2026-06-14,50.00\n\
        HC-2,,AB123,,Example Mutual,B. Owner,Example,hatchback,2026-06-14,0\n\
        ,J-7,unknown,,,C. Owner,Example,hatchback,2026-06-14,\n";
    storm.put("storm/vehicles.csv", with_plates);
    assert_eq!(
        exceptions(&storm, &[]),
        [
            "HC-1 car-in-two-claims storm/vehicles.csv C2: this registration also stands in HC-2",
            "HC-1 photograph-in-two-claims storm/photographs.csv B2: the same photograph is also listed for HC-2",
            "HC-2 car-in-two-claims storm/vehicles.csv C3: this registration also stands in HC-1",
            "HC-2 photograph-in-two-claims storm/photographs.csv B4: the same photograph is also listed for HC-1",
        ]
    );
    let check = storm.run("check storm prices");
    assert!(
        check.out.contains("one car stands in two claims") || check.out.contains("car-in-two-claims"),
        "{}",
        check.out
    );
}

#[test]
fn a_car_in_two_claims_is_found_alike_in_long_files_and_short_ones_on_one_thread_and_many() {
    let mut vehicles = "claim,insurer,registration,vin,make,body type,date of loss,remark\n".to_owned();
    let mut counts = "claim,panel,0-10 mm,10-20 mm\n".to_owned();
    for claim in 0..3000 {
        // Each fifth car stands in a second claim a thousand rows on; one plate in every thousandth.
        let car = if claim % 5 == 0 { claim % 1000 } else { claim };
        let plate = if claim % 1000 == 7 { "SAME 1".to_owned() } else { format!("P {claim:05}") };
        let remark = "so that the file is long enough not to be held whole ".repeat(2);
        writeln!(
            vehicles,
            "Q-{claim:05},Example Mutual,{plate},VIN{car:05},Example,hatchback,2026-06-14,{remark}"
        )
        .unwrap();
        writeln!(counts, "Q-{claim:05},hood,{},1\nQ-{claim:05},roof,2,", claim % 7).unwrap();
    }
    assert!(vehicles.len() > 256 << 10);
    let found = |vehicles: &[&str], threads: &str| {
        let storm = Storm::new();
        fs::remove_file(storm.path("storm/vehicles.csv")).unwrap();
        for (number, text) in vehicles.iter().enumerate() {
            storm.put(&format!("storm/vehicles_{number}.csv"), text);
        }
        storm.put("storm/counts.csv", &counts);
        storm.run_with("assess storm prices --out out --write claims --threads", &[threads]);
        let rows = rows(&storm.path("out/exceptions.csv"));
        let of_cars = rows.into_iter().filter(|row| row["code"] == "car-in-two-claims");
        of_cars.map(|row| format!("{}: {}", row["claim"], row["what is wrong"])).collect::<Vec<_>>()
    };
    let long = found(&[&vehicles], "2");
    assert_eq!(long.len(), 600 + 3);
    assert_eq!(long[0], "Q-00000: this VIN also stands in Q-01000, Q-02000");
    assert!(long.contains(&"Q-00007: this registration also stands in Q-01007, Q-02007".to_owned()));
    assert_eq!(long, found(&[&vehicles], "1"));
    let (heading, rest) = vehicles.split_once('\n').unwrap();
    let lines: Vec<&str> = rest.lines().collect();
    let parts: Vec<String> =
        lines.chunks(300).map(|part| format!("{heading}\n{}\n", part.join("\n"))).collect();
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    assert!(parts.iter().all(|part| part.len() < 256 << 10));
    assert_eq!(long, found(&parts, "2"));
}

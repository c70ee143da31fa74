//! Check digits of VINs against published values; their sources stand at the head of the file.

use stipple::claim::vin::{VinFault, check};

#[test]
fn published_vins_are_judged_as_published() {
    let table = include_str!("../published/vin.csv");
    let mut checked = 0;
    let mut rows = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(table.as_bytes());
    for row in rows.records() {
        let row = row.unwrap();
        let [vin, expected, computed, written] = [0, 1, 4, 5].map(|column| &row[column]);
        let found = check(vin);
        let is_as_published = match expected {
            "valid" => found.is_ok(),
            "invalid check digit" => {
                let (computed, written) = (computed.chars().next(), written.chars().next());
                matches!(found, Err(VinFault::CheckDigit { written: w, computed: c }) if Some(w) == written && Some(c) == computed)
            }
            expected if expected.starts_with("illegal character") => {
                matches!(found, Err(VinFault::Character(c, at)) if expected == format!("illegal character {c} at position {at}"))
            }
            expected if expected.starts_with("wrong length") => {
                matches!(found, Err(VinFault::Length(length)) if expected == format!("wrong length {length}"))
            }
            expected if expected.starts_with("format valid; no check digit") => {
                matches!(found, Err(VinFault::CheckDigit { written: 'Z', .. }))
            }
            expected if expected.starts_with("check digit passes but not a possible VIN") => {
                matches!(found, Err(VinFault::ModelYear('0')))
            }
            _ => panic!("{row:?}"),
        };
        assert!(is_as_published, "{vin}: {expected}, found {found:?}");
        checked += 1;
    }
    assert_eq!(checked, 20);
}

#[test]
fn small_letters_spaces_and_hyphens_do_not_matter() {
    assert_eq!(check("1m8g-dm9a xkp0 42788"), Ok(()));
}

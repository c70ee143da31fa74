//! The bordereau as a page and as a workbook: the same claims, and sums that add up.

use crate::storm::Storm;
use calamine::{Data, DataType, Reader};

fn assessed() -> Storm {
    let storm = Storm::new();
    storm.run("assess storm --schedule prices --out out").ended(0);
    storm
}

fn sheet(storm: &Storm, name: &str) -> Vec<Vec<Data>> {
    let mut book = calamine::open_workbook_auto(storm.path("out/bordereau.xlsx")).unwrap();
    book.worksheet_range(name).unwrap().rows().map(<[Data]>::to_vec).collect()
}

/// The cells of a sheet's column, the heading aside.
fn column(rows: &[Vec<Data>], name: &str) -> Vec<Data> {
    let column = rows[0].iter().position(|cell| *cell == Data::String(name.to_owned())).unwrap();
    rows[1..].iter().map(|row| row[column].clone()).collect()
}

fn total(cells: &[Data]) -> f64 {
    cells.iter().filter_map(Data::get_float).sum()
}

#[test]
fn sums_by_outcome_insurer_owner_and_method_are_the_sums_of_the_claims() {
    let storm = assessed();
    let claims = storm.rows("out/claims.csv");
    let gross: f64 = claims.iter().map(|row| row["gross"].parse::<f64>().unwrap()).sum();
    for name in ["By outcome", "By owner"] {
        let rows = sheet(&storm, name);
        assert!((total(&column(&rows, "gross")) - gross).abs() < 0.001, "{name}: {rows:?}");
        assert!((total(&column(&rows, "claims")) - 3.0).abs() < 0.001, "{name}");
    }
    assert_eq!(
        column(&sheet(&storm, "By owner"), "By owner"),
        ["(owners of one claim each)"].map(Data::from)
    );
    // 150.00 + 90.00 + 55.00 on HC-1, 45.00 on HC-2, 40.00 on J-7; the roof of HC-2 is referred and in no amount.
    let methods = sheet(&storm, "By method");
    assert_eq!(column(&methods, "By method"), ["paintless", "refer to a person"].map(Data::from));
    assert_eq!(column(&methods, "panels"), [5.0, 1.0].map(Data::from));
    assert_eq!(column(&methods, "amount"), [Data::Float(380.0), Data::Empty]);
}

#[test]
fn an_owner_of_several_claims_has_a_row_of_the_sums() {
    let storm = Storm::but("B. Owner", "A. Owner");
    storm.run("assess storm --schedule prices --out out").ended(0);
    let rows = sheet(&storm, "By owner");
    assert_eq!(column(&rows, "By owner"), ["A. Owner", "(owners of one claim each)"].map(Data::from));
    assert_eq!(column(&rows, "gross"), [408.0, 48.0].map(Data::from));
}

#[test]
fn the_page_lists_claims_with_links_sums_and_exceptions_and_fetches_nothing() {
    let storm = Storm::but("HC-1,,hood,2026-06-20,12,4", "HC-1,,hood,2026-06-20,<many>,4");
    storm.run("assess storm --schedule prices --out out").ended(1);
    let page = std::fs::read_to_string(storm.path("out/bordereau.html")).unwrap();
    for words in [
        "href=\"claims/HC-2.html\"",
        "By outcome",
        "By owner",
        "By method",
        "Exceptions",
        "&lt;many&gt;",
        "A. Owner",
        "without 1 open panel",
        "not priced",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert!(!page.contains("<many>") && !page.contains("://"), "{page}");
}

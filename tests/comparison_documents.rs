//! The documents of a comparison: what they say, how they are drawn, what hostile names do to them, and that a filled-in
//! sheet comes back as an agreed count.
#![expect(clippy::unwrap_used, reason = "tests")]

#[path = "comparison_documents/fixture.rs"]
mod fixture;

use stipple::report::html::Pages;

/// Writes every page into the folder named by `STIPPLE_PAGES`, to be looked at in a browser.
#[test]
#[ignore = "writes files to look at; name a folder in STIPPLE_PAGES"]
fn pages_to_look_at() {
    let folder = std::path::PathBuf::from(std::env::var_os("STIPPLE_PAGES").unwrap());
    let pages = Pages::new().unwrap();
    let cases = [
        ("two", fixture::two()),
        ("many", fixture::many()),
        ("one", fixture::one()),
        ("equal", fixture::equal()),
        ("apart", fixture::apart()),
    ];
    for (name, case) in cases {
        let report = case.report();
        std::fs::write(folder.join(format!("{name}.html")), pages.comparison(&report).unwrap()).unwrap();
        std::fs::write(folder.join(format!("{name}-agree.html")), pages.adjudication(&report).unwrap()).unwrap();
        if let Some(letter) = report.letters.first() {
            std::fs::write(folder.join(format!("{name}-letter.html")), pages.letter(&report, letter).unwrap()).unwrap();
        }
    }
}

/// Writes the tables of two people into the folder named by `STIPPLE_PAGES`, for the command itself.
#[test]
#[ignore = "writes files to look at; name a folder in STIPPLE_PAGES"]
fn tables_to_try() {
    let folder = std::path::PathBuf::from(std::env::var_os("STIPPLE_PAGES").unwrap());
    std::fs::write(folder.join("vehicles.csv"), fixture::vehicles(12)).unwrap();
    std::fs::write(folder.join("counts.csv"), fixture::storm(12, &[("Ilka Sund", "own"), ("Per Marrow", "second")])).unwrap();
}

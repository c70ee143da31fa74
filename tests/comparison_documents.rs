//! The documents of a comparison: what they say, how they are drawn, what hostile names do to them, and that a filled-in
//! sheet comes back as an agreed count.
#![expect(clippy::unwrap_used, clippy::expect_used, reason = "tests")]

#[path = "comparison_documents/agreeing.rs"]
mod agreeing;
#[path = "comparison_documents/counted.rs"]
mod counted;
#[path = "comparison_documents/drawn.rs"]
mod drawn;
#[path = "comparison_documents/fixture.rs"]
mod fixture;
#[path = "comparison_documents/long.rs"]
mod long;
#[path = "comparison_documents/said.rs"]
mod said;
#[path = "comparison_documents/tiny.rs"]
mod tiny;

/// Writes every page into the folder named by `STIPPLE_PAGES`, to be looked at in a browser.
#[test]
#[ignore = "writes files to look at; name a folder in STIPPLE_PAGES"]
fn pages_to_look_at() {
    let folder = std::path::PathBuf::from(std::env::var_os("STIPPLE_PAGES").unwrap());
    let cases = vec![
        ("two", fixture::two()),
        ("many", fixture::many(9, 12)),
        ("one", fixture::one()),
        ("equal", fixture::equal()),
        ("apart", fixture::apart()),
    ];
    for (name, case) in cases {
        for (page, html) in drawn::pages(&case) {
            std::fs::write(folder.join(format!("{name}-{page}.html")), html).unwrap();
        }
    }
}

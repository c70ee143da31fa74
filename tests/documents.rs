//! Documents: what they say, how they are drawn, and what hostile texts do to them.

#[path = "documents/fixture/mod.rs"]
mod fixture;

use stipple::report::html::Pages;

#[test]
#[ignore = "writes pages for a look; run with a folder in STIPPLE_LOOK"]
fn pages_for_a_look() {
    let folder = std::path::PathBuf::from(std::env::var("STIPPLE_LOOK").unwrap());
    let pages = Pages::new().unwrap();
    for (name, case) in [
        ("storm", fixture::storm()),
        ("loss", fixture::total_loss()),
        ("quotation", fixture::quotation()),
        ("nothing", fixture::nothing_found()),
        ("large", fixture::large()),
    ] {
        let document = case.document();
        let start = std::time::Instant::now();
        let mut filled = 0;
        for _ in 0..50 { filled += case.document().lines.count; }
        let fill = start.elapsed() / 50;
        let start = std::time::Instant::now();
        let mut html = pages.claim(&document).unwrap();
        for _ in 0..49 { html = pages.claim(&document).unwrap(); }
        println!("{name}: {} bytes, fill {fill:?}, draw {:?} {filled}", html.len(), start.elapsed() / 50);
        std::fs::write(folder.join(format!("{name}.html")), &html).unwrap();
        html = html.replace("@page{", "@page{size:A4;");
        std::fs::write(folder.join(format!("{name}-a4.html")), &html).unwrap();
    }
}

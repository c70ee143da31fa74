//! Pages as markup: well formed, complete, nothing fetched; and what hostile names do to them.

use super::fixture::{self, COUNTS, Case};
use stipple::compare::comparison::Options;
use stipple::report::html::Pages;

/// Every page of a comparison by its name.
pub fn pages(case: &Case) -> Vec<(String, String)> {
    let (pages, report) = (Pages::new().unwrap(), case.report());
    let mut all = vec![
        ("comparison".to_owned(), pages.comparison(&report).unwrap()),
        ("agree".to_owned(), pages.adjudication(&report).unwrap()),
    ];
    for (number, letter) in report.letters.iter().enumerate() {
        all.push((format!("letter-{number}"), pages.letter(&report, letter).unwrap()));
    }
    all
}

/// Reads a page strictly, stricter than browsers do and as an XML parser would: quoted attributes, every tag closed in
/// order, no stray sign. Returns its texts.
pub fn texts(html: &str) -> String {
    let mut rest = html.strip_prefix("<!doctype html>\n").expect("a page begins with its document type");
    let (mut open, mut out): (Vec<&str>, String) = (Vec::new(), String::new());
    while let Some(start) = rest.find('<') {
        let text = &rest[..start];
        if open.last() != Some(&"style") {
            assert!(!text.contains('>'), "a stray > in {text:?}");
            out.push_str(text);
        }
        rest = &rest[start + 1..];
        if open.last() == Some(&"style") && !rest.starts_with("/style>") {
            continue;
        }
        let end = rest.find('>').expect("a tag ends");
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "tags close in order");
            out.push(' ');
        } else {
            let (name, attributes) = tag.split_once(' ').unwrap_or((tag, ""));
            assert_eq!(attributes.matches('"').count() % 2, 0, "attributes of {tag:?} are quoted");
            if name != "meta" {
                open.push(name);
            }
        }
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "still open: {open:?}");
    out.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&")
}

#[test]
fn every_page_is_well_formed_and_fetches_nothing() {
    for make in [fixture::two, || fixture::many(3, 2), fixture::one, fixture::equal, fixture::apart] {
        let case = make();
        for (name, html) in pages(&case) {
            texts(&html);
            assert!(!html.contains("src=") && !html.contains("url("), "{name} fetches something");
            for none in ["NaN", "inf ", "-inf", "Some(", "Err(", "filling"] {
                assert!(!html.contains(none), "{name} holds {none}");
            }
        }
    }
}

#[test]
fn every_drawing_has_a_title_a_description_and_a_table() {
    let html = &pages(&fixture::many(3, 2))[0].1;
    let drawings: Vec<&str> = html.split("<svg ").skip(1).collect();
    assert_eq!(drawings.len(), 3, "difference against mean, paired counts, funnel");
    let drawings_of_two = pages(&fixture::two())[0].1.split("<svg ").count() - 1;
    assert_eq!(drawings_of_two, 3, "difference against mean, paired counts, money by cause");
    for drawing in drawings {
        let (drawing, after) = drawing.split_once("</svg>").unwrap();
        assert!(
            drawing.contains("<title id=")
                && drawing.contains("<desc id=")
                && drawing.contains("role=\"img\"")
        );
        assert!(after.split("</figure>").next().unwrap().contains("<table"), "a table stands behind it");
    }
}

#[test]
fn hostile_names_stand_in_the_text_and_do_nothing() {
    let names = ["<script>alert(1)</script>", "O'Neil & \"Co\"></svg><b>"];
    let counts = format!(
        "{COUNTS}EX-001,{},own,hood,,30,4,0\nEX-001,\"{}\",second,hood,,41,4,0\n",
        names[0],
        names[1].replace('"', "\"\"")
    );
    let vehicles = "claim,registration,insurer,make,model,body type,date of loss\nEX-001,<i>EX</i>,Hobbin & Rusk,Example,One,saloon,2025-06-20\n";
    let case = Case::of(vehicles, &counts);
    for (page, html) in pages(&case) {
        let shown = texts(&html);
        assert!(!html.contains("<script>") && !html.contains("<b>") && !html.contains("<i>"), "{page}");
        for name in names {
            assert!(shown.contains(name), "{page} shows {name}");
        }
    }
}

#[test]
fn letters_stand_for_names_everywhere() {
    let counts = fixture::storm(2, &[("Ilka Sund", "own"), ("Per Marrow", "second")]);
    let options = Options { letters: true, ..Options::default() };
    let case = Case::by(&fixture::vehicles(2), &counts, &options);
    for (page, html) in pages(&case) {
        assert!(!html.contains("Sund") && !html.contains("Marrow"), "{page} holds a name");
        assert!(!html.contains(".csv"), "{page} names a file");
    }
}

#[test]
fn the_same_counts_give_the_same_bytes() {
    assert_eq!(pages(&fixture::one()), pages(&fixture::one()));
}

//! Pages as markup: well formed, complete, every link with an end, nothing fetched.

use super::fixture::{self, Case, every_page, html};
use std::collections::{BTreeMap, BTreeSet};

/// A start tag with its attributes, or a text.
pub enum Piece<'a> {
    Open(&'a str, BTreeMap<&'a str, &'a str>),
    Close(&'a str),
    Text(&'a str),
}

/// Reads a page strictly: quoted attributes, tags closed in order, no stray `<`. Stricter than browsers are, so that what
/// passes here is read the same way by all of them. Returns its pieces in order.
pub fn pieces(html: &str) -> Vec<Piece<'_>> {
    const VOID: [&str; 2] = ["meta", "br"];
    let mut rest = html.strip_prefix("<!doctype html>\n").expect("a page begins with its document type");
    let mut open: Vec<&str> = Vec::new();
    let mut out = Vec::new();
    while let Some(start) = rest.find('<') {
        out.push(Piece::Text(&rest[..start]));
        rest = &rest[start + 1..];
        if open.last() == Some(&"style") && !rest.starts_with("/style>") {
            continue;
        }
        let end = rest.find('>').expect("a tag ends");
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "tags close in order");
            out.push(Piece::Close(name));
            continue;
        }
        let (name, attributes) = tag.split_once(' ').unwrap_or((tag, ""));
        assert!(name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit()), "tag {name:?}");
        if !VOID.contains(&name) {
            open.push(name);
        }
        out.push(Piece::Open(name, attributes_of(attributes)));
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "still open: {open:?}, left: {rest:?}");
    out
}

fn attributes_of(mut rest: &str) -> BTreeMap<&str, &str> {
    let mut out = BTreeMap::new();
    while !rest.is_empty() {
        let (name, value) = rest.split_once("=\"").expect("attributes are quoted");
        let (value, after) = value.split_once('"').expect("attribute values end");
        assert!(out.insert(name.trim_start(), value).is_none(), "{name} stands twice");
        rest = after;
    }
    out
}

fn attributes<'a>(pieces: &'a [Piece<'a>], name: &str) -> Vec<&'a str> {
    pieces
        .iter()
        .filter_map(|piece| match piece {
            Piece::Open(_, attributes) => attributes.get(name).copied(),
            _ => None,
        })
        .collect()
}

#[test]
fn every_page_is_well_formed_and_every_link_has_an_end() {
    for (name, html) in every_page() {
        let pieces = pieces(&html);
        let ids = attributes(&pieces, "id");
        let unique: BTreeSet<_> = ids.iter().collect();
        assert_eq!(unique.len(), ids.len(), "{name}: ids are unique");
        for link in attributes(&pieces, "href") {
            let target = link.strip_prefix('#').expect("links stay in the page");
            assert!(ids.contains(&target), "{name}: {link} leads nowhere");
        }
    }
}

#[test]
fn a_page_says_its_language_and_its_headings_go_down_in_order() {
    for (name, html) in every_page() {
        let pieces = pieces(&html);
        assert_eq!(attributes(&pieces, "lang"), ["en"], "{name}");
        let mut last = 0;
        for piece in &pieces {
            if let Piece::Open(tag, _) = piece {
                let level = tag.strip_prefix('h').and_then(|level| level.parse::<u8>().ok());
                if let Some(level) = level {
                    assert!(level <= last + 1, "{name}: h{level} after h{last}");
                    last = level;
                }
            }
        }
    }
}

#[test]
fn every_heading_of_a_table_says_what_it_is_a_heading_of() {
    for (name, html) in every_page() {
        for piece in pieces(&html) {
            if let Piece::Open("th", attributes) = piece {
                assert!(attributes.contains_key("scope"), "{name}");
            }
        }
    }
}

#[test]
fn a_page_fetches_and_runs_nothing() {
    for (name, html) in every_page() {
        for piece in pieces(&html) {
            if let Piece::Open(tag, attributes) = piece {
                assert!(!["script", "link", "img", "iframe", "object"].contains(&tag), "{name}: {tag}");
                assert!(
                    !attributes.keys().any(|key| key.starts_with("on") || *key == "src"),
                    "{name}: {tag}"
                );
            }
        }
        assert!(!html.contains("url(") && !html.contains("@import"), "{name}");
        assert!(!html.contains("://"), "{name}");
    }
}

#[test]
fn thirteen_panels_with_every_feature_stay_small() {
    assert!(html(&fixture::storm()).len() < 68_000);
}

#[test]
fn without_a_recorded_working_there_is_no_annex_and_nothing_points_to_one() {
    let mut case: Case = fixture::storm();
    case.assessment.working = None;
    let document = case.document();
    assert_eq!(document.annex, None);
    let html = html(&case);
    assert_eq!(attributes(&pieces(&html), "href"), Vec::<&str>::new());
}

#[test]
fn the_running_head_names_the_claim_in_css_and_cannot_leave_its_string() {
    let mut case = fixture::storm();
    case.assessment.key.text = "A1\"}</style>\\".to_owned();
    let html = html(&case);
    assert!(html.contains(r#"content:"Claim file A1\22 \7d \3c \2f style\3e \5c ""#));
}

//! Hostile and unusual texts in every field that a person writes: nothing of them is lost, nothing of them works.

use super::fixture::{self, Case, html};
use super::markup::{Piece, pieces};
use stipple::claim::Located;
use stipple::report::wording::said;

/// Puts a text of its own into every field that is free text, and returns the texts.
pub fn poison(case: &mut Case, make: impl Fn(usize) -> String) -> Vec<String> {
    let mut texts = Vec::new();
    let mut next = |field: &mut String| {
        let text = make(texts.len());
        field.clone_from(&text);
        texts.push(text);
    };
    let mut fill = |field: &mut Option<Located<String>>| {
        let place = field.as_ref().map_or(fixture::at(0, 1, 1), |field| field.place);
        next(&mut field.insert(Located::new(String::new(), place)).value);
    };
    let claim = &mut case.claim;
    fill(&mut claim.event.name);
    fill(&mut claim.event.location);
    for field in [
        &mut claim.parties.claim_number,
        &mut claim.parties.job_number,
        &mut claim.parties.policy_number,
        &mut claim.parties.insurer,
        &mut claim.parties.owner,
        &mut claim.parties.lot,
        &mut claim.vehicle.vin,
        &mut claim.vehicle.registration,
        &mut claim.vehicle.make,
        &mut claim.vehicle.model,
        &mut claim.vehicle.class,
        &mut claim.vehicle.market,
        &mut claim.vehicle.colour,
        &mut claim.vehicle.paint_kind,
        &mut claim.vehicle.odometer,
        &mut claim.vehicle.roof_equipment,
        &mut claim.vehicle.driver_assistance,
    ] {
        fill(field);
    }
    for inspection in &mut claim.inspections {
        fill(&mut inspection.assessor);
        fill(&mut inspection.location);
    }
    for mark in claim.inspections[0].panels.iter_mut().flat_map(|panel| &mut panel.marks) {
        fill(&mut mark.remark);
    }
    for item in &mut claim.items {
        fill(&mut item.source);
        fill(&mut item.remark);
    }
    for part in &mut claim.parts {
        fill(&mut part.source);
    }
    for photograph in &mut claim.photographs {
        fill(&mut photograph.shows);
    }
    for overrule in &mut claim.overrules {
        fill(&mut overrule.by);
        fill(&mut overrule.reason);
    }
    for paid in &mut claim.paid_before {
        fill(&mut paid.event);
    }
    next(&mut case.assessment.key.text);
    claim.items.iter_mut().for_each(|item| next(&mut item.name.value));
    claim.photographs.iter_mut().for_each(|photograph| next(&mut photograph.file.value));
    claim.remarks.iter_mut().for_each(|remark| next(&mut remark.text));
    claim.inspections[0].panels[0].remarks.iter_mut().for_each(|remark| next(&mut remark.value));
    let schedule = &mut case.schedule;
    next(&mut schedule.terms.name.value);
    next(&mut schedule.terms.edition.value);
    next(&mut schedule.terms.source.value);
    schedule.sizes.iter_mut().for_each(|band| next(&mut band.name));
    schedule.counts.iter_mut().take(4).for_each(|band| next(&mut band.name));
    schedule.factors.iter_mut().take(2).for_each(|factor| next(&mut factor.name));
    for row in [1, 3, 6, 8, 9] {
        next(&mut schedule.limits[row].name);
    }
    for operation in &mut schedule.operations {
        next(&mut operation.name);
    }
    next(&mut schedule.operations[2].caution.as_mut().unwrap().value);
    texts
}

/// The texts of a page as a browser shows them, a line each.
fn shown(html: &str) -> String {
    let mut out = String::new();
    for piece in pieces(html) {
        if let Piece::Text(text) = piece {
            let text =
                text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'");
            out.push_str(&text.replace("&amp;", "&"));
        }
    }
    out
}

#[test]
fn everything_that_was_written_stands_on_the_document_and_no_markup_in_it_works() {
    let mut case = fixture::storm();
    let texts =
        poison(&mut case, |index| format!("<script>alert({index})</script><b onclick='x'>&amp;\"{index}"));
    let html = html(&case);
    let shown = shown(&html);
    for text in &texts {
        let lower = text.to_lowercase();
        assert!(shown.to_lowercase().contains(&lower), "{text} is missing");
    }
    assert!(texts.len() > 70);
    let pieces = pieces(&html);
    let wild = |piece: &&Piece<'_>| match piece {
        Piece::Open("b", attributes) => !attributes.is_empty(),
        Piece::Open("script", _) => true,
        _ => false,
    };
    assert_eq!(pieces.iter().filter(wild).count(), 0);
    assert!(!html.contains("&amp;lt;") && !html.contains("&amp;#39;"), "escaped twice");
}

#[test]
fn formulas_paths_and_emoji_are_plain_text() {
    for text in [
        "=1+1",
        "@SUM(A1)",
        "+49",
        "-5",
        "../../x",
        "C:\\con",
        "\u{1f697}\u{1f327}\u{fe0f}",
        "{{ 7*7 }}{% if %}",
    ] {
        let mut case = fixture::quotation();
        case.claim.parties.owner.as_mut().unwrap().value = text.to_owned();
        assert!(html(&case).contains(&format!("<bdi>{text}</bdi>")), "{text}");
    }
}

#[test]
fn control_characters_become_the_sign_for_the_unreadable() {
    let mut case = fixture::quotation();
    case.claim.parties.owner.as_mut().unwrap().value = "a\u{0}b\u{1b}[31mc\u{7f}\nd".to_owned();
    assert!(html(&case).contains("<bdi>a\u{fffd}b\u{fffd}[31mc\u{fffd}\nd</bdi>"));
}

#[test]
fn marks_that_turn_the_writing_direction_stay_inside_their_own_element() {
    let mut case = fixture::storm();
    let texts = poison(&mut case, |index| format!("\u{202e}{index}\u{2066}x\u{2069}\u{2069}"));
    assert!(!texts.is_empty());
    let html = html(&case);
    let turns = |text: &str| text.contains(['\u{202e}', '\u{2066}', '\u{2069}']);
    let mut inside = 0_u32;
    let mut seen = 0;
    for piece in pieces(&html) {
        match piece {
            Piece::Open("bdi", _) => inside += 1,
            Piece::Close("bdi") => inside -= 1,
            Piece::Text(text) if turns(text) => {
                assert_eq!(inside, 1, "{text:?}");
                seen += 1;
            }
            Piece::Open(_, attributes) => assert!(!attributes.values().any(|value| turns(value))),
            _ => {}
        }
    }
    assert!(seen > 20);
}

#[test]
fn in_our_own_sentences_right_to_left_names_are_set_apart_and_direction_marks_taken_out() {
    assert_eq!(said(" plain "), "plain");
    assert_eq!(said("a\u{202e}b\u{2069}\tc"), "ab c");
    // Hebrew and Arabic letters, as in the Unicode character database.
    assert_eq!(said("\u{5d0}\u{5d1}"), "\u{2068}\u{5d0}\u{5d1}\u{2069}");
    assert_eq!(said("\u{627}\u{628} 12"), "\u{2068}\u{627}\u{628} 12\u{2069}");
    assert_eq!(said("\u{3b1}\u{436}\u{00e9}"), "\u{3b1}\u{436}\u{00e9}");
}

#[test]
fn ten_thousand_characters_are_kept_in_the_page_and_cut_in_its_title() {
    let mut case = fixture::storm();
    let long = "x".repeat(10_000);
    case.assessment.key.text.clone_from(&long);
    case.claim.parties.owner.as_mut().unwrap().value.clone_from(&long);
    let html = html(&case);
    assert!(html.contains(&format!("<h1><bdi>{long}</bdi> ")));
    assert!(html.contains(&format!("<dd><bdi>{long}</bdi></dd>")));
    let title = &html[html.find("<title>").unwrap()..html.find("</title>").unwrap()];
    assert!(title.chars().count() < 100, "{title}");
}

//! Documents in other languages than English: the same figures, and no English left in them.

use super::fixture::{eur, every_case};
use stipple::claim::words::Named;
use stipple::claim::{BodyType, MarkKind, PanelId, PanelKind, Settlement, Side};
use stipple::quantity::{Date, Money};
use stipple::report::html::Pages;
use stipple::report::words::{BUILT_IN, Words};
use stipple::schedule::LabourClass;

fn words(tag: &str) -> &'static Words {
    Words::of(tag, None).unwrap()
}

/// Every language but English.
fn others() -> impl Iterator<Item = &'static Words> {
    BUILT_IN.iter().map(|(tag, _)| words(tag)).filter(|words| words.tag() != "en")
}

/// What English says in several words, between the open places of its texts.
fn english_phrases() -> Vec<String> {
    let mut phrases = Vec::new();
    for line in BUILT_IN[0].1.lines().filter(|line| !line.starts_with('#')) {
        let text = line.split_once(['=', ']']).map_or("", |(_, text)| text);
        for part in text.split(['{', '}']).filter(|part| !part.trim().starts_with('$')) {
            if part.trim().split(' ').count() > 2 {
                phrases.push(part.trim().to_owned());
            }
        }
    }
    assert!(phrases.len() > 50);
    phrases
}

#[test]
fn no_english_text_is_left_on_an_owners_sheet_in_another_language_and_no_key_shows() {
    let english = english_phrases();
    for words in others() {
        let pages = Pages::said_in(words).unwrap();
        for (name, case) in every_case() {
            let page = pages.owner_sheet(&case.owner_sheet_in(words)).unwrap();
            let left: Vec<&String> = english.iter().filter(|phrase| page.contains(phrase.as_str())).collect();
            assert_eq!(left, Vec::<&String>::new(), "{name} in {}", words.tag());
            for key in
                ["owner-", "label-", "panel-kind", "labour-class", "body-type", "settlement-", "mark-kind"]
            {
                assert!(!page.contains(key), "{name} in {}: {key}", words.tag());
            }
            assert!(page.contains(&format!("<html lang=\"{}\">", words.tag())));
        }
    }
}

#[test]
fn an_owners_sheet_has_the_same_figures_and_as_many_sentences_in_every_language() {
    for (name, case) in every_case() {
        let english = case.owner_sheet();
        for words in others() {
            let sheet = case.owner_sheet_in(words);
            let amounts = |sheet: &stipple::report::document::OwnerSheet| -> Vec<Money> {
                sheet.figures.iter().map(|figure| figure.amount.0).collect()
            };
            assert_eq!(amounts(&sheet), amounts(&english), "{name} in {}", words.tag());
            for (there, here) in [
                (&sheet.found, &english.found),
                (&sheet.done, &english.done),
                (&sheet.undecided, &english.undecided),
                (&sheet.not_covered, &english.not_covered),
                (&sheet.why, &english.why),
                (&sheet.check, &english.check),
            ] {
                assert_eq!(there.len(), here.len(), "{name} in {}", words.tag());
            }
        }
    }
}

/// Source: the Unicode Common Locale Data Repository, its patterns and symbols for numbers and long dates of these places.
#[test]
fn numbers_and_days_have_the_form_of_their_place() {
    let day = Date::constant(2026, 7, 3);
    for (tag, large, small, long) in [
        ("en", "12\u{202f}345.60", "\u{2212}0.05", "3 July 2026"),
        ("en-GB", "12,345.60", "-0.05", "3 July 2026"),
        ("en-US", "12,345.60", "-0.05", "July 3, 2026"),
        ("de", "12.345,60", "-0,05", "3. Juli 2026"),
        ("es", "12.345,60", "-0,05", "3 de julio de 2026"),
        ("fr", "12\u{202f}345,60", "-0,05", "3 juillet 2026"),
    ] {
        let words = words(tag);
        assert_eq!(words.amount(eur(1_234_560)), large, "{tag}");
        assert_eq!(words.amount(eur(-5)), small, "{tag}");
        assert_eq!(words.date(day), long, "{tag}");
    }
}

/// Source: CLDR. Its editions differ in which apostrophe parts thousands in Switzerland.
#[test]
fn german_of_another_country_has_that_countrys_numbers() {
    let words = words("de-CH");
    assert_eq!(words.amount(eur(1_234_560)).replace('\u{2019}', "'"), "12'345.60");
    assert_eq!(words.text("label-vehicle"), "Fahrzeug");
}

/// Source: CLDR, where Spanish groups digits only from ten thousand on.
#[test]
fn four_digits_are_not_grouped_in_spanish() {
    assert_eq!(words("es").amount(eur(123_450)), "1234,50");
    assert_eq!(words("de").amount(eur(123_450)), "1.234,50");
}

#[test]
fn every_name_that_a_translated_document_may_say_stands_among_the_words() {
    fn hold<T: Named>() {
        for value in T::ALL {
            assert_eq!(Words::english().name(*value), value.name());
        }
    }
    hold::<PanelKind>();
    hold::<MarkKind>();
    hold::<BodyType>();
    hold::<Settlement>();
    hold::<LabourClass>();
}

#[test]
fn plurals_follow_the_language() {
    let said = |tag, count| words(tag).so_many("open-panels", count);
    assert_eq!([said("de", 1), said("de", 2)], ["1 offenes Karosserieteil", "2 offene Karosserieteile"]);
    // French counts none as one.
    assert!(said("fr", 0).starts_with("0 \u{e9}l\u{e9}ment "));
    assert!(said("es", 0).starts_with("0 piezas "));
}

#[test]
fn sides_take_the_gender_of_their_panel() {
    let of = |tag, kind, side| words(tag).panel(PanelId { kind, side: Some(side) });
    assert_eq!(of("es", PanelKind::Fender, Side::Right), "aleta delantera derecha");
    assert_eq!(of("es", PanelKind::RoofRail, Side::Right), "larguero de techo derecho");
    assert_eq!(of("fr", PanelKind::QuarterPanel, Side::Right), "aile arri\u{e8}re droite");
    assert_eq!(of("fr", PanelKind::Rocker, Side::Left), "bas de caisse gauche");
    assert_eq!(of("de", PanelKind::FrontDoor, Side::Left), "T\u{fc}r vorn links");
}

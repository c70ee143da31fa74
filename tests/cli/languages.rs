//! The language of documents, from the command line.

use crate::storm::Storm;
use std::fs;

const ASSESS: &str = "assess storm --schedule prices";

#[test]
fn a_language_without_words_is_refused_before_anything_is_written() {
    let storm = Storm::new();
    for language in ["it", "deutsch und so"] {
        let ran = storm.run(&format!("{ASSESS} --language {}", language.replace(' ', "_"))).ended(2);
        assert!(ran.err.contains("no-such-language") && ran.err.contains("en, de, es, fr"), "{}", ran.err);
    }
    assert!(!storm.path("storm-assessed").exists());
}

#[test]
fn mistakes_in_a_file_of_words_are_told_with_their_lines_before_anything_is_written() {
    let storm = Storm::new();
    fs::write(
        storm.path("own.ftl"),
        "label-vehicle = Wagen\nlabel-vehicel = Auto\nlist-end = { $first } + { $lats }\n",
    )
    .unwrap();
    let ran = storm.run(&format!("{ASSESS} --language de --words own.ftl")).ended(2);
    for told in ["words-not-understood", "own.ftl, line 2", "label-vehicle", "own.ftl, line 3", "last"] {
        assert!(ran.err.contains(told), "{told}: {}", ran.err);
    }
    assert!(!storm.path("storm-assessed").exists());
    storm.run(&format!("{ASSESS} --words missing.ftl")).ended(2);
}

#[test]
fn own_words_stand_before_the_programs() {
    let storm = Storm::new();
    fs::write(storm.path("own.ftl"), "label-found = Befund\n").unwrap();
    storm.run(&format!("{ASSESS} --language de-AT --words own.ftl")).ended(0);
    let owners = storm.path("storm-assessed").join("owners");
    let file = fs::read_dir(owners).unwrap().next().unwrap().unwrap();
    let page = fs::read_to_string(file.path()).unwrap();
    assert!(
        page.contains("Befund") && page.contains("Was gemacht wird") && page.contains("lang=\"de-AT\""),
        "{page}"
    );
}

#[test]
fn owners_sheets_are_written_in_the_language_asked_for_and_the_other_documents_in_english() {
    let storm = Storm::new();
    storm.run(&format!("{ASSESS} --language de")).ended(0);
    let read = |folder: &str| {
        let file = fs::read_dir(storm.path("storm-assessed").join(folder)).unwrap().next().unwrap().unwrap();
        fs::read_to_string(file.path()).unwrap()
    };
    let owner = read("owners");
    assert!(owner.contains("<html lang=\"de\">") && owner.contains("Was gefunden wurde"), "{owner}");
    for folder in ["claims", "work-orders"] {
        let page = read(folder);
        assert!(page.contains("<html lang=\"en\">") && !page.contains("Fahrzeug"), "{page}");
    }
}

#[test]
fn an_earlier_output_in_another_language_is_not_taken_over() {
    let storm = Storm::new();
    storm.run(&format!("{ASSESS} --out english")).ended(0);
    storm.run(&format!("{ASSESS} --language fr --reuse english --out french")).ended(0);
    let file = fs::read_dir(storm.path("french").join("owners")).unwrap().next().unwrap().unwrap();
    let page = fs::read_to_string(file.path()).unwrap();
    assert!(page.contains("<html lang=\"fr\">"), "{page}");
}

//! Every kind of problem has a stable name, a page, and a test that provokes it; its wording stands in the catalogue.

use crate::lexer::{self, Kind, Token};
use crate::{Source, breaks, files_below, hold, sources, test_modules};
use std::collections::{BTreeMap, BTreeSet};
use stipple::problem::all_codes;

fn is_well_formed(id: &str) -> bool {
    id.contains('-')
        && id.split('-').all(|part| {
            !part.is_empty() && part.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        })
}

fn sentences(page: &str) -> usize {
    let mut ends = 0;
    for (index, c) in page.char_indices() {
        let after = page[index + c.len_utf8()..].chars().next();
        if matches!(c, '.' | '?' | '!') && after.is_none_or(char::is_whitespace) {
            ends += 1;
        }
    }
    ends
}

/// Static names of the catalogue by their ids: `FILE_UNREADABLE = "file-unreadable"`.
fn statics(catalogue: &[Source]) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for source in catalogue {
        for three in source.tokens().windows(3) {
            if let [name, is, id] = three
                && name.kind == Kind::Word
                && is.is_sign('=')
                && id.kind == Kind::Text
            {
                found.insert(id.text.clone(), name.text.clone());
            }
        }
    }
    found
}

/// Ids that no test names, neither by text nor by static.
fn unprovoked<'a>(
    ids: impl Iterator<Item = &'a str>,
    statics: &BTreeMap<String, String>,
    tests: &[Token],
) -> Vec<String> {
    let quoted: BTreeSet<&str> =
        tests.iter().filter(|t| t.kind == Kind::Text).map(|t| t.text.as_str()).collect();
    let words: BTreeSet<&str> =
        tests.iter().filter(|t| t.kind == Kind::Word).map(|t| t.text.as_str()).collect();
    // An inline golden holds many ids in one text.
    let is_in_text = |id: &str| quoted.contains(id) || quoted.iter().any(|text| holds_word(text, id));
    ids.filter(|id| {
        let by_name = statics.get(*id).is_some_and(|name| words.contains(name.as_str()));
        !by_name && !is_in_text(id)
    })
    .map(|id| format!("{id}: no test provokes it"))
    .collect()
}

fn holds_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(start, _)| {
        let is_part = |c: char| c == '-' || c.is_ascii_alphanumeric();
        !text[..start].ends_with(is_part) && !text[start + word.len()..].starts_with(is_part)
    })
}

/// The tokens of a source's product code and of its test code.
fn parted(source: &Source, test_modules: &[String]) -> (Vec<Token>, Vec<Token>) {
    let is_below = |module: &String| {
        source.path.strip_prefix(module.as_str()).is_some_and(|rest| rest == ".rs" || rest.starts_with('/'))
    };
    let tokens = source.tokens();
    if test_modules.iter().any(is_below) { (Vec::new(), tokens) } else { lexer::parted(&tokens) }
}

/// What tests are made of: the test code of `src`, and `tests/` without these walls.
fn tests() -> Vec<Token> {
    let sources = sources();
    let modules = test_modules(&sources);
    let mut tokens: Vec<Token> = sources.iter().flat_map(|source| parted(source, &modules).1).collect();
    let outside = files_below("tests", &[".rs"]);
    tokens.extend(outside.iter().filter(|source| !source.is_in("tests/walls/")).flat_map(Source::tokens));
    tokens
}

/// Problems that are made outside the catalogue. A test may make one up: nobody reads its words.
fn wording_elsewhere(sources: &[Source]) -> Vec<String> {
    let modules = test_modules(sources);
    let mut broken = Vec::new();
    for source in sources.iter().filter(|source| !source.is_in("src/problem/")) {
        for four in parted(source, &modules).0.windows(4) {
            if four[0].is_word("Problem") && four[1].is_sign(':') && four[3].is_word("new") {
                broken
                    .push(format!("{}:{}: problems are worded in the catalogue", source.path, four[0].line));
            }
        }
    }
    broken
}

#[test]
fn every_code_has_a_name_of_its_own_in_lower_case_with_hyphens() {
    let ids: Vec<&str> = all_codes().map(|code| code.id).collect();
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(ids.len(), unique.len(), "a name is used twice among {ids:?}");
    let odd: Vec<String> = ids.iter().filter(|id| !is_well_formed(id)).map(|id| (*id).to_owned()).collect();
    hold("names that are not lower case with hyphens", &odd);
}

#[test]
fn every_code_has_a_page_of_at_least_two_sentences() {
    let thin: Vec<String> = all_codes()
        .filter(|code| sentences(code.page) < 2 || code.title.is_empty() || code.title.ends_with('.'))
        .map(|code| format!("{}: {} / {}", code.id, code.title, code.page))
        .collect();
    hold("codes without a page that explains them", &thin);
}

#[test]
fn every_code_is_provoked_by_a_test() {
    let statics = statics(&files_below("src/problem/catalogue", &[".rs"]));
    hold("codes that no test provokes", &unprovoked(all_codes().map(|code| code.id), &statics, &tests()));
}

#[test]
fn problems_are_worded_in_the_catalogue_alone() {
    hold("problems made outside the catalogue", &wording_elsewhere(&sources()));
}

#[test]
fn a_code_without_a_test_is_found() {
    let catalogue =
        [Source::new("src/problem/catalogue/a.rs", "codes! { A_B = \"a-b\", Note, \"t\", \"p\"; }")];
    let statics = statics(&catalogue);
    let check =
        |tests: &str| unprovoked(["a-b"].into_iter(), &statics, &Source::new("tests/t.rs", tests).tokens());
    breaks(&check("let x = \"a-b-c\"; // a-b A_B"), "a-b");
    assert!(check("assert_eq!(code.id, \"a-b\")").is_empty());
    assert!(check("assert_eq!(code, &A_B)").is_empty());
    assert!(check("let golden = r#\"\nwarning a-b at C3\n\"#;").is_empty());
}

#[test]
fn odd_names_and_thin_pages_are_told_from_good_ones() {
    assert!(is_well_formed("count-not-whole"));
    assert!(
        !is_well_formed("Count-negative") && !is_well_formed("count--negative") && !is_well_formed("count")
    );
    assert_eq!(sentences("One 1.5 mm dent. Two?"), 2);
    assert_eq!(sentences("placeholder"), 0);
}

#[test]
fn a_problem_worded_outside_the_catalogue_is_found() {
    let words = "\nreturn Problem::new(&X, \"words\");";
    breaks(&wording_elsewhere(&[Source::new("src/read/mod.rs", words)]), "src/read/mod.rs:2");
    let declared = Source::new("src/read/mod.rs", "#[cfg(test)]\nmod sample;");
    assert!(wording_elsewhere(&[declared, Source::new("src/read/sample.rs", words)]).is_empty());
}

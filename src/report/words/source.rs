//! Files of words as people write them, held against the English one: the same keys, and no open place that English does
//! not fill.

use super::BUILT_IN;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;
use std::collections::{BTreeMap, BTreeSet};

/// What is wrong with a language, or with a file of words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The line it stands in, from 1; none where something is missing.
    pub line: Option<usize>,
    /// What is wrong, in one sentence.
    pub what: String,
    /// The word that was meant, or the words that there are, as far as that can be said.
    pub known: Vec<String>,
    /// The word as it was written.
    pub written: String,
}

impl Fault {
    pub(super) fn no_tag(tag: &str) -> Self {
        Self {
            line: None,
            what: format!("\u{201c}{tag}\u{201d} is no language tag"),
            known: languages(),
            written: tag.to_owned(),
        }
    }

    pub(super) fn no_words(tag: &str) -> Self {
        Self {
            line: None,
            what: format!("there are no words for the language \u{201c}{tag}\u{201d}"),
            known: languages(),
            written: tag.to_owned(),
        }
    }
}

fn languages() -> Vec<String> {
    BUILT_IN.iter().map(|(name, _)| (*name).to_owned()).collect()
}

/// The keys of a file, each with the open places of its text.
type Keys<'a> = BTreeMap<&'a str, BTreeSet<&'a str>>;

/// So many missing texts are named.
const SHOWN: usize = 10;

/// An open place that English leaves alone, and the text in which it is filled all the same: sides take the gender of
/// their panel in some languages.
const ALSO_FILLED: (&str, &str) = ("panel-on-side", "gender");

/// Everything that is wrong with a file of words of the user's own for a language. A language that the tool does not have
/// needs every key.
pub fn own(language: &str, text: &str) -> Vec<Fault> {
    let english = parse(BUILT_IN[0].1).unwrap_or_else(|(resource, _)| resource);
    let english = keys(&english.body);
    let mut faults = Vec::new();
    let resource = parse(text).unwrap_or_else(|(resource, errors)| {
        faults.extend(errors.iter().map(|error| {
            let line = 1 + text.bytes().take(error.pos.start).filter(|byte| *byte == b'\n').count();
            Fault {
                line: Some(line),
                what: format!("this cannot be read: {}", error.kind),
                known: Vec::new(),
                written: text.lines().nth(line - 1).unwrap_or_default().to_owned(),
            }
        }));
        resource
    });
    let there = keys(&resource.body);
    for (key, places) in &there {
        let line = line_of(text, key);
        let Some(known) = english.get(key) else {
            faults.push(Fault {
                line,
                what: format!("there is no text with the key \u{201c}{key}\u{201d}"),
                known: english.keys().map(|key| (*key).to_owned()).collect(),
                written: (*key).to_owned(),
            });
            continue;
        };
        for place in places.difference(known).filter(|place| (*key, **place) != ALSO_FILLED) {
            faults.push(Fault {
                line,
                what: format!("the text \u{201c}{key}\u{201d} has no open place \u{201c}${place}\u{201d}"),
                known: known.iter().map(|place| (*place).to_owned()).collect(),
                written: (*place).to_owned(),
            });
        }
    }
    let is_built_in = BUILT_IN.iter().any(|(name, _)| language.split('-').next() == Some(*name));
    if !is_built_in && faults.is_empty() {
        let missing: Vec<&str> = english.keys().copied().filter(|key| !there.contains_key(key)).collect();
        if let Some(first) = missing.first() {
            let shown = missing[..missing.len().min(SHOWN)].join(", ");
            faults.push(Fault {
                line: None,
                what: format!(
                    "a language of its own needs every text; {} are missing: {shown}",
                    missing.len()
                ),
                known: Vec::new(),
                written: (*first).to_owned(),
            });
        }
    }
    faults
}

/// The line on which a key stands.
fn line_of(text: &str, key: &str) -> Option<usize> {
    let is_it = |line: &str| line.strip_prefix(key).is_some_and(|rest| rest.trim_start().starts_with('='));
    text.lines().position(is_it).map(|at| at + 1)
}

fn keys<'a>(body: &[Entry<&'a str>]) -> Keys<'a> {
    let mut keys = Keys::new();
    for entry in body {
        if let Entry::Message(message) = entry {
            let mut places = BTreeSet::new();
            let attributes = message.attributes.iter().map(|attribute| &attribute.value);
            for pattern in message.value.iter().chain(attributes) {
                open_places(pattern, &mut places);
            }
            keys.insert(message.id.name, places);
        }
    }
    keys
}

fn open_places<'a>(pattern: &Pattern<&'a str>, places: &mut BTreeSet<&'a str>) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { .. } => {}
            PatternElement::Placeable { expression } => of_expression(expression, places),
        }
    }
}

fn of_expression<'a>(expression: &Expression<&'a str>, places: &mut BTreeSet<&'a str>) {
    let (inline, variants) = match expression {
        Expression::Inline(inline) => (inline, [].as_slice()),
        Expression::Select { selector, variants } => (selector, variants.as_slice()),
    };
    match inline {
        InlineExpression::VariableReference { id } => {
            places.insert(id.name);
        }
        InlineExpression::Placeable { expression } => of_expression(expression, places),
        _ => {}
    }
    for variant in variants {
        open_places(&variant.value, places);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each language that comes with the tool, with its file.
    fn others() -> impl Iterator<Item = &'static (&'static str, &'static str)> {
        BUILT_IN.iter().filter(|(language, _)| *language != "en")
    }

    #[test]
    fn every_language_has_the_keys_of_english_and_the_same_open_places() {
        let english = parse(BUILT_IN[0].1).unwrap();
        let english = keys(&english.body);
        for (language, text) in others() {
            let resource = parse(*text).unwrap();
            let there = keys(&resource.body);
            for (key, places) in &english {
                let found = there.get(key).unwrap_or_else(|| panic!("{language} lacks {key}"));
                // The plural may be chosen by what is not shown, and gender matters to some languages only.
                let shown = |places: &BTreeSet<&'static str>| -> BTreeSet<&'static str> {
                    places.iter().filter(|place| !["count", "gender"].contains(place)).copied().collect()
                };
                assert_eq!(shown(places), shown(found), "{language}: {key}");
            }
            let more: Vec<_> = there.keys().filter(|key| !english.contains_key(*key)).collect();
            assert_eq!(more, Vec::<&&str>::new(), "{language} has keys that English has not");
        }
    }

    #[test]
    fn no_text_stands_in_a_file_twice() {
        for (language, text) in BUILT_IN {
            let resource = parse(text).unwrap();
            let messages = resource.body.iter().filter(|entry| matches!(entry, Entry::Message(_))).count();
            assert_eq!(messages, keys(&resource.body).len(), "{language}");
        }
    }

    #[test]
    fn a_mistake_in_a_file_of_words_is_told_with_its_line_and_the_keys_there_are() {
        let faults = own("de", "list-end = { $first } und { $lst }\n\nlist-emd = x\n");
        assert_eq!(faults.len(), 2);
        assert_eq!((faults[0].line, faults[0].written.as_str()), (Some(3), "list-emd"));
        assert_eq!((faults[1].line, faults[1].written.as_str()), (Some(1), "lst"));
        assert!(faults[1].known.contains(&"last".to_owned()));
        let faults = own("de", "list-end = { $first } und { $last }\nno text\n");
        assert_eq!(faults[0].line, Some(2));
        assert_eq!(own("de", "label-vehicle = Wagen\n"), []);
    }

    #[test]
    fn a_language_that_the_tool_does_not_have_needs_every_text() {
        let faults = own("it", "label-vehicle = Vettura\n");
        assert_eq!((faults.len(), faults[0].line), (1, None));
        assert!(faults[0].what.contains("body-type-convertible"), "{}", faults[0].what);
        assert_eq!(own("it", BUILT_IN[0].1), []);
    }
}

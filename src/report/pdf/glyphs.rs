//! Which characters of a document's texts can be drawn.

use super::fonts::Fonts;
use serde_json::Value;
use std::collections::BTreeSet;

/// A text with characters that no font has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lacking {
    /// The text.
    pub text: String,
    /// The characters.
    pub characters: BTreeSet<char>,
}

/// Makes the texts of a model fit to be set, and finds those that cannot be. As on a page, line breaks and tabs are
/// spaces, and other control characters are shown as the sign for something unreadable.
pub fn prepare(model: &mut Value, fonts: &Fonts) -> Vec<Lacking> {
    let mut lacking = Vec::new();
    walk(model, fonts, &mut lacking);
    lacking
}

fn walk(value: &mut Value, fonts: &Fonts, lacking: &mut Vec<Lacking>) {
    match value {
        Value::String(text) => {
            if !text.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
                *text = text.chars().map(shown).collect();
                let characters: BTreeSet<char> = text.chars().filter(|c| !can_be_set(*c, fonts)).collect();
                if !characters.is_empty() {
                    lacking.push(Lacking { text: text.clone(), characters });
                }
            }
        }
        Value::Array(values) => values.iter_mut().for_each(|value| walk(value, fonts, lacking)),
        Value::Object(fields) => fields.values_mut().for_each(|value| walk(value, fonts, lacking)),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

fn shown(c: char) -> char {
    match c {
        '\n' | '\t' => ' ',
        // A byte order mark has no meaning inside a text, and no place in a PDF.
        '\u{feff}' => '\u{200b}',
        c if c.is_control() => char::REPLACEMENT_CHARACTER,
        c => c,
    }
}

/// Characters of private use may have a shape, but nobody could read them out.
fn can_be_set(c: char, fonts: &Fonts) -> bool {
    let private = matches!(c, '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..);
    !private && (fonts.have(c) || is_unseen(c))
}

/// Characters without a shape of their own (Unicode character database, `Default_Ignorable_Code_Point`).
fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{ffa0}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

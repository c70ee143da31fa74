//! Words of one's own: a table beside the files that says what they mean.

use crate::claim::words::panel::readings;
use crate::claim::words::{Named, find, folded, suggest};
use crate::claim::{
    Access, BodyType, Cause, Depth, ItemAction, Located, MarkKind, Material, Paint, PanelKind, Position, Side,
};
use crate::problem::{Problem, catalogue::file, catalogue::words as say, nearest};
use crate::table::{Cell, Column, Form, Table};
use std::collections::BTreeMap;

/// A row a word, beside the word of ours that it stands for.
pub(super) static FORM: Form = Form { name: "words", columns: &COLUMNS, family: None, one_of: &[] };

static COLUMNS: [Column; 4] = [
    Column::needed("word", &["own word", "written as"]),
    Column::needed("meaning", &[]),
    Column::optional("language", &[]),
    Column::optional("remark", &["remarks", "note", "notes"]),
];

/// The words of all such tables, by the word in lower case.
#[derive(Debug, Default)]
pub(super) struct OwnWords {
    by_word: BTreeMap<String, Located<String>>,
}

impl OwnWords {
    /// Reads the tables of words among all that were recognised. A word that means something already, two meanings of
    /// one word, and a meaning that nobody knows are told; the first two keep what was there.
    pub(super) fn of(tables: &[Table<'_>]) -> (Self, Vec<Problem>) {
        let (mut own, mut problems) = (Self::default(), Vec::new());
        for table in tables.iter().filter(|table| *table.form == FORM) {
            for row in table.rows {
                let (word, meaning) = (table.cell(row, "word"), table.cell(row, "meaning"));
                match (word, meaning) {
                    (Some(word), Some(meaning)) => problems.extend(own.add(word, meaning)),
                    (Some(alone), None) | (None, Some(alone)) => {
                        problems.push(file::text_unread(alone.place, 1, &alone.text()));
                    }
                    (None, None) => {}
                }
            }
        }
        (own, problems)
    }

    fn add(&mut self, word: &Cell, meaning: &Cell) -> Option<Problem> {
        let (written, means) = (word.text(), meaning.text());
        let name = folded(&written);
        if !is_known(&means) {
            return Some(say::meaning_unknown(meaning.place, &means, &near(&means)));
        }
        if is_known(&written) && folded(&means) != name {
            return Some(say::word_taken(word.place, &written, None));
        }
        match self.by_word.get(&name) {
            Some(before) if folded(&before.value) != folded(&means) => {
                Some(say::word_taken(word.place, &written, Some(before.place)))
            }
            Some(_) => None,
            None => {
                self.by_word.insert(name, Located::new(means, meaning.place));
                None
            }
        }
    }

    /// What a word means in one set of words.
    pub(super) fn find<T: Named>(&self, text: &str) -> Option<T> {
        find(&self.by_word.get(&folded(text))?.value)
    }

    /// The words nearest to one that is not known, of both kinds, with what they mean.
    pub(super) fn suggest<T: Named>(&self, text: &str) -> Vec<String> {
        let of_set = |means: &str| find::<T>(means).is_some();
        self.nearest(text, of_set, suggest::<T>(text))
    }

    /// Likewise of a panel's name.
    pub(super) fn suggest_panel(&self, text: &str, known: Vec<String>) -> Vec<String> {
        self.nearest(text, is_panel, known)
    }

    fn nearest(&self, text: &str, is_meant: impl Fn(&str) -> bool, known: Vec<String>) -> Vec<String> {
        let own = self.by_word.iter().filter(|(_, means)| is_meant(&means.value));
        let words = nearest(&folded(text), own.map(|(word, _)| word.as_str()));
        let mut all: Vec<String> =
            words.into_iter().map(|word| format!("{word} ({})", self.by_word[word].value)).collect();
        all.extend(known);
        all.truncate(3);
        all
    }

    /// A name with its own words replaced by what they mean, longer ones first; `None` where it holds none.
    pub(super) fn translated(&self, text: &str) -> Option<String> {
        if self.by_word.is_empty() {
            return None;
        }
        let name = folded(text);
        let words: Vec<&str> = name.split(' ').collect();
        let (mut out, mut at, mut is_other) = (Vec::new(), 0, false);
        while at < words.len() {
            let found = (at + 1..=words.len())
                .rev()
                .find_map(|end| Some((end, self.by_word.get(&words[at..end].join(" "))?.value.clone())));
            if let Some((end, means)) = found {
                (at, is_other) = (end, true);
                out.push(means);
            } else {
                out.push(words[at].to_owned());
                at += 1;
            }
        }
        is_other.then(|| out.join(" "))
    }
}

fn is_panel(text: &str) -> bool {
    readings(text).is_ok_and(|readings| !readings.is_empty())
}

/// Whether a word is one of ours, in any of the sets that sheets of counts use.
fn is_known(text: &str) -> bool {
    is_panel(text) || SETS.iter().any(|set| (set.knows)(text))
}

/// The words of ours nearest to one.
fn near(text: &str) -> Vec<String> {
    SETS.iter().flat_map(|set| (set.near)(text)).take(3).collect()
}

/// A set of words as a table of words sees it.
struct Set {
    knows: fn(&str) -> bool,
    near: fn(&str) -> Vec<String>,
}

const fn set<T: Named>() -> Set {
    Set { knows: |text| find::<T>(text).is_some(), near: suggest::<T> }
}

static SETS: [Set; 11] = [
    set::<PanelKind>(),
    set::<Side>(),
    set::<Material>(),
    set::<Access>(),
    set::<Paint>(),
    set::<MarkKind>(),
    set::<Depth>(),
    set::<Position>(),
    set::<Cause>(),
    set::<ItemAction>(),
    set::<BodyType>(),
];

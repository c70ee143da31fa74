//! Words of one's own: rows of column maps that say of a word, wherever it stands, which of our words it stands for. A
//! cell that holds nothing else has it replaced before anything looks at it; here it is found among other words of a
//! panel's name, and suggested where somebody comes near to it.

use crate::claim::words::panel::readings;
use crate::claim::words::{Named, find, folded, suggest};
use crate::claim::{
    Access, BodyType, Cause, Depth, ItemAction, Located, MarkKind, Material, Paint, PanelKind, Position, Side,
};
use crate::problem::{Problem, catalogue::words as say, nearest};
use crate::read::meanings;
use crate::table::{Cell, Row, Table};
use std::collections::BTreeMap;

/// The words of all such tables, by the word in lower case.
#[derive(Debug, Default)]
pub(super) struct OwnWords {
    by_word: BTreeMap<String, Located<String>>,
}

impl OwnWords {
    /// Reads the maps among the tables that were recognised. Of two meanings of one word the first holds; a word that
    /// means something already is left to it as a part of names.
    pub(super) fn of(tables: &[Table<'_>]) -> (Self, Vec<Problem>) {
        let (mut own, mut problems) = (Self::default(), Vec::new());
        for table in tables.iter().filter(|table| *table.form == meanings::FORM) {
            let is_bound = |row: &Row| {
                ["heading", "beside", "file", "sheet"].iter().any(|id| table.cell(row, id).is_some())
            };
            for row in table.rows.iter().filter(|row| !is_bound(row)) {
                if let (Some(word), Some(means)) = (table.cell(row, "word"), table.cell(row, "means")) {
                    problems.extend(own.add(word, means));
                }
            }
        }
        (own, problems)
    }

    fn add(&mut self, word: &Cell, means: &Cell) -> Option<Problem> {
        let (written, meaning) = (word.text(), means.text());
        if !is_known(&meaning) || is_known(&written) {
            return None;
        }
        match self.by_word.get(&folded(&written)) {
            Some(before) if folded(&before.value) != folded(&meaning) => {
                Some(say::word_taken(word.place, &written, before.place))
            }
            Some(_) => None,
            None => {
                self.by_word.insert(folded(&written), Located::new(meaning, means.place));
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
pub(super) fn is_known(text: &str) -> bool {
    is_panel(text) || SETS.iter().any(|set| (set.knows)(text))
}

/// The words of ours nearest to one.
pub(super) fn near(text: &str) -> Vec<String> {
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

use crate::claim::words::Named;
use crate::claim::words::{find, suggest};
use crate::problem::{Located, Place, Problem, catalogue::schedule as words, nearest};
use std::collections::BTreeMap;

/// The value of a closed set that a cell names; an unknown name is told with the nearest right ones.
pub(super) fn named<T: Named>(
    what: &str,
    written: &Located<String>,
    problems: &mut Vec<Problem>,
) -> Option<Located<T>> {
    if let Some(value) = find::<T>(&written.value) {
        return Some(Located::new(value, written.place));
    }
    let all: Vec<&str> = T::ALL.iter().map(|value| value.name()).collect();
    let near = suggest::<T>(&written.value);
    let near: Vec<&str> = near.iter().map(String::as_str).collect();
    problems.push(unknown(what, written, &near, &all));
    None
}

/// Like [`named`], where a blank cell stands for a value of its own.
pub(super) fn named_or<T: Named>(
    what: &str,
    written: Option<&Located<String>>,
    blank: T,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    match written {
        None => Some(blank),
        Some(written) => named(what, written, problems).map(|found| found.value),
    }
}

/// A name that is not known, with the nearest of those that are.
pub(super) fn unknown_among(what: &str, written: &Located<String>, known: &[&str]) -> Problem {
    let near = nearest(&written.value, known.iter().copied());
    unknown(what, written, &near, known)
}

fn unknown(what: &str, written: &Located<String>, near: &[&str], all: &[&str]) -> Problem {
    words::unknown_name(what, &written.value, near, all).at(written.place).written(written.value.clone())
}

/// Rows that may stand only once, by what makes them the same.
pub(super) struct Once<K> {
    seen: BTreeMap<K, Place>,
}

impl<K: Ord> Once<K> {
    pub fn new() -> Self {
        Self { seen: BTreeMap::new() }
    }

    /// Notes a row; tells it when an earlier one says the same.
    pub fn note(
        &mut self,
        key: K,
        what: &str,
        name: &str,
        place: Place,
        problems: &mut Vec<Problem>,
    ) -> bool {
        if let Some(first) = self.seen.get(&key) {
            problems.push(words::twice(what, name).at(place).and(*first));
            return false;
        }
        self.seen.insert(key, place);
        true
    }
}

//! What stands in two claims of a run: a car, or a photograph. Found at the end, from a few bytes of each claim, however
//! the claims were read.

use crate::claim::{Claim, KeyKind, Located, Place, vin};
use crate::problem::{Problem, catalogue};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Other claims that one finding names; further ones are counted.
const MOST_NAMED: usize = 3;

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum What {
    Vin,
    Registration,
    Photograph,
}

/// One thing that a claim carries, as it is compared.
#[derive(Debug, Clone)]
struct Mark {
    what: What,
    text: String,
    place: Place,
}

/// What one claim carries that no other claim should.
#[derive(Debug, Clone, Default)]
pub struct Carried {
    key: String,
    marks: Vec<Mark>,
}

impl Carried {
    /// Of a claim. What holds no digit is a word for a plate that is not known, and is not compared.
    pub fn of(claim: &Claim) -> Self {
        let car = names_of_car(claim).map(|(kind, text, place)| {
            let what = if kind == KeyKind::Vin { What::Vin } else { What::Registration };
            Mark { what, text, place }
        });
        let mut marks: Vec<Mark> = car.collect();
        // One picture may show two panels of a car: its first row stands for all.
        let mut pictures: BTreeMap<&str, Place> = BTreeMap::new();
        for photograph in &claim.photographs {
            if let Some(image) = &photograph.image {
                let place = pictures.entry(&image.sha256).or_insert(photograph.file.place);
                *place = photograph.file.place.min(*place);
            }
        }
        marks.extend(pictures.into_iter().map(|(digest, place)| Mark {
            what: What::Photograph,
            text: digest.to_owned(),
            place,
        }));
        Self { key: claim.key.text.clone(), marks }
    }
}

/// What a claim's car is known by, the VIN first, as it is compared.
pub fn names_of_car(claim: &Claim) -> impl Iterator<Item = (KeyKind, String, Place)> + use<> {
    let name = |kind, written: &Option<Located<String>>| {
        let written = written.as_ref()?;
        let compared = vin::normalised(&written.value);
        // A VIN whose end was left out names no car.
        let is_known = compared.chars().any(|c| c.is_ascii_digit()) && !written.value.contains('*');
        is_known.then_some((kind, compared, written.place))
    };
    let car = &claim.vehicle;
    [name(KeyKind::Vin, &car.vin), name(KeyKind::Registration, &car.registration)].into_iter().flatten()
}

/// The cars of an earlier run: each VIN and registration with its claim and the cell it stands in.
#[derive(Debug, Default)]
pub struct EarlierCars {
    by_name: BTreeMap<(KeyKind, String), (String, String)>,
}

impl EarlierCars {
    /// Adds a car as it is compared, its claim, and where that is written. Of several claims the first is kept.
    pub fn add(&mut self, name: (KeyKind, String), claim: String, at: String) {
        self.by_name.entry(name).or_insert((claim, at));
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.by_name.is_empty()
    }
}

/// One thing of one claim: where its text stands among all texts, and whose it is.
#[derive(Debug, Clone, Copy)]
struct Entry {
    what: What,
    start: usize,
    length: u32,
    claim: u32,
    place: Place,
}

/// What all claims carry, packed: some 100 bytes a claim.
#[derive(Debug, Default)]
pub struct Repeats {
    texts: String,
    entries: Vec<Entry>,
    /// Where each claim's key begins among the texts.
    keys: Vec<(usize, u32)>,
}

impl Repeats {
    /// Adds a claim.
    pub fn add(&mut self, carried: &Carried) {
        if carried.marks.is_empty() {
            return;
        }
        let claim = u32::try_from(self.keys.len()).unwrap_or(u32::MAX);
        let key = self.push(&carried.key);
        self.keys.push(key);
        for mark in &carried.marks {
            let (start, length) = self.push(&mark.text);
            self.entries.push(Entry { what: mark.what, start, length, claim, place: mark.place });
        }
    }

    fn push(&mut self, text: &str) -> (usize, u32) {
        let start = self.texts.len();
        self.texts.push_str(text);
        (start, u32::try_from(text.len()).unwrap_or(u32::MAX))
    }

    fn text(&self, (start, length): (usize, u32)) -> &str {
        self.texts.get(start..start + length as usize).unwrap_or_default()
    }

    fn key(&self, claim: u32) -> &str {
        self.keys.get(claim as usize).map_or("", |key| self.text(*key))
    }

    /// Tells each of several claims that carry one thing, with the cells of the others: at all of them, so that the
    /// order of rows does not matter; and each claim whose car stands in another one of an earlier run. Claims in input
    /// order; of each the VIN first.
    pub fn problems(mut self, earlier: &EarlierCars) -> Vec<Problem> {
        let mut entries = std::mem::take(&mut self.entries);
        entries.par_sort_unstable_by(|a, b| {
            let whose = |entry: &Entry| (entry.claim, entry.place);
            let text = |entry: &Entry| self.text((entry.start, entry.length));
            (a.what, text(a), whose(a)).cmp(&(b.what, text(b), whose(b)))
        });
        let is_same = |a: &Entry, b: &Entry| {
            a.what == b.what && self.text((a.start, a.length)) == self.text((b.start, b.length))
        };
        let mut told: Vec<(u32, What, Problem)> = Vec::new();
        // Claims that share a VIN are told so once; a registration that says the same of the same claims adds nothing.
        let mut by_vin: BTreeSet<Vec<u32>> = BTreeSet::new();
        for group in entries.chunk_by(is_same).filter(|group| group.len() > 1) {
            let [first, ..] = group else { continue };
            let claims: Vec<u32> = group.iter().map(|entry| entry.claim).collect();
            match first.what {
                What::Vin => {
                    by_vin.insert(claims);
                }
                // All groups by VIN came before.
                What::Registration if by_vin.contains(&claims) => continue,
                What::Registration | What::Photograph => {}
            }
            for entry in group {
                told.push((entry.claim, entry.what, self.problem(entry, group)));
            }
        }
        for entry in entries.iter().filter(|_| !earlier.is_empty()) {
            if let Some(problem) = self.earlier(entry, earlier) {
                // Registrations come after all VINs; one that leads to the same claim adds nothing.
                let is_told = |(claim, what, before): &(u32, What, Problem)| {
                    *claim == entry.claim && *what == What::Vin && before.code == problem.code
                };
                if !told.iter().any(is_told) {
                    told.push((entry.claim, entry.what, problem));
                }
            }
        }
        told.sort_by_key(|(claim, what, problem)| (*claim, *what, problem.place));
        told.into_iter().map(|(_, _, problem)| problem).collect()
    }

    /// A car that another claim of the earlier run has, too.
    fn earlier(&self, entry: &Entry, earlier: &EarlierCars) -> Option<Problem> {
        let kind = match entry.what {
            What::Vin => KeyKind::Vin,
            What::Registration => KeyKind::Registration,
            What::Photograph => return None,
        };
        let text = self.text((entry.start, entry.length));
        let (claim, at) = earlier.by_name.get(&(kind, text.to_owned()))?;
        // The same claim in both runs is one that was assessed again.
        let key = self.key(entry.claim);
        let is_again = KeyKind::ClaimNumber.compared(claim) == KeyKind::ClaimNumber.compared(key);
        (!is_again)
            .then(|| catalogue::claim::car_in_earlier_run(entry.place, kind.words(), claim, at).of_claim(key))
    }

    fn problem(&self, entry: &Entry, group: &[Entry]) -> Problem {
        let others = group.iter().filter(|other| other.claim != entry.claim).take(MOST_NAMED);
        let named: Vec<(&str, Place)> = others.map(|other| (self.key(other.claim), other.place)).collect();
        let more = group.len() - 1 - named.len();
        let problem = match entry.what {
            What::Vin => catalogue::claim::car_in_two_claims(entry.place, KeyKind::Vin.words(), &named, more),
            What::Registration => {
                catalogue::claim::car_in_two_claims(entry.place, KeyKind::Registration.words(), &named, more)
            }
            What::Photograph => catalogue::photographs::photograph_in_two_claims(entry.place, &named, more),
        };
        problem.of_claim(self.key(entry.claim))
    }
}

//! Which claims are read together: those of long files some at a time, in the order of their first rows; those that
//! have a row in anything that is held whole, all at once.

use super::{Claims, Long, Surveyed};
use crate::claim::{KeyKind, Place};
use crate::problem::{Problem, Sources};
use crate::read::form_header::FormHeader;
use crate::read::gather::{Gathered, claim_tables, gather_some};
use crate::read::jobs::{KINDS, Name, compared, name};
use crate::read::own_words::OwnWords;
use crate::read::tables::Kind;
use crate::read::{columns::KEYS, rows};
use crate::table::Table;
use std::collections::{BTreeMap, BTreeSet};

/// Runs that are read at a time where all of a file's are.
const AT_A_TIME: usize = 4096;

/// The claims of all long files, in the order of their first rows.
#[derive(Debug, Default)]
pub(super) struct Listed {
    /// Keys as written; of several spellings the one that sorts first.
    pub(super) keys: Vec<Box<str>>,
    /// Where each is written so.
    spelled: Vec<Place>,
    /// The first row of each.
    first: Vec<Place>,
    /// Whether a table of vehicles has a row of it.
    pub(super) has_vehicle: Vec<bool>,
}

/// The long files of a run, and the kind of key that joins them.
#[derive(Debug, Default)]
pub struct Longs {
    pub(super) files: Vec<Long>,
    pub(super) listed: Listed,
    numbers: BTreeMap<Box<str>, u32>,
    key: Option<KeyKind>,
}

impl Longs {
    /// Whether no file is read in parts.
    pub(in crate::read) fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Whether a file's rows are joined by the kind of key that the others are joined by.
    pub(in crate::read) fn takes(&self, surveyed: &Surveyed) -> bool {
        self.key.is_none_or(|key| key == surveyed.key)
    }

    /// Numbers the claims of a further file.
    pub(in crate::read) fn take(&mut self, surveyed: Surveyed) {
        let Surveyed { mut long, keys, key, .. } = surveyed;
        self.key = Some(key);
        let source = long.source();
        let is_vehicles = Kind::of(long.form) == Some(Kind::Vehicles);
        let mut expected = None;
        for (run, written) in long.runs.iter_mut().zip(keys.iter()) {
            let place = Place::row(source, run.line);
            // Files mostly list their claims in one order: the next one is tried first.
            let is_next =
                |job: &u32| self.listed.keys.get(*job as usize).is_some_and(|key| **key == *written);
            let job = match expected.filter(is_next) {
                Some(job) => job,
                None => self.number(key, written, place),
            };
            expected = Some(job + 1);
            let at = job as usize;
            run.job = job;
            self.listed.has_vehicle[at] |= is_vehicles;
            if (written, place) < (&*self.listed.keys[at], self.listed.spelled[at]) {
                self.listed.keys[at] = written.into();
                self.listed.spelled[at] = place;
            }
        }
        if !long.runs.is_sorted() {
            long.runs.sort_unstable();
        }
        self.files.push(long);
    }

    fn number(&mut self, key: KeyKind, written: &str, place: Place) -> u32 {
        let name: Box<str> = compared(key, written).into();
        if let Some(job) = self.numbers.get(&name) {
            return *job;
        }
        let job = u32::try_from(self.listed.keys.len()).unwrap_or(u32::MAX);
        self.numbers.insert(name, job);
        self.listed.keys.push(written.into());
        self.listed.spelled.push(place);
        self.listed.first.push(place);
        self.listed.has_vehicle.push(false);
        job
    }
}

/// Plans how the claims of a run are read: `tables` are those that are held, of which the ones of other kinds are left
/// alone. The second part is what concerns no single claim.
pub fn plan(
    longs: Longs,
    tables: &[Table<'_>],
    sources: &Sources,
) -> Result<(Claims, Vec<Problem>), Problem> {
    let Longs { files, listed, numbers, key } = longs;
    let names = names_of(tables);
    let mut knotted: BTreeSet<u32> = BTreeSet::new();
    if let Some(kind) = key {
        let number = |(of, name): &Name| numbers.get(name.as_str()).filter(|_| *of == kind).copied();
        knotted.extend(names.iter().filter_map(number));
        for long in &files {
            knotted.extend(long.named(&names)?);
        }
    }
    drop(numbers);
    let knot: Vec<u32> = knotted.iter().copied().collect();
    let sheets = files.iter().map(|long| long.sheet(&knot)).collect::<Result<Vec<_>, _>>()?;
    let mut all: Vec<Table<'_>> = tables.to_vec();
    all.extend(files.iter().zip(&sheets).map(|(long, sheet)| long.table(sheet)));
    all.sort_by_key(|table| table.sheet.source);
    let others: Vec<&str> = (0..)
        .zip(&listed.keys)
        .filter(|(job, _)| listed.is_vehicle(*job, key))
        .map(|(_, key)| &**key)
        .collect();
    let Gathered { intakes, problems, listed: near } = gather_some(&all, sources, &|| others.clone());
    let free = (0..).zip(&listed.first).filter(|(job, _)| !knotted.contains(job));
    let free = free.map(|(job, first)| (job, *first)).collect();
    drop((all, others));
    Ok((Claims::new(files, listed, key, near, intakes, free), problems))
}

/// The keys that stand on rows of tables that are held.
fn names_of(tables: &[Table<'_>]) -> BTreeSet<Name> {
    let ours = claim_tables(tables);
    let headers: Vec<FormHeader> = ours.iter().map(|ours| FormHeader::of(*ours)).collect();
    // Where a run has words of its own, every file is held whole.
    let (sorted, _) = rows::sort(&ours, &headers, &OwnWords::default());
    let data = sorted.iter().flat_map(|rows| &rows.data);
    let keys = data.flat_map(|row| [Some(row.keys), row.parted_from]).flatten();
    keys.flat_map(|keys| KINDS.into_iter().zip(keys)).filter_map(|(kind, cell)| name(kind, cell?)).collect()
}

impl Listed {
    pub(super) fn is_vehicle(&self, job: u32, key: Option<KeyKind>) -> bool {
        key == Some(KeyKind::ClaimNumber) && self.has_vehicle[job as usize]
    }
}

impl Long {
    /// The claims of which a row carries one of some names in a further key.
    fn named(&self, names: &BTreeSet<Name>) -> Result<BTreeSet<u32>, Problem> {
        let further: Vec<(KeyKind, u16)> = KEYS
            .iter()
            .zip(KINDS)
            .filter_map(|(key, kind)| {
                Some((kind, self.columns.iter().find(|c| c.id == Some(key.id))?.column))
            })
            .skip(1)
            .filter(|(kind, _)| names.iter().any(|(of, _)| of == kind))
            .collect();
        let mut found = BTreeSet::new();
        if further.is_empty() {
            return Ok(found);
        }
        for runs in self.runs.chunks(AT_A_TIME) {
            for row in self.rows(runs.to_vec())? {
                let is_named = |(kind, column): &(KeyKind, u16)| {
                    row.cell(*column)
                        .and_then(|cell| name(*kind, cell))
                        .is_some_and(|name| names.contains(&name))
                };
                if further.iter().any(is_named) {
                    let run = runs.iter().filter(|run| run.line <= row.number).max_by_key(|run| run.line);
                    found.extend(run.map(|run| run.job));
                }
            }
        }
        Ok(found)
    }
}

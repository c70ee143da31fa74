//! The claims of a run, read some at a time.

use super::Long;
use super::plan::Listed;
use crate::claim::{Intake, KeyKind, Place};
use crate::problem::{Problem, Sources};
use crate::read::gather::gather_some;
use crate::table::{Row, Table};
use std::borrow::Cow;
use std::sync::OnceLock;

/// Claims that are read at a time.
const TOGETHER: usize = 128;

/// One claim in the order of the run.
#[derive(Debug, Clone, Copy)]
enum Slot {
    /// One that was gathered with everything that is held.
    Held(u32),
    /// One of long files.
    Long(u32),
}

/// All claims of a run, in the order of their first rows. Those of long files are read when they are asked for.
#[derive(Debug, Default)]
pub struct Claims {
    files: Vec<Long>,
    listed: Listed,
    key: Option<KeyKind>,
    held: Vec<Intake>,
    slots: Vec<Slot>,
    /// Claim numbers that tables of vehicles list, if those were asked for.
    near: OnceLock<Vec<String>>,
    /// Those of claims that are held.
    held_near: Vec<String>,
}

impl Claims {
    /// `near` are the claim numbers of `held` that tables of vehicles list; `held` stand in their order, each with its first row, if it has one that is its own; `free` are the claims of long
    /// files alone, with their first rows.
    pub(super) fn new(
        files: Vec<Long>,
        listed: Listed,
        key: Option<KeyKind>,
        near: Vec<String>,
        held: Vec<(Option<Place>, Intake)>,
        free: Vec<(u32, Place)>,
    ) -> Self {
        let mut slots = Vec::with_capacity(held.len() + free.len());
        let mut free = free.into_iter().peekable();
        for (number, (first, _)) in (0..).zip(&held) {
            while let Some((job, _)) = free.next_if(|(_, place)| first.is_none_or(|first| *place < first)) {
                slots.push(Slot::Long(job));
            }
            slots.push(Slot::Held(number));
        }
        slots.extend(free.map(|(job, _)| Slot::Long(job)));
        let held = held.into_iter().map(|(_, intake)| intake).collect();
        Self { files, listed, key, held, slots, near: OnceLock::new(), held_near: near }
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.slots.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.slots.is_empty()
    }

    /// The claims that are held whole.
    pub fn held(&self) -> &[Intake] {
        &self.held
    }

    /// The claims that are held whole, to add what is found out about them.
    pub fn held_mut(&mut self) -> &mut [Intake] {
        &mut self.held
    }

    /// The long files.
    pub fn files(&self) -> &[Long] {
        &self.files
    }

    /// How many groups they are read in.
    pub fn groups(&self) -> usize {
        self.slots.len().div_ceil(TOGETHER)
    }

    /// How many claims stand before those of a group.
    pub fn before(&self, group: usize) -> usize {
        (group * TOGETHER).min(self.slots.len())
    }

    /// The claims of a group, in order. Fails where a file cannot be read again or is not what it was.
    pub fn group(&self, number: usize, sources: &Sources) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let start = self.before(number);
        self.of_slots(&self.slots[start..(start + TOGETHER).min(self.slots.len())], sources)
    }

    /// Some claims by their numbers in the run, which ascend. Fails like [`Self::group`].
    pub fn some(&self, numbers: &[usize], sources: &Sources) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let slots: Vec<Slot> = numbers.iter().filter_map(|number| self.slots.get(*number)).copied().collect();
        self.of_slots(&slots, sources)
    }

    fn of_slots(&self, slots: &[Slot], sources: &Sources) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let jobs: Vec<u32> = slots
            .iter()
            .filter_map(|slot| match slot {
                Slot::Long(job) => Some(*job),
                Slot::Held(_) => None,
            })
            .collect();
        let mut read = if jobs.is_empty() { Vec::new() } else { self.read(&jobs, sources)? }.into_iter();
        let claim = |slot: &Slot| match slot {
            Slot::Held(number) => self.held.get(*number as usize).map(Cow::Borrowed),
            Slot::Long(_) => read.next().map(Cow::Owned),
        };
        Ok(slots.iter().filter_map(claim).collect())
    }

    fn read(&self, jobs: &[u32], sources: &Sources) -> Result<Vec<Intake>, Problem> {
        let sheets = self.files.iter().map(|long| long.sheet(jobs)).collect::<Result<Vec<_>, _>>()?;
        let tables: Vec<Table<'_>> =
            self.files.iter().zip(&sheets).map(|(long, sheet)| long.table(sheet)).collect();
        let near = || self.near.get_or_init(|| self.with_vehicle()).iter().map(String::as_str).collect();
        let gathered = gather_some(&tables, sources, &near);
        Ok(gathered.intakes.into_iter().map(|(_, intake)| intake).collect())
    }

    /// Claim numbers with a row in a table of vehicles, however it is read.
    fn with_vehicle(&self) -> Vec<String> {
        let long = (0..).zip(&self.listed.keys).filter(|(job, _)| self.listed.is_vehicle(*job, self.key));
        long.map(|(_, key)| key.to_string()).chain(self.held_near.iter().cloned()).collect()
    }

    /// The row of a place in a long file.
    pub fn row(&self, place: Place) -> Option<Row> {
        self.files.iter().find(|long| long.source() == place.source)?.row(place)
    }

    /// Whether every long file still is what it was.
    pub fn check(&self) -> Result<(), Problem> {
        self.files.iter().try_for_each(Long::check)
    }
}

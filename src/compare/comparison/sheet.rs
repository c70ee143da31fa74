//! What a look makes of every panel that it inspected, and what faces it in another look: kept small and once, since a
//! batch holds millions of them. Documents take them out panel by panel.

use super::{CarComparison, CarPair};
use crate::assess::{PanelAssessment, SizeCount};
use crate::claim::{Access, Counted, Depth, Material, Method, Paint, PanelCount, PanelId, Position};
use crate::compare::money::{Bench, Cause, Judged, NotSplit, PanelDifference, Turned};
use crate::quantity::{Currency, Money};

/// The panels that a look inspected, in document order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    currency: Currency,
    panels: Box<[Entry]>,
    /// Dents in each size band of the schedule, panel after panel.
    counts: Box<[u32]>,
    bands: usize,
}

/// A panel without its counts. The amount is one only where it is priced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Entry {
    minor: i64,
    panel: PanelId,
    method: Method,
    is_priced: bool,
    is_estimate: bool,
    blanks: u8,
    notes: Notes,
}

/// What a look notes of a panel.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Notes {
    material: Option<Material>,
    access: Option<Access>,
    paint: Option<Paint>,
    depth: Option<Depth>,
    position: Option<Position>,
}

impl Notes {
    fn of(written: &PanelCount) -> Self {
        Self {
            material: written.material.map(|cell| cell.value),
            access: written.access.map(|cell| cell.value),
            paint: written.paint.map(|cell| cell.value),
            depth: written.depth.map(|cell| cell.value),
            position: written.position.map(|cell| cell.value),
        }
    }

    /// Its words: material, access, paint, depth, position.
    pub fn words(self) -> [Option<&'static str>; 5] {
        [
            self.material.map(Material::name),
            self.access.map(Access::name),
            self.paint.map(Paint::name),
            self.depth.map(Depth::name),
            self.position.map(Position::name),
        ]
    }
}

/// What one look makes of a panel that it inspected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Side<'a> {
    /// Which panel.
    pub panel: PanelId,
    /// Dents in each size band of the schedule, measured ones among them.
    pub counts: &'a [u32],
    /// Their sum.
    pub dents: u32,
    /// What is to be done.
    pub method: Method,
    /// What it comes to, where it is priced.
    pub amount: Option<Money>,
    /// Whether a number in it is an estimate: its best value is compared.
    pub is_estimate: bool,
    /// Bands left blank beside numbers, rated as no dents.
    pub blanks: u8,
    /// What is noted of it.
    pub notes: Notes,
}

impl Sheet {
    pub(super) fn of(bench: &Bench<'_>, judged: &Judged<'_>) -> Self {
        let assessed = &judged.assessment.panels;
        let entry = |panel: &PanelAssessment| {
            let amount = bench.paid(panel);
            let written = judged.inspection.panels.get(panel.index);
            let is_estimate = panel.counts.iter().any(|size| matches!(size.count, Counted::Estimated { .. }));
            Entry {
                minor: amount.map_or(0, Money::minor),
                panel: panel.panel,
                method: panel.method,
                is_priced: amount.is_some(),
                is_estimate,
                blanks: written.map_or(0, blanks),
                notes: written.map_or_else(Notes::default, Notes::of),
            }
        };
        Self {
            currency: judged.assessment.currency,
            panels: assessed.iter().map(entry).collect(),
            counts: assessed.iter().flat_map(|panel| &panel.counts).map(SizeCount::dents).collect(),
            bands: bench.schedule.sizes.len(),
        }
    }

    /// How many panels it has.
    pub fn len(&self) -> usize {
        self.panels.len()
    }

    /// Whether the look inspected nothing.
    pub fn is_empty(&self) -> bool {
        self.panels.is_empty()
    }

    /// A panel by its number.
    pub fn side(&self, number: usize) -> Option<Side<'_>> {
        let entry = self.panels.get(number)?;
        let counts = self.counts.get(number * self.bands..(number + 1) * self.bands)?;
        Some(Side {
            panel: entry.panel,
            counts,
            // The engine stops a look whose sum does not fit.
            dents: counts.iter().fold(0, |sum: u32, dents| sum.saturating_add(*dents)),
            method: entry.method,
            amount: entry.is_priced.then(|| Money::from_minor(entry.minor, self.currency)),
            is_estimate: entry.is_estimate,
            blanks: entry.blanks,
            notes: entry.notes,
        })
    }

    /// All of them.
    pub fn sides(&self) -> impl Iterator<Item = Side<'_>> {
        (0..self.len()).filter_map(|number| self.side(number))
    }

    /// A panel's number.
    pub(super) fn number(&self, panel: PanelId) -> Option<usize> {
        self.panels.iter().position(|entry| entry.panel == panel)
    }

    /// A panel, where it was inspected.
    pub fn find(&self, panel: PanelId) -> Option<Side<'_>> {
        self.number(panel).and_then(|number| self.side(number))
    }
}

fn blanks(written: &PanelCount) -> u8 {
    let blanks = written.tally.iter().filter(|entry| entry.count == Counted::NoneWritten);
    u8::try_from(blanks.count()).unwrap_or(u8::MAX)
}

/// The panels that two looks both inspected, in document order: where each stands on its look's sheet, and what the
/// difference in money is made of.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Common {
    panels: Box<[Faced]>,
    /// Parts of the differences in minor units, one for each cause of a panel, panel after panel.
    parts: Box<[i64]>,
}

/// One of them. Causes are bits of [`Cause::ALL`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Faced {
    first: u16,
    second: u16,
    turned: Option<Turned>,
    split: Result<u8, NotSplit>,
}

/// Gathers [`Common`].
#[derive(Debug, Default)]
pub(super) struct Gathering {
    panels: Vec<Faced>,
    parts: Vec<i64>,
}

impl Gathering {
    /// Takes a panel by its numbers on both sheets.
    pub fn add(&mut self, first: usize, second: usize, money: &PanelDifference) {
        // A car has some forty panels.
        let narrow = |number: usize| u16::try_from(number).unwrap_or(u16::MAX);
        let split = money.split.as_ref().map_err(|why| *why).map(|split| {
            let mut causes = 0;
            for (bit, cause) in Cause::ALL.iter().enumerate() {
                if let Some((_, part)) = split.causes.iter().find(|(known, _)| known == cause) {
                    causes |= 1 << bit;
                    self.parts.push(part.minor());
                }
            }
            causes
        });
        let faced = Faced { first: narrow(first), second: narrow(second), turned: money.turned, split };
        self.panels.push(faced);
    }

    /// All of them.
    pub fn finish(self) -> Common {
        Common { panels: self.panels.into(), parts: self.parts.into() }
    }
}

impl Common {
    /// How many panels.
    pub fn len(&self) -> usize {
        self.panels.len()
    }

    /// Whether nothing was inspected by both.
    pub fn is_empty(&self) -> bool {
        self.panels.is_empty()
    }
}

/// A panel that both looks inspected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paired<'a> {
    /// Which panel.
    pub panel: PanelId,
    /// The first look's.
    pub first: Side<'a>,
    /// The second look's.
    pub second: Side<'a>,
    /// How the difference in money came about; only where both are priced.
    pub turned: Option<Turned>,
    /// What it is made of, or why it is not split.
    pub split: Result<Parts<'a>, NotSplit>,
}

impl Paired<'_> {
    /// First minus second, in dents.
    pub fn dents(&self) -> i64 {
        i64::from(self.first.dents) - i64::from(self.second.dents)
    }

    /// Both amounts, where both are priced.
    pub fn amounts(&self) -> Option<(Money, Money)> {
        self.first.amount.zip(self.second.amount)
    }

    /// First minus second in money, where both are priced.
    pub fn difference(&self) -> Option<Money> {
        self.amounts().and_then(|(first, second)| first.minus(second).ok())
    }
}

/// The parts of a panel's difference, first minus second: one for each cause that differs, in the order of the causes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Parts<'a> {
    causes: u8,
    minor: &'a [i64],
    currency: Currency,
}

impl<'a> Parts<'a> {
    /// Each cause with its part.
    pub fn iter(self) -> impl Iterator<Item = (Cause, Money)> + use<'a> {
        let differs = Cause::ALL.iter().enumerate().filter(move |(bit, _)| self.causes & (1 << bit) != 0);
        let parts = self.minor.iter().map(move |minor| Money::from_minor(*minor, self.currency));
        differs.map(|(_, cause)| *cause).zip(parts)
    }
}

impl CarComparison {
    /// What a person's look makes of its panels.
    pub fn sheet(&self, assessor: usize) -> Option<&Sheet> {
        self.looks.iter().find(|look| look.assessor == assessor).map(|look| &look.sheet)
    }

    /// The panels that both looks of one of its pairs inspected, in document order.
    pub fn panels<'a>(&'a self, pair: &'a CarPair) -> impl Iterator<Item = Paired<'a>> + use<'a> {
        let sheets = self.sheet(pair.first).zip(self.sheet(pair.second));
        let mut parts = &pair.common.parts[..];
        pair.common.panels.iter().filter_map(move |faced| {
            let (first, second) = sheets?;
            let split = faced.split.map(|causes| {
                let (own, rest) = parts.split_at(usize::try_from(causes.count_ones()).unwrap_or(0));
                parts = rest;
                Parts { causes, minor: own, currency: self.currency }
            });
            let (first, second) = (first.side(faced.first.into())?, second.side(faced.second.into())?);
            Some(Paired { panel: first.panel, first, second, turned: faced.turned, split })
        })
    }
}

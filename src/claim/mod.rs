//! The model of what people wrote: a batch of claims, each with its vehicle, inspections, panels, tallies and marks.
//!
//! Nothing here is rated. Every value that was written keeps the cell it stood in ([`Located`]), and blank stays
//! blank: an `Option` that is `None` was not written.

mod attribute;
mod body;
mod inspection;
mod item;
mod key;
mod mark;
mod market;
mod method;
mod panel;
mod party;
mod photograph;
pub mod redact;
mod register;
mod requirement;
mod tally;
mod vehicle;
pub mod vin;
pub mod words;
mod workshop;

pub use crate::problem::{Located, Place, SourceId};
pub use attribute::{Access, Material, Paint};
pub use body::BodyType;
pub use inspection::{Inspection, PanelCount, Role};
pub use item::{Item, ItemAction, Overrule, PaidBefore, PartPrice, Remark, WrittenAmount};
pub use key::{JobKey, KeyKind};
pub use mark::{Cause, Depth, Mark, MarkKind, Position};
pub use market::{CheckDigitRule, Traffic};
pub use method::Method;
pub use panel::{PanelId, PanelKind, Side};
pub use party::{Event, Parties, Settlement, TaxPosition};
pub use photograph::{ImageFile, ImageFormat, Photograph};
pub use register::{RegisterRow, Step};
pub use requirement::{Enclosure, Errand, FACTS, Fact, Per, Requirement, Wanted};
pub use tally::{Counted, SizeHeading, SizeInterval, TallyEntry};
pub use vehicle::{Drive, Steering, Vehicle};
pub use workshop::{Arrival, Bays, DaysOff, Pace, Skill, Technician, Weekday, Workshop};

use crate::problem::{Problem, Sources};
use std::collections::BTreeSet;

/// One job: a claim on an insurer, or a customer who wants a price. Everything that was written about it, in all
/// files of the run.
#[derive(Debug, Clone, PartialEq)]
pub struct Claim {
    /// How its rows were found to belong together.
    pub key: JobKey,
    /// What happened, when and where.
    pub event: Event,
    /// Numbers, insurer, owner, and the terms that the policy sets.
    pub parties: Parties,
    /// The vehicle.
    pub vehicle: Vehicle,
    /// Everyone's counts, by role, date, pass and assessor.
    pub inspections: Vec<Inspection>,
    /// Damaged things that are no panels.
    pub items: Vec<Item>,
    /// Prices that belong to this model of car, with source and date.
    pub parts: Vec<PartPrice>,
    /// Photographs listed for it.
    pub photographs: Vec<Photograph>,
    /// Papers listed for it.
    pub enclosures: Vec<Enclosure>,
    /// Panels on which a person decided otherwise.
    pub overrules: Vec<Overrule>,
    /// What was paid for a panel after an earlier event.
    pub paid_before: Vec<PaidBefore>,
    /// Free text that belongs to the claim.
    pub remarks: Vec<Remark>,
    /// Sheets and files that hold a row of it.
    pub sources: BTreeSet<SourceId>,
}

impl Claim {
    /// A claim of which only the key is known yet.
    pub fn new(key: JobKey) -> Self {
        Self {
            key,
            event: Event::default(),
            parties: Parties::default(),
            vehicle: Vehicle::default(),
            inspections: Vec::new(),
            items: Vec::new(),
            parts: Vec::new(),
            photographs: Vec::new(),
            enclosures: Vec::new(),
            overrules: Vec::new(),
            paid_before: Vec::new(),
            remarks: Vec::new(),
            sources: BTreeSet::new(),
        }
    }

    /// This claim with another's overrules in place of its own, and without inspections.
    #[must_use]
    pub fn with_overrules_of(&self, other: &Self) -> Self {
        Self {
            key: self.key.clone(),
            event: self.event.clone(),
            parties: self.parties.clone(),
            vehicle: self.vehicle.clone(),
            inspections: Vec::new(),
            items: self.items.clone(),
            parts: self.parts.clone(),
            photographs: self.photographs.clone(),
            enclosures: self.enclosures.clone(),
            overrules: other.overrules.clone(),
            paid_before: self.paid_before.clone(),
            remarks: self.remarks.clone(),
            sources: self.sources.clone(),
        }
    }
}

/// A claim with what was found wrong while reading it. It is assessed only if nothing in it stops the claim.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    /// What was written.
    pub claim: Claim,
    /// What is wrong with it, in the order of the files.
    pub problems: Vec<Problem>,
}

impl Intake {
    /// Whether a problem keeps the claim from being priced.
    pub fn is_stopped(&self) -> bool {
        self.problems.iter().any(|problem| problem.severity().stops_the_claim())
    }
}

/// A file that was read, so that anyone can check which one it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputFile {
    /// Path as in [`crate::problem::Source::file`].
    pub path: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// SHA-256 of its bytes, in lower-case hexadecimal.
    pub sha256: String,
}

/// Everything that was read: claims in the order of their first row, and what concerns no single claim.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Batch {
    /// The claims, each with its problems.
    pub intakes: Vec<Intake>,
    /// Problems of files and tables.
    pub problems: Vec<Problem>,
    /// The files, in the order they were read.
    pub files: Vec<InputFile>,
    /// What places refer to.
    pub sources: Sources,
}

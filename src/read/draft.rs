//! A claim while its rows are gathered.

use crate::claim::words::folded;
use crate::claim::{
    Access, BodyType, Claim, Depth, Drive, Inspection, JobKey, KeyKind, Located, Material, Method, Paint,
    PanelCount, Place, Position, Role, Settlement, Steering, TaxPosition, WrittenAmount,
};
use crate::problem::{Problem, catalogue};
use crate::quantity::{Area, Date, Hours, Length, Percent};
use std::collections::BTreeMap;

/// A claim with what is known of its gathering so far.
#[derive(Debug)]
pub(super) struct Draft {
    pub(super) claim: Claim,
    /// Its inspections as the rows name them; rows that leave something out are joined at the end.
    pub(super) inspections: BTreeMap<Identity, Inspection>,
    pub(super) problems: Vec<Problem>,
    /// Its row in a table of vehicles.
    pub(super) vehicle_row: Option<Place>,
    /// A row of it in another table.
    pub(super) other_row: Option<Place>,
    /// Its first row in the order of the run; none where no row is surely its own.
    pub(super) first: Option<Place>,
}

/// What an inspection is known by: assessor (folded), date and pass; where none of them is written, an overlay or another
/// person's count also by its role.
pub(super) type Identity = (Option<String>, Option<Date>, Option<u32>, Option<Role>);

/// Whose inspection a row is, as written.
#[derive(Debug, Clone, Default)]
pub(super) struct Stamp {
    pub(super) assessor: Option<Located<String>>,
    pub(super) date: Option<Located<Date>>,
    pub(super) location: Option<Located<String>>,
    pub(super) pass: Option<Located<u32>>,
    pub(super) role: Option<Located<Role>>,
}

impl Stamp {
    /// Fills what is blank from the row above.
    pub(super) fn take_over(&mut self, above: Self) {
        self.assessor = self.assessor.take().or(above.assessor);
        self.date = self.date.or(above.date);
        self.location = self.location.take().or(above.location);
        self.pass = self.pass.or(above.pass);
        self.role = self.role.or(above.role);
    }
}

impl Draft {
    /// A claim of which only the key is known yet, and the cell that it was first written in (none for a sheet).
    pub(super) fn new(key: JobKey, written: Option<Located<String>>) -> Self {
        let mut claim = Claim::new(key);
        match claim.key.kind {
            KeyKind::ClaimNumber => claim.parties.claim_number = written,
            KeyKind::JobNumber => claim.parties.job_number = written,
            KeyKind::Registration => claim.vehicle.registration = written,
            KeyKind::Vin => claim.vehicle.vin = written,
            KeyKind::Sheet => {}
        }
        Self {
            claim,
            inspections: BTreeMap::new(),
            problems: Vec::new(),
            vehicle_row: None,
            other_row: None,
            first: None,
        }
    }

    /// Whether it is a sheet on which panels stand and nothing was written of them: a form that nobody filled in.
    pub(super) fn is_not_filled_in(&self) -> bool {
        let Claim { key, sources, .. } = &self.claim;
        let is_bare = |panel: &PanelCount| {
            let bare = PanelCount { tally: Vec::new(), ..panel.clone() };
            !panel.is_inspected()
                && !panel.tally.is_empty()
                && bare == PanelCount::new(panel.panel, panel.place)
        };
        let is_blank = |inspection: &Inspection| {
            inspection.assessor.is_none()
                && inspection.date.is_none()
                && inspection.panels.iter().all(is_bare)
        };
        key.kind == KeyKind::Sheet
            && self.problems.is_empty()
            && !self.inspections.is_empty()
            && self.inspections.values().all(is_blank)
            && self.claim == Claim { sources: sources.clone(), ..Claim::new(key.clone()) }
    }

    /// The inspection that a row names.
    pub(super) fn inspection(&mut self, stamp: &Stamp, problems: &mut Vec<Problem>) -> &mut Inspection {
        let assessor = stamp.assessor.as_ref().map(|assessor| folded(&assessor.value));
        let (date, pass) = (stamp.date.map(|date| date.value), stamp.pass.map(|pass| pass.value));
        let is_nameless = assessor.is_none() && date.is_none() && pass.is_none();
        let role = stamp.role.map(|role| role.value).filter(|role| is_nameless && *role != Role::Own);
        let identity = (assessor, date, pass, role);
        let inspection = self.inspections.entry(identity).or_insert_with(|| Inspection {
            assessor: None,
            date: None,
            location: None,
            pass: None,
            role: None,
            panels: Vec::new(),
        });
        settle(&mut inspection.assessor, stamp.assessor.clone(), "assessor", problems);
        settle(&mut inspection.date, stamp.date, "date of inspection", problems);
        settle(&mut inspection.pass, stamp.pass, "pass", problems);
        settle(&mut inspection.location, stamp.location.clone(), "place of inspection", problems);
        settle(&mut inspection.role, stamp.role, "role", problems);
        inspection
    }
}

/// A value that may be written more than once for the same thing.
pub(super) trait Fact: Clone {
    /// Whether two of them say the same.
    fn agrees(&self, other: &Self) -> bool;
    /// As messages show it.
    fn shown(&self) -> String;
}

impl Fact for String {
    /// Case, spacing and punctuation do not matter.
    fn agrees(&self, other: &Self) -> bool {
        self == other || {
            let letters = |text: &str| folded(text).replace(' ', "");
            letters(self) == letters(other)
        }
    }

    fn shown(&self) -> String {
        self.clone()
    }
}

impl Fact for WrittenAmount {
    fn agrees(&self, other: &Self) -> bool {
        self == other
    }

    fn shown(&self) -> String {
        match self.currency {
            Some(currency) => format!("{} {currency}", self.amount),
            None => self.amount.to_string(),
        }
    }
}

macro_rules! plain_facts {
    ($($type:ty),+) => {
        $(impl Fact for $type {
            fn agrees(&self, other: &Self) -> bool {
                self == other
            }

            fn shown(&self) -> String {
                self.to_string()
            }
        })+
    };
}
plain_facts!(
    u16,
    u32,
    Date,
    Percent,
    Hours,
    Length,
    Area,
    BodyType,
    Steering,
    Drive,
    TaxPosition,
    Settlement,
    Role,
    Material,
    Access,
    Paint,
    Depth,
    Position,
    Method
);

/// Puts a value where it belongs. One that contradicts an earlier one is a problem that names both cells; of two
/// spellings the one that sorts first is kept, so that the order of the rows does not matter.
pub(super) fn settle<T: Fact>(
    slot: &mut Option<Located<T>>,
    new: Option<Located<T>>,
    what: &str,
    problems: &mut Vec<Problem>,
) {
    let Some(new) = new else { return };
    let Some(earlier) = slot else {
        *slot = Some(new);
        return;
    };
    if !earlier.value.agrees(&new.value) {
        let (first, second) = if earlier.place <= new.place { (&*earlier, &new) } else { (&new, &*earlier) };
        problems.push(catalogue::claim::facts_disagree(
            what,
            (&first.value.shown(), first.place),
            (&second.value.shown(), second.place),
        ));
    } else if (new.value.shown(), new.place) < (earlier.value.shown(), earlier.place) {
        *slot = Some(new);
    }
}

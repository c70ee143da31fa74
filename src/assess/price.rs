//! Where part prices and times come from: the claim's parts table, each value by itself, else the most particular
//! typical row that states it.

use super::desk::{Desk, in_currency};
use super::{Recorder, StepId};
use crate::claim::{Located, PanelId, PartPrice, Place, WrittenAmount};
use crate::quantity::{Hours, Money};
use crate::schedule::{PanelTerms, Typical};

/// A value that was found.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found<T> {
    /// The value.
    pub value: T,
    /// Its cell.
    pub place: Place,
    /// Whether it is a typical one of the schedule.
    pub typical: bool,
    /// Its step.
    pub step: StepId,
}

/// Everything that is known of one panel's prices and times.
#[derive(Clone, Copy)]
pub(super) struct Prices {
    /// Price of the new part.
    pub part: Option<Found<Money>>,
    /// Time to fit it.
    pub fitting: Option<Found<Hours>>,
    /// Time to repair conventionally.
    pub conventional: Option<Found<Hours>>,
    /// Time to refinish.
    pub refinish: Option<Found<Hours>>,
    /// Paint material.
    pub paint_material: Option<Found<Money>>,
    /// Time to blend the neighbouring panels.
    pub blend: Option<Found<Hours>>,
}

impl Prices {
    /// Looks them up for a panel, with what the schedule says of its kind, if it does.
    pub fn of<R: Recorder>(desk: &mut Desk<'_, R>, panel: PanelId, terms: Option<&PanelTerms>) -> Self {
        let found = &mut Search { desk, panel, terms };
        Self {
            part: found.amount(|part| part.price, |typical| typical.part),
            fitting: found.hours(|part| part.fitting, |typical| typical.fitting),
            conventional: found.hours(|part| part.conventional, |typical| typical.conventional),
            refinish: found.hours(|part| part.refinish, |typical| typical.refinish),
            paint_material: found.amount(|part| part.paint_material, |typical| typical.paint_material),
            blend: found.hours(|_| None, |typical| typical.blend),
        }
    }
}

struct Search<'d, 'a, 't, R> {
    desk: &'d mut Desk<'a, R>,
    panel: PanelId,
    terms: Option<&'t PanelTerms>,
}

impl<R: Recorder> Search<'_, '_, '_, R> {
    fn hours(
        &mut self,
        quoted: impl Fn(&PartPrice) -> Option<Located<Hours>>,
        typical: impl Fn(&Typical) -> Option<Located<Hours>>,
    ) -> Option<Found<Hours>> {
        if let Some(hours) = self.quoted(quoted) {
            let step = self.desk.input(hours.place, hours.value);
            return Some(Found { value: hours.value, place: hours.place, typical: false, step });
        }
        let hours = self.typical(typical)?;
        let step = self.desk.term(hours.place, hours.value);
        Some(Found { value: hours.value, place: hours.place, typical: true, step })
    }

    fn amount(
        &mut self,
        quoted: impl Fn(&PartPrice) -> Option<Located<WrittenAmount>>,
        typical: impl Fn(&Typical) -> Option<Located<Money>>,
    ) -> Option<Found<Money>> {
        if let Some(written) = self.quoted(quoted) {
            // One that is no money of this currency has stopped the claim before.
            let value = in_currency(&written.value, self.desk.currency()).ok()?;
            let step = self.desk.input(written.place, value);
            return Some(Found { value, place: written.place, typical: false, step });
        }
        let amount = self.typical(typical)?;
        let step = self.desk.term(amount.place, amount.value);
        Some(Found { value: amount.value, place: amount.place, typical: true, step })
    }

    fn quoted<T>(&self, value: impl Fn(&PartPrice) -> Option<Located<T>>) -> Option<Located<T>> {
        self.desk.claim.parts.iter().filter(|part| part.panel == self.panel).find_map(value)
    }

    /// Of the rows that hold and state the value, the most particular: panel before vehicle class.
    fn typical<T>(&self, value: impl Fn(&Typical) -> Option<Located<T>>) -> Option<Located<T>> {
        let terms = self.terms?;
        let holding = self.desk.typical.iter().filter(|row| row.scope.holds_for(terms));
        let stated = holding.filter_map(|row| Some((row.scope.rank(), row.class.is_some(), value(row)?)));
        // Of equally particular rows the first: a checked schedule has no two.
        stated
            .reduce(|best, next| if (next.0, next.1) > (best.0, best.1) { next } else { best })
            .map(|(_, _, value)| value)
    }
}

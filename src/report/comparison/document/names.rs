use super::Filling;
use crate::compare::comparison::{CarComparison, CarPair, PairAgreement, Paired, PanelRef};
use crate::report::wording::said;

/// Who the first and the second of a difference are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sides {
    /// The first: a name, or `first` where several pairs are taken together.
    pub first: String,
    /// The second.
    pub second: String,
}

impl Sides {
    /// `Ada minus Bo`.
    pub fn minus(&self) -> String {
        format!("{} minus {}", self.first, self.second)
    }

    /// `Ada and Bo`.
    pub fn both(&self) -> String {
        format!("{} and {}", self.first, self.second)
    }
}

impl Filling<'_> {
    /// An assessor's name inside a sentence of ours.
    pub(super) fn name(&self, assessor: usize) -> String {
        let name = self.comparison.assessors.get(assessor).map_or("", |assessor| assessor.name.as_str());
        said(name)
    }

    /// The two of a pair; with only two assessors all pairs together are theirs.
    pub(super) fn sides(&self, agreement: &PairAgreement) -> Sides {
        let two = (self.comparison.assessors.len() == 2).then_some((0, 1));
        if let Some((first, second)) = agreement.between.or(two) {
            return Sides { first: self.name(first), second: self.name(second) };
        }
        let assessors = &self.comparison.assessors;
        let reference = assessors.iter().position(|assessor| assessor.is_reference);
        let first = reference.map_or_else(|| "the first".to_owned(), |reference| self.name(reference));
        let second = if reference.is_some() { "the others" } else { "the second" };
        Sides { first, second: second.to_owned() }
    }

    /// Whether it means something which of two is the first: there is one pair, or a reference.
    pub(super) fn is_directed(&self) -> bool {
        let assessors = &self.comparison.assessors;
        assessors.len() <= 2
            || self.comparison.pairs.len() <= 1
            || assessors.iter().any(|assessor| assessor.is_reference)
    }

    /// How many cars page one speaks of.
    pub(super) fn cars(&self) -> usize {
        let counted = self.comparison.by_counts.iter().map(|by_counts| by_counts.cars.len()).sum();
        if self.comparison.cars.is_empty() { counted } else { self.comparison.cars.len() }
    }

    /// The car, pair and panel that a reference means.
    pub(super) fn of(&self, panel: &PanelRef) -> Option<(&CarComparison, &CarPair, Paired<'_>)> {
        let car = self.comparison.cars.get(panel.car)?;
        let pair = car.pairs.get(panel.pair)?;
        Some((car, pair, car.panels(pair).nth(panel.index)?))
    }
}

/// A car by its key and plate.
pub(super) fn car_name(car: &CarComparison) -> String {
    let key = said(&car.key);
    match car.registration.as_deref().map(said) {
        Some(plate) if plate != key => format!("{key} ({plate})"),
        _ => key,
    }
}

use crate::compare::statistics::number::{count, median};
use crate::compare::statistics::real;

/// What one assessor counted, beside what would be expected.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Dents counted.
    pub observed: u64,
    /// Dents expected on the same units.
    pub expected: f64,
    /// Units in both.
    pub units: usize,
}

impl Load {
    /// Counted over expected, where anything is expected.
    pub fn ratio(&self) -> Option<f64> {
        (self.expected > 0.0).then(|| real(self.observed) / self.expected)
    }
}

/// Each assessor's load over the units that at least two others counted too; expected of a unit is the median of the
/// others. A mean of the others would make everyone look odd as soon as one is.
pub fn loads_from_median(units: &[Vec<Option<u32>>], assessors: usize) -> Vec<Load> {
    (0..assessors)
        .map(|person| {
            let mut load = Load { observed: 0, expected: 0.0, units: 0 };
            for (own, middle) in units.iter().filter_map(|unit| beside_the_others(unit, person)) {
                load.observed += u64::from(own);
                load.expected += middle;
                load.units += 1;
            }
            load
        })
        .collect()
}

/// One assessor's value of a unit and the median of at least two others.
pub(super) fn beside_the_others(unit: &[Option<u32>], person: usize) -> Option<(u32, f64)> {
    let own = (*unit.get(person)?)?;
    let others: Vec<f64> = unit
        .iter()
        .enumerate()
        .filter(|(index, _)| *index != person)
        .filter_map(|(_, value)| value.map(f64::from))
        .collect();
    if others.len() < 2 { None } else { median(&others).map(|middle| (own, middle)) }
}

/// How far a load lies from what is expected, in Poisson standard deviations.
pub(super) fn standardised(load: &Load) -> Option<f64> {
    (load.expected > 0.0).then(|| (real(load.observed) - load.expected) / load.expected.sqrt())
}

/// Whether the loads are dealt out of their own sum, so that their differences from it add up to nothing.
pub(super) fn are_centred(loads: &[Load]) -> bool {
    let expected: f64 = loads.iter().map(|load| load.expected).sum();
    let observed: f64 = loads.iter().map(|load| real(load.observed)).sum();
    (observed - expected).abs() <= 1e-9 * expected * count(loads.len())
}

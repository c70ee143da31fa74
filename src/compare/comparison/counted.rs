//! Looks that no schedule prices: their counts alone face each other, in all and in common bands. No money, no bands of
//! rates and no decisions stand here.

use super::PairAgreement;
use super::annex::{Compared, Members};
use super::roll::Roll;
use super::work::Members as Claims;
use crate::claim::{KeyKind, PanelId};
use crate::compare::pairing::{Bounds, Car, CommonBand, CommonBands, JoinedBy, Look, facing};
use crate::schedule::SizeBand;
use std::collections::BTreeMap;

/// A panel that both looks inspected, by its counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountedPanel {
    /// Which panel.
    pub panel: PanelId,
    /// The first look's dents.
    pub first: u32,
    /// The second look's dents.
    pub second: u32,
    /// Both in each of the pair's bands.
    pub bands: Box<[(Bounds, Bounds)]>,
}

/// Two looks at one car of which one or both are not priced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountedPair {
    /// The first assessor, by number.
    pub first: usize,
    /// The second assessor, by number.
    pub second: usize,
    /// The bands that the two share.
    pub bands: Box<[CommonBand]>,
    /// Panels that both inspected and whose counts are numbers.
    pub panels: Box<[CountedPanel]>,
    /// Panels on which that is not so.
    pub left_out: usize,
}

/// A car with such looks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountedCar {
    /// The claim whose vehicle holds, by its number in the batch.
    pub claim: usize,
    /// Its key.
    pub key: String,
    /// What kind of key that is.
    pub key_kind: KeyKind,
    /// How its claims were joined.
    pub joined: JoinedBy,
    /// The looks, in the order of the people.
    pub looks: Box<[Look]>,
    /// Every pair of them that is not priced on both sides.
    pub pairs: Box<[CountedPair]>,
}

/// What one common band adds up to over many pairs of panels, first minus second.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfBand {
    /// First and second assessor, by number.
    pub between: (usize, usize),
    /// The band.
    pub band: CommonBand,
    /// Panels.
    pub panels: usize,
    /// Of these, panels where a column of either side lies over an edge of the band, so that it is compared as an interval.
    pub as_intervals: usize,
    /// Panels on which both could be the same number.
    pub could_agree: usize,
    /// The lowest that the difference of the sums can be.
    pub lowest: i64,
    /// The highest.
    pub highest: i64,
}

/// Everything that is compared by counts alone.
#[derive(Debug, Clone, PartialEq)]
pub struct ByCounts {
    /// The cars, in the order of the batch.
    pub cars: Vec<CountedCar>,
    /// All pairs together.
    pub overall: PairAgreement,
    /// Every pair of people.
    pub pairs: Vec<PairAgreement>,
    /// Every pair of people by common band.
    pub bands: Vec<OfBand>,
}

impl CountedCar {
    /// Of a car whose looks are not all priced, where any panel can be compared: `facing` are the looks that face each
    /// other, by their numbers in `looks`, which stand in the order of the people.
    pub(super) fn of(
        car: &Car,
        looks: Vec<&Look>,
        pairs: Vec<(usize, usize)>,
        claims: &Claims<'_>,
        sizes: Option<&[SizeBand]>,
    ) -> Option<Self> {
        let claim = car.claims.first().copied()?;
        let key = &claims.claim(claim)?.key;
        let pair = |(first, second): (usize, usize)| {
            let (a, b) = (claims.inspection(looks[first])?, claims.inspection(looks[second])?);
            let bands = sizes.map_or_else(|| CommonBands::of_headings(a, b), CommonBands::of_schedule);
            let (mut panels, mut left_out) = (Vec::new(), 0);
            for faced in facing(a, b) {
                let numbers = faced.numbers().and_then(|(of_a, of_b)| {
                    bands.dents(a.panels.get(of_a)?).zip(bands.dents(b.panels.get(of_b)?))
                });
                match numbers {
                    Some(((first, of_first), (second, of_second))) => panels.push(CountedPanel {
                        panel: faced.panel,
                        first,
                        second,
                        bands: of_first.into_iter().zip(of_second).collect(),
                    }),
                    None => left_out += 1,
                }
            }
            let bands = bands.bands().into();
            Some(CountedPair { first, second, bands, panels: panels.into(), left_out })
        };
        let pairs: Box<[CountedPair]> = pairs.into_iter().filter_map(pair).collect();
        pairs.iter().any(|pair| !pair.panels.is_empty()).then(|| Self {
            claim,
            key: key.text.clone(),
            key_kind: key.kind,
            joined: car.joined,
            looks: looks.into_iter().cloned().collect(),
            pairs,
        })
    }

    /// Gives the people their numbers in the batch, and letters for their names where that is asked for.
    pub(super) fn number(&mut self, roll: &Roll, letters: bool) {
        let numbers: Vec<usize> = self.looks.iter().map(|look| roll.number(look)).collect();
        for pair in &mut self.pairs {
            (pair.first, pair.second) = (numbers[pair.first], numbers[pair.second]);
        }
        if letters {
            for (look, number) in self.looks.iter_mut().zip(numbers) {
                look.assessor = roll.people[number].name.as_str().into();
            }
        }
    }
}

/// All of it; none where every look is priced.
pub(super) fn by_counts(cars: Vec<CountedCar>, has_reference: bool) -> Option<ByCounts> {
    if cars.is_empty() {
        return None;
    }
    let mut people: BTreeMap<(usize, usize), Vec<(usize, &CountedPair)>> = BTreeMap::new();
    for (number, car) in cars.iter().enumerate() {
        for pair in &car.pairs {
            people.entry((pair.first, pair.second)).or_default().push((number, pair));
        }
    }
    let is_one = people.len() == 1;
    let of = |pairs: &[(usize, &CountedPair)], between, is_directed| {
        let compared: Vec<Compared> = pairs
            .iter()
            .flat_map(|(car, pair)| pair.panels.iter().map(|of| Compared::new(*car, of.first, of.second)))
            .collect();
        let left_out = pairs.iter().map(|(_, pair)| pair.left_out).sum();
        let with_panels = pairs.iter().filter(|(_, pair)| !pair.panels.is_empty()).count();
        Members { cars: &[], schedules: &[], pairs: &[], is_directed }.by_counts(
            &compared,
            between,
            with_panels,
            left_out,
        )
    };
    let all: Vec<(usize, &CountedPair)> = people.values().flatten().copied().collect();
    let overall = of(&all, None, has_reference || is_one);
    let pairs = people.iter().map(|(between, pairs)| of(pairs, Some(*between), true)).collect();
    let bands = people.iter().flat_map(|(between, pairs)| of_bands(*between, pairs)).collect();
    Some(ByCounts { cars, overall, pairs, bands })
}

fn of_bands(between: (usize, usize), pairs: &[(usize, &CountedPair)]) -> Vec<OfBand> {
    let mut bands: BTreeMap<&CommonBand, OfBand> = BTreeMap::new();
    for (_, pair) in pairs {
        for (number, band) in pair.bands.iter().enumerate() {
            let sum = bands.entry(band).or_insert_with(|| OfBand {
                between,
                band: band.clone(),
                panels: 0,
                as_intervals: 0,
                could_agree: 0,
                lowest: 0,
                highest: 0,
            });
            for (first, second) in pair.panels.iter().filter_map(|panel| panel.bands.get(number)) {
                sum.panels += 1;
                sum.as_intervals += usize::from(!(first.is_exact() && second.is_exact()));
                sum.could_agree += usize::from(first.meets(*second));
                sum.lowest += i64::from(first.fewest) - i64::from(second.most);
                sum.highest += i64::from(first.most) - i64::from(second.fewest);
            }
        }
    }
    bands.into_values().collect()
}

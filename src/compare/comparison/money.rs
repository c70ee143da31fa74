use super::CarComparison;
use crate::claim::PanelId;
use crate::compare::money::{Cause, Share, Turned};
use crate::quantity::{Currency, Money};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// A panel of the comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PanelRef {
    /// The car, by its number in [`super::Comparison::cars`].
    pub car: usize,
    /// The pair, by its number in the car.
    pub pair: usize,
    /// The panel, by its number in the pair.
    pub index: usize,
    /// Which panel.
    pub panel: PanelId,
    /// First minus second.
    pub difference: Money,
}

/// What one cause does over many panels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfCause {
    /// Which cause; none for differences that could not be split.
    pub cause: Option<Cause>,
    /// Panels on which it differs.
    pub panels: usize,
    /// Its parts added up, first minus second: one panel's more takes away another's less.
    pub net: Money,
    /// Its parts added up without their signs.
    pub gross: Money,
}

/// What one way of turning does over many panels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfTurn {
    /// Which way.
    pub turned: Turned,
    /// Panels that differ in money so.
    pub panels: usize,
    /// Their differences added up, first minus second.
    pub net: Money,
    /// Their differences added up without their signs.
    pub gross: Money,
}

/// What one part between the panels and the total does over many cars.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfShare {
    /// Which part.
    pub share: Share,
    /// Differences added up, first minus second.
    pub net: Money,
}

/// The money of a pair of assessors, or of all pairs, in one currency. Sums that do not fit an amount are left out with
/// the whole block, which only absurd input reaches.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MoneyByCause {
    /// The currency.
    pub currency: Currency,
    /// Cars with a common panel.
    pub cars: usize,
    /// Common panels that both looks price.
    pub panels: usize,
    /// Of these, panels whose amounts differ.
    pub differing: usize,
    /// Common panels that a look leaves open: in no sum here.
    pub open: usize,
    /// The first assessors' amounts on these panels.
    pub first: Money,
    /// The second assessors' amounts on these panels.
    pub second: Money,
    /// First minus second.
    pub difference: Money,
    /// The panels' differences added up without their signs.
    pub gross: Money,
    /// By cause, in their fixed order; what could not be split stands last. Their nets sum to the difference.
    pub causes: Vec<OfCause>,
    /// By the way the difference came about. Their nets sum to the difference.
    pub turns: Vec<OfTurn>,
    /// From panels to gross totals, over cars that both looks price whole or in part.
    pub shares: Vec<OfShare>,
    /// The panels with the largest differences, largest first; at most twenty.
    pub largest: Vec<PanelRef>,
    /// So few panels carry four fifths of `gross`.
    pub carry_most: usize,
}

/// The panels of largest differences that are kept.
const LARGEST: usize = 20;

/// Sums in minor units, with and without signs.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    panels: usize,
    net: i128,
    gross: i128,
}

impl Sum {
    fn add(&mut self, minor: i64) {
        self.panels += 1;
        self.net += i128::from(minor);
        self.gross += i128::from(minor.unsigned_abs());
    }
}

/// A panel that differs: by how much without its sign, its car, its number in the pair, and the pair.
type Differing = (Reverse<u64>, u32, u32, u32);

fn found(cars: &[CarComparison], (_, car, index, pair): &Differing) -> Option<PanelRef> {
    let wide = |number: u32| usize::try_from(number).ok();
    let (car, pair, index) = (wide(*car)?, wide(*pair)?, wide(*index)?);
    let of_car = cars.get(car)?;
    let panel = of_car.panels(of_car.pairs.get(pair)?).nth(index)?;
    Some(PanelRef { car, pair, index, panel: panel.panel, difference: panel.difference()? })
}

/// Panels of a pair of looks that both price, with their differences.
pub(super) fn of_pair(cars: &[CarComparison], car: usize, pair: usize) -> Vec<PanelRef> {
    let panels = cars[car].panels(&cars[car].pairs[pair]).enumerate();
    panels
        .filter_map(|(index, panel)| {
            let difference = panel.difference()?;
            Some(PanelRef { car, pair, index, panel: panel.panel, difference })
        })
        .collect()
}

/// Adds up the money of these pairs of looks, by currency.
pub(super) fn by_cause(cars: &[CarComparison], members: &[(usize, usize)]) -> Vec<MoneyByCause> {
    let currencies: BTreeSet<Currency> = members.iter().map(|(car, _)| cars[*car].currency).collect();
    currencies.into_iter().filter_map(|currency| of_currency(cars, members, currency)).collect()
}

fn of_currency(
    cars: &[CarComparison],
    members: &[(usize, usize)],
    currency: Currency,
) -> Option<MoneyByCause> {
    let money = |minor: i128| i64::try_from(minor).ok().map(|minor| Money::from_minor(minor, currency));
    let mut causes: BTreeMap<(bool, Option<Cause>), Sum> = BTreeMap::new();
    let mut turns: BTreeMap<Turned, Sum> = BTreeMap::new();
    let mut shares = [0_i128; Share::ALL.len()];
    let (mut of_first, mut of_second, mut panels, mut open, mut of_cars) = (0_i128, 0_i128, 0, 0, 0);
    let mut differing: Vec<Differing> = Vec::new();
    for (car, pair) in members.iter().copied().filter(|(car, _)| cars[*car].currency == currency) {
        let members = &cars[car].pairs[pair];
        of_cars += usize::from(!members.common.is_empty());
        for (share, part) in shares.iter_mut().zip(members.vehicle.iter().flat_map(|vehicle| vehicle.shares))
        {
            *share += i128::from(part.minor());
        }
        for (index, panel) in cars[car].panels(members).enumerate() {
            let Some((first, second)) = panel.amounts() else {
                open += 1;
                continue;
            };
            panels += 1;
            of_first += i128::from(first.minor());
            of_second += i128::from(second.minor());
            let difference = first.minus(second).ok()?;
            match panel.split {
                Ok(parts) => {
                    for (cause, part) in parts.iter() {
                        causes.entry((false, Some(cause))).or_default().add(part.minor());
                    }
                }
                Err(_) => causes.entry((true, None)).or_default().add(difference.minor()),
            }
            if difference.is_zero() {
                continue;
            }
            if let Some(turned) = panel.turned {
                turns.entry(turned).or_default().add(difference.minor());
            }
            // Numbers of cars, panels and pairs fit: a batch is held in memory.
            let narrow = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
            let size = Reverse(difference.minor().unsigned_abs());
            differing.push((size, narrow(car), narrow(index), narrow(pair)));
        }
    }
    differing.sort_unstable();
    let sizes = || differing.iter().map(|(Reverse(size), ..)| i128::from(*size));
    let gross: i128 = sizes().sum();
    let carried = sizes().scan(0, |sum, size| {
        // Four fifths are reached once five times the sum is four times all of it.
        let before = *sum;
        *sum += size;
        (before * 5 < gross * 4).then_some(())
    });
    let carry_most = carried.count();
    let of_causes = causes.into_iter().map(|((_, cause), sum)| {
        Some(OfCause { cause, panels: sum.panels, net: money(sum.net)?, gross: money(sum.gross)? })
    });
    let of_turns = turns.into_iter().map(|(turned, sum)| {
        Some(OfTurn { turned, panels: sum.panels, net: money(sum.net)?, gross: money(sum.gross)? })
    });
    let of_shares =
        Share::ALL.into_iter().zip(shares).map(|(share, net)| Some(OfShare { share, net: money(net)? }));
    Some(MoneyByCause {
        currency,
        cars: of_cars,
        panels,
        differing: differing.len(),
        open,
        first: money(of_first)?,
        second: money(of_second)?,
        difference: money(of_first - of_second)?,
        gross: money(gross)?,
        causes: of_causes.collect::<Option<_>>()?,
        turns: of_turns.collect::<Option<_>>()?,
        shares: of_shares.collect::<Option<_>>()?,
        largest: differing.iter().take(LARGEST).filter_map(|panel| found(cars, panel)).collect(),
        carry_most,
    })
}

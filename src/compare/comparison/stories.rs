//! What two people counted, added up by three rules.

use super::{CarComparison, CarPair, LookResult, Stories, Story};
use crate::quantity::{Currency, Money};
use std::collections::BTreeMap;

/// One rule's sums.
#[derive(Default)]
struct Sums {
    cars: usize,
    first: u64,
    second: u64,
    /// In minor units.
    money: BTreeMap<Currency, (i128, i128)>,
}

impl Sums {
    fn story(self, rule: &'static str) -> Story {
        let money = self.money.into_iter().filter_map(|(currency, (first, second))| {
            let money =
                |minor: i128| i64::try_from(minor).ok().map(|minor| Money::from_minor(minor, currency));
            Some((currency, money(first)?, money(second)?))
        });
        Story { rule, cars: self.cars, first: self.first, second: self.second, money: money.collect() }
    }

    fn pay(&mut self, currency: Currency, first: Money, second: Money) {
        let sums = self.money.entry(currency).or_default();
        sums.0 += i128::from(first.minor());
        sums.1 += i128::from(second.minor());
    }

    fn add_common(&mut self, car: &CarComparison, pair: &CarPair) {
        self.cars += 1;
        for panel in car.panels(pair) {
            self.first += u64::from(panel.first.dents);
            self.second += u64::from(panel.second.dents);
            if let Some((first, second)) = panel.amounts() {
                self.pay(car.currency, first, second);
            }
        }
    }
}

/// Common panels, own sums and complete cars of these pairs of looks.
pub(super) fn stories(cars: &[CarComparison], members: &[(usize, usize)]) -> Stories {
    let (mut common, mut own, mut complete) = (Sums::default(), Sums::default(), Sums::default());
    for (car, pair) in members {
        let car = &cars[*car];
        let pair = &car.pairs[*pair];
        if !pair.common.is_empty() {
            common.add_common(car, pair);
            if pair.unpaired.iter().all(|panel| panel.dents.is_none()) {
                complete.add_common(car, pair);
            }
        }
        if let (Some(first), Some(second)) = (look(car, pair.first), look(car, pair.second)) {
            own.cars += 1;
            own.first += first.dents;
            own.second += second.dents;
            own.pay(car.currency, first.on_panels, second.on_panels);
        }
    }
    let differ = apart(&common, &own) || apart(&common, &complete);
    Stories {
        common: common.story("panels that both inspected"),
        own: own.story("all panels that each inspected"),
        complete: complete.story("cars on which both inspected the same panels"),
        differ,
    }
}

fn look(car: &CarComparison, assessor: usize) -> Option<&LookResult> {
    car.looks.iter().find(|look| look.assessor == assessor)
}

/// Whether two stories give shares of first over second that lie more than one in twenty apart, crosswise multiplied so
/// that nothing is divided by zero. A story without a car says nothing.
fn apart(one: &Sums, other: &Sums) -> bool {
    if one.cars == 0 || other.cars == 0 {
        return false;
    }
    let left = u128::from(one.first) * u128::from(other.second);
    let right = u128::from(other.first) * u128::from(one.second);
    left.abs_diff(right) * 20 > left.max(right)
}

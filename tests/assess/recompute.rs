//! Recomputes every step of a working from its formula and its operands alone, with the schedule's rounding, bands and
//! grid, and finds the same result. What stands in a cell is looked up in the claim and the schedule by the cell. The
//! arithmetic here is its own: exact fractions, rounded by flooring.

use crate::arithmetic::{along, fraction, part, poisson_limit, whole};
use std::collections::BTreeMap;
use stipple::assess::{End, Formula, Rule, Shown, Step, Working};
use stipple::claim::{Claim, Counted, Located, Place, WrittenAmount};
use stipple::quantity::{Decimal, Hours, Money, Percent, Rounding};
use stipple::schedule::{Comparator, FactorEffect, GroupId, MixedRule, Per, Price, Schedule, SeveralMarks};

/// What stands in the cells of a claim and its schedule.
pub struct Sheets<'a> {
    schedule: &'a Schedule,
    cells: BTreeMap<Place, Vec<Shown>>,
}

impl<'a> Sheets<'a> {
    pub fn new(claim: &Claim, schedule: &'a Schedule) -> Self {
        let mut sheets = Self { schedule, cells: BTreeMap::new() };
        sheets.schedule_cells();
        sheets.claim_cells(claim);
        sheets
    }

    fn put(&mut self, place: Place, value: impl Into<Shown>) {
        self.cells.entry(place).or_default().push(value.into());
    }

    fn money(&mut self, place: Place, minor: i64) {
        let currency = self.schedule.terms.currency.value;
        self.put(place, Money::from_minor(minor, currency));
    }

    fn price(&mut self, place: Place, price: Price) {
        match price {
            Price::Amount(rate) => {
                let (numerator, denominator) = fraction(rate.to_decimal());
                let unit = 10_i128.pow(rate.currency().decimals());
                let minor = whole(numerator * unit, denominator, self.rounding());
                self.money(place, i64::try_from(minor).unwrap());
                self.put(place, rate);
            }
            Price::Time(hours) => self.put(place, hours),
        }
    }

    fn rounding(&self) -> Rounding {
        self.schedule.terms.rounding.value
    }

    fn schedule_cells(&mut self) {
        let schedule = self.schedule;
        let terms = &schedule.terms;
        for located in [terms.readying, terms.discount, terms.factors_at_most].into_iter().flatten() {
            self.put(located.place, located.value);
        }
        for located in [terms.minimum, terms.total_step].into_iter().flatten() {
            self.put(located.place, located.value);
        }
        if let Some(Located { value: SeveralMarks::Further(share), place }) = terms.several_marks {
            self.put(place, share);
        }
        if let Some(loss) = terms.total_loss {
            self.put(loss.share.place, loss.share.value);
        }
        if let MixedRule::Equivalents(size) = terms.mixed.value {
            self.put(terms.mixed.place, Shown::SizeBand(size));
        }
        for row in &schedule.betterment {
            self.put(row.share.place, row.share.value);
        }
        for band in &schedule.counts {
            self.put(band.place, band.from);
        }
        for rule in &schedule.titles {
            self.put(rule.share.place, rule.share.value);
        }
        for rate in &schedule.labour {
            self.put(rate.per_hour.place, rate.per_hour.value);
        }
        for tax in &schedule.taxes {
            self.put(tax.percent.place, tax.percent.value);
        }
        for (index, band) in schedule.sizes.iter().enumerate() {
            self.put(band.place, Shown::SizeBand(index));
            if let Some(weight) = band.weight {
                self.put(band.place, weight);
            }
        }
        for panel in &schedule.panels {
            if let Some(area) = panel.area {
                self.put(area.place, area.value);
            }
            for bound in [panel.floor, panel.cap].into_iter().flatten() {
                self.put(bound.place, bound.value);
            }
        }
        for rate in &schedule.mark_rates {
            self.price(rate.place, rate.price);
        }
        for factor in &schedule.factors {
            match factor.effect {
                FactorEffect::Percent(percent, _) => self.put(factor.place, percent),
                FactorEffect::Amount(amount) => self.put(factor.place, amount),
                FactorEffect::Time(hours) => self.put(factor.place, hours),
            }
        }
        for row in &schedule.typical {
            for amount in [row.part, row.paint_material].into_iter().flatten() {
                self.put(amount.place, amount.value);
            }
            let times = [row.fitting, row.conventional, row.refinish, row.blend];
            for time in times.into_iter().flatten() {
                self.put(time.place, time.value);
            }
        }
        for limit in &schedule.limits {
            use stipple::schedule::Measure::{ShareOfConventional, ShareOfReplacing};
            if let ShareOfConventional(share) | ShareOfReplacing(share) = limit.measure {
                self.put(limit.place, share);
            }
        }
        for operation in &schedule.operations {
            if let Some(hours) = operation.hours {
                self.put(hours.place, hours.value);
            }
            if let Some(parts) = operation.parts {
                self.put(parts.place, parts.value);
            }
        }
    }

    fn amount(&mut self, place: Place, written: &WrittenAmount) {
        let currency = self.schedule.terms.currency.value;
        let (numerator, denominator) = fraction(written.amount);
        let minor = numerator * 10_i128.pow(currency.decimals());
        assert_eq!(minor % denominator, 0);
        self.money(place, i64::try_from(minor / denominator).unwrap());
    }

    fn claim_cells(&mut self, claim: &Claim) {
        for panel in claim.inspections.iter().flat_map(|inspection| &inspection.panels) {
            for entry in &panel.tally {
                if let Counted::Counted(dents) | Counted::Estimated { best: Some(dents), .. } = entry.count {
                    self.put(entry.place, dents);
                }
            }
            if let Some(frame) = panel.frame {
                self.put(frame.place, frame.value);
            }
            for length in panel.marks.iter().filter_map(|mark| mark.length) {
                // A measured dent counts as one.
                self.put(length.place, 1_u32);
            }
        }
        let parties = &claim.parties;
        for stated in [parties.excess, parties.market_value, parties.salvage, parties.policy_limit]
            .into_iter()
            .flatten()
        {
            self.amount(stated.place, &stated.value);
        }
        if let Some(share) = parties.tax_share {
            self.put(share.place, share.value);
        }
        if let Some(position) = parties.tax_position {
            self.put(position.place, Percent::HUNDRED);
        }
        for item in &claim.items {
            if let Some(price) = &item.price {
                self.amount(price.place, &price.value);
            }
            if let Some(hours) = item.hours {
                self.put(hours.place, hours.value);
            }
        }
        for part in &claim.parts {
            for amount in [&part.price, &part.paint_material].into_iter().flatten() {
                self.amount(amount.place, &amount.value);
            }
            for time in [part.fitting, part.conventional, part.refinish].into_iter().flatten() {
                self.put(time.place, time.value);
            }
        }
        for paid in &claim.paid_before {
            self.amount(paid.amount.place, &paid.amount.value);
        }
    }

    /// Recomputes a whole working; says which steps disagree.
    pub fn check(&self, working: &Working) {
        for (index, step) in working.steps.iter().enumerate() {
            let of = |id: &stipple::assess::StepId| {
                let at = usize::try_from(id.0).unwrap();
                assert!(at < index, "step {index} uses step {at}, which is not before it: {step:?}");
                working.steps[at].result.clone()
            };
            let expected = self.recomputed(step, &of);
            assert!(
                expected.contains(&step.result),
                "step {index} is {:?}, recomputed {expected:?}: {step:?}",
                step.result
            );
        }
    }

    fn recomputed(&self, step: &Step, of: &dyn Fn(&stipple::assess::StepId) -> Shown) -> Vec<Shown> {
        let minor = |id| minor(&of(id));
        let money = |minor: i128| {
            vec![Shown::Money(Money::from_minor(
                i64::try_from(minor).unwrap(),
                self.schedule.terms.currency.value,
            ))]
        };
        match &step.formula {
            Formula::Read => {
                step.cells.iter().flat_map(|cell| self.cells.get(cell).cloned().unwrap_or_default()).collect()
            }
            Formula::Sum(parts) if matches!(step.result, Shown::Count(_)) => {
                vec![Shown::Count(parts.iter().map(|id| count(&of(id))).sum())]
            }
            Formula::Sum(parts) => money(parts.iter().map(minor).sum()),
            Formula::Difference(a, b) => money(minor(a) - minor(b)),
            Formula::Negative(a) => money(-minor(a)),
            Formula::Times { rate, by } => vec![self.times(&of(rate), &of(by))],
            Formula::PercentOf { percent, of: amount } => {
                let Shown::Percent(percent) = of(percent) else { panic!("no percentage: {step:?}") };
                let (numerator, denominator) = fraction(percent.to_decimal());
                money(whole(minor(amount) * numerator, denominator * 100, self.mode(step.rule)))
            }
            Formula::Weighted(pairs) => {
                let weighted = pairs.iter().map(|(dents, weight)| {
                    let Shown::Weighted(weight) = of(weight) else { panic!("no weight: {step:?}") };
                    Decimal::from(count(&of(dents))) * weight
                });
                vec![Shown::Weighted(weighted.sum::<Decimal>().normalize())]
            }
            Formula::Scaled { count: dents, part, whole: panel, end } => {
                let (Shown::Area(part), Shown::Area(panel)) = (of(part), of(panel)) else {
                    panic!("no areas: {step:?}")
                };
                let millionths = match end {
                    End::Best => i128::from(count(&of(dents))) * 1_000_000,
                    End::Low => poisson_limit(count(&of(dents)), false),
                    End::High => poisson_limit(count(&of(dents)), true),
                };
                let numerator = millionths * i128::from(panel.square_millimetres());
                let denominator = i128::from(part.square_millimetres()) * 1_000_000;
                let mode = self.schedule.terms.scaled_counts.unwrap().value;
                vec![Shown::Count(u32::try_from(whole(numerator, denominator, mode)).unwrap())]
            }
            Formula::Between { low, high, at, from, to } => {
                vec![self.between(&[of(low), of(high)], number(&of(at)), [count(&of(from)), count(&of(to))])]
            }
            Formula::BandOf(at) => {
                let number = number(&of(at));
                let holds = |most: u32| number <= Decimal::from(most);
                let band = self.schedule.counts.iter().position(|band| band.to.is_none_or(holds));
                vec![Shown::CountBand(band.unwrap())]
            }
            Formula::ChosenSize(bands) => {
                let mut dents = vec![0; self.schedule.sizes.len()];
                for (band, id) in bands {
                    dents[*band] = count(&of(id));
                }
                vec![Shown::SizeBand(chosen_size(self.schedule, &dents))]
            }
            Formula::GridCell { size, count } => self.grid(step, &of(size), &of(count)),
            Formula::UpTo { floor, amount } => money((minor(floor) - minor(amount)).max(0)),
            Formula::DownTo { cap, amount } => money((minor(cap) - minor(amount)).min(0)),
            Formula::Part { total, weights, index } => {
                let weights: Vec<i128> = weights.iter().map(minor).collect();
                money(part(minor(total), &weights, *index))
            }
            Formula::ToStep { amount, step } => {
                let (amount, step) = (minor(amount), minor(step));
                money(whole(amount, step, self.rounding()) * step - amount)
            }
            Formula::Smallest(parts) => money(parts.iter().map(minor).min().unwrap().max(0)),
            Formula::AtLeastZero(a, b) => money((minor(a) - minor(b)).max(0)),
        }
    }

    /// A total-loss limit is rounded so that comparing with it is exact.
    fn mode(&self, rule: Rule) -> Rounding {
        match (rule, self.schedule.terms.total_loss.map(|terms| terms.comparator.value)) {
            (Rule::TitleLimit(Comparator::Over), _) | (Rule::ScreenLimit, Some(Comparator::Over)) => {
                Rounding::Down
            }
            (Rule::TitleLimit(Comparator::AtLeast), _) | (Rule::ScreenLimit, Some(Comparator::AtLeast)) => {
                Rounding::Up
            }
            _ => self.rounding(),
        }
    }

    /// Exactly between two amounts or times, rounded once.
    fn between(&self, ends: &[Shown; 2], at: Decimal, counts: [u32; 2]) -> Shown {
        match ends {
            [Shown::Money(low), Shown::Money(high)] => {
                let (numerator, denominator) = along((low.minor(), high.minor()), at, counts);
                let minor = whole(numerator, denominator, self.rounding());
                Shown::Money(Money::from_minor(i64::try_from(minor).unwrap(), low.currency()))
            }
            [Shown::Time(low), Shown::Time(high)] => {
                let unit = i128::from(self.schedule.terms.time_unit.value.seconds());
                let (numerator, denominator) = along((low.seconds(), high.seconds()), at, counts);
                let units = whole(numerator, denominator * unit, self.rounding());
                Shown::Time(Hours::from_seconds(i64::try_from(units * unit).unwrap()))
            }
            other => panic!("nothing lies between {other:?}"),
        }
    }

    fn times(&self, rate: &Shown, by: &Shown) -> Shown {
        let (by_numerator, by_denominator) = match by {
            Shown::Count(count) => (i128::from(*count), 1),
            Shown::Weighted(weighted) => fraction(*weighted),
            Shown::Time(hours) => (i128::from(hours.seconds()), 3600),
            other => panic!("nothing to multiply by: {other:?}"),
        };
        match rate {
            Shown::Rate(rate) => {
                let (numerator, denominator) = fraction(rate.to_decimal());
                let unit = 10_i128.pow(rate.currency().decimals());
                let minor =
                    whole(numerator * unit * by_numerator, denominator * by_denominator, self.rounding());
                Shown::Money(Money::from_minor(i64::try_from(minor).unwrap(), rate.currency()))
            }
            Shown::Time(each) => {
                let unit = i128::from(self.schedule.terms.time_unit.value.seconds());
                let product = i128::from(each.seconds()) * by_numerator;
                let units = whole(product, by_denominator * unit, self.rounding());
                Shown::Time(Hours::from_seconds(i64::try_from(units * unit).unwrap()))
            }
            other => panic!("no rate: {other:?}"),
        }
    }

    fn grid(&self, step: &Step, size: &Shown, count: &Shown) -> Vec<Shown> {
        let (Shown::SizeBand(size), Shown::CountBand(count)) = (size, count) else { panic!("{step:?}") };
        let groups = (0..self.schedule.groups.len()).map(|group| GroupId(u16::try_from(group).unwrap()));
        let cell = groups
            .filter_map(|group| self.schedule.grid.get(group, *size, *count))
            .find(|cell| step.cells == [cell.place])
            .unwrap_or_else(|| panic!("no such cell in the grid: {step:?}"));
        match (cell.price, cell.per) {
            (Price::Amount(rate), Per::Panel) => {
                vec![self.times(&Shown::Rate(rate), &Shown::Count(1))]
            }
            (Price::Amount(rate), Per::Dent) => vec![Shown::Rate(rate)],
            (Price::Time(hours), _) => vec![Shown::Time(hours)],
        }
    }
}

fn minor(shown: &Shown) -> i128 {
    match shown {
        Shown::Money(money) => i128::from(money.minor()),
        other => panic!("no amount: {other:?}"),
    }
}

fn count(shown: &Shown) -> u32 {
    match shown {
        Shown::Count(count) => *count,
        other => panic!("no count: {other:?}"),
    }
}

/// The size band by the two rules that look for one.
fn chosen_size(schedule: &Schedule, dents: &[u32]) -> usize {
    let all: u32 = dents.iter().sum();
    match schedule.terms.mixed.value {
        MixedRule::MostFrequent => {
            let most = dents.iter().max().unwrap();
            dents.iter().rposition(|dents| dents == most).unwrap()
        }
        MixedRule::LargestShare(share) => (0..dents.len())
            .rev()
            .find(|size| {
                let or_larger: u32 = dents[*size..].iter().sum();
                or_larger >= 1
                    && Decimal::from(or_larger) * Decimal::from(100)
                        >= share.to_decimal() * Decimal::from(all)
            })
            .unwrap(),
        other => panic!("{other:?} chooses no band from counts"),
    }
}

fn number(shown: &Shown) -> Decimal {
    match shown {
        Shown::Weighted(weighted) => *weighted,
        counted => Decimal::from(count(counted)),
    }
}

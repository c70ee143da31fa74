//! Agreement of two people, or of all pairs, from the panels that both inspected.

use super::money::by_cause;
use super::stories::stories;
use super::{Annex, CarComparison, Categories, Counts, PageOne, PairAgreement, Paired};
use crate::claim::{Method, PanelKind};
use crate::compare::statistics::agreement::{
    Cluster, Scale, USUAL_FACTOR, clustered_mean, concordance, deming, limits_of_agreement, scale_check,
    typical_spread,
};
use crate::compare::statistics::category::{CrossTable, Weights, kappa, prevalence, same_category};
use crate::compare::statistics::many::intraclass;
use crate::compare::statistics::{Level, Reason, Statistic, real};
use crate::quantity::Currency;
use crate::schedule::Schedule;
use std::collections::{BTreeMap, BTreeSet};

const LEVEL: Level = Level::NINETY_FIVE;

/// The panels of some pairs of looks.
#[derive(Clone, Copy)]
pub(super) struct Members<'a> {
    pub cars: &'a [CarComparison],
    pub schedules: &'a [Schedule],
    /// Car and pair, by number.
    pub pairs: &'a [(usize, usize)],
    /// Whether first minus second is one direction over all of them.
    pub is_directed: bool,
}

/// A panel with its car.
type Held<'a> = (usize, &'a CarComparison, Paired<'a>);

impl<'a> Members<'a> {
    fn panels(self) -> impl Iterator<Item = Held<'a>> {
        self.pairs.iter().flat_map(move |(number, pair)| {
            let car = &self.cars[*number];
            car.panels(&car.pairs[*pair]).map(move |panel| (*number, car, panel))
        })
    }

    /// Everything about them.
    pub fn agreement(self, between: Option<(usize, usize)>) -> PairAgreement {
        let pairs = || self.pairs.iter().map(|(car, pair)| &self.cars[*car].pairs[*pair]);
        PairAgreement {
            between,
            cars: pairs().filter(|pair| !pair.common.is_empty()).count(),
            panels: pairs().map(|pair| pair.common.len()).sum(),
            unpaired: pairs().map(|pair| pair.unpaired.len()).sum(),
            page_one: self.page_one(),
            stories: stories(self.cars, self.pairs),
            annex: self.annex(),
            bands: self.bands(),
            decisions: self.decisions(),
            money: by_cause(self.cars, self.pairs),
        }
    }

    /// Everything that can be said of counts alone.
    pub fn by_counts(
        self,
        compared: &[Compared],
        between: Option<(usize, usize)>,
        cars: usize,
        left_out: usize,
    ) -> PairAgreement {
        let nothing = self.page_one();
        let unpriced = |statistic: Statistic| Statistic { value: Err(Reason::NotPriced), ..statistic };
        PairAgreement {
            cars,
            panels: compared.len(),
            unpaired: left_out,
            page_one: PageOne {
                bias: self.bias(compared.iter().copied()),
                spread: typical_spread(&pairs(compared.iter().copied()), LEVEL),
                same_band: unpriced(nothing.same_band),
                same_decision: unpriced(nothing.same_decision),
                money: Vec::new(),
            },
            annex: vec![Annex { same: None, ..self.over("all panels".to_owned(), None, compared, true) }],
            ..self.agreement(between)
        }
    }

    /// The five figures alone.
    pub fn page_one(self) -> PageOne {
        let (same_band, same_decision) = self.same(None);
        PageOne {
            bias: self.bias(totals(self.panels())),
            spread: typical_spread(&pairs(totals(self.panels())), LEVEL),
            same_band,
            same_decision,
            money: self.money(),
        }
    }

    /// The mean of first minus second, where it has a direction.
    fn directed(self, statistic: Statistic) -> Statistic {
        if self.is_directed {
            return statistic;
        }
        Statistic {
            value: Err(Reason::NoDirection),
            interval: Err(Reason::NoDirection),
            test: None,
            ..statistic
        }
    }

    fn bias(self, compared: impl Iterator<Item = Compared>) -> Statistic {
        let says = "mean of first minus second, dents a panel, over panels that both inspected";
        self.directed(clustered_mean(
            "bias",
            says,
            &clusters(compared.map(|c| (c.car(), c.first() - c.second()))),
            LEVEL,
        ))
    }

    /// Shares of panels in the same count band, and with the same decision; of one kind, or of all.
    fn same(self, kind: Option<PanelKind>) -> (Statistic, Statistic) {
        let share = |name, says, is_same: &dyn Fn(&Held<'_>) -> bool| {
            let panels = self.panels().filter(|(.., panel)| kind.is_none_or(|kind| panel.panel.kind == kind));
            let values = panels.map(|held| (held.0, f64::from(u8::from(is_same(&held)))));
            clustered_mean(name, says, &clusters(values), LEVEL)
        };
        (
            share(
                "same band",
                "share of panels whose dents in all fall in the same count band of the schedule; no dents are a band",
                &|(_, car, panel)| {
                    let schedule = &self.schedules[car.schedule];
                    band(schedule, panel.first.dents) == band(schedule, panel.second.dents)
                },
            ),
            share("same decision", "share of panels for which the same is to be done", &|(.., panel)| {
                panel.first.method == panel.second.method
            }),
        )
    }

    fn money(self) -> Vec<(Currency, Statistic)> {
        let mut cars: BTreeMap<Currency, Vec<Cluster>> = BTreeMap::new();
        for (number, pair) in self.pairs {
            let car = &self.cars[*number];
            let priced = car.panels(&car.pairs[*pair]).filter_map(|panel| panel.amounts());
            let differences: Vec<i64> = priced.map(|(a, b)| a.minor().saturating_sub(b.minor())).collect();
            if !differences.is_empty() {
                let sum = differences.iter().map(|minor| signed(*minor)).sum();
                cars.entry(car.currency).or_default().push(Cluster { sum, units: 1 });
            }
        }
        let says = "mean over cars of first minus second, in minor units, over panels that both price";
        cars.into_iter()
            .map(|(currency, clusters)| {
                let mean = clustered_mean("difference of a car", says, &clusters, LEVEL);
                (currency, self.directed(mean))
            })
            .collect()
    }

    /// All panels, then kinds of panel, then size bands.
    fn annex(self) -> Vec<Annex> {
        let mut annex =
            vec![self.over("all panels".to_owned(), None, &totals(self.panels()).collect::<Vec<_>>(), true)];
        let kinds: BTreeSet<PanelKind> = self.panels().map(|(.., panel)| panel.panel.kind).collect();
        annex.extend(kinds.into_iter().map(|kind| {
            let of_kind = self.panels().filter(|(.., panel)| panel.panel.kind == kind);
            self.over(kind.name().to_owned(), Some(kind), &totals(of_kind).collect::<Vec<_>>(), false)
        }));
        for schedule in self.rating() {
            let terms = &self.schedules[schedule];
            annex.extend(terms.sizes.iter().enumerate().map(|(size, band)| {
                let panels = self.panels().filter(|(_, car, _)| car.schedule == schedule);
                let compared = panels.map(|(car, _, panel)| {
                    Compared::new(car, panel.first.counts[size], panel.second.counts[size])
                });
                let over = format!("{} ({})", band.name, terms.terms.name.value);
                self.over(over, None, &compared.collect::<Vec<_>>(), false)
            }));
        }
        annex
    }

    fn over(self, over: String, kind: Option<PanelKind>, compared: &[Compared], is_whole: bool) -> Annex {
        let pairs = pairs(compared.iter().copied());
        let units = || -> Vec<[Option<f64>; 2]> { pairs.iter().map(|(a, b)| [Some(*a), Some(*b)]).collect() };
        Annex {
            over,
            kind,
            bias: self.bias(compared.iter().copied()),
            spread: typical_spread(&pairs, LEVEL),
            counts: Counts {
                limits: limits_of_agreement(&pairs, Scale::Difference, USUAL_FACTOR, LEVEL),
                ratios: limits_of_agreement(&pairs, Scale::Ratio, USUAL_FACTOR, LEVEL),
                scale: scale_check(&pairs, LEVEL),
                concordance: concordance(&pairs, LEVEL),
                intraclass: is_whole.then(|| intraclass(&units(), 2, LEVEL)),
                line: is_whole.then(|| deming(&pairs, 1.0, LEVEL)),
            },
            same: (is_whole || kind.is_some()).then(|| self.same(kind)),
        }
    }

    /// Schedules that rate a common panel, in their order.
    fn rating(self) -> BTreeSet<usize> {
        self.panels().map(|(_, car, _)| car.schedule).collect()
    }

    fn bands(self) -> Vec<Categories> {
        let of_schedule = |number: usize| {
            let schedule = &self.schedules[number];
            let names = band_names(schedule);
            let mut table = CrossTable::new(names.len());
            for (.., panel) in self.panels().filter(|(_, car, _)| car.schedule == number) {
                table.add(band(schedule, panel.first.dents), band(schedule, panel.second.dents), 1);
            }
            categories(format!("count band ({})", schedule.terms.name.value), names, table)
        };
        self.rating().into_iter().map(of_schedule).collect()
    }

    fn decisions(self) -> Result<Categories, Reason> {
        let mut table = CrossTable::new(Method::ALL.len());
        for (.., panel) in self.panels() {
            table.add(decision(panel.first.method), decision(panel.second.method), 1);
        }
        if table.total() == 0 {
            return Err(Reason::NoData);
        }
        let names = Method::ALL.iter().map(|method| method.name().to_owned()).collect();
        Ok(categories("decision".to_owned(), names, table))
    }
}

/// Two counts with the car that they belong to, kept small.
#[derive(Clone, Copy)]
pub(super) struct Compared {
    car: u32,
    first: u32,
    second: u32,
}

impl Compared {
    pub fn new(car: usize, first: u32, second: u32) -> Self {
        Self { car: u32::try_from(car).unwrap_or(u32::MAX), first, second }
    }

    fn car(self) -> usize {
        usize::try_from(self.car).unwrap_or(usize::MAX)
    }

    fn first(self) -> f64 {
        f64::from(self.first)
    }

    fn second(self) -> f64 {
        f64::from(self.second)
    }
}

fn totals<'a>(panels: impl Iterator<Item = Held<'a>>) -> impl Iterator<Item = Compared> {
    panels.map(|(car, _, panel)| Compared::new(car, panel.first.dents, panel.second.dents))
}

fn pairs(compared: impl Iterator<Item = Compared>) -> Vec<(f64, f64)> {
    compared.map(|compared| (compared.first(), compared.second())).collect()
}

/// Values by car; those of one car follow each other, or come again with another pair of looks.
fn clusters(values: impl Iterator<Item = (usize, f64)>) -> Vec<Cluster> {
    let mut clusters: BTreeMap<usize, Cluster> = BTreeMap::new();
    for (car, value) in values {
        let cluster = clusters.entry(car).or_default();
        cluster.sum += value;
        cluster.units += 1;
    }
    clusters.into_values().collect()
}

fn categories(of: String, names: Vec<String>, table: CrossTable) -> Categories {
    Categories {
        of,
        names,
        same: same_category(&table, LEVEL),
        plain: kappa(&table, Weights::Plain, LEVEL),
        linear: kappa(&table, Weights::Linear, LEVEL),
        quadratic: kappa(&table, Weights::Quadratic, LEVEL),
        prevalence: prevalence(&table, LEVEL),
        table,
    }
}

/// The count band of so many dents: 0 without dents, then the schedule's, then beyond the last.
pub(super) fn band(schedule: &Schedule, dents: u32) -> usize {
    if dents == 0 {
        return 0;
    }
    let is_in =
        |band: &crate::schedule::CountBand| band.from <= dents && band.to.is_none_or(|to| dents <= to);
    schedule.counts.iter().position(is_in).map_or(schedule.counts.len() + 1, |band| band + 1)
}

/// Names of the count bands as [`band`] numbers them.
pub(super) fn band_names(schedule: &Schedule) -> Vec<String> {
    let bands = schedule.counts.iter().map(|band| band.name.clone());
    ["none".to_owned()].into_iter().chain(bands).chain(["beyond the bands".to_owned()]).collect()
}

/// The number of a decision among all.
pub(super) fn decision(method: Method) -> usize {
    Method::ALL.iter().position(|known| *known == method).unwrap_or(0)
}

/// A whole number with its sign as a float.
pub(super) fn signed(minor: i64) -> f64 {
    let size = real(minor.unsigned_abs());
    if minor < 0 { -size } else { size }
}

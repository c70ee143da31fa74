use super::annex::Members;
use super::counted::by_counts;
use super::everyone::{Looked, everyone};
use super::gathered::{Gathered, Source, gathered};
use super::period::{Period, periods};
use super::roll::Roll;
use super::work::{Floor, MOST_ALL, Worked};
use super::{
    Assessor, ByCounts, CarComparison, CountedCar, Everyone, NoComparison, PairAgreement, SetAside, WhyAside,
};
use crate::claim::words::folded;
use crate::compare::pairing::{Aside, Card};
use crate::quantity::Date;
use crate::schedule::Schedule;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// How a comparison is made.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Options {
    /// The date for claims that carry none.
    pub run_date: Option<Date>,
    /// Threads to use; none is one per core.
    pub threads: Option<usize>,
    /// The assessor that the others are compared with, by name.
    pub reference: Option<String>,
    /// Whether letters stand for names.
    pub letters: bool,
}

/// Pairs of looks by pair of people; a pair of looks is a car and its pair, by number.
pub(super) type Groups = BTreeMap<(usize, usize), Vec<(usize, usize)>>;

/// Everything that a comparison says.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The people: the reference first, else in the order of their names.
    pub assessors: Vec<Assessor>,
    /// Cars with at least two looks, in the order of the batch.
    pub cars: Vec<CarComparison>,
    /// All pairs together: what page one shows. With two assessors it says what their pair says.
    pub overall: PairAgreement,
    /// Every pair of assessors with a car in common, in their order.
    pub pairs: Vec<PairAgreement>,
    /// Every pair of assessors over time; none where all cars lie in one period.
    pub periods: Vec<Period>,
    /// All assessors together, and each among the others.
    pub everyone: Everyone,
    /// What no schedule prices, by its counts alone; none where all is priced. Where nothing is priced, `overall` and `pairs`
    /// are of these counts.
    pub by_counts: Option<ByCounts>,
    /// Looks that are not compared.
    pub aside: Vec<SetAside>,
}

impl Comparison {
    /// Cars with so many looks that each is compared with the next alone.
    pub fn in_a_ring(&self) -> usize {
        let has_reference = self.assessors.iter().any(|person| person.is_reference);
        let is = |car: &&CarComparison| !has_reference && car.looks.len() > MOST_ALL;
        self.cars.iter().filter(is).count()
    }
}

/// Compares all looks of a batch. The same input gives the same result, whatever the number of threads. Claims are taken
/// some at a time, and let go once they are compared.
pub fn compare<S: Source + ?Sized>(
    claims: &S,
    schedules: &[Schedule],
    options: &Options,
) -> Result<Comparison, NoComparison<S::Error>> {
    // Where the system gives no threads, the same work is done on this one.
    match rayon::ThreadPoolBuilder::new().num_threads(options.threads.unwrap_or(0)).build() {
        Ok(pool) => pool.install(|| compared(claims, schedules, options)),
        Err(_) => compared(claims, schedules, options),
    }
}

fn compared<S: Source + ?Sized>(
    claims: &S,
    schedules: &[Schedule],
    options: &Options,
) -> Result<Comparison, NoComparison<S::Error>> {
    let reference = options.reference.as_deref().map(folded);
    let floor = Floor { schedules, run_date: options.run_date, reference: reference.as_deref() };
    let Gathered { cards, cars: found, alone, mut worked } =
        gathered(claims, floor).map_err(NoComparison::NotRead)?;
    let roll = Roll::of(&found, &alone, options)?;
    drop(found);
    for worked in &mut worked {
        worked.number(&roll, options.letters);
    }
    let mut aside = put_aside(&cards, &roll, &alone, &mut worked);
    drop((cards, alone));
    aside.sort_by_key(|aside| (aside.claim, aside.inspection));
    let looked = Looked::of(roll.compared(), &mut worked);
    let counted: Vec<CountedCar> = worked.iter_mut().filter_map(|worked| worked.counted.take()).collect();
    let mut cars = Vec::with_capacity(worked.len());
    cars.extend(worked.into_iter().filter_map(|worked| worked.car));
    let by_counts = by_counts(counted, floor.reference.is_some());
    if cars.is_empty() && by_counts.is_none() {
        return Err(NoComparison::NoPairs(aside));
    }
    let mut groups: Groups = BTreeMap::new();
    for (number, car) in cars.iter().enumerate() {
        for (index, pair) in car.pairs.iter().enumerate() {
            groups.entry((pair.first, pair.second)).or_default().push((number, index));
        }
    }
    let ordered: Vec<_> = groups.iter().collect();
    let of = |members: &[(usize, usize)], between, is_directed| {
        Members { cars: &cars, schedules, pairs: members, is_directed }.agreement(between)
    };
    let with_everyone = || everyone(&looked, &cars, schedules, &groups);
    let (pairs, overall, everyone) = if let [(people, members)] = &ordered[..] {
        // All pairs together are the one pair. One after the other: each holds numbers of every panel.
        let only = of(members, Some(**people), true);
        let overall = PairAgreement { between: None, ..only.clone() };
        (vec![only], overall, with_everyone())
    } else {
        let all: Vec<(usize, usize)> =
            ordered.iter().flat_map(|(_, members)| members.iter().copied()).collect();
        let overall = || of(&all, None, floor.reference.is_some());
        let by_pair = || ordered.par_iter().map(|(people, members)| of(members, Some(**people), true));
        let (pairs, (overall, everyone)) =
            rayon::join(|| by_pair().collect::<Vec<_>>(), || rayon::join(overall, with_everyone));
        (pairs, overall, everyone)
    };
    let (overall, pairs) = match &by_counts {
        Some(by_counts) if cars.is_empty() => (by_counts.overall.clone(), by_counts.pairs.clone()),
        _ => (overall, pairs),
    };
    let periods = periods(&cars, schedules, &groups);
    Ok(Comparison { assessors: roll.people, cars, overall, pairs, periods, everyone, by_counts, aside })
}

/// Every look that is not compared, by pairing or by the engine.
fn put_aside(cards: &[Card], roll: &Roll, alone: &[Aside], worked: &mut [Worked]) -> Vec<SetAside> {
    let by_pairing = alone.iter().map(|aside| match aside {
        Aside::Overlay(look) => (look.clone(), WhyAside::Overlay),
        Aside::Alone(look) => (look.clone(), WhyAside::Alone),
        Aside::Stopped(look) => (look.clone(), WhyAside::Stopped),
    });
    let by_engine = worked.iter_mut().flat_map(|worked| std::mem::take(&mut worked.aside));
    let set_aside = by_pairing.chain(by_engine).map(|(look, why)| SetAside {
        claim: look.claim,
        key: cards[look.claim].key.text.clone(),
        inspection: look.inspection,
        assessor: roll.number(&look),
        why,
    });
    set_aside.collect()
}

//! One car: every look before the engine, every pair of looks panel by panel.

use super::car::WhyUnpaired;
use super::roll::Roll;
use super::sheet::Gathering;
use super::{CarComparison, CarPair, CountedCar, LookResult, Sheet, Unpaired, WhyAside};
use crate::assess::{Assessment, DateOrigin, Dates, PanelAssessment, choose_schedule_by};
use crate::claim::words::folded;
use crate::claim::{Claim, Counted, Inspection, Intake, PanelId};
use crate::compare::habit::{Digits, Facing, slips};
use crate::compare::money::{Bench, Judged, vehicle_difference};
use crate::compare::pairing::{Car, JoinedBy, Look, PanelPair, facing, without_vehicle};
use crate::problem::Problem;
use crate::quantity::{Date, Money};
use crate::schedule::{Schedule, SizeBand};
use std::collections::BTreeMap;

/// Looks at one car up to which each is compared with each: 28 pairs.
pub const MOST_ALL: usize = 8;

/// What a batch's cars are compared by.
#[derive(Debug, Clone, Copy)]
pub(super) struct Floor<'a> {
    pub schedules: &'a [Schedule],
    pub run_date: Option<Date>,
    /// The reference's folded name.
    pub reference: Option<&'a str>,
}

/// Claims at hand, by their numbers in the batch.
#[derive(Debug)]
pub(super) struct Members<'a>(BTreeMap<usize, &'a Intake>);

impl<'a> Members<'a> {
    /// Of claims with their numbers.
    pub fn new(claims: impl IntoIterator<Item = (usize, &'a Intake)>) -> Self {
        Self(claims.into_iter().collect())
    }

    pub fn claim(&self, number: usize) -> Option<&'a Claim> {
        self.0.get(&number).map(|intake| &intake.claim)
    }

    pub fn inspection(&self, look: &Look) -> Option<&'a Inspection> {
        self.claim(look.claim)?.inspections.get(look.inspection)
    }
}

/// One car, worked through. People go by their number among its looks until [`Worked::number`] gives them those of the
/// batch, which are known when all claims have passed by.
#[derive(Debug, Default)]
pub(super) struct Worked {
    /// The car, where two looks or more are left.
    pub car: Option<CarComparison>,
    /// Looks that are not priced, by their counts.
    pub counted: Option<CountedCar>,
    /// Looks that fell out.
    pub aside: Vec<(Look, WhyAside)>,
    /// Panels that somebody counted more than once: counts by assessor.
    pub repeated: Vec<Vec<Vec<f64>>>,
    /// What each look's sheet shows of its writer.
    pub traces: Vec<Trace>,
}

/// What a look's sheet shows of its writer.
#[derive(Debug)]
pub(super) struct Trace {
    /// Who, by number.
    pub assessor: usize,
    /// How the numbers end that were written.
    pub digits: Digits,
    /// Whether a blank stands beside numbers.
    pub has_blanks: bool,
    /// Whether a zero stands beside dents.
    pub has_zeros: bool,
}

impl Worked {
    /// Gives the people their numbers in the batch, and letters for their names where that is asked for.
    pub fn number(&mut self, roll: &Roll, letters: bool) {
        if let Some(counted) = &mut self.counted {
            counted.number(roll, letters);
        }
        let Some(car) = &mut self.car else { return };
        let numbers: Vec<usize> = car.looks.iter().map(|look| roll.number(&look.look)).collect();
        for (look, number) in car.looks.iter_mut().zip(&numbers) {
            look.assessor = *number;
            if letters {
                look.look.assessor = roll.people[*number].name.as_str().into();
            }
        }
        for pair in &mut car.pairs {
            (pair.first, pair.second) = (numbers[pair.first], numbers[pair.second]);
        }
        for (trace, number) in self.traces.iter_mut().zip(numbers) {
            trace.assessor = number;
        }
    }
}

/// A look before the engine.
struct Before<'a> {
    look: &'a Look,
    judged: Judged<'a>,
}

impl Floor<'_> {
    /// Works through one car of which all claims are at hand.
    pub fn car(&self, car: &Car, members: &Members<'_>) -> Worked {
        let mut worked = Worked::default();
        let Some(claim) = car.claims.first().and_then(|first| members.claim(*first)) else { return worked };
        if self.reference.is_some() && !car.looks.iter().any(|look| self.is_reference(look)) {
            worked.aside = car.looks.iter().map(|look| (look.clone(), WhyAside::NoReference)).collect();
            return worked;
        }
        let unknown = car.claims.iter().find_map(|claim| without_vehicle(members.0.get(claim)?));
        let found = unknown.cloned().map_or_else(|| self.schedule(claim, car, members), Err);
        let (schedule, dated) = match found {
            Ok(found) => found,
            Err(problem) => {
                worked.counted = self.counted(car, members, None, |_| false);
                let why = || {
                    let problem = Box::new(problem.clone());
                    if worked.counted.is_some() {
                        WhyAside::CountsAlone(problem)
                    } else {
                        WhyAside::NoSchedule(problem)
                    }
                };
                // Without any schedule it is said once.
                if worked.counted.is_none() || !self.schedules.is_empty() {
                    worked.aside = car.looks.iter().map(|look| (look.clone(), why())).collect();
                }
                return worked;
            }
        };
        let bench = Bench { claim, schedule: &self.schedules[schedule], index: schedule, dated };
        let claims = claims(claim, car, members);
        let judged = |looks, aside: &mut Vec<_>| judged(&bench, looks, members, &claims, aside);
        let mut looks = judged(&car.looks, &mut worked.aside);
        // The order of the people in the batch, too.
        looks.sort_by_cached_key(|before| self.order(before.look));
        if looks.len() < car.looks.len() {
            let is_priced = |look: &Look| looks.iter().any(|before| before.look == look);
            worked.counted = self.counted(car, members, Some(&bench.schedule.sizes), is_priced);
            if worked.counted.is_some() {
                for (_, why) in &mut worked.aside {
                    if let WhyAside::NotPriced(problem) = why {
                        *why = WhyAside::CountsAlone(problem.clone());
                    }
                }
            }
        }
        let again = judged(&car.repeats, &mut worked.aside);
        worked.repeated = self.repeated(&looks, &again);
        if looks.len() < 2 {
            if again.is_empty() && worked.counted.is_none() {
                worked.aside.extend(looks.iter().map(|before| (before.look.clone(), WhyAside::Alone)));
            }
            return worked;
        }
        worked.traces = looks.iter().map(trace).collect();
        let mut compared = self.compared(car, &bench, &looks);
        if car.joined != JoinedBy::Claim {
            let keys = car.claims.iter().filter_map(|claim| members.claim(*claim));
            compared.keys = keys.map(|claim| claim.key.text.clone()).collect();
        }
        worked.car = Some(compared);
        worked
    }

    /// Its looks by their counts alone, where a pair of them is not priced on both sides.
    fn counted(
        &self,
        car: &Car,
        members: &Members<'_>,
        sizes: Option<&[SizeBand]>,
        is_priced: impl Fn(&Look) -> bool,
    ) -> Option<CountedCar> {
        let mut looks: Vec<&Look> = car.looks.iter().collect();
        looks.sort_by_cached_key(|look| self.order(look));
        let mut facing = facing_looks(looks.len(), self.reference.is_some());
        facing.retain(|(first, second)| !(is_priced(looks[*first]) && is_priced(looks[*second])));
        if facing.is_empty() { None } else { CountedCar::of(car, looks, facing, members, sizes) }
    }

    fn is_reference(&self, look: &Look) -> bool {
        self.reference == Some(folded(&look.assessor).as_str())
    }

    /// The reference before the others, each by name.
    fn order(&self, look: &Look) -> (bool, String) {
        let name = folded(&look.assessor);
        (self.reference != Some(name.as_str()), name)
    }

    /// The schedule that every look at a car is priced by, and its date. Of several looks the first dated one is the
    /// inspection.
    fn schedule(
        &self,
        claim: &Claim,
        car: &Car,
        members: &Members<'_>,
    ) -> Result<(usize, (Date, DateOrigin)), Problem> {
        let inspected = car.looks.iter().filter_map(|look| members.inspection(look)?.date);
        let inspection = inspected.map(|date| date.value).min();
        let loss = claim.event.date.map(|date| date.value);
        choose_schedule_by(claim, self.schedules, Dates { loss, inspection, run: self.run_date })
    }

    fn compared(&self, car: &Car, bench: &Bench<'_>, looks: &[Before<'_>]) -> CarComparison {
        let results: Box<[LookResult]> =
            looks.iter().enumerate().map(|(number, before)| result(bench, number, before)).collect();
        // Looks stand in the order of the people, of whom the reference is the first.
        let facing = facing_looks(looks.len(), self.reference.is_some()).into_iter();
        let of_pair = |(first, second): (usize, usize)| CarPair {
            first,
            second,
            ..pair(bench, (&looks[first], &looks[second]), (&results[first].sheet, &results[second].sheet))
        };
        let vehicle = &bench.claim.vehicle;
        let mut compared = CarComparison {
            claim: car.claims.first().copied().unwrap_or_default(),
            key: bench.claim.key.text.clone(),
            key_kind: bench.claim.key.kind,
            joined: car.joined,
            keys: Box::default(),
            registration: vehicle.registration.as_ref().map(|plate| plate.value.as_str().into()),
            event: bench.claim.event.name.as_ref().map(|name| name.value.as_str().into()),
            schedule: bench.index,
            date: bench.dated.0,
            currency: bench.schedule.terms.currency.value,
            pairs: facing.map(of_pair).collect(),
            looks: results,
            to_agree: Box::default(),
        };
        compared.to_agree = compared.find_disputed();
        compared
    }

    /// Panels that somebody counted more than once, with everybody's counts of them.
    fn repeated(&self, looks: &[Before<'_>], again: &[Before<'_>]) -> Vec<Vec<Vec<f64>>> {
        if again.is_empty() {
            return Vec::new();
        }
        let mut panels: BTreeMap<PanelId, BTreeMap<(bool, String), Vec<f64>>> = BTreeMap::new();
        for before in looks.iter().chain(again) {
            for panel in &before.judged.assessment.panels {
                let counts =
                    panels.entry(panel.panel).or_default().entry(self.order(before.look)).or_default();
                counts.push(f64::from(panel.dents));
            }
        }
        panels
            .into_values()
            .filter(|people| people.values().any(|counts| counts.len() > 1))
            .map(|people| people.into_values().collect())
            .collect()
    }
}

/// Where a look is written in another claim than the car's first, and somebody decided on panels in either: the first
/// claim with that claim's overrules in place of its own, by the number of the other.
fn claims(first: &Claim, car: &Car, members: &Members<'_>) -> BTreeMap<usize, Claim> {
    let others = car.claims.iter().skip(1).filter_map(|number| Some((*number, members.claim(*number)?)));
    others
        .filter(|(_, own)| !(first.overrules.is_empty() && own.overrules.is_empty()))
        .map(|(number, own)| (number, first.with_overrules_of(own)))
        .collect()
}

/// These looks before the engine; those that it cannot price go aside.
fn judged<'l>(
    bench: &Bench<'l>,
    looks: &'l [Look],
    members: &Members<'l>,
    claims: &'l BTreeMap<usize, Claim>,
    aside: &mut Vec<(Look, WhyAside)>,
) -> Vec<Before<'l>> {
    let mut before = Vec::with_capacity(looks.len());
    for look in looks {
        let Some(inspection) = members.inspection(look) else { continue };
        let claim = claims.get(&look.claim).unwrap_or(bench.claim);
        match bench.judge(inspection, claim) {
            Ok(judged) => before.push(Before { look, judged }),
            Err(problems) => {
                let first = problems.into_iter().find(|problem| problem.severity().stops_the_claim());
                let why = first.map_or(WhyAside::Stopped, |first| WhyAside::NotPriced(Box::new(first)));
                aside.push((look.clone(), why));
            }
        }
    }
    before
}

fn result(bench: &Bench<'_>, assessor: usize, before: &Before<'_>) -> LookResult {
    let assessment = &before.judged.assessment;
    let nothing = Money::zero(assessment.currency);
    let amounts = assessment.panels.iter().filter_map(PanelAssessment::amount);
    LookResult {
        look: before.look.clone(),
        assessor,
        dents: assessment.panels.iter().map(|panel| u64::from(panel.dents)).sum(),
        sheet: Sheet::of(bench, &before.judged),
        // The engine added these amounts up before, with others.
        on_panels: Money::sum(assessment.currency, amounts).unwrap_or(nothing),
        gross: assessment.totals.gross,
        is_open: is_open(assessment),
    }
}

/// Which looks at one car are compared with each other, by number, the earlier one first: all of them; beyond
/// [`MOST_ALL`] each with the next, in a ring, so that every look stands in two pairs and the work grows with the looks.
fn facing_looks(looks: usize, has_reference: bool) -> Vec<(usize, usize)> {
    if has_reference {
        return (1..looks).map(|second| (0, second)).collect();
    }
    if looks > MOST_ALL {
        let ring = (1..looks).map(|second| (second - 1, second));
        return ring.chain([(0, looks - 1)]).collect();
    }
    (0..looks).flat_map(|first| (first + 1..looks).map(move |second| (first, second))).collect()
}

fn is_open(assessment: &Assessment) -> bool {
    assessment.open_panels().next().is_some() || !assessment.open_items.is_empty()
}

fn pair(
    bench: &Bench<'_>,
    (first, second): (&Before<'_>, &Before<'_>),
    (sheet_a, sheet_b): (&Sheet, &Sheet),
) -> CarPair {
    let (a, b) = (&first.judged, &second.judged);
    let (mut common, mut unpaired, mut faced) = (Gathering::default(), Vec::new(), Vec::new());
    for pair in facing(a.inspection, b.inspection) {
        let numbers = sheet_a.number(pair.panel).zip(sheet_b.number(pair.panel));
        if let Some((of_a, of_b)) = numbers.filter(|_| pair.is_common()) {
            common.add(of_a, of_b, &bench.split(pair, a, b));
            let counts =
                |sheet: &Sheet, number| sheet.side(number).map_or(Vec::new(), |side| side.counts.to_vec());
            faced.push(Facing { panel: pair.panel, a: counts(sheet_a, of_a), b: counts(sheet_b, of_b) });
        } else {
            let seen = a.side(pair.a).or_else(|| b.side(pair.b)).map(|(panel, _)| panel);
            unpaired.push(alone(bench, pair, seen));
        }
    }
    unpaired.shrink_to_fit();
    CarPair {
        first: 0,
        second: 0,
        common: common.finish(),
        unpaired,
        vehicle: vehicle_difference(&a.assessment, &b.assessment).ok(),
        slips: slips(&faced),
    }
}

fn alone(bench: &Bench<'_>, pair: PanelPair, seen: Option<&PanelAssessment>) -> Unpaired {
    Unpaired {
        panel: pair.panel,
        why: WhyUnpaired::of(pair.a, pair.b),
        amount: seen.and_then(|panel| bench.paid(panel)),
        dents: seen.map(|panel| panel.dents),
    }
}

fn trace(before: &Before<'_>) -> Trace {
    let panels = before.judged.inspection.panels.iter().filter(|panel| panel.is_inspected());
    let mut trace = Trace { assessor: 0, digits: Digits::default(), has_blanks: false, has_zeros: false };
    for panel in panels {
        let has_dents = panel.tally.iter().any(|entry| matches!(entry.count, Counted::Counted(1..)));
        for entry in &panel.tally {
            match entry.count {
                Counted::Counted(0) => trace.has_zeros |= has_dents,
                Counted::Counted(dents) => trace.digits.add(dents),
                Counted::NoneWritten => trace.has_blanks = true,
                _ => {}
            }
        }
    }
    trace
}

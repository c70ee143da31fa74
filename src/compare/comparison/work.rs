//! One car: every look before the engine, every pair of looks panel by panel.

use super::car::WhyUnpaired;
use super::roll::Roll;
use super::sheet::Gathering;
use super::{CarComparison, CarPair, LookResult, SetAside, Sheet, Unpaired, WhyAside};
use crate::assess::{Assessment, DateOrigin, Dates, PanelAssessment, choose_schedule_by};
use crate::claim::{Claim, Counted, Inspection, Intake, PanelId};
use crate::compare::habit::{Digits, Facing, slips};
use crate::compare::money::{Bench, Judged, vehicle_difference};
use crate::compare::pairing::{Aside, Car, Look, PanelPair, facing};
use crate::problem::Problem;
use crate::quantity::{Date, Money};
use crate::schedule::Schedule;
use std::collections::BTreeMap;

/// Looks at one car up to which each is compared with each: 28 pairs.
pub const MOST_ALL: usize = 8;

/// What a batch's cars are compared by.
#[derive(Debug, Clone, Copy)]
pub(super) struct Floor<'a> {
    pub intakes: &'a [Intake],
    pub schedules: &'a [Schedule],
    pub run_date: Option<Date>,
    pub roll: &'a Roll,
    pub has_reference: bool,
    pub letters: bool,
}

/// One car, worked through.
#[derive(Debug, Default)]
pub(super) struct Worked {
    /// The car, where two looks or more are left.
    pub car: Option<CarComparison>,
    /// Looks that fell out.
    pub aside: Vec<SetAside>,
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

/// A look before the engine.
struct Before<'a> {
    look: &'a Look,
    assessor: usize,
    judged: Judged<'a>,
}

impl Floor<'_> {
    /// Works through one car.
    pub fn car(&self, car: &Car) -> Worked {
        let mut worked = Worked::default();
        let claim = &self.intakes[car.claim].claim;
        let is_reference = |look: &Look| self.roll.people[self.roll.number(look)].is_reference;
        if self.has_reference && !car.looks.iter().any(is_reference) {
            worked.aside = car.looks.iter().map(|look| self.aside(look, WhyAside::NoReference)).collect();
            return worked;
        }
        let (schedule, dated) = match self.schedule(claim, car) {
            Ok(found) => found,
            Err(problem) => {
                let why = || WhyAside::NoSchedule(Box::new(problem.clone()));
                worked.aside = car.looks.iter().map(|look| self.aside(look, why())).collect();
                return worked;
            }
        };
        let bench = Bench { claim, schedule: &self.schedules[schedule], index: schedule, dated };
        let claims = self.claims(claim, car);
        let mut looks = self.judged(&bench, &car.looks, &claims, &mut worked.aside);
        looks.sort_by_key(|before| before.assessor);
        let again = self.judged(&bench, &car.repeats, &claims, &mut worked.aside);
        worked.repeated = repeated(&looks, &again);
        if looks.len() < 2 {
            if again.is_empty() {
                worked.aside.extend(looks.iter().map(|before| self.aside(before.look, WhyAside::Alone)));
            }
            return worked;
        }
        worked.traces = looks.iter().map(trace).collect();
        worked.car = Some(self.compared(car, &bench, &looks));
        worked
    }

    /// Where a look is written in another claim than the car's first, and somebody decided on panels in either: the first
    /// claim with that claim's overrules in place of its own, by the number of the other.
    fn claims(&self, first: &Claim, car: &Car) -> BTreeMap<usize, Claim> {
        let mut claims = BTreeMap::new();
        for look in car.looks.iter().chain(&car.repeats).filter(|look| look.claim != car.claim) {
            let own = &self.intakes[look.claim].claim;
            if !(first.overrules.is_empty() && own.overrules.is_empty()) {
                claims.entry(look.claim).or_insert_with(|| first.with_overrules_of(own));
            }
        }
        claims
    }

    /// These looks before the engine; those that it cannot price go aside.
    fn judged<'l>(
        &'l self,
        bench: &Bench<'l>,
        looks: &'l [Look],
        claims: &'l BTreeMap<usize, Claim>,
        aside: &mut Vec<SetAside>,
    ) -> Vec<Before<'l>> {
        let mut before = Vec::with_capacity(looks.len());
        for look in looks {
            let claim = claims.get(&look.claim).unwrap_or(bench.claim);
            match bench.judge(self.inspection(look), claim) {
                Ok(judged) => before.push(Before { look, assessor: self.roll.number(look), judged }),
                Err(problems) => {
                    let first = problems.into_iter().find(|problem| problem.severity().stops_the_claim());
                    let why = first.map_or(WhyAside::Stopped, |first| WhyAside::NotPriced(Box::new(first)));
                    aside.push(self.aside(look, why));
                }
            }
        }
        before
    }

    fn inspection(&self, look: &Look) -> &Inspection {
        &self.intakes[look.claim].claim.inspections[look.inspection]
    }

    /// A look that pairing put aside.
    pub fn put_aside(&self, aside: &Aside) -> SetAside {
        match aside {
            Aside::Overlay(look) => self.aside(look, WhyAside::Overlay),
            Aside::Alone(look) => self.aside(look, WhyAside::Alone),
            Aside::Stopped(look) => self.aside(look, WhyAside::Stopped),
        }
    }

    fn aside(&self, look: &Look, why: WhyAside) -> SetAside {
        SetAside {
            claim: look.claim,
            key: self.intakes[look.claim].claim.key.text.clone(),
            inspection: look.inspection,
            assessor: self.roll.number(look),
            why,
        }
    }

    /// The schedule that every look at a car is priced by, and its date. Of several looks the first dated one is the
    /// inspection.
    fn schedule(&self, claim: &Claim, car: &Car) -> Result<(usize, (Date, DateOrigin)), Problem> {
        let inspected = car.looks.iter().filter_map(|look| self.inspection(look).date);
        let inspection = inspected.map(|date| date.value).min();
        let loss = claim.event.date.map(|date| date.value);
        choose_schedule_by(claim, self.schedules, Dates { loss, inspection, run: self.run_date })
    }

    fn compared(&self, car: &Car, bench: &Bench<'_>, looks: &[Before<'_>]) -> CarComparison {
        let results: Box<[LookResult]> = looks.iter().map(|before| self.result(bench, before)).collect();
        // Looks stand in the order of the people, of whom the reference is the first.
        let facing = facing_looks(looks.len(), self.has_reference).into_iter();
        let of_pair = |(first, second): (usize, usize)| {
            pair(bench, (&looks[first], &looks[second]), (&results[first].sheet, &results[second].sheet))
        };
        let mut compared = CarComparison {
            claim: car.claim,
            key: bench.claim.key.text.clone(),
            joined: car.joined,
            schedule: bench.index,
            date: bench.dated.0,
            currency: bench.schedule.terms.currency.value,
            pairs: facing.map(of_pair).collect(),
            looks: results,
            to_agree: Box::default(),
        };
        let inspections: Vec<&Inspection> = looks.iter().map(|before| before.judged.inspection).collect();
        compared.to_agree = compared.find_disputed(&inspections);
        compared
    }

    fn result(&self, bench: &Bench<'_>, before: &Before<'_>) -> LookResult {
        let assessment = &before.judged.assessment;
        let mut look = before.look.clone();
        if self.letters {
            look.assessor = self.roll.people[before.assessor].name.as_str().into();
        }
        let nothing = Money::zero(assessment.currency);
        let amounts = assessment.panels.iter().filter_map(PanelAssessment::amount);
        LookResult {
            look,
            assessor: before.assessor,
            dents: assessment.panels.iter().map(|panel| u64::from(panel.dents)).sum(),
            sheet: Sheet::of(bench, &before.judged),
            // The engine added these amounts up before, with others.
            on_panels: Money::sum(assessment.currency, amounts).unwrap_or(nothing),
            gross: assessment.totals.gross,
            is_open: is_open(assessment),
        }
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
        first: first.assessor,
        second: second.assessor,
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
    let mut trace =
        Trace { assessor: before.assessor, digits: Digits::default(), has_blanks: false, has_zeros: false };
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

/// Panels that somebody counted more than once, with everybody's counts of them.
fn repeated(looks: &[Before<'_>], again: &[Before<'_>]) -> Vec<Vec<Vec<f64>>> {
    if again.is_empty() {
        return Vec::new();
    }
    let mut panels: BTreeMap<PanelId, BTreeMap<usize, Vec<f64>>> = BTreeMap::new();
    for before in looks.iter().chain(again) {
        for panel in &before.judged.assessment.panels {
            let counts = panels.entry(panel.panel).or_default().entry(before.assessor).or_default();
            counts.push(f64::from(panel.dents));
        }
    }
    panels
        .into_values()
        .filter(|people| people.values().any(|counts| counts.len() > 1))
        .map(|people| people.into_values().collect())
        .collect()
}

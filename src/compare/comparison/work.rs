//! One car: every look before the engine, every pair of looks panel by panel.

use super::car::WhyUnpaired;
use super::disputed::disputed;
use super::roll::Roll;
use super::{CarComparison, CarPair, LookResult, Paired, SetAside, Side, Unpaired, WhyAside};
use crate::assess::{Assessment, DateOrigin, PanelAssessment, choose_schedule_on};
use crate::claim::{Claim, Counted, Inspection, Intake, Method, PanelCount, PanelId};
use crate::compare::habit::{Facing, slips};
use crate::compare::money::{Bench, Judged, vehicle_difference};
use crate::compare::pairing::{Aside, Car, Look, PanelPair, Seen, facing};
use crate::problem::Problem;
use crate::problem::catalogue::assess as wording;
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
    /// Looks that are compared.
    pub looks: usize,
    /// Looks that fell out.
    pub aside: Vec<SetAside>,
    /// Panels that at least one look inspected.
    pub rows: Vec<Row>,
    /// Panels that somebody counted more than once: counts by assessor.
    pub repeated: Vec<Vec<Vec<f64>>>,
    /// What each look's sheet shows of its writer.
    pub traces: Vec<Trace>,
}

/// One panel of a car in every look that inspected it.
#[derive(Debug)]
pub(super) struct Row {
    /// Assessor, dents, what is to be done.
    pub counts: Vec<(u32, u32, Method)>,
}

/// What a look's sheet shows of its writer.
#[derive(Debug)]
pub(super) struct Trace {
    /// Who, by number.
    pub assessor: usize,
    /// Counts as written, of ten or more.
    pub written: Vec<u32>,
    /// Whether a blank stands beside numbers.
    pub has_blanks: bool,
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
        let (dated, schedule) = match self.schedule(claim, car) {
            Ok(found) => found,
            Err(problem) => {
                let why = || WhyAside::NoSchedule(Box::new(problem.clone()));
                worked.aside = car.looks.iter().map(|look| self.aside(look, why())).collect();
                return worked;
            }
        };
        let bench = Bench { claim, schedule: &self.schedules[schedule], index: schedule, dated };
        let mut looks = self.judged(&bench, &car.looks, &mut worked.aside);
        looks.sort_by_key(|before| before.assessor);
        let again = self.judged(&bench, &car.repeats, &mut worked.aside);
        worked.repeated = repeated(&looks, &again);
        if looks.len() < 2 {
            if again.is_empty() {
                worked.aside.extend(looks.iter().map(|before| self.aside(before.look, WhyAside::Alone)));
            }
            return worked;
        }
        worked.traces = looks.iter().map(trace).collect();
        worked.looks = looks.len();
        worked.rows = rows(&looks);
        worked.car = Some(self.compared(car, &bench, &looks));
        worked
    }

    /// These looks before the engine; those that it cannot price go aside.
    fn judged<'l>(
        &'l self,
        bench: &Bench<'_>,
        looks: &'l [Look],
        aside: &mut Vec<SetAside>,
    ) -> Vec<Before<'l>> {
        let mut before = Vec::with_capacity(looks.len());
        for look in looks {
            match bench.judge(self.inspection(look)) {
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

    /// The date that every look at a car is priced by, and the schedule that holds then: of loss, else of its first dated
    /// look, else the run's.
    fn schedule(&self, claim: &Claim, car: &Car) -> Result<((Date, DateOrigin), usize), Problem> {
        let loss = claim.event.date.map(|date| (date.value, DateOrigin::Loss));
        let seen = || {
            let dates = car.looks.iter().filter_map(|look| self.inspection(look).date);
            dates.map(|date| date.value).min().map(|date| (date, DateOrigin::Inspection))
        };
        let run = || self.run_date.map(|date| (date, DateOrigin::Run));
        let dated = loss.or_else(seen).or_else(run).ok_or_else(|| {
            let problem = wording::no_date();
            problem.of_claim(claim.key.text.clone())
        })?;
        Ok((dated, choose_schedule_on(claim, self.schedules, dated.0)?))
    }

    fn compared(&self, car: &Car, bench: &Bench<'_>, looks: &[Before<'_>]) -> CarComparison {
        // Looks stand in the order of the people, of whom the reference is the first.
        let facing = facing_looks(looks.len(), self.has_reference).into_iter();
        let pairs: Vec<CarPair> =
            facing.map(|(first, second)| pair(bench, &looks[first], &looks[second])).collect();
        let judged: Vec<(usize, &Judged<'_>)> =
            looks.iter().map(|before| (before.assessor, &before.judged)).collect();
        CarComparison {
            claim: car.claim,
            key: bench.claim.key.text.clone(),
            joined: car.joined,
            schedule: bench.index,
            date: bench.dated.0,
            currency: bench.schedule.terms.currency.value,
            looks: looks.iter().map(|before| self.result(before)).collect(),
            disputed: disputed(bench, &judged, &pairs),
            pairs,
        }
    }

    fn result(&self, before: &Before<'_>) -> LookResult {
        let assessment = &before.judged.assessment;
        let mut look = before.look.clone();
        if self.letters {
            look.assessor.clone_from(&self.roll.people[before.assessor].name);
        }
        let nothing = Money::zero(assessment.currency);
        let amounts = assessment.panels.iter().filter_map(PanelAssessment::amount);
        LookResult {
            look,
            assessor: before.assessor,
            dents: assessment.panels.iter().map(|panel| u64::from(panel.dents)).sum(),
            panels: assessment.panels.len(),
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

fn pair(bench: &Bench<'_>, first: &Before<'_>, second: &Before<'_>) -> CarPair {
    let (a, b) = (&first.judged, &second.judged);
    let (mut panels, mut unpaired) = (Vec::new(), Vec::new());
    for pair in facing(a.inspection, b.inspection) {
        match (a.side(pair.a), b.side(pair.b)) {
            (Some(of_a), Some(of_b)) => panels.push(Paired {
                panel: pair.panel,
                first: side(of_a),
                second: side(of_b),
                money: bench.split(pair, a, b),
            }),
            (of_a, of_b) => unpaired.push(alone(bench, pair, of_a.or(of_b).map(|(panel, _)| panel))),
        }
    }
    let faced: Vec<Facing> = panels
        .iter()
        .map(|pair| Facing {
            panel: pair.panel,
            a: pair.first.counts.to_vec(),
            b: pair.second.counts.to_vec(),
        })
        .collect();
    CarPair {
        first: first.assessor,
        second: second.assessor,
        panels,
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

fn side((panel, written): (&PanelAssessment, &PanelCount)) -> Side {
    let is_estimate = panel.counts.iter().any(|size| matches!(size.count, Counted::Estimated { .. }));
    let blanks = written.tally.iter().filter(|entry| entry.count == Counted::NoneWritten);
    Side {
        counts: panel.counts.iter().map(crate::assess::SizeCount::dents).collect(),
        dents: panel.dents,
        method: panel.method,
        is_estimate,
        blanks: u8::try_from(blanks.count()).unwrap_or(u8::MAX),
    }
}

fn trace(before: &Before<'_>) -> Trace {
    let panels = before.judged.inspection.panels.iter().filter(|panel| panel.is_inspected());
    let mut trace = Trace { assessor: before.assessor, written: Vec::new(), has_blanks: false };
    for entry in panels.flat_map(|panel| &panel.tally) {
        match entry.count {
            Counted::Counted(dents) if dents >= 10 => trace.written.push(dents),
            Counted::NoneWritten => trace.has_blanks = true,
            _ => {}
        }
    }
    trace
}

fn rows(looks: &[Before<'_>]) -> Vec<Row> {
    let mut rows: BTreeMap<PanelId, Vec<(u32, u32, Method)>> = BTreeMap::new();
    for before in looks {
        for panel in &before.judged.assessment.panels {
            let who = u32::try_from(before.assessor).unwrap_or(u32::MAX);
            rows.entry(panel.panel).or_default().push((who, panel.dents, panel.method));
        }
    }
    rows.into_values().map(|counts| Row { counts }).collect()
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

/// What a look says of a panel, where it inspected it.
pub(super) fn seen<'j>(judged: &'j Judged<'_>, panel: PanelId) -> Option<&'j PanelAssessment> {
    let index = judged.inspection.panels.iter().position(|there| there.panel == panel)?;
    judged.side(Seen::Inspected(index)).map(|(assessed, _)| assessed)
}

//! All assessors together, and each among the others.

use super::annex::{band, band_names, decision, signed};
use super::money::of_pair;
use super::summary::Groups;
use super::work::Worked;
use super::{CarComparison, Everyone, Outlier, PersonStanding, Side};
use crate::claim::{Method, PanelId};
use crate::compare::habit::{Digits, Sheets, blanks};
use crate::compare::statistics::agreement::USUAL_FACTOR;
use crate::compare::statistics::category::{FleissKappa, fleiss_kappa};
use crate::compare::statistics::many::{Intraclass, Metric, alpha, intraclass};
use crate::compare::statistics::repeated::precision;
use crate::compare::statistics::standing::{
    OUTLYING, PairedPlace, against_the_others, funnel, loads_from_median, modified_z,
};
use crate::compare::statistics::{Bootstrap, Level, Reason, Statistic, Why};
use crate::quantity::Money;
use crate::schedule::Schedule;
use std::cmp::Reverse;
use std::collections::BTreeMap;

const LEVEL: Level = Level::NINETY_FIVE;

/// What is said of people from the cars as worked through, beside what is compared of these.
pub(super) struct Looked {
    /// How many people have looks that are compared.
    people: usize,
    /// How each one's numbers end, and their looks by blanks and zeros.
    written: Vec<(Digits, Sheets)>,
    /// Panels that somebody counted more than once: counts by assessor.
    repeated: Vec<Vec<Vec<f64>>>,
}

impl Looked {
    /// Takes it out of the cars.
    pub fn of(people: usize, worked: &mut [Worked]) -> Self {
        let mut written = vec![(Digits::default(), Sheets::default()); people];
        let mut repeated = Vec::new();
        for worked in worked {
            repeated.append(&mut worked.repeated);
            for trace in std::mem::take(&mut worked.traces) {
                if let Some((digits, sheets)) = written.get_mut(trace.assessor) {
                    digits.add_all(&trace.digits);
                    sheets.add(Sheets {
                        all: 1,
                        with_blanks: trace.has_blanks.into(),
                        with_zeros: trace.has_zeros.into(),
                    });
                }
            }
        }
        Self { people, written, repeated }
    }
}

/// All assessors together, from the cars that are compared.
pub(super) fn everyone(
    looked: &Looked,
    cars: &[CarComparison],
    schedules: &[Schedule],
    groups: &Groups,
) -> Everyone {
    let people = looked.people;
    let (intraclass, alpha) = of_dents(people, cars);
    let by_car = by_car(people, cars);
    let paired = against_the_others(&by_car, people, LEVEL);
    let precise = || precision(&looked.repeated, USUAL_FACTOR, Bootstrap::default(), LEVEL);
    Everyone {
        intraclass,
        alpha,
        bands: bands(people, cars, schedules),
        decisions: fleiss(people, Method::ALL.len(), cars, |side| decision(side.method)),
        funnel: funnel(&loads_from_median(&by_car, people)),
        precision: (!looked.repeated.is_empty()).then(precise),
        people: standings(looked, paired),
        outliers: outliers(cars, groups),
    }
}

/// Agreement of everybody's dents. A batch has millions of them: they are let go before anything else is looked at.
fn of_dents(people: usize, cars: &[CarComparison]) -> (Intraclass, Vec<(Metric, Statistic)>) {
    let values = Values::of(cars);
    let units = values.units();
    let complete: Vec<&[Option<f64>]> = units.iter().copied().filter(|unit| unit.len() == people).collect();
    let incomplete = units.len() - complete.len();
    let intraclass = all_counted(intraclass(&complete, people, LEVEL), incomplete);
    drop(complete);
    let alpha = [Metric::Ordinal, Metric::Interval, Metric::Ratio]
        .map(|metric| (metric, alpha(&units, metric, Bootstrap::default(), LEVEL)));
    (intraclass, alpha.into())
}

/// The panels of a car, each as everybody saw it who inspected it: assessor and side.
fn rows(car: &CarComparison) -> Vec<Vec<(usize, Side<'_>)>> {
    let mut rows: BTreeMap<PanelId, Vec<(usize, Side<'_>)>> = BTreeMap::new();
    for look in &car.looks {
        for side in look.sheet.sides() {
            rows.entry(side.panel).or_default().push((look.assessor, side));
        }
    }
    rows.into_values().collect()
}

/// Dents of every panel by everybody who inspected it, panel after panel.
struct Values {
    dents: Vec<Option<f64>>,
    ends: Vec<usize>,
}

impl Values {
    fn of(cars: &[CarComparison]) -> Self {
        let (mut dents, mut ends) = (Vec::new(), Vec::new());
        for row in cars.iter().flat_map(rows) {
            dents.extend(row.iter().map(|(_, side)| Some(f64::from(side.dents))));
            ends.push(dents.len());
        }
        Self { dents, ends }
    }

    fn units(&self) -> Vec<&[Option<f64>]> {
        let starts = [0].into_iter().chain(self.ends.iter().copied());
        starts.zip(&self.ends).map(|(start, end)| &self.dents[start..*end]).collect()
    }
}

fn all_counted(intraclass: Intraclass, incomplete: usize) -> Intraclass {
    let forms = intraclass.forms.map(|form: Statistic| form.without(Why::Incomplete, incomplete));
    Intraclass { forms, ..intraclass }
}

/// Fleiss' kappa of the count band, where one schedule rates every car.
fn bands(people: usize, cars: &[CarComparison], schedules: &[Schedule]) -> Result<FleissKappa, Reason> {
    let Some(number) = cars.first().map(|car| car.schedule) else { return Err(Reason::NoData) };
    if cars.iter().any(|car| car.schedule != number) {
        return Err(Reason::SeveralSchedules);
    }
    let schedule = &schedules[number];
    fleiss(people, band_names(schedule).len(), cars, |side| band(schedule, side.dents))
}

fn fleiss(
    people: usize,
    categories: usize,
    cars: &[CarComparison],
    category: impl Fn(&Side<'_>) -> usize,
) -> Result<FleissKappa, Reason> {
    // One unit after another: a batch has millions of them.
    let mut chosen: Vec<u32> = Vec::new();
    for row in cars.iter().flat_map(rows).filter(|row| row.len() == people) {
        let start = chosen.len();
        chosen.resize(start + categories, 0);
        for (_, side) in row {
            chosen[start + category(&side)] += 1;
        }
    }
    if chosen.is_empty() {
        return Err(Reason::NoData);
    }
    let units: Vec<&[u32]> = chosen.chunks_exact(categories).collect();
    let assessors = u32::try_from(people).map_err(|_| Reason::OutOfRange)?;
    Ok(fleiss_kappa(&units, categories, assessors, Bootstrap::default(), LEVEL))
}

/// Dents of each assessor on each car, over the panels that all of its looks inspected; only cars with three looks or
/// more, since fewer have no median of others.
fn by_car(people: usize, cars: &[CarComparison]) -> Vec<Vec<Option<u32>>> {
    let mut units = Vec::new();
    for car in cars.iter().filter(|car| car.looks.len() > 2) {
        let mut unit = vec![None; people];
        for (who, side) in rows(car).into_iter().filter(|row| row.len() == car.looks.len()).flatten() {
            if let Some(sum) = unit.get_mut(who) {
                *sum = Some(sum.unwrap_or(0_u32).saturating_add(side.dents));
            }
        }
        units.push(unit);
    }
    units
}

fn standings(looked: &Looked, paired: Vec<PairedPlace>) -> Vec<PersonStanding> {
    let mut all_looks = Sheets::default();
    for (_, looks) in &looked.written {
        all_looks.add(*looks);
    }
    let person =
        |((assessor, paired), (digits, looks)): ((usize, PairedPlace), &(Digits, Sheets))| PersonStanding {
            assessor,
            says: says(looked.people, &paired),
            paired,
            digits: digits.rounded(),
            blanks: blanks(*looks, all_looks.without(*looks)),
            looks_with_blanks: looks.with_blanks,
            looks: looks.all,
        };
    paired.into_iter().enumerate().zip(&looked.written).map(person).collect()
}

fn says(people: usize, paired: &PairedPlace) -> String {
    if people < 3 {
        return "cannot tell: with two people only the pair can be named".to_owned();
    }
    let used = paired.difference.used;
    if used == 0 {
        return "cannot tell: no car of theirs was counted by two others".to_owned();
    }
    if !paired.enough {
        return format!(
            "cannot tell: {used} cars with counts of two others are too few to tell one person by"
        );
    }
    match paired.difference.value {
        Ok(dents) if paired.stands_out() => {
            let way = if dents > 0.0 { "more" } else { "fewer" };
            format!(
                "counts {way} than the median of the others: {:.1} dents a car at the median, beyond chance",
                dents.abs()
            )
        }
        Ok(_) => "does not stand out from the median of the others".to_owned(),
        Err(reason) => format!("cannot tell: {reason}"),
    }
}

/// Cars that stand out among those of their pair of people, the most money first.
fn outliers(cars: &[CarComparison], groups: &Groups) -> Vec<Outlier> {
    let mut outliers = Vec::new();
    for members in groups.values() {
        let members: Vec<(usize, usize)> = members
            .iter()
            .copied()
            .filter(|(car, pair)| !cars[*car].pairs[*pair].common.is_empty())
            .collect();
        let dents = |(car, pair): &(usize, usize)| -> i64 {
            cars[*car].panels(&cars[*car].pairs[*pair]).map(|panel| panel.dents()).sum()
        };
        let differences: Vec<f64> = members.iter().map(|member| signed(dents(member))).collect();
        let Ok(scores) = modified_z(&differences).scores else { continue };
        for (member, z) in members.iter().zip(scores).filter(|(_, z)| z.abs() > OUTLYING) {
            let (car, pair) = *member;
            let mut panels = of_pair(cars, car, pair);
            panels.sort_by_key(|panel| (Reverse(panel.difference.minor().unsigned_abs()), panel.index));
            let sum = Money::sum(cars[car].currency, panels.iter().map(|panel| panel.difference)).ok();
            outliers.push(Outlier {
                car,
                pair,
                dents: dents(member),
                z,
                panel: panels.first().copied().filter(|panel| !panel.difference.is_zero()),
                money: sum,
            });
        }
    }
    let size = |outlier: &Outlier| outlier.money.map_or(0, |money| money.minor().unsigned_abs());
    outliers.sort_by_key(|outlier| (Reverse(size(outlier)), outlier.car, outlier.pair));
    outliers
}

//! All assessors together, and each among the others.

use super::annex::{band, band_names, decision, signed};
use super::money::of_pair;
use super::summary::Groups;
use super::work::{Trace, Worked};
use super::{CarComparison, Everyone, Outlier, PersonStanding};
use crate::claim::Method;
use crate::compare::habit::rounded;
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

const LEVEL: Level = Level::NINETY_FIVE;

/// All assessors together: `people` of them, from cars as worked through (those that are compared are `cars`, in the same
/// order).
pub(super) fn everyone(
    people: usize,
    worked: &[Worked],
    cars: &[CarComparison],
    schedules: &[Schedule],
    groups: &Groups,
) -> Everyone {
    let bootstrap = Bootstrap::default();
    let compared = || worked.iter().filter(|worked| !worked.rows.is_empty());
    let rows = || compared().flat_map(|worked| &worked.rows);
    let complete = || rows().filter(|row| row.counts.len() == people);
    let incomplete = rows().count() - complete().count();
    let values: Vec<Vec<Option<f64>>> =
        rows().map(|row| row.counts.iter().map(|(_, dents, _)| Some(f64::from(*dents))).collect()).collect();
    let repeated: Vec<Vec<Vec<f64>>> = worked.iter().flat_map(|worked| worked.repeated.clone()).collect();
    let by_car = by_car(people, worked);
    let paired = against_the_others(&by_car, people, LEVEL);
    Everyone {
        intraclass: all_counted(
            intraclass(
                &values.iter().filter(|unit| unit.len() == people).cloned().collect::<Vec<_>>(),
                people,
                LEVEL,
            ),
            incomplete,
        ),
        alpha: [Metric::Ordinal, Metric::Interval, Metric::Ratio]
            .map(|metric| (metric, alpha(&values, metric, bootstrap, LEVEL)))
            .into(),
        bands: bands(people, worked, cars, schedules),
        decisions: fleiss(
            people,
            Method::ALL.len(),
            complete().map(|row| row.counts.iter().map(|(.., method)| decision(*method)).collect()),
        ),
        funnel: funnel(&loads_from_median(&by_car, people)),
        precision: (!repeated.is_empty()).then(|| precision(&repeated, USUAL_FACTOR, bootstrap, LEVEL)),
        people: standings(people, worked, paired),
        outliers: outliers(cars, groups),
    }
}

fn all_counted(intraclass: Intraclass, incomplete: usize) -> Intraclass {
    let forms = intraclass.forms.map(|form: Statistic| form.without(Why::Incomplete, incomplete));
    Intraclass { forms, ..intraclass }
}

/// Fleiss' kappa of the count band, where one schedule rates every car.
fn bands(
    people: usize,
    worked: &[Worked],
    cars: &[CarComparison],
    schedules: &[Schedule],
) -> Result<FleissKappa, Reason> {
    let Some(number) = cars.first().map(|car| car.schedule) else { return Err(Reason::NoData) };
    if cars.iter().any(|car| car.schedule != number) {
        return Err(Reason::SeveralSchedules);
    }
    let schedule = &schedules[number];
    let rows = worked.iter().flat_map(|worked| &worked.rows).filter(|row| row.counts.len() == people);
    let units = rows.map(|row| row.counts.iter().map(|(_, dents, _)| band(schedule, *dents)).collect());
    fleiss(people, band_names(schedule).len(), units)
}

fn fleiss(
    people: usize,
    categories: usize,
    chosen: impl Iterator<Item = Vec<usize>>,
) -> Result<FleissKappa, Reason> {
    let units: Vec<Vec<u32>> = chosen
        .map(|chosen| {
            let mut unit = vec![0; categories];
            for category in chosen {
                unit[category] += 1;
            }
            unit
        })
        .collect();
    if units.is_empty() {
        return Err(Reason::NoData);
    }
    let assessors = u32::try_from(people).map_err(|_| Reason::OutOfRange)?;
    Ok(fleiss_kappa(&units, categories, assessors, Bootstrap::default(), LEVEL))
}

/// Dents of each assessor on each car, over the panels that all of its looks inspected; only cars with three looks or
/// more, since fewer have no median of others.
fn by_car(people: usize, worked: &[Worked]) -> Vec<Vec<Option<u32>>> {
    let mut units = Vec::new();
    for worked in worked.iter().filter(|worked| worked.looks > 2) {
        let mut unit = vec![None; people];
        for row in worked.rows.iter().filter(|row| row.counts.len() == worked.looks) {
            for (who, dents, _) in &row.counts {
                if let Some(sum) = unit.get_mut(usize::try_from(*who).unwrap_or(usize::MAX)) {
                    *sum = Some(sum.unwrap_or(0_u32).saturating_add(*dents));
                }
            }
        }
        units.push(unit);
    }
    units
}

fn standings(people: usize, worked: &[Worked], paired: Vec<PairedPlace>) -> Vec<PersonStanding> {
    let mut written: Vec<Vec<u32>> = vec![Vec::new(); people];
    let mut looks = vec![(0, 0); people];
    for Trace { assessor, written: counts, has_blanks } in worked.iter().flat_map(|worked| &worked.traces) {
        if let (Some(all), Some((seen, blank))) = (written.get_mut(*assessor), looks.get_mut(*assessor)) {
            all.extend(counts);
            *seen += 1;
            *blank += usize::from(*has_blanks);
        }
    }
    let person = |(assessor, paired): (usize, PairedPlace)| PersonStanding {
        assessor,
        says: says(people, &paired),
        paired,
        digits: rounded(&written[assessor]),
        looks_with_blanks: looks[assessor].1,
        looks: looks[assessor].0,
    };
    paired.into_iter().enumerate().map(person).collect()
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
            .filter(|(car, pair)| !cars[*car].pairs[*pair].panels.is_empty())
            .collect();
        let dents = |(car, pair): &(usize, usize)| -> i64 {
            cars[*car].pairs[*pair].panels.iter().map(super::Paired::dents).sum()
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

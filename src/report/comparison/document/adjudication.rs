use super::super::adjudication::again;
use super::names::car_name;
use super::{Filling, figure, words};
use crate::compare::comparison::{CarComparison, Disputed, DisputedLook, Recount};
use crate::quantity::{Currency, Money};
use crate::report::wording::{amount, said, so_many};
use crate::schedule::Schedule;
use serde::Serialize;
use std::collections::BTreeMap;

/// Panels that the head of the sheets names.
const FIRST: usize = 10;

/// Cars that have a sheet on the page.
const SHEETS: usize = 200;

/// The sheets to agree on: only panels whose amount or method differs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Adjudication {
    /// What there is to agree on, in a sentence.
    pub says: String,
    /// That not every car is shown, where they are many.
    pub more: Option<String>,
    /// How the counts that are proposed were made.
    pub rule: &'static str,
    /// What is done with the workbook when it is filled in.
    pub how: &'static str,
    /// Panels with most at stake, over the batch.
    pub first: Vec<AtStake>,
    /// A sheet for each car.
    pub cars: Vec<CarSheet>,
}

/// One panel in the list over the batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AtStake {
    /// Its car.
    pub car: String,
    /// The panel.
    pub panel: String,
    /// Fewest and most dents.
    pub dents: String,
    /// Largest amount less the smallest, with its currency.
    pub stake: String,
    /// What to look at.
    pub look: String,
}

/// What is to be agreed on one car.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CarSheet {
    /// The car.
    pub car: String,
    /// Currency of its amounts.
    pub currency: &'static str,
    /// Names of the size bands.
    pub sizes: Vec<String>,
    /// The panels.
    pub panels: Vec<PanelSheet>,
}

/// One panel to be agreed on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelSheet {
    /// The panel.
    pub panel: String,
    /// What is cheapest to look at again.
    pub look: String,
    /// Largest amount less the smallest.
    pub stake: String,
    /// Every count of it.
    pub counts: Vec<CountRow>,
    /// What is proposed, a number for each size.
    pub proposed: Vec<String>,
}

/// One person's count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CountRow {
    /// Whose.
    pub who: String,
    /// Dents of each size; empty where the panel was not inspected.
    pub counts: Vec<String>,
    /// Their sum.
    pub dents: String,
    /// What was noted of the panel, where that differs.
    pub noted: String,
    /// What is to be done.
    pub method: String,
    /// What it comes to.
    pub amount: String,
}

const HOW: &str = "Fill the agreed number of dents into to_agree.xlsx and leave blank what is not agreed: given to an \
                   assessment beside the other files, it takes the place of these panels and leaves all others as they are.";

/// Fills the sheets.
pub(super) fn adjudication(filling: &Filling<'_>) -> Adjudication {
    let disputed = filling.comparison.cars.iter().filter(|car| !car.to_agree.is_empty());
    let mut shown: Vec<&CarComparison> = disputed.collect();
    let (of_cars, panels) = (shown.len(), shown.iter().map(|car| car.to_agree.len()).sum());
    if of_cars > SHEETS {
        // Those with most at stake, then back in the order of the batch.
        let stake = |car: &CarComparison| -> i64 {
            let of_panel = car.disputed().filter_map(|disputed| disputed.at_stake);
            of_panel.map(Money::minor).fold(0, i64::saturating_add)
        };
        shown.sort_by_key(|car| (std::cmp::Reverse(stake(car)), car.claim));
        shown.truncate(SHEETS);
        shown.sort_by_key(|car| car.claim);
    }
    let cars: Vec<CarSheet> = shown.into_iter().map(|car| sheet(filling, car)).collect();
    Adjudication {
        says: if filling.comparison.cars.is_empty() {
            "Nothing is priced, so nobody knows on which panels amount or method differ. Where the counts lie farthest apart \
             stands in comparison.html."
                .to_owned()
        } else if panels == 0 {
            "There is nothing to agree on: amounts and methods are the same on every panel.".to_owned()
        } else {
            format!(
                "{} on {} differ in amount or method. All other panels are left out here.",
                so_many(panels, "panel", "panels"),
                so_many(of_cars, "car", "cars")
            )
        },
        more: (of_cars > SHEETS).then(|| {
            format!(
                "Shown are the {SHEETS} cars with most at stake; to_agree.csv holds all {}.",
                so_many(of_cars, "car", "cars")
            )
        }),
        rule: words::PROPOSED_BY,
        how: HOW,
        first: first(filling),
        cars,
    }
}

/// The panels with most at stake, for each currency.
pub(super) fn first(filling: &Filling<'_>) -> Vec<AtStake> {
    // Of a large batch only the first few are kept.
    let mut by_currency: BTreeMap<Currency, Vec<(Money, &CarComparison, Disputed<'_>)>> = BTreeMap::new();
    for car in &filling.comparison.cars {
        let panels = by_currency.entry(car.currency).or_default();
        for disputed in car.disputed() {
            let Some(stake) = disputed.at_stake else { continue };
            // Equal ones stay in the order of the batch.
            let place = panels.partition_point(|(other, ..)| other.minor() >= stake.minor());
            if place < FIRST {
                panels.insert(place, (stake, car, disputed));
                panels.truncate(FIRST);
            }
        }
    }
    let mut named = Vec::new();
    for panels in by_currency.into_values() {
        named.extend(panels.into_iter().map(|(stake, car, disputed)| AtStake {
            car: car_name(car),
            panel: disputed.panel.to_string(),
            dents: dents(&disputed),
            stake: format!("{} {}", amount(stake), car.currency.code()),
            look: look_at(&disputed, filling.schedules.get(car.schedule)),
        }));
    }
    named
}

fn look_at(disputed: &Disputed<'_>, schedule: Option<&Schedule>) -> String {
    schedule.map_or_else(String::new, |schedule| said(&again(disputed.recount, schedule)))
}

/// `12 to 31`.
fn dents(disputed: &Disputed<'_>) -> String {
    let sums = disputed
        .looks
        .iter()
        .filter_map(|look| look.counts.as_ref())
        .map(|counts| counts.iter().sum::<u32>());
    match (sums.clone().min(), sums.max()) {
        (Some(fewest), Some(most)) => format!("{fewest} to {most}"),
        _ => String::new(),
    }
}

fn sheet(filling: &Filling<'_>, car: &CarComparison) -> CarSheet {
    let schedule = filling.schedules.get(car.schedule);
    CarSheet {
        car: car_name(car),
        currency: car.currency.code(),
        sizes: sizes(schedule),
        panels: car
            .disputed()
            .map(|disputed| PanelSheet {
                panel: disputed.panel.to_string(),
                look: look_at(&disputed, schedule),
                stake: disputed.at_stake.map_or_else(String::new, amount),
                counts: disputed.looks.iter().map(|look| row(filling, car, &disputed, look)).collect(),
                proposed: disputed.proposed.iter().map(|proposal| words::proposal(*proposal)).collect(),
            })
            .collect(),
    }
}

/// The names of a schedule's size bands.
pub(super) fn sizes(schedule: Option<&Schedule>) -> Vec<String> {
    schedule.map_or_else(Vec::new, |schedule| schedule.sizes.iter().map(|band| said(&band.name)).collect())
}

/// What a look noted of a panel: `aluminium, behind brace`.
fn noted(car: &CarComparison, disputed: &Disputed<'_>, assessor: usize) -> Option<String> {
    let Recount::Noted(differs) = disputed.recount else { return None };
    let panel = car.sheet(assessor)?.find(disputed.panel)?;
    let words = panel.notes.words().into_iter().zip(differs.0);
    let names: Vec<&str> = words.filter(|(_, differs)| *differs).filter_map(|(word, _)| word).collect();
    Some(if names.is_empty() { "nothing noted".to_owned() } else { names.join(", ") })
}

fn row(
    filling: &Filling<'_>,
    car: &CarComparison,
    disputed: &Disputed<'_>,
    look: &DisputedLook<'_>,
) -> CountRow {
    let counts: Vec<String> = look.counts.unwrap_or_default().iter().map(u32::to_string).collect();
    let sum = look.counts.as_ref().map(|counts| counts.iter().map(|dents| u64::from(*dents)).sum::<u64>());
    CountRow {
        who: filling.name(look.assessor),
        counts,
        dents: sum.map_or_else(String::new, figure::whole),
        noted: noted(car, disputed, look.assessor).unwrap_or_default(),
        method: look.method.map_or_else(|| "not inspected".to_owned(), |method| method.name().to_owned()),
        amount: look
            .amount
            .map_or_else(|| if look.method.is_some() { "open".to_owned() } else { String::new() }, amount),
    }
}

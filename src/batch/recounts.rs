//! What a recount could change, over a batch, on all cores.

use super::{Options, assess_one};
use crate::assess::{Distance, Fewest, SizeCount, distances, fewest};
use crate::claim::Intake;
use crate::quantity::{Currency, Money};
use crate::schedule::Schedule;
use rayon::prelude::*;
use std::cmp::{Ordering, Reverse};

/// What a recount of one claim could change.
#[derive(Debug, Clone, PartialEq)]
pub struct Recount {
    /// Its number in the batch, from 0.
    pub number: usize,
    /// Number of its schedule.
    pub schedule: usize,
    /// Gross amount as counted.
    pub gross: Money,
    /// The nearest changes, each with the dents of its band as counted.
    pub distances: Vec<(Distance, u32)>,
    /// The fewest dents that change a method or the screen.
    pub fewest: Option<Fewest>,
}

/// What a recount could change on every claim that is priced, up to so many dents, in input order.
pub fn recounts(intakes: &[Intake], schedules: &[Schedule], options: Options, most: u32) -> Vec<Recount> {
    let of = |(number, intake): (usize, &Intake)| {
        let assessed = assess_one(intake, schedules, Options { working: false, ..options }).ok()?;
        let schedule = schedules.get(assessed.schedule)?;
        let (claim, date) = (&intake.claim, options.run_date);
        let found = distances(claim, schedule, date, &assessed, most);
        let counted = |distance: &Distance| {
            let mut panels = assessed.panels.iter().filter(|panel| panel.panel == distance.panel);
            panels.next().and_then(|panel| panel.counts.get(distance.size)).map_or(0, SizeCount::dents)
        };
        Some(Recount {
            number,
            schedule: assessed.schedule,
            gross: assessed.totals.gross,
            fewest: fewest(claim, schedule, date, &assessed, &found),
            distances: found.into_iter().map(|distance| (distance, counted(&distance))).collect(),
        })
    };
    intakes.par_iter().enumerate().filter_map(of).collect()
}

/// A panel that is worth counting again: its change that moves the most money for each dent.
#[derive(Debug, Clone, Copy)]
pub struct Worth<'a> {
    /// The claim.
    pub recount: &'a Recount,
    /// The change, and the dents of its band as counted.
    pub change: &'a (Distance, u32),
}

/// The panels of a batch in one currency, those first on which one dent moves the most gross money: the difference divided
/// by its dents, whichever way. Alike, fewer dents go first, then input order.
pub fn worth_counting(recounts: &[Recount], currency: Currency) -> Vec<Worth<'_>> {
    let mut panels: Vec<Worth<'_>> = Vec::new();
    for recount in recounts.iter().filter(|recount| recount.gross.currency() == currency) {
        let first = panels.len();
        for change in recount.distances.iter().filter(|(distance, _)| !distance.gross.is_zero()) {
            let worth = Worth { recount, change };
            let of_panel = panels[first..].iter_mut().find(|other| other.change.0.panel == change.0.panel);
            match of_panel {
                Some(other) if by_money_a_dent(&worth, other) == Ordering::Less => *other = worth,
                Some(_) => {}
                None => panels.push(worth),
            }
        }
    }
    panels.sort_by(by_money_a_dent);
    panels
}

fn by_money_a_dent(one: &Worth<'_>, other: &Worth<'_>) -> Ordering {
    let money = |worth: &Worth<'_>| u128::from(worth.change.0.gross.minor().unsigned_abs());
    let dents = |worth: &Worth<'_>| u128::from(worth.change.0.dents);
    // Held against each other without dividing.
    let one_a_dent = Reverse(money(one) * dents(other));
    let other_a_dent = Reverse(money(other) * dents(one));
    one_a_dent.cmp(&other_a_dent).then(dents(one).cmp(&dents(other)))
}

//! The fewest dents, counted otherwise anywhere on a claim, that change what is done with a panel or the screen.
//!
//! With one dent only one band of one panel can differ, so the nearest change at one or two dents is the fewest. Above that
//! every spread of fewer dents over the bands of one panel is tried: a method depends on its own panel alone. For the
//! screen, the most that each panel can move the cost by so many dents is added up over the panels: no spread can do more
//! as long as no panel opens or closes.

use super::rewrite::put_all;
use super::{Change, Distance, asked_about, is_reached, nearest_decision};
use crate::assess::{Assessment, PanelAssessment, Screen, Silent, assess, panel_alone};
use crate::claim::Claim;
use crate::quantity::{Date, Percent};
use crate::schedule::Schedule;

/// Spreads of dents that are tried on one claim; beyond them the answer is a bound.
const MOST_SPREADS: usize = 4_000;

/// The fewest dents that change a decision on a claim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fewest {
    /// So many dents, from 1.
    pub dents: u32,
    /// What they change: a method or the screen.
    pub change: Change,
    /// Whether no smaller number can do it, wherever it is counted otherwise. If not, it is a bound: so many do it, and
    /// perhaps fewer.
    pub is_exact: bool,
}

/// The fewest dents that change a decision, from the nearest change in one band (see [`super::distances()`]) down. `None`
/// where no band by itself changes one within the stated number of dents.
pub fn fewest(
    claim: &Claim,
    schedule: &Schedule,
    run_date: Option<Date>,
    assessed: &Assessment,
    distances: &[Distance],
) -> Option<Fewest> {
    let nearest = nearest_decision(distances)?;
    let mut search =
        Search { claim, schedule, run_date, assessed, left: MOST_SPREADS, is_exact: true, opens: false };
    for dents in 2..nearest.dents {
        if let Some(change) = search.change_at(dents) {
            return Some(Fewest { dents, change, is_exact: search.is_exact });
        }
    }
    Some(Fewest { dents: nearest.dents, change: nearest.change, is_exact: search.is_exact })
}

struct Search<'a> {
    claim: &'a Claim,
    schedule: &'a Schedule,
    run_date: Option<Date>,
    assessed: &'a Assessment,
    left: usize,
    is_exact: bool,
    /// Whether some spread opens or closes a panel whose method stays.
    opens: bool,
}

/// The most that a panel's amount moves towards the other side of the screen by so many dents, and the spread that does.
#[derive(Clone)]
struct Best {
    towards: i128,
    by: Vec<i32>,
}

impl Search<'_> {
    /// What so many dents change, spread over several bands. Fewer were tried before.
    fn change_at(&mut self, dents: u32) -> Option<Change> {
        let panels: Vec<&PanelAssessment> = asked_about(self.claim, self.assessed).collect();
        let needed = self.needed();
        // By panel and number of dents, from none up.
        let mut best: Vec<Vec<Best>> = Vec::new();
        for panel in &panels {
            let bands = panel.counts.len();
            let mut of_panel = vec![Best { towards: 0, by: vec![0; bands] }];
            // Where only a method can change, fewer dents were tried before.
            for number in if needed.is_some() { 1..=dents } else { dents..=dents } {
                let mut most = of_panel.last().cloned()?;
                for by in spreads(bands, number) {
                    if self.left == 0 {
                        self.is_exact = false;
                        return None;
                    }
                    self.left -= 1;
                    let Some(again) = self.panel_with(panel, &by) else { continue };
                    if number == dents && again.method != panel.method {
                        return Some(Change::Method);
                    }
                    self.opens |= again.open.is_some() != panel.open.is_some();
                    let towards = (minor(&again) - minor(panel)) * self.sign();
                    if towards > most.towards {
                        most = Best { towards, by };
                    }
                }
                of_panel.push(most);
            }
            best.push(of_panel);
        }
        self.screen_at(dents, needed?, &panels, &best)
    }

    fn sign(&self) -> i128 {
        if is_reached(&self.assessed.screen) { -1 } else { 1 }
    }

    /// How far the cost is from the other side of the screen, in minor units.
    fn needed(&self) -> Option<i128> {
        match &self.assessed.screen {
            Screen::Not(_) => None,
            Screen::Below(figures) | Screen::Open(figures) | Screen::Reached(figures) => {
                Some((i128::from(figures.limit.minor()) - i128::from(figures.cost.minor())) * self.sign())
            }
        }
    }

    /// Whether so many dents over all panels reach the other side.
    fn screen_at(
        &mut self,
        dents: u32,
        needed: i128,
        panels: &[&PanelAssessment],
        best: &[Vec<Best>],
    ) -> Option<Change> {
        let (most, spread) = over_all(best, usize::try_from(dents).ok()?);
        if most == 0 || self.is_independent() && self.with_tax(most) < needed {
            return None;
        }
        let mut other = self.claim.clone();
        for (panel, by) in panels.iter().zip(&spread) {
            let written = &mut other.inspections[panel.inspection].panels[panel.index];
            put_all(written, panel, self.schedule, by)?;
        }
        let again = assess(&other, self.schedule, self.assessed.schedule, self.run_date, &mut Silent);
        let is_other =
            again.is_ok_and(|again| is_reached(&again.screen) != is_reached(&self.assessed.screen));
        if !is_other {
            self.is_exact = false;
        }
        is_other.then_some(Change::Screen)
    }

    /// Whether the cost moves at most by what the panels move. Operations are the same as long as no method changes, which
    /// was tried, and no panel opens or closes; the top-up to the minimum only softens a move, unless something opens.
    fn is_independent(&self) -> bool {
        !self.opens || self.schedule.operations.is_empty() && self.schedule.terms.minimum.is_none()
    }

    /// At most so much of the cost, for a change of the panels' amounts: with the highest tax where tax counts, and a minor
    /// unit for each rounding on the way.
    fn with_tax(&self, amount: i128) -> i128 {
        let counts = self.schedule.terms.total_loss.is_some_and(|terms| terms.with_tax.value);
        let highest = self.schedule.taxes.iter().map(|tax| tax.percent.value.micro()).max().unwrap_or(0);
        let whole = 100 * i128::from(Percent::MICRO);
        let tax = if counts { (amount * i128::from(highest)).div_euclid(whole) } else { 0 };
        let roundings = 2 + 2 * i128::try_from(self.schedule.taxes.len()).unwrap_or(0);
        amount + tax + roundings
    }

    fn panel_with(&self, panel: &PanelAssessment, by: &[i32]) -> Option<PanelAssessment> {
        let mut written = self.claim.inspections[panel.inspection].panels[panel.index].clone();
        put_all(&mut written, panel, self.schedule, by)?;
        panel_alone(self.claim, &written, self.schedule)
    }
}

/// What a panel adds to the totals, in minor units.
fn minor(panel: &PanelAssessment) -> i128 {
    panel.amount().map_or(0, |amount| i128::from(amount.minor()))
}

/// The most that at most so many dents over all panels do, and how they are spread.
fn over_all(best: &[Vec<Best>], dents: usize) -> (i128, Vec<Vec<i32>>) {
    let mut most: Vec<(i128, Vec<Vec<i32>>)> = vec![(0, Vec::new()); dents + 1];
    for of_panel in best {
        most = (0..=dents)
            .filter_map(|all| {
                (0..=all.min(of_panel.len() - 1))
                    .map(|here| (most[all - here].0 + of_panel[here].towards, here))
                    .max_by_key(|(towards, here)| (*towards, std::cmp::Reverse(*here)))
                    .map(|(towards, here)| {
                        let mut spread = most[all - here].1.clone();
                        spread.push(of_panel[here].by.clone());
                        (towards, spread)
                    })
            })
            .collect();
    }
    most.pop().unwrap_or_default()
}

/// Every way to count so many dents otherwise over some bands: more in some, fewer in others.
fn spreads(bands: usize, dents: u32) -> Vec<Vec<i32>> {
    fn fill(at: usize, left: i32, by: &mut Vec<i32>, all: &mut Vec<Vec<i32>>) {
        if all.len() > MOST_SPREADS {
            return;
        }
        if at + 1 == by.len() {
            for last in if left == 0 { vec![0] } else { vec![-left, left] } {
                by[at] = last;
                all.push(by.clone());
            }
            return;
        }
        for here in -left..=left {
            by[at] = here;
            fill(at + 1, left - here.abs(), by, all);
        }
    }
    let (mut all, mut by) = (Vec::new(), vec![0; bands]);
    if let (Ok(dents), true) = (i32::try_from(dents), bands > 0) {
        fill(0, dents, &mut by, &mut all);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dents_are_spread_in_every_way_and_each_way_once() {
        let two = spreads(2, 2);
        let expected = [[-2, 0], [-1, -1], [-1, 1], [0, -2], [0, 2], [1, -1], [1, 1], [2, 0]];
        assert_eq!(two, expected.map(|by| by.to_vec()));
        // Integer points at that distance in four dimensions: 8 and 32 (a counted list, the coordination sequence of Z^4).
        assert_eq!((spreads(4, 1).len(), spreads(4, 2).len()), (8, 32));
        assert_eq!(spreads(1, 3), [[-3], [3]]);
    }
}

//! What a recount could change: a claim assessed again with one size band of one panel counted otherwise, exactly, dent by
//! dent. Nothing is estimated: each answer is the assessment that the other count would have had.

mod fewest;
mod rewrite;

pub use fewest::{Fewest, fewest};

use super::{Assessment, Crossing, PanelAssessment, Screen, Silent, assess, panel_alone};
use crate::claim::{Claim, Method, PanelId};
use crate::quantity::{Date, Money, Percent};
use crate::schedule::Schedule;
use rewrite::{counted, put};

/// Which way a count could be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Fewer dents than counted.
    Fewer,
    /// More dents than counted.
    More,
}

/// What changes first at so many dents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// The size band or count band that dents are rated at.
    Band,
    /// Whether a limit is crossed.
    Limit,
    /// What is done with the panel.
    Method,
    /// The claim's total-loss screen.
    Screen,
}

/// The nearest change of one kind, in one band of one panel and one direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Distance {
    /// The panel.
    pub panel: PanelId,
    /// The size band whose dents are counted otherwise.
    pub size: usize,
    /// Fewer or more.
    pub direction: Direction,
    /// So many dents, from 1.
    pub dents: u32,
    /// What changes.
    pub change: Change,
    /// The gross amount with that count, less the one as counted. Open panels enter neither, and while something is open
    /// neither does the top-up to the vehicle's minimum.
    pub gross: Money,
    /// What would be done with the panel.
    pub method: Method,
    /// Whether the panel would be open.
    pub is_open: bool,
}

/// The nearest changes of every kind, for every panel that was assessed, every size band and both directions, up to
/// `most` dents; each exact while all other counts stay as they are. In the order of panels, bands, directions and kinds.
/// Dents that were measured one by one stay; a count that would stop the claim (beyond any number of dents) ends its row.
pub fn distances(
    claim: &Claim,
    schedule: &Schedule,
    run_date: Option<Date>,
    assessed: &Assessment,
    most: u32,
) -> Vec<Distance> {
    let mut found = Vec::new();
    let mut other = claim.clone();
    for panel in asked_about(claim, assessed) {
        for size in 0..panel.counts.len() {
            for direction in [Direction::Fewer, Direction::More] {
                let row = Row { claim, schedule, run_date, assessed, panel, size, direction };
                row.walk(&mut other, most, &mut found);
            }
        }
    }
    found
}

/// The fewest dents, counted otherwise in one band of one panel, that change what is done with a panel or the screen. It is
/// exact for one band of one panel; over several at once it is a bound: fewer dents spread over them may do the same.
pub fn nearest_decision(distances: &[Distance]) -> Option<&Distance> {
    let decides = |distance: &&Distance| matches!(distance.change, Change::Method | Change::Screen);
    distances.iter().filter(decides).min_by_key(|distance| distance.dents)
}

/// One band of one panel in one direction.
struct Row<'a> {
    claim: &'a Claim,
    schedule: &'a Schedule,
    run_date: Option<Date>,
    assessed: &'a Assessment,
    panel: &'a PanelAssessment,
    size: usize,
    direction: Direction,
}

impl Row<'_> {
    /// The panel by itself is assessed for every dent; the whole claim only where what it takes from the panel differs.
    fn walk(&self, other: &mut Claim, most: u32, found: &mut Vec<Distance>) {
        let counted = counted(self.panel, self.size);
        let most = if self.direction == Direction::Fewer { most.min(counted) } else { most };
        let (inspection, index) = (self.panel.inspection, self.panel.index);
        let as_written = &self.claim.inspections[inspection].panels[index];
        let mut missing = vec![Change::Band, Change::Limit, Change::Method];
        if !matches!(self.assessed.screen, Screen::Not(_)) {
            missing.push(Change::Screen);
        }
        for dents in 1..=most {
            let count = match self.direction {
                Direction::Fewer => counted - dents,
                Direction::More => counted.saturating_add(dents),
            };
            let mut written = as_written.clone();
            put(&mut written, self.panel, self.schedule, self.size, count);
            let Some(panel) = panel_alone(self.claim, &written, self.schedule) else { return };
            let on_panel = missing.iter().any(|change| self.is_changed_on_panel(*change, &panel));
            let on_claim = missing.contains(&Change::Screen) && adds(&panel) != adds(self.panel);
            if !on_panel && !on_claim {
                continue;
            }
            other.inspections[inspection].panels[index] = written;
            let again = assess(other, self.schedule, self.assessed.schedule, self.run_date, &mut Silent);
            other.inspections[inspection].panels[index].clone_from(as_written);
            let Ok(again) = again else { return };
            let Ok(gross) = again.totals.gross.minus(self.assessed.totals.gross) else { return };
            missing.retain(|change| {
                let is_changed = self.is_changed(*change, &panel, &again);
                if is_changed {
                    found.push(Distance {
                        panel: self.panel.panel,
                        size: self.size,
                        direction: self.direction,
                        dents,
                        change: *change,
                        gross,
                        method: panel.method,
                        is_open: panel.open.is_some(),
                    });
                }
                !is_changed
            });
            if missing.is_empty() {
                return;
            }
        }
    }

    fn is_changed_on_panel(&self, change: Change, panel: &PanelAssessment) -> bool {
        match change {
            Change::Band => places(panel) != places(self.panel),
            Change::Limit => crossed(panel).ne(crossed(self.panel)),
            Change::Method => panel.method != self.panel.method,
            Change::Screen => false,
        }
    }

    fn is_changed(&self, change: Change, panel: &PanelAssessment, again: &Assessment) -> bool {
        match change {
            Change::Screen => is_reached(&again.screen) != is_reached(&self.assessed.screen),
            _ => self.is_changed_on_panel(change, panel),
        }
    }
}

/// What the rest of the claim takes from a panel: its method, whether it is open, and its lines.
fn adds(panel: &PanelAssessment) -> (Method, bool, Vec<(Money, Percent)>) {
    let lines = panel.chosen().map_or(&[][..], |chosen| chosen.lines.as_slice());
    let lines = lines.iter().map(|line| (line.amount, line.tax)).collect();
    (panel.method, panel.open.is_some(), lines)
}

/// The panels on which a recount can be asked about: those that were assessed, and not scaled from a frame.
fn asked_about<'a>(claim: &'a Claim, assessed: &'a Assessment) -> impl Iterator<Item = &'a PanelAssessment> {
    assessed.panels.iter().filter(|panel| !panel.alternatives.is_empty() && !is_scaled(claim, panel))
}

/// Whether a panel's dents were counted in a part of it: one dent more there is several on the panel, so that no single one
/// can be asked about.
fn is_scaled(claim: &Claim, panel: &PanelAssessment) -> bool {
    let written = claim.inspections.get(panel.inspection).and_then(|seen| seen.panels.get(panel.index));
    panel.is_estimated() && written.is_some_and(|written| written.frame.is_some())
}

/// Where the dents of a panel stand in the grid.
fn places(panel: &PanelAssessment) -> Vec<(usize, usize)> {
    let paintless = panel.alternatives.iter().find(|way| way.method == Method::Paintless);
    let lines = paintless.map_or(&[][..], |way| way.lines.as_slice());
    lines.iter().filter_map(|line| line.kind.place_in_grid()).collect()
}

fn crossed(panel: &PanelAssessment) -> impl Iterator<Item = usize> {
    panel.findings.iter().filter(|finding| finding.crossing == Crossing::Yes).map(|finding| finding.limit)
}

fn is_reached(screen: &Screen) -> bool {
    matches!(screen, Screen::Reached(_))
}

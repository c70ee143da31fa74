//! What a recount could change: a claim assessed again with one size band of one panel counted otherwise, exactly, dent by
//! dent. Nothing is estimated: each answer is the assessment that the other count would have had.

use super::{Assessment, Crossing, PanelAssessment, Screen, Silent, assess};
use crate::claim::{Claim, Counted, Method, PanelId, SizeHeading, TallyEntry};
use crate::quantity::{Date, Money};
use crate::schedule::Schedule;
use std::sync::Arc;

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
    /// The gross amount with that count, less the one as counted. Open panels enter neither.
    pub gross: Money,
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
    for (index, panel) in assessed
        .panels
        .iter()
        .enumerate()
        .filter(|(_, panel)| !panel.alternatives.is_empty() && !is_scaled(claim, panel))
    {
        for size in 0..panel.counts.len() {
            for direction in [Direction::Fewer, Direction::More] {
                let row = Row { claim, schedule, run_date, assessed, index, panel, size, direction };
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
    index: usize,
    panel: &'a PanelAssessment,
    size: usize,
    direction: Direction,
}

impl Row<'_> {
    fn walk(&self, other: &mut Claim, most: u32, found: &mut Vec<Distance>) {
        let counted = self.panel.counts[self.size].dents() - self.panel.counts[self.size].from_marks;
        let most = if self.direction == Direction::Fewer { most.min(counted) } else { most };
        let mut missing = vec![Change::Band, Change::Limit, Change::Method, Change::Screen];
        for dents in 1..=most {
            let count = match self.direction {
                Direction::Fewer => counted - dents,
                Direction::More => counted.saturating_add(dents),
            };
            self.put(other, count);
            let again = assess(other, self.schedule, self.assessed.schedule, self.run_date, &mut Silent);
            self.restore(other);
            let Ok(again) = again else { return };
            let Ok(gross) = again.totals.gross.minus(self.assessed.totals.gross) else { return };
            let Some(panel) = again.panels.get(self.index) else { return };
            missing.retain(|change| {
                let is_changed = self.is_changed(*change, panel, &again);
                if is_changed {
                    let (size, direction, change) = (self.size, self.direction, *change);
                    found.push(Distance { panel: self.panel.panel, size, direction, dents, change, gross });
                }
                !is_changed
            });
            if missing.is_empty() {
                return;
            }
        }
    }

    fn is_changed(&self, change: Change, panel: &PanelAssessment, again: &Assessment) -> bool {
        match change {
            Change::Band => places(panel) != places(self.panel),
            Change::Limit => crossed(panel).ne(crossed(self.panel)),
            Change::Method => panel.method != self.panel.method,
            Change::Screen => {
                std::mem::discriminant(&again.screen) != std::mem::discriminant(&self.assessed.screen)
                    && (is_reached(&again.screen) || is_reached(&self.assessed.screen))
            }
        }
    }

    /// Writes one number for the band in place of all its columns.
    fn put(&self, other: &mut Claim, count: u32) {
        let written = &mut other.inspections[self.panel.inspection].panels[self.panel.index];
        let cells = &self.panel.counts[self.size].cells;
        written.tally.retain(|entry| !cells.contains(&entry.place));
        let size =
            Arc::new(SizeHeading { text: self.schedule.sizes[self.size].name.clone(), interval: None });
        let place = cells.first().copied().unwrap_or(written.place);
        written.tally.push(TallyEntry { size, size_place: place, count: Counted::Counted(count), place });
    }

    fn restore(&self, other: &mut Claim) {
        let (inspection, index) = (self.panel.inspection, self.panel.index);
        let tally = &self.claim.inspections[inspection].panels[index].tally;
        other.inspections[inspection].panels[index].tally.clone_from(tally);
    }
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

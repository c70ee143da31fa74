//! Dents that were counted in a frame of known area, scaled to the whole panel: an estimate with its interval.

use super::desk::Desk;
use super::inspection::Seen;
use super::{End, Formula, Recorder, Rule, SizeCount, StepId};
use crate::claim::{Counted, Located};
use crate::distribution::poisson_limits;
use crate::problem::catalogue::assess as wording;
use crate::quantity::{Area, Rounding};
use crate::schedule::PanelTerms;

/// Millionths in one dent.
const MILLION: i128 = 1_000_000;

/// The areas by which a panel's counts are scaled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scaling {
    frame: Located<Area>,
    panel: Located<Area>,
    rounding: Located<Rounding>,
}

/// Scales every band with dents, where they were counted in a part of the panel. What keeps them from being scaled is
/// left on the desk.
pub(super) fn scaled<R: Recorder>(
    desk: &mut Desk<'_, R>,
    seen: &Seen<'_>,
    terms: Option<&PanelTerms>,
    counts: &mut [SizeCount],
) -> Option<Scaling> {
    let frame = seen.panel.frame?;
    if counts.iter().all(|count| count.dents() == 0) {
        return None;
    }
    let name = seen.panel.panel.to_string();
    let area = terms.and_then(|terms| terms.area);
    let (Some(rounding), Some(panel)) = (desk.schedule.terms.scaled_counts, area) else {
        let has_rule = desk.schedule.terms.scaled_counts.is_some();
        desk.problems.push(wording::frame_not_scaled(&name, &frame.value.to_string(), has_rule, frame.place));
        return None;
    };
    if frame.value > panel.value {
        let (frame_area, area) = (frame.value.to_string(), panel.value.to_string());
        desk.problems.push(wording::frame_beyond_panel(&name, &frame_area, &area, frame.place, panel.place));
        return None;
    }
    // A frame as large as the panel holds all of it.
    if frame.value == panel.value {
        return None;
    }
    let scaling = Scaling { frame, panel, rounding };
    for count in counts {
        let dents = match &count.count {
            Counted::Counted(dents @ 1..) => *dents,
            // What is an estimate already is not scaled to another one.
            Counted::Estimated { how, .. } => {
                desk.problems.push(wording::count_not_known(Some(how), frame.place));
                continue;
            }
            Counted::Counted(0) | Counted::NoneWritten | Counted::Open => continue,
        };
        let at = |end| scaling.at(end, dents);
        let (Some(low), Some(best), Some(high)) = (at(End::Low), at(End::Best), at(End::High)) else {
            desk.problems.push(wording::too_many_dents(seen.panel.place));
            return None;
        };
        let rated = match desk.end {
            End::Low => low,
            End::Best => best,
            End::High => high,
        };
        let how = format!("{dents} in {} of {}", frame.value, panel.value);
        count.count = Counted::Estimated { low, best: Some(rated), high: Some(high), how };
    }
    Some(scaling)
}

impl Scaling {
    /// A count in the frame, or an end of its interval, as one of the whole panel.
    fn at(&self, end: End, dents: u32) -> Option<u32> {
        let millionths = match end {
            End::Best => i128::from(dents) * MILLION,
            End::Low => i128::from(poisson_limits(dents).0),
            End::High => i128::from(poisson_limits(dents).1),
        };
        let area = |area: Located<Area>| i128::from(area.value.square_millimetres());
        let scaled = millionths.checked_mul(area(self.panel))?;
        u32::try_from(self.rounding.value.divide(scaled, area(self.frame) * MILLION)).ok()
    }

    /// Steps of both ends and of the number that is rated, of a band of which so many were counted in the frame.
    pub fn record<R: Recorder>(&self, desk: &mut Desk<'_, R>, count: StepId, band: &Counted) -> StepId {
        let Counted::Estimated { low, best: Some(best), high: Some(high), .. } = band else { return count };
        let part = desk.input(self.frame.place, self.frame.value);
        let whole = desk.term(self.panel.place, self.panel.value);
        let mut kept = StepId::NONE;
        for (end, dents) in [(End::Low, low), (End::High, high), (End::Best, best)] {
            let rule = match end {
                End::Low => Rule::LowestDents,
                End::High => Rule::HighestDents,
                End::Best => Rule::ScaledDents,
            };
            kept = desk.step_at(rule, &[self.rounding.place], *dents, || Formula::Scaled {
                count,
                part,
                whole,
                end,
            });
        }
        kept
    }
}

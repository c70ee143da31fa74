//! Panels that are partly one look's and partly the other's.

use super::Cause;
use crate::assess::{MarkAssessment, PanelAssessment, SizeCount};
use crate::claim::{Claim, Counted, Mark, Method, PanelCount, SizeHeading, TallyEntry};
use crate::quantity::largest_remainder;
use crate::schedule::Schedule;
use std::sync::Arc;

/// One look's panel in the schedule's bands: dents by band (measured dents among them), and the marks that remain.
#[derive(Debug, Clone)]
pub(super) struct Half<'a> {
    /// The panel as written.
    pub written: &'a PanelCount,
    /// Dents by size band of the schedule.
    pub dents: Vec<u32>,
    /// Marks that are not among those dents.
    pub marks: Vec<&'a Mark>,
    /// The claim whose overrules hold for the look.
    pub claim: &'a Claim,
}

/// How marks are taken that the engine counts with the dents.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Marks {
    /// As dents of their size.
    Counted,
    /// As marks.
    Apart,
}

impl<'a> Half<'a> {
    /// From what was written and what the engine made of it.
    pub fn new(written: &'a PanelCount, assessed: &PanelAssessment, claim: &'a Claim, taken: Marks) -> Self {
        let counted = |size: &SizeCount| match taken {
            Marks::Counted => size.dents(),
            Marks::Apart => size.dents().saturating_sub(size.from_marks),
        };
        let dents = assessed.counts.iter().map(counted).collect();
        let stays = |(index, _): &(usize, &Mark)| match assessed.marks.get(*index) {
            Some(MarkAssessment::Counted(_)) => taken == Marks::Apart,
            Some(MarkAssessment::Excluded) => false,
            _ => true,
        };
        let marks = written.marks.iter().enumerate().filter(stays).map(|(_, mark)| mark).collect();
        Self { written, dents, marks, claim }
    }

    fn total(&self) -> u32 {
        self.dents.iter().sum()
    }

    /// What a person decided on the panel.
    fn decided(&self) -> Option<Method> {
        let overrule = self.claim.overrules.iter().find(|overrule| overrule.panel == self.written.panel);
        overrule.map(|overrule| overrule.method.value)
    }
}

/// The causes in which two halves differ, in their fixed order.
pub(super) fn differing(a: &Half<'_>, b: &Half<'_>) -> Vec<Cause> {
    let mut causes = Vec::new();
    let (of_a, of_b) = (a.total(), b.total());
    if (of_a == 0) != (of_b == 0) {
        causes.push(Cause::Dents);
    } else if of_a != 0 {
        if of_a != of_b {
            causes.push(Cause::Number);
        }
        let shares = |x: u32, total: u32| u64::from(x) * u64::from(total);
        if a.dents.iter().zip(&b.dents).any(|(x, y)| shares(*x, of_b) != shares(*y, of_a)) {
            causes.push(Cause::Size);
        }
    }
    if attributes(a.written) != attributes(b.written) {
        causes.push(Cause::Attributes);
    }
    let measured = |half: &Half<'_>| {
        let mut marks: Vec<_> = half
            .marks
            .iter()
            .map(|m| {
                (
                    m.kind.value,
                    m.cause.map(|cause| cause.value),
                    m.length.map(|length| length.value),
                    m.width.map(|width| width.value),
                    m.depth.map(|depth| depth.value),
                    m.position.map(|position| position.value),
                    m.access.map(|access| access.value),
                )
            })
            .collect();
        marks.sort_unstable();
        marks
    };
    if measured(a) != measured(b) {
        causes.push(Cause::Marks);
    }
    if a.decided() != b.decided() {
        causes.push(Cause::Overrule);
    }
    causes
}

fn attributes(panel: &PanelCount) -> impl PartialEq + use<> {
    (
        panel.material.map(|v| v.value),
        panel.access.map(|v| v.value),
        panel.paint.map(|v| v.value),
        panel.depth.map(|v| v.value),
        panel.position.map(|v| v.value),
    )
}

/// A panel that takes the inputs of `exchanged` from `b` and the others from `a`.
pub(super) fn hybrid(a: &Half<'_>, b: &Half<'_>, exchanged: &[Cause], schedule: &Schedule) -> PanelCount {
    let takes = |cause: Cause| exchanged.contains(&cause);
    let dents = if takes(Cause::Dents) {
        b.dents.clone()
    } else {
        let number = if takes(Cause::Number) { b.total() } else { a.total() };
        let shape = if takes(Cause::Size) { &b.dents } else { &a.dents };
        in_shares(number, shape)
    };
    let noted = if takes(Cause::Attributes) { b.written } else { a.written };
    let marks = if takes(Cause::Marks) { &b.marks } else { &a.marks };
    tallied(noted, dents, marks, schedule, a.written)
}

/// A panel of these dents and marks, with what was noted of one look and the place of another.
fn tallied(
    noted: &PanelCount,
    dents: Vec<u32>,
    marks: &[&Mark],
    schedule: &Schedule,
    at: &PanelCount,
) -> PanelCount {
    let mut panel = PanelCount::new(at.panel, at.place);
    panel.tally = dents
        .into_iter()
        .zip(&schedule.sizes)
        .map(|(dents, band)| TallyEntry {
            size: Arc::new(SizeHeading { text: band.name.clone(), interval: None }),
            size_place: band.place,
            count: Counted::Counted(dents),
            place: at.place,
        })
        .collect();
    panel.marks = marks.iter().map(|mark| (*mark).clone()).collect();
    panel.material = noted.material;
    panel.access = noted.access;
    panel.paint = noted.paint;
    panel.depth = noted.depth;
    panel.position = noted.position;
    panel
}

/// A panel with another number of dents in the same shares of sizes; none where it has no dents in a tally.
pub(super) fn recounted(
    written: &PanelCount,
    assessed: &PanelAssessment,
    claim: &Claim,
    dents: u32,
    schedule: &Schedule,
) -> Option<PanelCount> {
    let half = Half::new(written, assessed, claim, Marks::Counted);
    (half.total() > 0)
        .then(|| tallied(written, in_shares(dents, &half.dents), &half.marks, schedule, written))
}

/// A number of dents in the shares of another count, whole by largest remainder.
fn in_shares(number: u32, shape: &[u32]) -> Vec<u32> {
    let weights: Vec<u64> = shape.iter().map(|dents| u64::from(*dents)).collect();
    largest_remainder(i64::from(number), &weights)
        .into_iter()
        .map(|part| u32::try_from(part).unwrap_or(0))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_in_the_other_sides_shares_is_whole_and_sums() {
        assert_eq!(in_shares(10, &[3, 3, 1]), [4, 4, 2]);
        assert_eq!(in_shares(7, &[3, 3, 1]), [3, 3, 1]);
        assert_eq!(in_shares(0, &[3, 3, 1]), [0, 0, 0]);
    }
}

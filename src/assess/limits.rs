//! Every limit that holds for a panel, evaluated: what was measured, and whether it is crossed.

use super::desk::{Desk, OrStop};
use super::mark::counts_as;
use super::{
    Alternative, Crossing, Finding, Formula, MarkAssessment, Measured, PanelAssessment, Recorder, Rule,
};
use crate::claim::{Located, Mark, MarkKind, Method, Paint, PanelCount, Place};
use crate::problem::Problem;
use crate::quantity::{Length, Percent};
use crate::schedule::{Limit, Measure, PanelTerms};

/// What a measure found: the value, whether the limit is crossed, the cells.
type Found = (Measured, Crossing, Vec<Place>);

/// Evaluates the limits. A panel that the schedule does not list has none.
pub(super) fn findings<R: Recorder>(
    desk: &mut Desk<'_, R>,
    written: &PanelCount,
    terms: Option<&PanelTerms>,
    panel: &PanelAssessment,
    alternatives: &[Alternative],
) -> Result<Vec<Finding>, Problem> {
    let Some(terms) = terms else { return Ok(Vec::new()) };
    let schedule = desk.schedule;
    let mut findings = Vec::with_capacity(schedule.limits.len());
    for (index, limit) in schedule.limits.iter().enumerate().filter(|(_, l)| l.scope.holds_for(terms)) {
        let shown = Shown { written, panel, alternatives };
        let (measured, crossing, cells) = measured(desk, limit, shown)?;
        findings.push(Finding { limit: index, measured, crossing, cells });
    }
    Ok(findings)
}

/// What a limit may look at.
#[derive(Clone, Copy)]
struct Shown<'a> {
    written: &'a PanelCount,
    panel: &'a PanelAssessment,
    alternatives: &'a [Alternative],
}

fn crossing(is_crossed: bool) -> Crossing {
    if is_crossed { Crossing::Yes } else { Crossing::No }
}

impl<'a> Shown<'a> {
    /// The paid marks of the panel, each with what became of it.
    fn paid(self) -> impl Iterator<Item = (&'a Mark, &'a MarkAssessment)> {
        let marks = self.written.marks.iter().zip(&self.panel.marks);
        marks.filter(|(_, fate)| **fate != MarkAssessment::Excluded)
    }
}

fn measured<R: Recorder>(desk: &mut Desk<'_, R>, limit: &Limit, shown: Shown<'_>) -> Result<Found, Problem> {
    let written = shown.written;
    Ok(match limit.measure {
        Measure::Material(wanted) => {
            attribute(wanted, written.material, std::iter::empty(), Measured::Material)
        }
        Measure::Paint(wanted) => {
            let broken = shown
                .paid()
                .filter(|(mark, _)| mark.kind.value == MarkKind::BrokenPaint)
                .map(|(mark, _)| Located::new(Paint::Broken, mark.kind.place));
            attribute(wanted, written.paint, broken, Measured::Paint)
        }
        Measure::Access(wanted) => {
            let marks = shown.paid().filter_map(|(mark, _)| mark.access);
            attribute(wanted, written.access, marks, Measured::Access)
        }
        Measure::Depth(wanted) => {
            let marks = shown.paid().filter_map(|(mark, _)| mark.depth);
            attribute(wanted, written.depth, marks, Measured::Depth)
        }
        Measure::MarkLength(kind, over) => mark_length(kind, over, shown),
        Measure::DentsOver(over) => dents(0, over, shown.panel),
        Measure::DentsOfSizeOver(size, over) => dents(size, over, shown.panel),
        Measure::ShareOfReplacing(share) => shares(desk, limit, share, shown, Method::Replace)?,
        Measure::ShareOfConventional(share) => shares(desk, limit, share, shown, Method::Conventional)?,
    })
}

/// An attribute of the panel, or of a paid mark: crossed where one of them is the wanted one.
fn attribute<T: Copy + PartialEq>(
    wanted: T,
    panel: Option<Located<T>>,
    marks: impl Iterator<Item = Located<T>>,
    measured: impl Fn(T) -> Measured,
) -> Found {
    let mut shown = None;
    let mut cells = Vec::new();
    for written in panel.into_iter().chain(marks) {
        if written.value == wanted {
            return (measured(wanted), Crossing::Yes, vec![written.place]);
        }
        cells.push(written.place);
        shown = shown.or(Some(written));
    }
    match shown {
        Some(written) => (measured(written.value), Crossing::No, cells),
        None => (Measured::Nothing, Crossing::No, Vec::new()),
    }
}

fn mark_length(kind: MarkKind, over: Length, shown: Shown<'_>) -> Found {
    let of_kind = shown.paid().filter(|(mark, fate)| counts_as(mark, fate) == kind);
    // Of equally long marks the first.
    let longest = of_kind
        .filter_map(|(mark, _)| mark.length)
        .reduce(|longest, next| if next.value > longest.value { next } else { longest });
    match longest {
        Some(length) => (Measured::Length(length.value), crossing(length.value > over), vec![length.place]),
        None => (Measured::Nothing, Crossing::No, Vec::new()),
    }
}

/// Dents of a size band or larger.
fn dents(size: usize, over: u32, panel: &PanelAssessment) -> Found {
    let bands = panel.counts.get(size..).unwrap_or_default();
    let number = bands.iter().fold(0_u32, |sum, band| sum.saturating_add(band.dents()));
    let cells = bands.iter().flat_map(|band| band.cells.iter().copied()).collect();
    (Measured::Dents(number), crossing(number > over), cells)
}

/// The paintless amount against a share of another way of repair.
fn shares<R: Recorder>(
    desk: &mut Desk<'_, R>,
    limit: &Limit,
    share: Percent,
    shown: Shown<'_>,
    other: Method,
) -> Result<Found, Problem> {
    let of = |method| shown.alternatives.iter().find(|alternative| alternative.method == method);
    let priced =
        |method| of(method).and_then(|alternative| Some((alternative.amount.ok()?, alternative.step)));
    let (Some((paintless, _)), Some((other, step))) = (priced(Method::Paintless), priced(other)) else {
        return Ok((Measured::Nothing, Crossing::CannotTell, Vec::new()));
    };
    let threshold = other.percent(share, desk.rounding()).or_stop(limit.place)?;
    let percent = desk.term(limit.place, share);
    desk.step(Rule::LimitAmount, threshold, || Formula::PercentOf { percent, of: step });
    let is_crossed = paintless.minor() > threshold.minor();
    Ok((Measured::Amounts { paintless, other, threshold }, crossing(is_crossed), Vec::new()))
}

//! Every panel from its counts to its decision.

use super::alternatives;
use super::base;
use super::bounds::bounds;
use super::count::{Tallied, tallied};
use super::decide;
use super::desk::Desk;
use super::draft::Draft;
use super::factors::factors;
use super::inspection::Seen;
use super::limits::findings;
use super::mark::marks;
use super::notes::could_be_less;
use super::price::Prices;
use super::{Alternative, MarkAssessment, PanelAssessment, PanelState, Recorder, Unpriced};
use crate::claim::{Method, Paint};
use crate::problem::Problem;
use crate::schedule::PanelTerms;

/// Assesses the panels one after the other. What stops the claim is left on the desk.
pub(super) fn assessed<'a, R: Recorder>(desk: &mut Desk<'a, R>, seen: &[Seen<'a>]) -> Vec<PanelAssessment> {
    let mut panels = Vec::with_capacity(seen.len());
    for seen in seen {
        match panel(desk, seen) {
            Ok(panel) => panels.push(panel),
            Err(problem) => desk.problems.push(problem),
        }
    }
    panels
}

fn panel<'a, R: Recorder>(desk: &mut Desk<'a, R>, seen: &Seen<'a>) -> Result<PanelAssessment, Problem> {
    let id = seen.panel.panel;
    let terms = desk.schedule.panels.iter().find(|terms| terms.kind == id.kind);
    let overrule = decide::overrule(desk, id);
    if !seen.panel.is_inspected() {
        decide::refuse_unseen(desk, overrule, id);
        return Ok(untouched(seen, terms, PanelState::NotInspected, Tallied::blank(desk.schedule)));
    }
    let mut tallied = tallied(desk, seen, terms);
    if overrule.is_none() && is_undamaged(seen, tallied.dents, &tallied.marks) {
        return Ok(untouched(seen, terms, PanelState::NoDamage, tallied));
    }
    let (paintless, rated_at) = paintless(desk, seen, terms, &mut tallied)?;
    let prices = Prices::of(desk, id, terms);
    let alternatives = alternatives::beside(desk, paintless, &prices, seen.panel.place)?;
    let mut panel = untouched(seen, terms, PanelState::Assessed, tallied);
    panel.rated_at = rated_at;
    panel.findings = findings(desk, seen.panel, terms, &panel, &alternatives)?;
    panel.alternatives = alternatives;
    could_be_less(desk, &panel);
    decide::decide(desk, seen, &mut panel, overrule)?;
    Ok(panel)
}

/// A panel without lines.
fn untouched(
    seen: &Seen<'_>,
    terms: Option<&PanelTerms>,
    state: PanelState,
    tallied: Tallied,
) -> PanelAssessment {
    PanelAssessment {
        panel: seen.panel.panel,
        inspection: seen.inspection,
        index: seen.index,
        group: terms.map(|terms| terms.group),
        state,
        counts: tallied.counts,
        dents: tallied.dents,
        rated_at: None,
        marks: tallied.marks,
        findings: Vec::new(),
        alternatives: Vec::new(),
        method: Method::NoRepair,
        decided_by: None,
        overruled: None,
        open: None,
    }
}

/// Inspected, and nothing that is paid was found.
pub(super) fn is_undamaged(seen: &Seen<'_>, dents: u32, marks: &[MarkAssessment]) -> bool {
    let is_broken = seen.panel.paint.is_some_and(|paint| paint.value == Paint::Broken);
    dents == 0 && !is_broken && marks.iter().all(|mark| *mark == MarkAssessment::Excluded)
}

/// Base, marks, factors, floor and cap.
fn paintless<R: Recorder>(
    desk: &mut Desk<'_, R>,
    seen: &Seen<'_>,
    terms: Option<&PanelTerms>,
    tallied: &mut Tallied,
) -> Result<(Alternative, Option<(usize, usize)>), Problem> {
    let mut draft = Draft::default();
    let place = seen.panel.place;
    let Some(terms) = terms else {
        draft.miss(Unpriced::NoPanelTerms);
        return Ok((draft.finish(desk, Method::Paintless, place)?, None));
    };
    let rated_at = base::dents(desk, &mut draft, terms.group, &tallied.counts, place)?;
    marks(desk, &mut draft, seen.panel, terms, &mut tallied.marks)?;
    // What is taken of an amount, or bounds it, is not made for a part of it.
    if draft.missing.is_none() {
        factors(desk, &mut draft, seen.panel, terms)?;
    }
    if draft.missing.is_none() {
        bounds(desk, &mut draft, terms, place)?;
    }
    Ok((draft.finish(desk, Method::Paintless, place)?, rated_at))
}

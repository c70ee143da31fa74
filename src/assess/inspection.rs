//! Which inspection is assessed, and which panels of agreed and supplementary ones stand in their place.

use crate::claim::{Claim, Inspection, Item, PanelCount, Place, Role};
use crate::problem::{Problem, catalogue::assess as wording};

/// A panel that is assessed, and where it was taken from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen<'a> {
    /// What was written of it.
    pub panel: &'a PanelCount,
    /// The inspection's number in the claim.
    pub inspection: usize,
    /// The panel's number in that inspection.
    pub index: usize,
}

/// The panels of a claim as they are assessed.
#[derive(Debug)]
pub(super) struct Inspected<'a> {
    /// The inspection that is assessed, by its number.
    pub base: usize,
    /// Inspections whose panels replace those of the base.
    pub overlays: Vec<usize>,
    /// Inspections that are neither: named and not added.
    pub others: Vec<usize>,
    /// The panels in document order.
    pub panels: Vec<Seen<'a>>,
}

/// The inspection to assess: the own one, else the only second, else the only agreed, else the only supplementary one.
pub(super) fn base(claim: &Claim) -> Result<usize, Problem> {
    for role in [Role::Own, Role::Second, Role::Agreed, Role::Supplement] {
        let mut candidates = claim.inspections.iter().enumerate().filter(|(_, seen)| seen.role() == role);
        match (candidates.next(), candidates.next()) {
            (Some((only, _)), None) => return Ok(only),
            (Some(_), Some(_)) => {
                let places: Vec<Place> =
                    claim.inspections.iter().filter(|seen| seen.role() == role).filter_map(place).collect();
                return Err(wording::two_inspections(role.name(), &places));
            }
            (None, _) => {}
        }
    }
    Err(wording::no_inspection())
}

fn place(inspection: &Inspection) -> Option<Place> {
    let written = inspection.role.map(|role| role.place);
    let who = inspection.assessor.as_ref().map(|assessor| assessor.place);
    written.or(who).or_else(|| inspection.panels.first().map(|panel| panel.place))
}

/// The panels to assess, overlays applied.
pub(super) fn inspected(claim: &Claim) -> Result<Inspected<'_>, Problem> {
    let base = base(claim)?;
    let mut overlays = Vec::new();
    let mut others = Vec::new();
    let mut panels: Vec<Seen<'_>> = panels_of(claim, base).collect();
    for (number, inspection) in claim.inspections.iter().enumerate().filter(|(number, _)| *number != base) {
        if !matches!(inspection.role(), Role::Agreed | Role::Supplement) {
            others.push(number);
            continue;
        }
        overlays.push(number);
        // A panel on which nothing was written says nothing, so it replaces nothing.
        for seen in panels_of(claim, number).filter(|seen| seen.panel.is_inspected()) {
            match panels.iter_mut().find(|there| there.panel.panel == seen.panel.panel) {
                Some(there) => *there = seen,
                None => panels.push(seen),
            }
        }
    }
    panels.sort_by_key(|seen| (seen.panel.panel, seen.inspection, seen.index));
    if claim.items.is_empty() && !panels.iter().any(|seen| seen.panel.is_inspected()) {
        return Err(wording::no_inspection());
    }
    Ok(Inspected { base, overlays, others, panels })
}

/// The inspected panels of one look, as if it were the claim's only one.
pub(super) fn alone<'a>(look: &'a Inspection, items: &[Item]) -> Result<Inspected<'a>, Problem> {
    let mut panels: Vec<Seen<'a>> = look
        .panels
        .iter()
        .enumerate()
        .filter(|(_, panel)| panel.is_inspected())
        .map(|(index, panel)| Seen { panel, inspection: 0, index })
        .collect();
    panels.sort_by_key(|seen| (seen.panel.panel, seen.index));
    if panels.is_empty() && items.is_empty() {
        return Err(wording::no_inspection());
    }
    Ok(Inspected { base: 0, overlays: Vec::new(), others: Vec::new(), panels })
}

fn panels_of(claim: &Claim, inspection: usize) -> impl Iterator<Item = Seen<'_>> {
    let panels = claim.inspections.get(inspection).map_or(&[][..], |seen| seen.panels.as_slice());
    panels.iter().enumerate().map(move |(index, panel)| Seen { panel, inspection, index })
}

//! Which inspection is assessed, and which panels of agreed and supplementary ones stand in their place.

use crate::claim::{
    Claim, Counted, Inspection, Item, PanelCount, Place, Role, SizeHeading, SizeInterval, TallyEntry,
};
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
    /// Inspections of which panels stand beside or in place of those of the base.
    pub overlays: Vec<usize>,
    /// All others: named and not added.
    pub others: Vec<usize>,
    /// The panels in document order.
    pub panels: Vec<Seen<'a>>,
    /// What panels of overlays leave out of those that they replace.
    pub left_out: Vec<Problem>,
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
    let mut left_out = Vec::new();
    let mut panels: Vec<Seen<'_>> = panels_of(claim, base).collect();
    for (number, inspection) in claim.inspections.iter().enumerate().filter(|(number, _)| *number != base) {
        if !matches!(inspection.role(), Role::Agreed | Role::Supplement) {
            continue;
        }
        // A panel on which nothing was written says nothing, so it replaces nothing.
        for seen in panels_of(claim, number).filter(|seen| seen.panel.is_inspected()) {
            match panels.iter_mut().find(|there| there.panel.panel == seen.panel.panel) {
                Some(there) => {
                    left_out.extend(left_out_of(claim, *there, seen));
                    *there = seen;
                }
                None => panels.push(seen),
            }
        }
    }
    panels.sort_by_key(|seen| (seen.panel.panel, seen.inspection, seen.index));
    if claim.items.is_empty() && !panels.iter().any(|seen| seen.panel.is_inspected()) {
        return Err(wording::no_inspection());
    }
    let later = (0..claim.inspections.len()).filter(|number| *number != base);
    let (overlays, others) = later.partition(|number| panels.iter().any(|seen| seen.inspection == *number));
    Ok(Inspected { base, overlays, others, panels, left_out })
}

/// The warning that a panel leaves out what the one it replaces says.
fn left_out_of(claim: &Claim, earlier: Seen<'_>, later: Seen<'_>) -> Option<Problem> {
    let (before, after) = (earlier.panel, later.panel);
    let is_dropped = |was: bool, is: bool| was && !is;
    let attributes = [
        ("material", is_dropped(before.material.is_some(), after.material.is_some())),
        ("access", is_dropped(before.access.is_some(), after.access.is_some())),
        ("paint", is_dropped(before.paint.is_some(), after.paint.is_some())),
        ("depth", is_dropped(before.depth.is_some(), after.depth.is_some())),
        ("position", is_dropped(before.position.is_some(), after.position.is_some())),
        ("marks", is_dropped(!before.marks.is_empty(), !after.marks.is_empty())),
    ];
    let attributes = attributes.iter().filter(|(_, dropped)| *dropped).map(|(what, _)| (*what).to_owned());
    let has_dents = |entry: &&TallyEntry| !matches!(entry.count, Counted::NoneWritten | Counted::Counted(0));
    let is_counted = |entry: &&TallyEntry| {
        let counted = after.tally.iter().filter(|later| later.count != Counted::NoneWritten);
        counted.map(|later| &later.size).any(|size| touch(size, &entry.size))
    };
    let sizes = before.tally.iter().filter(has_dents).filter(|entry| !is_counted(entry));
    let what: Vec<String> =
        attributes.chain(sizes.map(|entry| format!("dents of {}", entry.size.text))).collect();
    let role = claim.inspections.get(later.inspection).map_or(Role::Agreed, Inspection::role);
    let problem = || {
        wording::overlay_leaves_out(&after.panel.to_string(), role.name(), &what, after.place, before.place)
    };
    (!what.is_empty()).then(problem)
}

/// Whether two headings speak of the same sizes, at least in part.
fn touch(a: &SizeHeading, b: &SizeHeading) -> bool {
    let overlap = |a: SizeInterval, b: SizeInterval| {
        a.high.is_none_or(|high| high > b.low) && b.high.is_none_or(|high| high > a.low)
    };
    a == b || a.interval.zip(b.interval).is_some_and(|(a, b)| overlap(a, b))
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
    Ok(Inspected { base: 0, overlays: Vec::new(), others: Vec::new(), panels, left_out: Vec::new() })
}

fn panels_of(claim: &Claim, inspection: usize) -> impl Iterator<Item = Seen<'_>> {
    let panels = claim.inspections.get(inspection).map_or(&[][..], |seen| seen.panels.as_slice());
    panels.iter().enumerate().map(move |(index, panel)| Seen { panel, inspection, index })
}

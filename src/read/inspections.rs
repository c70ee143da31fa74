//! Counts of one panel put together, and rows that leave out whose they are joined to the inspection they belong to.

use super::draft::{Draft, Identity, settle};
use super::sizes;
use crate::claim::{Counted, Inspection, PanelCount, Place, Role, TallyEntry};
use crate::problem::{Problem, catalogue};
use std::collections::BTreeMap;

/// Adds the counts of one row. A number for a size that has one already is a problem, told once a row; a blank beside a
/// number says nothing.
pub(super) fn add_counts(panel: &mut PanelCount, entries: Vec<TallyEntry>, problems: &mut Vec<Problem>) {
    let mut is_told = false;
    for entry in entries {
        let wanted = sizes::rank(&entry.size);
        // Kept in the order of sizes, so that a sheet of thousands of sizes does not look through all for each.
        let earlier = match panel.tally.binary_search_by(|earlier| sizes::rank(&earlier.size).cmp(&wanted)) {
            Ok(at) => &mut panel.tally[at],
            Err(at) => {
                panel.tally.insert(at, entry);
                continue;
            }
        };
        match (&earlier.count, &entry.count) {
            (Counted::NoneWritten, Counted::NoneWritten) if entry.place < earlier.place => *earlier = entry,
            (_, Counted::NoneWritten) => {}
            (Counted::NoneWritten, _) => *earlier = entry,
            _ if is_told => {}
            _ => {
                is_told = true;
                let (first, second) = (earlier.place.min(entry.place), earlier.place.max(entry.place));
                let name = panel.panel.to_string();
                problems.push(catalogue::counts::panel_twice(first, second, &name, &entry.size.text));
            }
        }
    }
}

/// Whether a row of an agreed count says of a panel what another sheet said of it before: a table to agree on is written
/// as workbook and as text, and both may be given. It is told and adds nothing. What differs is no repetition.
pub(super) fn is_given_again(
    panel: &PanelCount,
    entries: &[TallyEntry],
    problems: &mut Vec<Problem>,
) -> bool {
    let same = |entry: &TallyEntry| {
        let wanted = sizes::rank(&entry.size);
        let found = panel.tally.binary_search_by(|earlier| sizes::rank(&earlier.size).cmp(&wanted)).ok()?;
        let is_again = |earlier: &&TallyEntry| {
            earlier.place.source != entry.place.source && earlier.count == entry.count
        };
        Some(&panel.tally[found]).filter(is_again)
    };
    let is_again = entries.iter().all(|entry| same(entry).is_some());
    let written = entries.iter().find(|entry| entry.count != Counted::NoneWritten);
    let Some((entry, earlier)) = written.and_then(|entry| Some((entry, same(entry)?))).filter(|_| is_again)
    else {
        return false;
    };
    let (first, second) = (earlier.place.min(entry.place), earlier.place.max(entry.place));
    problems.push(catalogue::counts::agreed_twice(first, second, &panel.panel.to_string()));
    true
}

/// Joins each inspection that leaves out its assessor, date or pass to the only one that it can belong to: the one that
/// says the same where it says anything; where it says nothing, the own one, and marks alone, where there is no own one,
/// whichever there is. What fits several stays by itself and is asked about.
pub(super) fn join_partial(draft: &mut Draft) {
    let mut partial: Vec<Identity> = draft.inspections.keys().filter(|key| said(key) < 3).cloned().collect();
    // The most particular first: what joins it later sees the whole.
    partial.sort_by_key(|key| std::cmp::Reverse(said(key)));
    for key in partial {
        let Some(inspection) = draft.inspections.get(&key) else { continue };
        let fitting = fitting(&draft.inspections, &key, inspection);
        match fitting[..] {
            [] => {}
            [whole] => {
                let whole = whole.clone();
                if let Some(part) = draft.inspections.remove(&key)
                    && let Some(whole) = draft.inspections.get_mut(&whole)
                {
                    absorb(whole, part, &mut draft.problems);
                }
            }
            _ => {
                let wholes = fitting.iter().filter_map(|whole| first_place(draft.inspections.get(whole)?));
                let question = first_place(inspection)
                    .map(|place| catalogue::claim::inspection_open(place, &wholes.collect::<Vec<_>>()));
                draft.problems.extend(question);
            }
        }
    }
}

/// The inspections that a part may belong to.
fn fitting<'i>(
    all: &'i BTreeMap<Identity, Inspection>,
    part: &Identity,
    by: &Inspection,
) -> Vec<&'i Identity> {
    let fitting = |is_role: &dyn Fn(Role) -> bool| -> Vec<&'i Identity> {
        let fits =
            |(other, whole): &(&Identity, &Inspection)| fits(part, by, other, whole) && is_role(whole.role());
        all.iter().filter(fits).map(|(other, _)| other).collect()
    };
    if said(part) > 0 || by.role.is_some() {
        return fitting(&|_| true);
    }
    let own = fitting(&|role| role == Role::Own);
    // Counts that nobody signed are an own inspection; marks alone are a part of one.
    let has_counts = by.panels.iter().any(|panel| !panel.tally.is_empty());
    if own.is_empty() && !has_counts { fitting(&|_| true) } else { own }
}

fn first_place(inspection: &Inspection) -> Option<Place> {
    inspection.panels.iter().map(|panel| panel.place).min()
}

fn said((assessor, date, pass, _): &Identity) -> usize {
    usize::from(assessor.is_some()) + usize::from(date.is_some()) + usize::from(pass.is_some())
}

fn fits(part: &Identity, by: &Inspection, whole: &Identity, of: &Inspection) -> bool {
    let role_fits = by.role.is_none_or(|role| of.role() == role.value);
    let pass_fits = said(part) == 0 || part.2.unwrap_or(1) == whole.2.unwrap_or(1);
    said(whole) > said(part)
        && role_fits
        && pass_fits
        && (part.0.is_none() || part.0 == whole.0)
        && (part.1.is_none() || part.1 == whole.1)
}

fn absorb(whole: &mut Inspection, part: Inspection, problems: &mut Vec<Problem>) {
    settle(&mut whole.assessor, part.assessor, "assessor", problems);
    settle(&mut whole.date, part.date, "date of inspection", problems);
    settle(&mut whole.pass, part.pass, "pass", problems);
    settle(&mut whole.location, part.location, "place of inspection", problems);
    settle(&mut whole.role, part.role, "role", problems);
    let mut panels: BTreeMap<_, PanelCount> =
        std::mem::take(&mut whole.panels).into_iter().map(|panel| (panel.panel, panel)).collect();
    for panel in part.panels {
        match panels.get_mut(&panel.panel) {
            Some(same) => add_panel(same, panel, problems),
            None => {
                panels.insert(panel.panel, panel);
            }
        }
    }
    whole.panels = panels.into_values().collect();
}

fn add_panel(panel: &mut PanelCount, more: PanelCount, problems: &mut Vec<Problem>) {
    panel.place = panel.place.min(more.place);
    add_counts(panel, more.tally, problems);
    panel.marks.extend(more.marks);
    panel.remarks.extend(more.remarks);
    settle(&mut panel.material, more.material, "material", problems);
    settle(&mut panel.access, more.access, "access", problems);
    settle(&mut panel.paint, more.paint, "paint", problems);
    settle(&mut panel.depth, more.depth, "depth", problems);
    settle(&mut panel.position, more.position, "position", problems);
    settle(&mut panel.frame, more.frame, "frame", problems);
}

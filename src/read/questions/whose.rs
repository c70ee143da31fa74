//! Inspections of which one has to hold.

use crate::claim::{Counted, Inspection, Intake, Located, Role};

/// Inspections of one role where one has to hold: how each is told from the others, its dents, and the others.
pub(super) fn whose(intakes: &[Intake]) -> Vec<(Located<String>, u64, String)> {
    let dents = |inspection: &Inspection| -> u64 {
        let entries = inspection.panels.iter().flat_map(|panel| &panel.tally);
        let number =
            |count: &Counted| if let Counted::Counted(count) = count { u64::from(*count) } else { 0 };
        entries.map(|entry| number(&entry.count)).sum()
    };
    let mut whose = Vec::new();
    for intake in intakes {
        let own: Vec<&Inspection> =
            intake.claim.inspections.iter().filter(|inspection| inspection.role() == Role::Own).collect();
        for inspection in own.iter().filter(|_| own.len() > 1) {
            let others: Vec<String> = own
                .iter()
                .filter(|other| !std::ptr::eq(**other, *inspection))
                .map(|other| format!("another {}", dents(other)))
                .collect();
            let pass = inspection.pass.map(|pass| Located::new(pass.value.to_string(), pass.place));
            let is_same = own.iter().all(|other| {
                let name = |one: &Inspection| one.assessor.as_ref().map(|assessor| assessor.value.clone());
                name(other) == name(inspection)
            });
            let date = inspection.date.map(|date| Located::new(date.value.to_string(), date.place));
            let written = if is_same { pass.or(date) } else { inspection.assessor.clone() };
            whose.extend(written.map(|written| (written, dents(inspection), others.join(", "))));
        }
    }
    whose
}

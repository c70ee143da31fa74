//! Cautions that belong on the documents, derived from operations, items, panels and the vehicle. Common practice, no
//! source; each defers to the maker's instructions and licensed people.

use super::desk::Desk;
use super::{Caution, Line, LineKind, PanelAssessment};
use crate::claim::{Access, Claim, Drive, Item, Material, Method, PanelCount, PanelKind, words::folded};
use crate::schedule::{Joint, Schedule};

/// Words in an item's name that mean glass.
const GLASS: [&str; 8] =
    ["glass", "windscreen", "windshield", "window", "sunroof", "backlight", "rear screen", "quarterlight"];

/// Words in an item's name behind which a camera or radar may sit.
const BEFORE_SENSORS: [&str; 7] = ["bumper", "mirror", "grille", "camera", "radar", "sensor", "badge"];

/// The cautions that apply, in their order, each once.
pub(super) fn cautions<R>(desk: &Desk<'_, R>, panels: &[PanelAssessment], lines: &[Line]) -> Vec<Caution> {
    let worked: Vec<(&PanelAssessment, &PanelCount)> = panels
        .iter()
        .filter(|panel| !matches!(panel.method, Method::NoRepair | Method::Refer))
        .filter_map(|panel| {
            let inspection = desk.claim.inspections.get(panel.inspection)?;
            Some((panel, inspection.panels.get(panel.index)?))
        })
        .collect();
    let items = &desk.claim.items;
    let mut found = Vec::new();
    if worked.is_empty() && items.is_empty() {
        return found;
    }
    of_operations(desk, lines, &mut found);
    for (panel, written) in &worked {
        found.extend(cautions_of_panel(desk.claim, desk.schedule, panel, written));
    }
    for item in items {
        found.extend(cautions_of_item(desk.claim, item));
    }
    if desk.claim.vehicle.drive.is_some_and(|drive| drive.value != Drive::Combustion) {
        found.push(Caution::HighVoltage);
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Operations that are charged: a known word is the caution of that name, anything else is printed as stated.
fn of_operations<R>(desk: &Desk<'_, R>, lines: &[Line], found: &mut Vec<Caution>) {
    for line in lines {
        let (LineKind::OperationLabour { operation, .. } | LineKind::OperationParts { operation, .. }) =
            line.kind
        else {
            continue;
        };
        found.extend(caution_of(desk.schedule, operation));
    }
}

/// The caution that an operation of the schedule carries, by its number there.
pub fn caution_of(schedule: &Schedule, operation: usize) -> Option<Caution> {
    let caution = schedule.operations.get(operation)?.caution.as_ref()?;
    Some(match folded(&caution.value).as_str() {
        "airbag" | "airbags" => Caution::Airbag,
        "high voltage" => Caution::HighVoltage,
        "calibration" => Caution::Calibration,
        "structural" => Caution::Structural,
        "heat" => Caution::Heat,
        "glass" => Caution::Glass,
        "chemicals" => Caution::Chemicals,
        _ => Caution::Stated(operation),
    })
}

/// What one panel calls for, in no order.
pub fn cautions_of_panel(
    claim: &Claim,
    schedule: &Schedule,
    panel: &PanelAssessment,
    written: &PanelCount,
) -> Vec<Caution> {
    let mut found = Vec::new();
    let kind = panel.panel.kind;
    let is_painted = panel.method >= Method::RefinishAfter;
    let access = written.access.map(|access| access.value);
    let material = written.material.map(|material| material.value);
    let terms = schedule.panels.iter().find(|terms| terms.kind == kind);
    if matches!(
        kind,
        PanelKind::Roof | PanelKind::RoofRail | PanelKind::APillar | PanelKind::BPillar | PanelKind::CPillar
    ) {
        found.push(Caution::Airbag);
    }
    if matches!(kind, PanelKind::FrontBumper | PanelKind::RearBumper | PanelKind::MirrorCap)
        && has_assistance(claim)
    {
        found.push(Caution::Calibration);
    }
    if matches!(panel.method, Method::Replace | Method::Conventional)
        && terms.is_some_and(|terms| terms.joint.value == Joint::Welded)
    {
        found.push(Caution::Structural);
    }
    if matches!(material, Some(Material::Aluminium | Material::HighStrengthSteel)) {
        found.push(Caution::Heat);
    }
    if access == Some(Access::WindowGap) || material == Some(Material::Glass) {
        found.push(Caution::Glass);
    }
    if is_painted || access == Some(Access::GlueOnly) {
        found.push(Caution::Chemicals);
    }
    found
}

/// What one item calls for, in no order.
pub fn cautions_of_item(claim: &Claim, item: &Item) -> Vec<Caution> {
    let mut found = Vec::new();
    let name = folded(&item.name.value);
    let is_glass = GLASS.iter().any(|word| name.contains(word));
    if is_glass {
        found.push(Caution::Glass);
    }
    let calibration = item.calibration.map(|calibration| calibration.value);
    let may_hold_sensors = is_glass || BEFORE_SENSORS.iter().any(|word| name.contains(word));
    if calibration == Some(true) || (calibration.is_none() && has_assistance(claim) && may_hold_sensors) {
        found.push(Caution::Calibration);
    }
    found
}

/// Whether cameras, radar or the like are written for the vehicle.
fn has_assistance(claim: &Claim) -> bool {
    let written = claim.vehicle.driver_assistance.as_ref().map(|written| folded(&written.value));
    written.is_some_and(|written| !matches!(written.as_str(), "" | "no" | "none" | "without" | "n a"))
}

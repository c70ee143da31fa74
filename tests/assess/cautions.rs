//! Which cautions follow from what.

use crate::assessed;
use crate::builder::{
    claim_with, dents, hood, item, left, limit, operation, roof, schedule, stated, written,
};
use stipple::assess::Caution;
use stipple::claim::{Access, Claim, Drive, Material, Method, Paint, PanelCount, PanelKind};
use stipple::schedule::{Measure, Once, Schedule, Scope};

fn of(claim: &Claim, schedule: &Schedule) -> Vec<Caution> {
    assessed(claim, schedule).cautions
}

fn of_panel(panel: PanelCount) -> Vec<Caution> {
    let mut schedule = schedule();
    schedule.limits = vec![
        limit(Measure::Paint(Paint::Broken), Method::RefinishAfter),
        limit(Measure::DentsOver(20), Method::Conventional),
    ];
    of(&claim_with(vec![panel]), &schedule)
}

#[test]
fn work_on_a_bolted_steel_panel_calls_for_none() {
    assert!(of_panel(dents(hood(), 1, 0, 0)).is_empty());
}

#[test]
fn roof_rails_and_pillars_lie_before_curtain_airbags() {
    assert_eq!(of_panel(dents(roof(), 1, 0, 0)), [Caution::Airbag]);
    assert!(of_panel(dents(roof(), 0, 0, 0)).is_empty(), "no work, no caution");
}

#[test]
fn a_welded_panel_that_is_repaired_conventionally_or_replaced_is_structural() {
    let quarter = left(PanelKind::QuarterPanel);
    assert_eq!(of_panel(dents(quarter, 21, 0, 0)), [Caution::Structural, Caution::Chemicals]);
    assert_eq!(of_panel(dents(hood(), 21, 0, 0)), [Caution::Chemicals]);
}

#[test]
fn material_access_and_paint_call_for_theirs() {
    let with = |change: &dyn Fn(&mut PanelCount)| {
        let mut panel = dents(hood(), 1, 0, 0);
        change(&mut panel);
        of_panel(panel)
    };
    assert_eq!(with(&|panel| panel.material = Some(written(Material::Aluminium))), [Caution::Heat]);
    assert_eq!(with(&|panel| panel.material = Some(written(Material::HighStrengthSteel))), [Caution::Heat]);
    assert_eq!(with(&|panel| panel.access = Some(written(Access::WindowGap))), [Caution::Glass]);
    assert_eq!(with(&|panel| panel.access = Some(written(Access::GlueOnly))), [Caution::Chemicals]);
    assert_eq!(with(&|panel| panel.paint = Some(written(Paint::Broken))), [Caution::Chemicals]);
}

#[test]
fn a_vehicle_with_high_voltage_calls_for_its_caution_where_there_is_work() {
    let mut claim = claim_with(vec![dents(hood(), 1, 0, 0)]);
    claim.vehicle.drive = Some(written(Drive::Electric));
    assert_eq!(of(&claim, &schedule()), [Caution::HighVoltage]);
    claim.vehicle.drive = Some(written(Drive::Combustion));
    assert!(of(&claim, &schedule()).is_empty());
    claim.vehicle.drive = Some(written(Drive::Hybrid));
    claim.inspections[0].panels = vec![dents(hood(), 0, 0, 0)];
    assert!(of(&claim, &schedule()).is_empty());
}

#[test]
fn glass_and_what_holds_sensors_call_for_calibration_where_assistance_is_written() {
    let mut claim = claim_with(vec![dents(hood(), 0, 0, 0)]);
    claim.items = vec![item("Windscreen", Some("400"), None)];
    assert_eq!(of(&claim, &schedule()), [Caution::Glass]);
    claim.vehicle.driver_assistance = Some(written("none".to_owned()));
    assert_eq!(of(&claim, &schedule()), [Caution::Glass]);
    claim.vehicle.driver_assistance = Some(written("front camera".to_owned()));
    assert_eq!(of(&claim, &schedule()), [Caution::Calibration, Caution::Glass]);
    claim.items[0].calibration = Some(written(false));
    assert_eq!(of(&claim, &schedule()), [Caution::Glass]);
    claim.items = vec![item("left door mirror", Some("90"), None)];
    assert_eq!(of(&claim, &schedule()), [Caution::Calibration]);
    claim.vehicle.driver_assistance = None;
    claim.items[0].calibration = Some(written(true));
    assert_eq!(of(&claim, &schedule()), [Caution::Calibration]);
}

#[test]
fn an_operations_caution_is_a_known_word_or_the_schedules_own() {
    let mut schedule = schedule();
    for caution in ["Airbag", "high-voltage", "keep the battery charged"] {
        let mut made = operation(caution, Scope::Any, Some("1"), None, Once::Vehicle);
        made.caution = Some(stated(caution.to_owned()));
        schedule.operations.push(made);
    }
    let expected = [Caution::Airbag, Caution::HighVoltage, Caution::Stated(2)];
    assert_eq!(of(&claim_with(vec![dents(hood(), 1, 0, 0)]), &schedule), expected);
    assert!(of(&claim_with(vec![dents(hood(), 0, 0, 0)]), &schedule).is_empty());
}

//! Vehicles, their owners and insurers. The same columns may stand in tables of counts.

use super::Target;
use crate::claim::Remark;
use crate::problem::catalogue;
use crate::read::cells::Cells;
use crate::read::columns::{FACTS, KEYS, LOT_EXCESS_CAP, REMARK, joined};
use crate::read::draft::{Draft, settle};
use crate::read::measures::Dollar;
use crate::table::{Column, Form};

pub(super) static FORM: Form = Form {
    name: "vehicles",
    columns: &COLUMNS,
    family: None,
    one_of: &["make", "model", "insurer", "owner", "body type", "market value"],
};
static COLUMNS: [Column; 35] = joined(&[&KEYS, &FACTS, &REMARK]);

/// The keys of a row, which are facts, too, where several stand beside each other.
pub(crate) fn keys(cells: &mut Cells<'_, '_>, draft: &mut Draft) {
    let (vehicle, parties) = (&mut draft.claim.vehicle, &mut draft.claim.parties);
    let found = cells.text("claim");
    settle(&mut parties.claim_number, found, "claim number", &mut cells.problems);
    let found = cells.text("job");
    settle(&mut parties.job_number, found, "job number", &mut cells.problems);
    let found = cells.text("registration");
    settle(&mut vehicle.registration, found, "registration", &mut cells.problems);
    let found = cells.text("vin");
    settle(&mut vehicle.vin, found, "VIN", &mut cells.problems);
}

/// What a row says of the car and of what decides how other cells are read. Read for every row first,
/// so that the order of the rows does not matter.
pub(crate) fn facts(cells: &mut Cells<'_, '_>, draft: &mut Draft) {
    let vehicle = &mut draft.claim.vehicle;
    let found = cells.text("make");
    settle(&mut vehicle.make, found, "make", &mut cells.problems);
    let found = cells.text("model");
    settle(&mut vehicle.model, found, "model", &mut cells.problems);
    let found = cells.year("year");
    settle(&mut vehicle.year, found, "year", &mut cells.problems);
    let found = cells.word("body type");
    settle(&mut vehicle.body, found, "body type", &mut cells.problems);
    let found = cells.text("vehicle class");
    settle(&mut vehicle.class, found, "vehicle class", &mut cells.problems);
    let found = cells.word("steering");
    settle(&mut vehicle.steering, found, "steering", &mut cells.problems);
    let found = cells.text("place of registration");
    settle(&mut vehicle.registered_in, found, "place of registration", &mut cells.problems);
    let found = cells.text("market");
    settle(&mut vehicle.market, found, "market", &mut cells.problems);
    let found = cells.text("colour");
    settle(&mut vehicle.colour, found, "colour", &mut cells.problems);
    let found = cells.text("paint kind");
    settle(&mut vehicle.paint_kind, found, "paint kind", &mut cells.problems);
    let found = cells.text("odometer");
    settle(&mut vehicle.odometer, found, "odometer", &mut cells.problems);
    let found = cells.text("roof equipment");
    settle(&mut vehicle.roof_equipment, found, "roof equipment", &mut cells.problems);
    let found = cells.text("driver assistance");
    settle(&mut vehicle.driver_assistance, found, "driver assistance", &mut cells.problems);
    let found = cells.word("drive");
    settle(&mut vehicle.drive, found, "drive", &mut cells.problems);
}

/// What a row says of the claim itself.
pub(crate) fn terms(cells: &mut Cells<'_, '_>, draft: &mut Draft, dollar: Dollar) {
    let claim = &mut draft.claim;
    let parties = &mut claim.parties;
    let found = cells.text("policy");
    settle(&mut parties.policy_number, found, "policy", &mut cells.problems);
    let found = cells.text("insurer");
    settle(&mut parties.insurer, found, "insurer", &mut cells.problems);
    let found = cells.text("owner");
    settle(&mut parties.owner, found, "owner", &mut cells.problems);
    let found = cells.text("lot");
    settle(&mut parties.lot, found, "lot", &mut cells.problems);
    let found = cells.amount(LOT_EXCESS_CAP, dollar);
    settle(&mut parties.lot_cap, found, LOT_EXCESS_CAP, &mut cells.problems);
    let found = cells.amount("excess", dollar);
    settle(&mut parties.excess, found, "excess", &mut cells.problems);
    let found = cells.amount("market value", dollar);
    settle(&mut parties.market_value, found, "market value", &mut cells.problems);
    let found = cells.amount("salvage", dollar);
    settle(&mut parties.salvage, found, "salvage", &mut cells.problems);
    let found = cells.amount("policy limit", dollar);
    settle(&mut parties.policy_limit, found, "policy limit", &mut cells.problems);
    let found = cells.word("tax position");
    settle(&mut parties.tax_position, found, "tax position", &mut cells.problems);
    let found = cells.percent("tax share");
    settle(&mut parties.tax_share, found, "tax share", &mut cells.problems);
    let found = cells.word("settlement");
    settle(&mut parties.settlement, found, "settlement", &mut cells.problems);
    let event = &mut claim.event;
    let found = cells.text("event");
    settle(&mut event.name, found, "event", &mut cells.problems);
    let found = cells.date("date of loss");
    settle(&mut event.date, found, "date of loss", &mut cells.problems);
    let found = cells.text("cause of loss");
    settle(&mut event.cause, found, "cause of loss", &mut cells.problems);
    let found = cells.text("place of loss");
    settle(&mut event.location, found, "place of loss", &mut cells.problems);
}

/// One row of a table of vehicles.
pub(super) fn read(cells: &mut Cells<'_, '_>, target: &mut Target<'_>) {
    let place = cells.place();
    if let Some(first) = target.draft.vehicle_row.replace(place)
        && first.source == place.source
    {
        cells.problems.push(catalogue::claim::claim_twice(first, place));
    }
    let remark = cells.text("remark");
    target
        .draft
        .claim
        .remarks
        .extend(remark.map(|remark| Remark { place: remark.place, text: remark.value }));
}

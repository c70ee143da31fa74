//! What was written for a claim, each value with its cell.

use super::enclosed::{EnclosureView, ImageView};
use crate::claim::{
    Claim, Counted, Inspection, Located, Mark, PanelCount, SourceId, TallyEntry, WrittenAmount,
};
use crate::problem::{Place, Sources};
use serde::Serialize;
use std::fmt::Display;

/// A value as understood, with the cell it was written in.
#[derive(Debug, Serialize)]
pub struct Cell {
    value: String,
    at: String,
}

/// An amount as written, with its cell, and its currency where one was said.
#[derive(Debug, Serialize)]
pub struct AmountCell {
    amount: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    currency: Option<&'static str>,
    at: String,
}

/// Makes cells of located values.
#[derive(Debug, Clone, Copy)]
pub struct Cells<'a>(pub &'a Sources);

impl Cells<'_> {
    /// A place in short.
    pub fn at(self, place: Place) -> String {
        self.0.short(place)
    }

    /// Places in short.
    pub fn all(self, places: &[Place]) -> Vec<String> {
        places.iter().map(|place| self.at(*place)).collect()
    }

    pub(super) fn of<T: Display>(self, located: &Located<T>) -> Cell {
        Cell { value: located.value.to_string(), at: self.at(located.place) }
    }

    pub(super) fn maybe<T: Display>(self, located: Option<&Located<T>>) -> Option<Cell> {
        located.map(|located| self.of(located))
    }

    fn amount(self, located: &Located<WrittenAmount>) -> AmountCell {
        AmountCell {
            amount: located.value.amount.to_string(),
            currency: located.value.currency.map(crate::quantity::Currency::code),
            at: self.at(located.place),
        }
    }

    fn maybe_amount(self, located: Option<&Located<WrittenAmount>>) -> Option<AmountCell> {
        located.map(|located| self.amount(located))
    }
}

/// Declares a view whose fields are left out when nothing was written.
macro_rules! view {
    ($(#[$meta:meta])* $name:ident { $($field:ident: $type:ty),+ $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Serialize)]
        pub struct $name { $(#[serde(skip_serializing_if = "Option::is_none")] $field: Option<$type>),+ }
    };
}

view! {
    /// Event, numbers, people and terms.
    PartiesView {
        event: Cell, date_of_loss: Cell, place_of_loss: Cell, cause_of_loss: Cell,
        claim_number: Cell, job_number: Cell, policy: Cell, insurer: Cell, owner: Cell, lot: Cell,
        lot_excess_cap: AmountCell, excess: AmountCell, market_value: AmountCell, salvage: AmountCell, policy_limit: AmountCell,
        tax_position: Cell, tax_share: Cell, settlement: Cell,
    }
}

view! {
    /// The vehicle.
    VehicleView {
        vin: Cell, registration: Cell, make: Cell, model: Cell, year: Cell, body_type: Cell, class: Cell,
        steering: Cell, place_of_registration: Cell, market: Cell, colour: Cell, paint_kind: Cell, odometer: Cell, roof_equipment: Cell,
        driver_assistance: Cell, drive: Cell,
    }
}

view! {
    /// One damaged thing that is no panel.
    ItemView {
        at: String, name: Cell, action: Cell, price: AmountCell, hours: Cell, calibration: Cell, source: Cell,
        date: Cell, remark: Cell,
    }
}

view! {
    /// Prices and times of one panel.
    PartView {
        at: String, panel: String, price: AmountCell, fitting: Cell, conventional: Cell, refinish: Cell,
        paint_material: AmountCell, source: Cell, date: Cell,
    }
}

view! {
    /// A photograph.
    PhotographView { at: String, file: Cell, shows: Cell, panel: Cell, mark: Cell, date: Cell, image: ImageView }
}

view! {
    /// A person's decision.
    OverruleView { at: String, panel: String, method: Cell, by: Cell, reason: Cell, date: Cell }
}

view! {
    /// A payment after an earlier event.
    PaidBeforeView { at: String, panel: String, amount: AmountCell, event: Cell, date: Cell }
}

view! {
    /// One mark.
    MarkView {
        at: String, kind: Cell, cause: Cell, length: Cell, width: Cell, depth: Cell, position: Cell, access: Cell,
        remark: Cell,
    }
}

/// One person's inspection.
#[derive(Debug, Serialize)]
pub struct InspectionView {
    role: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    assessor: Option<Cell>,
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<Cell>,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<Cell>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pass: Option<Cell>,
    panels: Vec<PanelCountView>,
}

#[derive(Debug, Serialize)]
struct PanelCountView {
    panel: String,
    at: String,
    counts: Vec<TallyView>,
    marks: Vec<MarkView>,
    #[serde(flatten)]
    attributes: AttributesView,
    remarks: Vec<Cell>,
}

view! {
    AttributesView { material: Cell, access: Cell, paint: Cell, depth: Cell, position: Cell, frame: Cell }
}

#[derive(Debug, Serialize)]
struct TallyView {
    size: String,
    size_at: String,
    count: CountView,
    at: String,
}

/// What a cell says about a number of dents.
#[derive(Debug, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum CountView {
    NoneWritten,
    Counted { dents: u32 },
    Estimated { low: u32, best: Option<u32>, high: Option<u32>, written: String },
    Open,
}

impl From<&Counted> for CountView {
    fn from(counted: &Counted) -> Self {
        match counted {
            Counted::NoneWritten => Self::NoneWritten,
            Counted::Counted(dents) => Self::Counted { dents: *dents },
            Counted::Estimated { low, best, high, how } => {
                Self::Estimated { low: *low, best: *best, high: *high, written: how.clone() }
            }
            Counted::Open => Self::Open,
        }
    }
}

/// Everything that was written for a claim.
#[derive(Debug, Serialize)]
pub struct WrittenView {
    parties: PartiesView,
    vehicle: VehicleView,
    inspections: Vec<InspectionView>,
    items: Vec<ItemView>,
    parts: Vec<PartView>,
    photographs: Vec<PhotographView>,
    documents: Vec<EnclosureView>,
    overrules: Vec<OverruleView>,
    paid_before: Vec<PaidBeforeView>,
    remarks: Vec<Cell>,
    read_from: Vec<String>,
}

impl WrittenView {
    /// A claim's.
    pub fn new(claim: &Claim, sources: &Sources) -> Self {
        let cells = Cells(sources);
        let at = |place: Place| Some(cells.at(place));
        Self {
            parties: parties(claim, cells),
            vehicle: vehicle(claim, cells),
            inspections: claim.inspections.iter().map(|inspected| inspection(inspected, cells)).collect(),
            items: claim
                .items
                .iter()
                .map(|item| ItemView {
                    at: at(item.place),
                    name: Some(cells.of(&item.name)),
                    action: cells.maybe(item.action.as_ref()),
                    price: cells.maybe_amount(item.price.as_ref()),
                    hours: cells.maybe(item.hours.as_ref()),
                    calibration: cells.maybe(item.calibration.as_ref()),
                    source: cells.maybe(item.source.as_ref()),
                    date: cells.maybe(item.date.as_ref()),
                    remark: cells.maybe(item.remark.as_ref()),
                })
                .collect(),
            parts: claim
                .parts
                .iter()
                .map(|part| PartView {
                    at: at(part.place),
                    panel: Some(part.panel.to_string()),
                    price: cells.maybe_amount(part.price.as_ref()),
                    fitting: cells.maybe(part.fitting.as_ref()),
                    conventional: cells.maybe(part.conventional.as_ref()),
                    refinish: cells.maybe(part.refinish.as_ref()),
                    paint_material: cells.maybe_amount(part.paint_material.as_ref()),
                    source: cells.maybe(part.source.as_ref()),
                    date: cells.maybe(part.date.as_ref()),
                })
                .collect(),
            photographs: claim
                .photographs
                .iter()
                .map(|photograph| PhotographView {
                    at: at(photograph.place),
                    file: Some(cells.of(&photograph.file)),
                    shows: cells.maybe(photograph.shows.as_ref()),
                    panel: cells.maybe(photograph.panel.as_ref()),
                    mark: cells.maybe(photograph.mark.as_ref()),
                    date: cells.maybe(photograph.date.as_ref()),
                    image: photograph.image.as_ref().map(ImageView::new),
                })
                .collect(),
            documents: EnclosureView::all(&claim.enclosures, cells),
            overrules: claim
                .overrules
                .iter()
                .map(|overrule| OverruleView {
                    at: at(overrule.place),
                    panel: Some(overrule.panel.to_string()),
                    method: Some(cells.of(&overrule.method)),
                    by: cells.maybe(overrule.by.as_ref()),
                    reason: cells.maybe(overrule.reason.as_ref()),
                    date: cells.maybe(overrule.date.as_ref()),
                })
                .collect(),
            paid_before: claim
                .paid_before
                .iter()
                .map(|paid| PaidBeforeView {
                    at: at(paid.place),
                    panel: Some(paid.panel.to_string()),
                    amount: Some(cells.amount(&paid.amount)),
                    event: cells.maybe(paid.event.as_ref()),
                    date: cells.maybe(paid.date.as_ref()),
                })
                .collect(),
            remarks: claim
                .remarks
                .iter()
                .map(|remark| Cell { value: remark.text.clone(), at: cells.at(remark.place) })
                .collect(),
            read_from: claim
                .sources
                .iter()
                .map(|source: &SourceId| cells.at(Place::whole(*source)))
                .collect(),
        }
    }
}

fn parties(claim: &Claim, cells: Cells<'_>) -> PartiesView {
    let (event, parties) = (&claim.event, &claim.parties);
    PartiesView {
        event: cells.maybe(event.name.as_ref()),
        date_of_loss: cells.maybe(event.date.as_ref()),
        place_of_loss: cells.maybe(event.location.as_ref()),
        cause_of_loss: cells.maybe(event.cause.as_ref()),
        claim_number: cells.maybe(parties.claim_number.as_ref()),
        job_number: cells.maybe(parties.job_number.as_ref()),
        policy: cells.maybe(parties.policy_number.as_ref()),
        insurer: cells.maybe(parties.insurer.as_ref()),
        owner: cells.maybe(parties.owner.as_ref()),
        lot: cells.maybe(parties.lot.as_ref()),
        excess: cells.maybe_amount(parties.excess.as_ref()),
        market_value: cells.maybe_amount(parties.market_value.as_ref()),
        salvage: cells.maybe_amount(parties.salvage.as_ref()),
        lot_excess_cap: cells.maybe_amount(parties.lot_cap.as_ref()),
        policy_limit: cells.maybe_amount(parties.policy_limit.as_ref()),
        tax_position: cells.maybe(parties.tax_position.as_ref()),
        tax_share: cells.maybe(parties.tax_share.as_ref()),
        settlement: cells.maybe(parties.settlement.as_ref()),
    }
}

fn vehicle(claim: &Claim, cells: Cells<'_>) -> VehicleView {
    let vehicle = &claim.vehicle;
    VehicleView {
        vin: cells.maybe(vehicle.vin.as_ref()),
        registration: cells.maybe(vehicle.registration.as_ref()),
        make: cells.maybe(vehicle.make.as_ref()),
        model: cells.maybe(vehicle.model.as_ref()),
        year: cells.maybe(vehicle.year.as_ref()),
        body_type: cells.maybe(vehicle.body.as_ref()),
        class: cells.maybe(vehicle.class.as_ref()),
        steering: cells.maybe(vehicle.steering.as_ref()),
        place_of_registration: cells.maybe(vehicle.registered_in.as_ref()),
        market: cells.maybe(vehicle.market.as_ref()),
        colour: cells.maybe(vehicle.colour.as_ref()),
        paint_kind: cells.maybe(vehicle.paint_kind.as_ref()),
        odometer: cells.maybe(vehicle.odometer.as_ref()),
        roof_equipment: cells.maybe(vehicle.roof_equipment.as_ref()),
        driver_assistance: cells.maybe(vehicle.driver_assistance.as_ref()),
        drive: cells.maybe(vehicle.drive.as_ref()),
    }
}

fn inspection(inspection: &Inspection, cells: Cells<'_>) -> InspectionView {
    InspectionView {
        role: inspection.role().name(),
        assessor: cells.maybe(inspection.assessor.as_ref()),
        date: cells.maybe(inspection.date.as_ref()),
        place: cells.maybe(inspection.location.as_ref()),
        pass: cells.maybe(inspection.pass.as_ref()),
        panels: inspection.panels.iter().map(|counted| panel_count(counted, cells)).collect(),
    }
}

fn panel_count(counted: &PanelCount, cells: Cells<'_>) -> PanelCountView {
    PanelCountView {
        panel: counted.panel.to_string(),
        at: cells.at(counted.place),
        counts: counted.tally.iter().map(|entry| tally(entry, cells)).collect(),
        marks: counted.marks.iter().map(|marked| mark(marked, cells)).collect(),
        attributes: AttributesView {
            material: cells.maybe(counted.material.as_ref()),
            access: cells.maybe(counted.access.as_ref()),
            paint: cells.maybe(counted.paint.as_ref()),
            depth: cells.maybe(counted.depth.as_ref()),
            position: cells.maybe(counted.position.as_ref()),
            frame: cells.maybe(counted.frame.as_ref()),
        },
        remarks: counted.remarks.iter().map(|remark| cells.of(remark)).collect(),
    }
}

fn tally(entry: &TallyEntry, cells: Cells<'_>) -> TallyView {
    TallyView {
        size: entry.size.text.clone(),
        size_at: cells.at(entry.size_place),
        count: (&entry.count).into(),
        at: cells.at(entry.place),
    }
}

fn mark(mark: &Mark, cells: Cells<'_>) -> MarkView {
    MarkView {
        at: Some(cells.at(mark.place)),
        kind: Some(cells.of(&mark.kind)),
        cause: cells.maybe(mark.cause.as_ref()),
        length: cells.maybe(mark.length.as_ref()),
        width: cells.maybe(mark.width.as_ref()),
        depth: cells.maybe(mark.depth.as_ref()),
        position: cells.maybe(mark.position.as_ref()),
        access: cells.maybe(mark.access.as_ref()),
        remark: cells.maybe(mark.remark.as_ref()),
    }
}

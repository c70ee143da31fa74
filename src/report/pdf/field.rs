//! Where a text of a document was written.

use super::glyphs::Lacking;
use crate::claim::{Claim, Located, Place};
use crate::problem::{Problem, catalogue::output};
use crate::report::wording::label::LABELS;

/// What somebody wrote about a claim: the name of the field, the text, its cell.
type Field<'a> = (&'static str, &'a str, Place);

/// The problems of a text that cannot be set: one for each field of the claim that put such a character into it, or one
/// without a place, where the text is of the schedule, a file or a sheet.
pub fn problems(lacking: &Lacking, claim: &Claim) -> Vec<Problem> {
    let holds = |field: &Field<'_>| field.1.contains(|c| lacking.characters.contains(&c));
    let mut fields: Vec<Field<'_>> = fields(claim).into_iter().filter(holds).collect();
    if fields.iter().any(|field| lacking.text.contains(field.1.trim())) {
        fields.retain(|field| lacking.text.contains(field.1.trim()));
    }
    let characters = |text: &str| -> Vec<char> {
        lacking.characters.iter().copied().filter(|c| text.contains(*c)).collect()
    };
    if fields.is_empty() {
        let problem = output::no_glyph(None, &lacking.text, &characters(&lacking.text));
        return vec![problem.of_claim(&claim.key.text)];
    }
    fields
        .into_iter()
        .map(|(name, text, place)| {
            let problem = output::no_glyph(Some(name), text, &characters(text));
            problem.at(place).of_claim(&claim.key.text)
        })
        .collect()
}

fn fields(claim: &Claim) -> Vec<Field<'_>> {
    let mut all = Vec::new();
    let (event, parties, vehicle) = (&claim.event, &claim.parties, &claim.vehicle);
    let single = [
        (LABELS.event_name, &event.name),
        (LABELS.event, &event.location),
        (LABELS.claim_number, &parties.claim_number),
        (LABELS.job_number, &parties.job_number),
        (LABELS.policy_number, &parties.policy_number),
        (LABELS.insurer, &parties.insurer),
        (LABELS.owner, &parties.owner),
        (LABELS.lot, &parties.lot),
        (LABELS.vin, &vehicle.vin),
        (LABELS.vehicle, &vehicle.registration),
        (LABELS.vehicle, &vehicle.make),
        (LABELS.vehicle, &vehicle.model),
        (LABELS.vehicle, &vehicle.colour),
        (LABELS.class, &vehicle.class),
        (LABELS.market, &vehicle.market),
        (LABELS.paint_kind, &vehicle.paint_kind),
        (LABELS.odometer, &vehicle.odometer),
        (LABELS.roof_equipment, &vehicle.roof_equipment),
        (LABELS.driver_assistance, &vehicle.driver_assistance),
    ];
    for (name, field) in single {
        all.extend(written(name, field.as_ref()));
    }
    for inspection in &claim.inspections {
        all.extend(written(LABELS.assessor, inspection.assessor.as_ref()));
        all.extend(written(LABELS.inspected_at, inspection.location.as_ref()));
        for panel in &inspection.panels {
            let remarks =
                panel.remarks.iter().chain(panel.marks.iter().filter_map(|mark| mark.remark.as_ref()));
            all.extend(remarks.filter_map(|remark| written(LABELS.remark, Some(remark))));
        }
    }
    for item in &claim.items {
        all.extend(written(LABELS.item, Some(&item.name)));
        all.extend(written(LABELS.source, item.source.as_ref()));
        all.extend(written(LABELS.remark, item.remark.as_ref()));
    }
    for part in &claim.parts {
        all.extend(written(LABELS.source, part.source.as_ref()));
    }
    for photograph in &claim.photographs {
        all.extend(written(LABELS.file, Some(&photograph.file)));
        all.extend(written(LABELS.shows, photograph.shows.as_ref()));
    }
    for paper in &claim.enclosures {
        all.extend(written(LABELS.document, Some(&paper.name)));
        all.extend(written(LABELS.file, paper.file.as_ref()));
    }
    for overrule in &claim.overrules {
        all.extend(written(LABELS.by, overrule.by.as_ref()));
        all.extend(written(LABELS.reason, overrule.reason.as_ref()));
    }
    for paid in &claim.paid_before {
        all.extend(written(LABELS.paid_before, paid.event.as_ref()));
    }
    all.extend(claim.remarks.iter().map(|remark| (LABELS.remark, remark.text.as_str(), remark.place)));
    all
}

fn written<'a>(name: &'static str, field: Option<&'a Located<String>>) -> Option<Field<'a>> {
    field.map(|field| (name, field.value.as_str(), field.place))
}

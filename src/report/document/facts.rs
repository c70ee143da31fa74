use super::{Entry, Fact, FactGroup, Figure, Filling};
use crate::assess::JobKind;
use crate::claim::{Inspection, Located, WrittenAmount};
use crate::quantity::{Date, Money};
use crate::report::wording::{self, label::LABELS};

/// What is known of vehicle, parties and inspection beyond the summary, which says make, model, body, year, colour,
/// registration and the loss; what was not written is not listed.
pub(super) fn facts(filling: &Filling<'_>) -> Vec<FactGroup> {
    let parties_title = match filling.subject.assessment.kind {
        JobKind::Claim => LABELS.parties,
        JobKind::Quotation => LABELS.job,
    };
    let groups = [
        (LABELS.vehicle, vehicle(filling)),
        (parties_title, parties(filling)),
        (LABELS.inspection, inspections(filling)),
    ];
    groups
        .into_iter()
        .map(|(title, facts)| FactGroup { title, facts })
        .filter(|group| !group.facts.is_empty())
        .collect()
}

fn fact(label: &'static str, value: Entry) -> Fact {
    Fact { label, value, cell: None }
}

fn said(label: &'static str, field: Option<&Located<String>>) -> Option<Fact> {
    field.map(|text| fact(label, Entry::said(text.value.as_str())))
}

fn named<T: std::fmt::Display>(label: &'static str, field: Option<Located<T>>) -> Option<Fact> {
    field.map(|named| fact(label, Entry::words(named.value.to_string())))
}

fn day(label: &'static str, field: Option<Located<Date>>) -> Option<Fact> {
    field.map(|day| fact(label, Entry::words(wording::date(day.value))))
}

/// An amount as written, in the form of all amounts, with its cell.
pub(super) fn written(amount: WrittenAmount, filling: &Filling<'_>) -> Entry {
    let currency = filling.subject.assessment.currency;
    match Money::from_decimal(amount.amount, currency) {
        Ok(money) if amount.currency.is_none_or(|said| said == currency) => {
            Entry::Amount(Figure(money, filling.subject.words))
        }
        _ => {
            let code = amount.currency.map_or("", |said| said.code());
            Entry::Number(format!("{} {code}", wording::number(amount.amount)).trim_end().to_owned())
        }
    }
}

fn amount(label: &'static str, field: Option<Located<WrittenAmount>>, filling: &Filling<'_>) -> Option<Fact> {
    field.map(|amount| Fact {
        label,
        value: written(amount.value, filling),
        cell: Some(filling.sheets.cell(amount.place, filling.subject.sources)),
    })
}

fn vehicle(filling: &Filling<'_>) -> Vec<Fact> {
    let vehicle = &filling.subject.claim.vehicle;
    [
        said(LABELS.vin, vehicle.vin.as_ref()),
        said(LABELS.class, vehicle.class.as_ref()),
        said(LABELS.paint_kind, vehicle.paint_kind.as_ref()),
        said(LABELS.odometer, vehicle.odometer.as_ref()),
        named(LABELS.drive, vehicle.drive),
        named(LABELS.steering, vehicle.steering),
        said(LABELS.roof_equipment, vehicle.roof_equipment.as_ref()),
        said(LABELS.driver_assistance, vehicle.driver_assistance.as_ref()),
        said(LABELS.registered_in, vehicle.registered_in.as_ref()),
        said(LABELS.market, vehicle.market.as_ref()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn parties(filling: &Filling<'_>) -> Vec<Fact> {
    let subject = &filling.subject;
    let parties = &subject.claim.parties;
    let owner = match subject.assessment.kind {
        JobKind::Claim => LABELS.owner,
        JobKind::Quotation => LABELS.customer,
    };
    [
        said(LABELS.insurer, parties.insurer.as_ref()),
        said(LABELS.claim_number, parties.claim_number.as_ref()),
        said(LABELS.policy_number, parties.policy_number.as_ref()),
        said(LABELS.job_number, parties.job_number.as_ref()),
        said(owner, parties.owner.as_ref()),
        said(LABELS.lot, parties.lot.as_ref()),
        amount(LABELS.lot_cap, parties.lot_cap, filling),
        amount(LABELS.excess, parties.excess, filling),
        amount(LABELS.policy_limit, parties.policy_limit, filling),
        amount(LABELS.market_value, parties.market_value, filling),
        amount(LABELS.salvage, parties.salvage, filling),
        named(LABELS.tax_position, parties.tax_position),
        parties.tax_share.map(|share| fact(LABELS.tax_share, Entry::words(wording::percent(share.value)))),
        named(LABELS.settlement, parties.settlement),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn inspections(filling: &Filling<'_>) -> Vec<Fact> {
    let subject = &filling.subject;
    let all = &subject.claim.inspections;
    let mut facts = Vec::new();
    if let Some(own) = subject.assessment.inspection.and_then(|index| all.get(index)) {
        facts.extend(inspected(own));
    }
    for overlay in subject.assessment.overlays.iter().filter_map(|index| all.get(*index)) {
        let text = format!("{} {}", overlay.role(), wording::inspection(overlay));
        facts.push(fact(LABELS.replaced_by, Entry::Words(text)));
    }
    facts
}

fn inspected(inspection: &Inspection) -> impl Iterator<Item = Fact> {
    [
        said(LABELS.assessor, inspection.assessor.as_ref()),
        day(LABELS.inspected, inspection.date),
        said(LABELS.inspected_at, inspection.location.as_ref()),
        named(LABELS.pass, inspection.pass),
    ]
    .into_iter()
    .flatten()
}

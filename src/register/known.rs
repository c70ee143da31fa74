use crate::assess::Assessment;
use crate::claim::{Claim, ItemAction, JobKey, KeyKind, Located, Method, Place, Settlement};
use crate::quantity::{Date, Money};

/// What a claim came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    /// Gross.
    pub gross: Money,
    /// The settlement amount.
    pub settlement: Money,
    /// What the insurer pays of it.
    pub insurer_pays: Money,
}

/// A claim of the files, as far as a register speaks of it.
#[derive(Debug, Clone)]
pub struct KnownClaim {
    /// Its key.
    pub key: JobKey,
    /// Everything that rows may name it by, as it is compared.
    pub names: Vec<(KeyKind, String)>,
    /// A cell that stands for it.
    pub place: Option<Place>,
    /// Make, model and registration, as written.
    pub car: String,
    /// As written; none for somebody who pays himself.
    pub insurer: Option<String>,
    /// As written.
    pub owner: Option<String>,
    /// The day it was inspected, else that of its loss.
    pub seen: Option<Date>,
    /// Whether parts have to come before it can be repaired.
    pub needs_parts: bool,
    /// Whether it is settled without being repaired.
    pub no_repair: bool,
    /// Whether its insurer requires something that is missing.
    pub lacks: bool,
    /// What it came to; none where it is not priced.
    pub figures: Option<Figures>,
}

impl KnownClaim {
    /// Of a claim and what became of it; `lacks` says whether something is missing before it can be sent.
    pub fn of(claim: &Claim, assessment: Option<&Assessment>, lacks: bool) -> Self {
        let (parties, car) = (&claim.parties, &claim.vehicle);
        let written = [
            (KeyKind::ClaimNumber, &parties.claim_number),
            (KeyKind::JobNumber, &parties.job_number),
            (KeyKind::Registration, &car.registration),
            (KeyKind::Vin, &car.vin),
        ];
        let names = written.iter().filter_map(|(kind, written)| {
            written.as_ref().map(|written| (*kind, kind.compared(&written.value)))
        });
        let place = parties.insurer.as_ref().or(written.iter().find_map(|(_, written)| written.as_ref()));
        let text = |written: &Option<Located<String>>| written.as_ref().map(|written| written.value.clone());
        let described: Vec<String> =
            [&car.make, &car.model, &car.registration].into_iter().filter_map(text).collect();
        let inspections = assessment.and_then(|assessment| assessment.inspection);
        let inspected = inspections.and_then(|index| claim.inspections.get(index)?.date);
        let basis = assessment.map(|assessment| assessment.settled.basis);
        let replaces_item = claim
            .items
            .iter()
            .any(|item| item.action.is_none_or(|action| action.value == ItemAction::Replace));
        Self {
            key: claim.key.clone(),
            names: names.collect(),
            place: place.map(|written| written.place),
            car: described.join(" "),
            insurer: text(&parties.insurer),
            owner: text(&parties.owner),
            seen: inspected.or(claim.event.date).map(|date| date.value),
            needs_parts: replaces_item
                || assessment.is_some_and(|assessment| assessment.panels_by(Method::Replace).count() > 0),
            no_repair: basis.is_some_and(|basis| basis != Settlement::Repair),
            lacks,
            figures: assessment.map(|assessment| Figures {
                gross: assessment.totals.gross,
                settlement: assessment.settled.amount,
                insurer_pays: assessment.settled.insurer_pays,
            }),
        }
    }
}

use super::{Figure, Filling};
use crate::assess::{JobKind, PanelState};
use crate::claim::{KeyKind, Located, PanelId};
use crate::report::wording;
use serde::Serialize;

/// What the document is and whom it concerns.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Head {
    /// Which document: "Claim file".
    pub what: &'static str,
    /// Kind of the key: "claim number".
    pub key_kind: String,
    /// The key as written.
    pub key: String,
    /// The key in our words, short enough for a title and a running head.
    pub short_key: String,
    /// For whom: the insurer, or the customer, as written.
    pub for_whom: Option<String>,
    /// By whose schedule it is offered, as written; only on a quotation.
    pub schedule: Option<String>,
    /// Date of the document, in words; a quotation without one is of the day of the inspection.
    pub date: Option<String>,
}

/// What the first third of the first page answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Summary {
    /// The claim in one word.
    pub outcome: &'static str,
    /// Which car, in our words and theirs.
    pub vehicle: String,
    /// What happened.
    pub event: Option<String>,
    /// What is to be done.
    pub to_do: String,
    /// What it costs and who pays what.
    pub figures: Vec<KeyFigure>,
    /// What the figures leave out.
    pub without: Option<String>,
    /// What a person still has to do, one thing each.
    pub person: Vec<String>,
}

/// An amount of the summary.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct KeyFigure {
    /// What it is.
    pub label: &'static str,
    /// How much.
    pub amount: Figure,
    /// What is in it.
    pub note: Option<String>,
}

/// Longest key in a title or a running head, in characters.
const SHORT: usize = 40;

pub(super) fn head(filling: &Filling<'_>) -> Head {
    let subject = &filling.subject;
    let label = &subject.words.label;
    let parties = &subject.claim.parties;
    let key = &subject.assessment.key;
    let mut short_key: String = wording::said(&key.text).chars().take(SHORT).collect();
    if key.text.chars().count() > SHORT {
        short_key.push('\u{2026}');
    }
    let (what, whom) = match subject.assessment.kind {
        JobKind::Claim => (label.claim_file, &parties.insurer),
        JobKind::Quotation => (label.quotation, &parties.owner),
    };
    let schedule = &subject.schedule.terms.name.value;
    let (schedule, day) = match subject.assessment.kind {
        JobKind::Claim => (None, filling.imprint.run_date),
        JobKind::Quotation => (Some(schedule.clone()), filling.day().map(|(day, _)| day)),
    };
    Head {
        what,
        key_kind: subject.words.text(key_kind(key.kind)),
        key: key.text.clone(),
        short_key,
        for_whom: whom.as_ref().map(|whom| whom.value.clone()),
        schedule,
        date: day.map(|day| subject.words.date(day)),
    }
}

/// What a key is, as the files of words name it.
fn key_kind(kind: KeyKind) -> &'static str {
    match kind {
        KeyKind::ClaimNumber => "key-claim-number",
        KeyKind::JobNumber => "key-job-number",
        KeyKind::Registration => "key-registration",
        KeyKind::Vin => "key-vin",
        KeyKind::Sheet => "key-sheet",
    }
}

pub(super) fn summary(filling: &Filling<'_>) -> Summary {
    let subject = &filling.subject;
    let assessment = subject.assessment;
    Summary {
        outcome: wording::outcome(assessment),
        vehicle: vehicle(filling),
        event: event(filling),
        to_do: wording::headline(subject),
        figures: figures(filling),
        without: wording::without_open(assessment, subject.words),
        person: person(filling),
    }
}

pub(super) fn vehicle(filling: &Filling<'_>) -> String {
    let vehicle = &filling.subject.claim.vehicle;
    let said = |field: &Option<Located<String>>| field.as_ref().map(|text| wording::said(&text.value));
    let mut car: Vec<String> = [said(&vehicle.make), said(&vehicle.model)].into_iter().flatten().collect();
    car.extend(vehicle.body.map(|body| filling.subject.words.name(body.value)));
    let mut parts = Vec::new();
    if !car.is_empty() {
        parts.push(car.join(" "));
    }
    parts.extend(vehicle.year.map(|year| year.value.to_string()));
    parts.extend(said(&vehicle.colour));
    parts.extend(said(&vehicle.registration));
    if vehicle.registration.is_none() {
        parts.extend(said(&vehicle.vin));
    }
    if parts.is_empty() { filling.subject.words.text("no-vehicle") } else { parts.join(", ") }
}

pub(super) fn event(filling: &Filling<'_>) -> Option<String> {
    let event = &filling.subject.claim.event;
    let mut parts: Vec<String> = event.name.iter().map(|name| wording::said(&name.value)).collect();
    // A name often ends in the day, in whichever language.
    let is_named = |day: &str| parts.iter().any(|name| name.contains(day));
    let day = event.date.map(|day| (filling.subject.words.date(day.value), wording::date(day.value)));
    let day = day.filter(|(day, english)| !is_named(day) && !is_named(english));
    parts.extend(day.map(|(day, _)| day));
    parts.extend(event.location.iter().map(|location| wording::said(&location.value)));
    (!parts.is_empty()).then(|| parts.join(", "))
}

pub(super) fn figures(filling: &Filling<'_>) -> Vec<KeyFigure> {
    let (assessment, words) = (filling.subject.assessment, filling.subject.words);
    let of = &words.label;
    let (totals, settled) = (&assessment.totals, &assessment.settled);
    let figure = |label, amount, note| KeyFigure { label, amount: Figure(amount, words), note };
    let estimated = assessment.range.as_ref().map(|range| wording::gross_range(range, words));
    let net =
        std::iter::once(wording::net_and_tax(totals, words)).chain(estimated).collect::<Vec<_>>().join("; ");
    let net = Some(net);
    if assessment.kind == JobKind::Quotation {
        return vec![figure(of.price, totals.gross, net)];
    }
    // What the claim is settled at comes first: that is what insurer and owner share.
    let mut figures = Vec::new();
    if settled.amount == totals.gross {
        figures.push(figure(of.gross, totals.gross, net));
    } else {
        figures.push(figure(of.settlement_amount, settled.amount, Some(words.name(settled.basis))));
        figures.push(figure(of.repair_gross, totals.gross, net));
    }
    figures.push(figure(of.insurer_pays, settled.insurer_pays, None));
    figures.push(figure(of.owner_bears, settled.owner_bears, wording::borne(settled, words)));
    if !settled.salvage_kept.is_zero() {
        figures.push(figure(of.salvage_kept, settled.salvage_kept, None));
    }
    figures
}

fn person(filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let assessment = subject.assessment;
    let mut person: Vec<String> = assessment
        .open_panels()
        .map(|panel| wording::open_panel(panel, subject, |place| filling.cell(place)))
        .collect();
    person.extend(wording::open_items(subject));
    person.extend(wording::undecided_loss(subject));
    let missed: Vec<PanelId> = assessment
        .panels
        .iter()
        .filter(|panel| panel.state == PanelState::NotInspected)
        .map(|panel| panel.panel)
        .collect();
    person.extend(wording::not_inspected(&missed, subject.words));
    person
}

//! One row per claim: what the bordereau lists, and more.

use super::{Column, Field, Kind, Run};
use crate::assess::{Assessment, JobKind, Screen, ScreenFigures, Unscreened};
use crate::batch::Done;
use crate::claim::{Inspection, Located, Method, WrittenAmount};
use crate::problem::{Place, Severity};
use crate::quantity::Hours;
use crate::report::wording;

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new("claim", Kind::Text, "the job's key"),
    Column::new(
        "known by",
        Kind::Text,
        "what the key is: claim number, job number, registration, VIN, sheet",
    ),
    Column::new(
        "document kind",
        Kind::Text,
        "`claim` on an insurer, or `quotation` for a customer without one",
    ),
    Column::new("policy", Kind::Text, "policy number"),
    Column::new("insurer", Kind::Text, "as written"),
    Column::new("owner", Kind::Text, "as written"),
    Column::new("lot", Kind::Text, "dealer's lot or fleet it belongs to"),
    Column::new("event", Kind::Text, "name of the event"),
    Column::new("date of loss", Kind::Date, "day of the event"),
    Column::new("place of loss", Kind::Text, "as written"),
    Column::new("registration", Kind::Text, "plate as written"),
    Column::new("vin", Kind::Text, "vehicle identification number as written"),
    Column::new("make", Kind::Text, "maker"),
    Column::new("model", Kind::Text, "model"),
    Column::new("year", Kind::Count, "model year"),
    Column::new("body type", Kind::Text, "as understood"),
    Column::new("assessor", Kind::Text, "who made the inspection that was assessed"),
    Column::new("date of inspection", Kind::Date, "when that was"),
    Column::new("schedule", Kind::Text, "name of the schedule"),
    Column::new("edition", Kind::Text, "its edition"),
    Column::new(
        "outcome",
        Kind::Text,
        "`repair`, `needs a person`, `probable total loss`, `nothing found`, `not priced`; `total loss` or `total loss, car kept` where it is settled so and nothing is open",
    ),
    Column::new(
        "ready to send",
        Kind::Text,
        "`yes` or `no`, by what a table says that its insurer requires; blank where none does",
    ),
    Column::new("still to fetch", Kind::Text, "what is missing, in the order in which it is fetched"),
    Column::new("panels paintless", Kind::Count, "panels to be repaired paintless"),
    Column::new("panels paintless then refinish", Kind::Count, "panels to be repaired paintless and painted"),
    Column::new("panels conventional", Kind::Count, "panels to be repaired conventionally"),
    Column::new("panels replaced", Kind::Count, "panels to be replaced"),
    Column::new("panels referred", Kind::Count, "panels that a person has to look at"),
    Column::new("open panels", Kind::Count, "panels whose amounts are in no total: referred or not priced"),
    Column::new("open items", Kind::Count, "items whose amounts are in no total"),
    Column::new("overruled panels", Kind::Count, "panels on which a person decided otherwise"),
    Column::new("dents", Kind::Count, "dents that are rated, all panels"),
    Column::new("labour", Kind::Hours, "labour in the lines, where it is by time"),
    Column::new("currency", Kind::Text, "ISO 4217 code of every amount in the row"),
    Column::new("net", Kind::Money, "sum of the claim's lines, without its open panels and items"),
    Column::new("tax", Kind::Money, "tax on them"),
    Column::new("rounding", Kind::Money, "what brings the gross amount to its step; blank without one"),
    Column::new("gross", Kind::Money, "net, tax and rounding"),
    Column::new(
        "gross at low end",
        Kind::Money,
        "where dents are estimated: with every estimate at its lower end",
    ),
    Column::new("gross at high end", Kind::Money, "likewise at its upper end"),
    Column::new(
        "settled as",
        Kind::Text,
        "repair, cash in place of repair, total loss, or total loss, car kept",
    ),
    Column::new("settlement amount", Kind::Money, "what insurer, owner and salvage kept sum to"),
    Column::new("tax reclaimed", Kind::Money, "tax in it that the owner gets back elsewhere"),
    Column::new("betterment", Kind::Money, "the owner's share of what is new, by the schedule"),
    Column::new("paid before", Kind::Money, "paid after an earlier event for panels of this claim"),
    Column::new("excess", Kind::Money, "excess that is taken"),
    Column::new("beyond policy limit", Kind::Money, "what goes beyond the policy's limit"),
    Column::new("insurer pays", Kind::Money, "the insurer's part"),
    Column::new("owner bears", Kind::Money, "the owner's part"),
    Column::new("salvage kept", Kind::Money, "value of the wreck where the car is kept"),
    Column::new("market value", Kind::Money, "before the loss, as written"),
    Column::new(
        "total loss screen",
        Kind::Text,
        "`below`, `reached`, `open` (not reached yet, with open panels), or why there is none",
    ),
    Column::new("screened cost", Kind::Money, "what the screen compares"),
    Column::new("screen limit", Kind::Money, "with what it compares it"),
    Column::new(
        "title note",
        Kind::Text,
        "what the law of the place of registration notes, each with `below`, `reached`, `open`, `cause left out`, or what is missing; blank without a rule for the place",
    ),
    Column::new("errors", Kind::Count, "problems that keep the claim from being priced"),
    Column::new("questions", Kind::Count, "questions that do so until they are answered"),
    Column::new("warnings", Kind::Count, "things to look at"),
    Column::new("read from", Kind::Text, "the sheets and files that hold a row of it"),
    Column::new("document", Kind::Text, "its document in this folder; blank when there is none"),
];

/// The row of a claim, priced or not.
pub fn row(done: &Done<'_>, document: Option<&str>, run: &Run<'_>) -> Vec<Field> {
    let claim = &done.intake.claim;
    let (parties, vehicle, event) = (&claim.parties, &claim.vehicle, &claim.event);
    let assessed = done.result.as_ref().ok();
    let inspection = assessed.and_then(|a| a.inspection).and_then(|index| claim.inspections.get(index));
    let severities =
        |wanted: Severity| Field::count(done.problems().filter(|p| p.severity() == wanted).count());
    let mut row = vec![
        Field::text(claim.key.text.clone()),
        Field::text(claim.key.kind.words()),
        assessed.map_or(Field::Blank, |a| Field::text(kind(a.kind))),
        Field::written(parties.policy_number.as_ref()),
        Field::written(parties.insurer.as_ref()),
        Field::written(parties.owner.as_ref()),
        Field::written(parties.lot.as_ref()),
        Field::written(event.name.as_ref()),
        Field::day(event.date.as_ref()),
        Field::written(event.location.as_ref()),
        Field::written(vehicle.registration.as_ref()),
        Field::written(vehicle.vin.as_ref()),
        Field::written(vehicle.make.as_ref()),
        Field::written(vehicle.model.as_ref()),
        vehicle.year.map_or(Field::Blank, |year| Field::Count(u64::from(year.value))),
        Field::written(vehicle.body.as_ref()),
        inspection.map_or(Field::Blank, |i: &Inspection| Field::written(i.assessor.as_ref())),
        inspection.map_or(Field::Blank, |i| Field::day(i.date.as_ref())),
    ];
    let ready = ready(done, run);
    if let Some(assessment) = assessed {
        let terms = &run.schedules[assessment.schedule].terms;
        row.push(Field::text(terms.name.value.clone()));
        row.push(Field::text(terms.edition.value.clone()));
        row.push(Field::text(wording::outcome(assessment)));
        row.extend(ready);
        row.extend(panels(assessment));
        row.extend(money(assessment, parties.market_value.as_ref()));
        row.push(
            run.subject(done).map_or(Field::Blank, |subject| Field::text(wording::titles_in_short(&subject))),
        );
    } else {
        row.extend([Field::Blank, Field::Blank, Field::text("not priced")]);
        row.extend(ready);
        row.extend(std::iter::repeat_n(Field::Blank, PANEL_COLUMNS + MONEY_COLUMNS + 1));
    }
    let read_from: Vec<String> =
        claim.sources.iter().map(|source| run.sources.short(Place::whole(*source))).collect();
    row.extend([
        severities(Severity::Error),
        severities(Severity::Question),
        severities(Severity::Warning),
        Field::text(read_from.join("; ")),
        document.map_or(Field::Blank, Field::text),
    ]);
    row
}

/// Whether the claim can be sent, and what is missing. One that is not priced cannot be.
fn ready(done: &Done<'_>, run: &Run<'_>) -> [Field; 2] {
    let Some(readiness) = run.readiness(done) else { return [Field::Blank, Field::Blank] };
    let is_ready = readiness.lacks.is_empty() && done.result.is_ok();
    [Field::text(if is_ready { "yes" } else { "no" }), Field::text(readiness.in_one_line())]
}

/// The words for a kind of job.
pub(crate) const fn kind(kind: JobKind) -> &'static str {
    match kind {
        JobKind::Claim => "claim",
        JobKind::Quotation => "quotation",
    }
}

const PANEL_COLUMNS: usize = 10;

fn panels(assessment: &Assessment) -> [Field; PANEL_COLUMNS] {
    let by = |method: Method| Field::count(assessment.panels_by(method).count());
    let seconds = assessment.hours.iter().fold(0_i64, |sum, (_, hours)| sum.saturating_add(hours.seconds()));
    [
        by(Method::Paintless),
        by(Method::RefinishAfter),
        by(Method::Conventional),
        by(Method::Replace),
        by(Method::Refer),
        Field::count(assessment.open_panels().count()),
        Field::count(assessment.open_items.len()),
        Field::count(assessment.panels.iter().filter(|panel| panel.overruled.is_some()).count()),
        Field::Count(assessment.panels.iter().map(|panel| u64::from(panel.dents)).sum()),
        Field::Hours(Hours::from_seconds(seconds)),
    ]
}

const MONEY_COLUMNS: usize = 21;

fn money(assessment: &Assessment, market_value: Option<&Located<WrittenAmount>>) -> [Field; MONEY_COLUMNS] {
    let (totals, settled) = (&assessment.totals, &assessment.settled);
    let range = assessment.range.as_ref();
    let figures = figures(&assessment.screen);
    [
        Field::text(assessment.currency.code()),
        Field::Money(totals.net),
        Field::Money(totals.tax),
        Field::money(totals.rounding),
        Field::Money(totals.gross),
        Field::money(range.and_then(|range| range.low.as_ref()).and_then(|end| end.gross)),
        Field::money(range.and_then(|range| range.high.as_ref()).and_then(|end| end.gross)),
        Field::text(settled.basis.name()),
        Field::Money(settled.amount),
        Field::Money(settled.tax_reclaimed),
        Field::Money(settled.betterment),
        Field::Money(settled.paid_before),
        Field::Money(settled.excess),
        Field::Money(settled.over_limit),
        Field::Money(settled.insurer_pays),
        Field::Money(settled.owner_bears),
        Field::Money(settled.salvage_kept),
        market_value.map_or(Field::Blank, |value| Field::Number(value.value.amount)),
        Field::text(screen(&assessment.screen)),
        Field::money(figures.map(|figures| figures.cost)),
        Field::money(figures.map(|figures| figures.limit)),
    ]
}

/// The screen's answer in words.
pub(crate) const fn screen(screen: &Screen) -> &'static str {
    match screen {
        Screen::Not(Unscreened::NoTerms) => "not screened: the schedule has no terms for it",
        Screen::Not(Unscreened::NoMarketValue) => "not screened: no market value",
        Screen::Not(Unscreened::NoSalvage) => "not screened: no salvage value",
        Screen::Below(_) => "below",
        Screen::Open(_) => "open",
        Screen::Reached(_) => "reached",
    }
}

/// The screen's figures, if it was done.
pub(crate) const fn figures(screen: &Screen) -> Option<&ScreenFigures> {
    match screen {
        Screen::Not(_) => None,
        Screen::Below(figures) | Screen::Open(figures) | Screen::Reached(figures) => Some(figures),
    }
}

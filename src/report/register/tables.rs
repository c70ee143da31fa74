//! The tables of a register: its claims, and its rows.

use super::Filled;
use crate::claim::RegisterRow;
use crate::quantity::{Money, QuantityFault};
use crate::register::{Standing, Sums, Waits};
use crate::report::tables::{Column, Field, Kind};

/// One row for each claim.
pub(super) const STANDING: &[Column] = &[
    Column::new("claim", Kind::Text, "its key"),
    Column::new("stands", Kind::Text, "the latest thing that happened to it"),
    Column::new(
        "waits for",
        Kind::Text,
        "the technician, the insurer, the owner, parts; blank where nothing is left to do",
    ),
    Column::new("what for", Kind::Text, "what comes next"),
    Column::new("since", Kind::Date, "since when it waits"),
    Column::new("days", Kind::Count, "days from then to the day asked about"),
    Column::new("by", Kind::Text, "who did that"),
    Column::new("car", Kind::Text, "make, model and registration as written"),
    Column::new("insurer", Kind::Text, "as written"),
    Column::new("owner", Kind::Text, "as written"),
    Column::new("currency", Kind::Text, "ISO 4217 code of every amount in the row"),
    Column::new("assessed", Kind::Money, "the gross amount that the files come to"),
    Column::new("submitted", Kind::Money, "the latest submitted amount with its supplements"),
    Column::new("agreed", Kind::Money, "the latest agreed amount"),
    Column::new("paid", Kind::Money, "all payments"),
    Column::new("still to pay", Kind::Money, "agreed and not paid"),
];

/// One row for each thing that happened.
pub(super) const ROWS: &[Column] = &[
    Column::new("claim", Kind::Text, "its key; as the register writes it where no claim has it"),
    Column::new("date", Kind::Date, "when it happened"),
    Column::new("event", Kind::Text, "what happened"),
    Column::new("amount", Kind::Number, "as written"),
    Column::new("currency", Kind::Text, "as written"),
    Column::new("by", Kind::Text, "who did it"),
    Column::new("remark", Kind::Text, "as written"),
    Column::new("written in", Kind::Text, "the row of the register"),
];

/// One row for each currency.
pub(super) const SUMS: &[Column] = &[
    Column::new("currency", Kind::Text, "ISO 4217 code of every amount in the row"),
    Column::new("claims", Kind::Count, "claims with amounts in it"),
    Column::new("assessed", Kind::Money, "what the files come to"),
    Column::new("submitted", Kind::Money, "what was submitted"),
    Column::new("agreed", Kind::Money, "what was agreed"),
    Column::new("paid", Kind::Money, "what was paid"),
    Column::new("still to pay", Kind::Money, "what was agreed and not paid"),
];

/// One row for each finding.
pub(super) const FINDINGS: &[Column] = &[
    Column::new("severity", Kind::Text, "`warning`, `note`"),
    Column::new("code", Kind::Text, "name of the finding; `problem CODE` explains it"),
    Column::new("claim", Kind::Text, "the claim it concerns"),
    Column::new("what is wrong", Kind::Text, "in one sentence"),
    Column::new("what would be right", Kind::Text, "where that can be said"),
    Column::new("at", Kind::Text, "the cell"),
    Column::new("see also", Kind::Text, "further cells that belong to it"),
];

pub(super) fn standing(standing: &Standing) -> Vec<Field> {
    let Standing { claim, owed, .. } = standing;
    let text = |text: Option<&str>| text.map_or(Field::Blank, Field::text);
    let waits = if standing.waits == Waits::Nobody { "" } else { standing.waits.words() };
    vec![
        Field::text(claim.key.text.clone()),
        standing.stands.map_or(Field::Blank, |step| Field::text(step.to_string())),
        Field::text(waits),
        Field::text(standing.next),
        standing.since.map_or(Field::Blank, Field::Date),
        standing.days.and_then(|days| u64::try_from(days).ok()).map_or(Field::Blank, Field::Count),
        text(standing.by()),
        Field::text(claim.car.clone()),
        text(claim.insurer.as_deref()),
        text(claim.owner.as_deref()),
        owed.currency().map_or(Field::Blank, |currency| Field::text(currency.code())),
        Field::money(owed.assessed),
        Field::money(owed.submitted),
        Field::money(owed.agreed),
        Field::money(owed.paid),
        Field::money(owed.still),
    ]
}

pub(super) fn sums(sums: &Sums) -> Vec<Field> {
    let of = |sum: Result<Money, QuantityFault>| Field::money(sum.ok());
    vec![
        Field::text(sums.currency.code()),
        Field::Count(sums.claims),
        of(sums.assessed),
        of(sums.submitted),
        of(sums.agreed),
        of(sums.paid),
        of(sums.still),
    ]
}

/// Every row with its claim's key: those of claims in their order, then those of none.
pub(super) fn rows<'a>(filled: &'a Filled<'a>) -> impl Iterator<Item = Vec<Field>> + 'a {
    let of_claims =
        filled.register.standings.iter().flat_map(|standing| {
            standing.rows.iter().map(move |row| (standing.claim.key.text.as_str(), row))
        });
    let strangers = filled.register.strangers.iter().map(|row| (row.key.value.as_str(), row));
    of_claims.chain(strangers).map(|(key, row)| fields(key, row, filled))
}

fn fields(key: &str, row: &RegisterRow, filled: &Filled<'_>) -> Vec<Field> {
    let amount = row.amount.map(|amount| amount.value);
    let currency = amount.and_then(|amount| amount.currency);
    vec![
        Field::text(key),
        Field::Date(row.date.value),
        Field::text(row.step.value.to_string()),
        amount.map_or(Field::Blank, |amount| Field::Number(amount.amount)),
        currency.map_or(Field::Blank, |currency| Field::text(currency.code())),
        Field::written(row.by.as_ref()),
        Field::written(row.remark.as_ref()),
        Field::text(filled.run.sources.short(row.place)),
    ]
}

pub(super) fn findings<'a>(filled: &'a Filled<'a>) -> impl Iterator<Item = Vec<Field>> + 'a {
    let sources = filled.run.sources;
    filled.register.findings.iter().map(move |problem| {
        let also: Vec<String> = problem.also.iter().map(|place| sources.short(*place)).collect();
        vec![
            Field::text(problem.severity().word()),
            Field::text(problem.code.id),
            Field::text(problem.claim.clone().unwrap_or_default()),
            Field::text(problem.message.clone()),
            Field::text(problem.help.clone().unwrap_or_default()),
            problem.place.map_or(Field::Blank, |place| Field::text(sources.short(place))),
            Field::text(also.join("; ")),
        ]
    })
}

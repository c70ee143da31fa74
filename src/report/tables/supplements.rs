//! One row per claim that was agreed or is new: then, now, and the difference.

use super::{Column, Field, Kind};
use crate::report::supplement::{Change, Fate};
use crate::report::wording::supplement as words;

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new("claim", Kind::Text, "the job's key"),
    Column::new(
        "since agreed",
        Kind::Text,
        "`nothing changed`, `changed`, `new`, `now priced`, `no longer priced`, `not priced then or now`, \
         `another currency` (nothing is subtracted), or `gone` (in no sheet now)",
    ),
    Column::new("currency", Kind::Text, "ISO 4217 code of every amount in the row"),
    Column::new("gross agreed", Kind::Money, "gross amount of the agreed version"),
    Column::new("gross", Kind::Money, "gross amount now"),
    Column::new("difference", Kind::Money, "the second less the first"),
    Column::new("insurer pays agreed", Kind::Money, "the insurer's part in the agreed version"),
    Column::new("insurer pays", Kind::Money, "the insurer's part now"),
    Column::new("difference for the insurer", Kind::Money, "the second less the first"),
    Column::new("owner bears agreed", Kind::Money, "the owner's part in the agreed version"),
    Column::new("owner bears", Kind::Money, "the owner's part now"),
    Column::new("difference for the owner", Kind::Money, "the second less the first"),
    Column::new("panels changed", Kind::Count, "panels that are not as they were"),
    Column::new("lines changed", Kind::Count, "lines that changed, came or went"),
    Column::new("why", Kind::Text, "what was another, each panel with its reasons"),
    Column::new("document", Kind::Text, "the claim's supplement in this folder; blank when there is none"),
];

/// A claim's row.
pub fn row(claim: &str, change: &Change, document: Option<&str>) -> Vec<Field> {
    let mut why: Vec<String> = change.reasons.iter().map(|reason| reason.words.clone()).collect();
    why.extend(change.panels.iter().map(|panel| {
        let reasons: Vec<&str> = panel.reasons.iter().map(|reason| reason.words.as_str()).collect();
        format!("{} ({})", panel.panel, reasons.join("; "))
    }));
    let amounts = ["gross", "insurer_pays", "owner_bears"].map(|name| change.sum(name));
    let mut fields = vec![
        Field::text(claim),
        Field::text(words::fate(change.is)),
        Field::text(change.currency.map_or("", |currency| currency.code())),
    ];
    for amounts in amounts {
        let money = |of: fn(&crate::report::supplement::Amounts) -> Option<crate::quantity::Money>| {
            Field::money(amounts.and_then(of))
        };
        fields.extend([money(|a| a.before), money(|a| a.now), money(|a| a.difference)]);
    }
    let is_compared = matches!(change.is, Fate::Changed | Fate::Unchanged);
    let count = |count: usize| if is_compared { Field::count(count) } else { Field::Blank };
    fields.extend([
        count(change.panels.len()),
        count(change.lines.len()),
        Field::text(why.join("; ")),
        Field::text(document.unwrap_or_default()),
    ]);
    fields
}

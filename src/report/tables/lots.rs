//! One row per claim of a lot whose excess has a cap: its own excess, and its part in the lot's.

use super::{Column, Kind};

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new("lot", Kind::Text, "as written"),
    Column::new("insurer", Kind::Text, "as written"),
    Column::new("event", Kind::Text, "its name, else the day of the loss"),
    Column::new("statement", Kind::Text, "the lot's statement in this folder"),
    Column::new("claim", Kind::Text, "the job's key"),
    Column::new("document", Kind::Text, "the claim's document in this folder; blank when there is none"),
    Column::new("open", Kind::Count, "panels and items whose amounts are in no total"),
    Column::new(
        "currency",
        Kind::Text,
        "ISO 4217 code of every amount in the row; blank for a claim that is not priced",
    ),
    Column::new("cap", Kind::Money, "most that the lot bears as excess for this event"),
    Column::new("settlement amount", Kind::Money, "what insurer, owner and salvage kept sum to"),
    Column::new("own excess", Kind::Money, "what the claim's own document takes"),
    Column::new("excess", Kind::Money, "its part of what the lot bears"),
    Column::new("beyond policy limit", Kind::Money, "what goes beyond the policy's limit then"),
    Column::new("insurer pays", Kind::Money, "with that excess"),
    Column::new("owner bears", Kind::Money, "with that excess"),
    Column::new("salvage kept", Kind::Money, "value of the wreck where the car is kept"),
];

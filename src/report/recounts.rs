//! What a recount could change, over a batch: in words, as a table and as data.

use super::csv::CsvTable;
use super::tables::{Column, Field, Kind};
use crate::assess::{Change, Direction, Distance, Fewest};
use crate::batch::{Recount, Worth};
use crate::claim::{Intake, Method};
use crate::schedule::Schedule;
use serde_json::{Value, json};
use std::io;

/// What a batch's recounts are of.
#[derive(Debug, Clone, Copy)]
pub struct RecountBatch<'a> {
    /// The claims.
    pub intakes: &'a [Intake],
    /// The schedules of the run.
    pub schedules: &'a [Schedule],
    /// What was found.
    pub recounts: &'a [Recount],
}

/// `2 more`, `1 fewer`.
pub fn dents_words(distance: &Distance) -> String {
    let which = match distance.direction {
        Direction::Fewer => "fewer",
        Direction::More => "more",
    };
    format!("{} {which}", distance.dents)
}

/// What changes, in words.
pub fn change_words(distance: &Distance) -> String {
    match distance.change {
        Change::Band => "another band".to_owned(),
        Change::Limit => "a limit".to_owned(),
        Change::Screen => "total-loss screen".to_owned(),
        Change::Method if distance.is_open => "the panel waits for a person".to_owned(),
        Change::Method if distance.method == Method::NoRepair => "no damage".to_owned(),
        Change::Method => format!("becomes {}", distance.method),
    }
}

fn change_id(change: Change) -> &'static str {
    match change {
        Change::Band => "band",
        Change::Limit => "limit",
        Change::Method => "method",
        Change::Screen => "screen",
    }
}

/// `2 dents change a method`, with what is known of it.
pub fn fewest_words(fewest: &Fewest) -> String {
    let dents = if fewest.dents == 1 { "1 dent".to_owned() } else { format!("{} dents", fewest.dents) };
    let what = if fewest.change == Change::Screen { "the total-loss screen" } else { "a method" };
    let changes = if fewest.dents == 1 { "changes" } else { "change" };
    let bound = if fewest.is_exact { "" } else { ", perhaps fewer" };
    format!("{dents} {changes} {what}{bound}")
}

impl RecountBatch<'_> {
    /// A claim's key.
    pub fn key(&self, recount: &Recount) -> &str {
        self.intakes.get(recount.number).map_or("", |intake| intake.claim.key.text.as_str())
    }

    /// The name of a size band.
    pub fn size(&self, recount: &Recount, size: usize) -> &str {
        let bands = self.schedules.get(recount.schedule).map(|schedule| &schedule.sizes);
        bands.and_then(|bands| bands.get(size)).map_or("", |band| band.name.as_str())
    }

    /// Every nearest change of every panel as a row, in input order.
    pub fn csv(&self) -> io::Result<Vec<u8>> {
        let mut table = CsvTable::new(Vec::new(), COLUMNS)?;
        for recount in self.recounts {
            for (distance, counted) in &recount.distances {
                table.row(&[
                    Field::text(self.key(recount)),
                    Field::text(distance.panel.to_string()),
                    Field::text(self.size(recount, distance.size)),
                    Field::Count(u64::from(*counted)),
                    Field::text(dents_words(distance)),
                    Field::text(change_id(distance.change)),
                    Field::text(change_words(distance)),
                    Field::text(recount.gross.currency().code()),
                    Field::Money(recount.gross),
                    Field::Money(distance.gross),
                    recount.fewest.map_or(Field::Blank, |fewest| Field::text(fewest_words(&fewest))),
                ])?;
            }
        }
        Ok(table.finish())
    }

    /// Every claim with its changes, for programs.
    pub fn data(&self) -> Vec<Value> {
        self.recounts.iter().map(|recount| self.claim(recount)).collect()
    }

    fn claim(&self, recount: &Recount) -> Value {
        let changes: Vec<Value> =
            recount.distances.iter().map(|change| self.change(recount, change)).collect();
        let fewest = recount.fewest.map(|fewest| {
            json!({
                "dents": fewest.dents,
                "change": change_id(fewest.change),
                "is": if fewest.is_exact { "exact" } else { "at most" },
            })
        });
        json!({
            "claim": self.key(recount),
            "currency": recount.gross.currency().code(),
            "gross": recount.gross.to_string(),
            "fewest_dents_that_change_a_decision": fewest,
            "changes": changes,
        })
    }

    /// A panel worth counting again, for programs.
    pub fn worth(&self, worth: &Worth<'_>) -> Value {
        let mut data = self.change(worth.recount, worth.change);
        if let Some(data) = data.as_object_mut() {
            data.insert("claim".to_owned(), json!(self.key(worth.recount)));
        }
        data
    }

    fn change(&self, recount: &Recount, (distance, counted): &(Distance, u32)) -> Value {
        json!({
            "panel": distance.panel.to_string(),
            "size": self.size(recount, distance.size),
            "counted": counted,
            "direction": if distance.direction == Direction::More { "more" } else { "fewer" },
            "dents": distance.dents,
            "change": change_id(distance.change),
            "method_then": distance.method.name(),
            "open_then": distance.is_open,
            "difference_gross": distance.gross.to_string(),
        })
    }
}

const COLUMNS: &[Column] = &[
    Column { name: "claim", kind: Kind::Text, about: "key of the job" },
    Column { name: "panel", kind: Kind::Text, about: "panel" },
    Column { name: "size", kind: Kind::Text, about: "size band that is counted otherwise" },
    Column { name: "counted", kind: Kind::Count, about: "dents of that band as counted" },
    Column { name: "dents", kind: Kind::Text, about: "so many more or fewer" },
    Column { name: "change", kind: Kind::Text, about: "band, limit, method or screen" },
    Column { name: "what changes", kind: Kind::Text, about: "the same in words" },
    Column { name: "currency", kind: Kind::Text, about: "currency (ISO 4217)" },
    Column { name: "gross", kind: Kind::Money, about: "gross amount as counted" },
    Column { name: "difference", kind: Kind::Money, about: "gross with that count less gross" },
    Column { name: "fewest dents", kind: Kind::Text, about: "what changes a decision on the claim" },
];

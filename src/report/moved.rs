//! What another schedule, or other values in it, would move: a batch's differences as data, as a table, and in words.

use super::csv::CsvTable;
use super::tables::{Column, Field, Kind};
use crate::batch::{Moved, MovedTotals, Part, Shift, Way};
use crate::claim::Intake;
use crate::quantity::{Money, QuantityFault};
use crate::schedule::Schedule;
use serde_json::{Map, Value, json};
use std::io;

/// The differences of a batch, and what they are of.
#[derive(Debug, Clone, Copy)]
pub struct MovedBatch<'a> {
    /// The claims.
    pub intakes: &'a [Intake],
    /// What became of each.
    pub moved: &'a [Moved],
    /// Schedules as they are.
    pub schedules: &'a [Schedule],
    /// Schedules of the other way.
    pub others: &'a [Schedule],
}

/// What a part of an amount is called.
pub fn part_words(part: Part) -> &'static str {
    match part {
        Part::Panels(kind) => kind.name(),
        Part::Vehicle => "operations, items, minimum, discount",
        Part::Tax => "tax",
        Part::Rounding => "rounding of the total",
    }
}

/// What became of a claim, in words; nothing where only amounts differ.
pub fn fate_words(shift: &Shift) -> Option<String> {
    match shift {
        Shift::Both(first, other, _) => {
            let mut said = Vec::new();
            if first.outcome != other.outcome {
                said.push(format!("{} becomes {}", first.outcome.words(), other.outcome.words()));
            }
            if first.open != other.open {
                said.push(format!("open panels and items: {} become {}", first.open, other.open));
            }
            (!said.is_empty()).then(|| said.join("; "))
        }
        Shift::Currencies(first, other) => {
            Some(format!("{} becomes {}: not subtracted", first.gross.currency(), other.gross.currency()))
        }
        Shift::Gained(_) => Some("becomes priced".to_owned()),
        Shift::Lost(_, problems) => {
            let why = problems.first().map_or_else(String::new, |problem| format!(": {}", problem.message));
            Some(format!("is no longer priced{why}"))
        }
        Shift::Neither(_) => Some("is not priced either way".to_owned()),
        Shift::Untouched => Some("no other schedule is meant for it: it stays as it is".to_owned()),
    }
}

/// The way as it is, and the other, of a claim that was priced so.
pub fn ways(shift: &Shift) -> (Option<&Way>, Option<&Way>) {
    match shift {
        Shift::Both(first, other, _) | Shift::Currencies(first, other) => (Some(first), Some(other)),
        Shift::Gained(other) => (None, Some(other)),
        Shift::Lost(first, _) => (Some(first), None),
        Shift::Neither(_) | Shift::Untouched => (None, None),
    }
}

impl MovedBatch<'_> {
    /// A claim's key.
    pub fn key(&self, moved: &Moved) -> &str {
        self.intakes.get(moved.number).map_or("", |intake| intake.claim.key.text.as_str())
    }

    /// Claims whose gross amount differs, the largest difference first, in minor units of each one's currency.
    pub fn by_size(&self) -> Vec<(&Moved, Money)> {
        let mut differ: Vec<(&Moved, Money)> = self
            .moved
            .iter()
            .filter_map(|moved| match &moved.shift {
                Shift::Both(_, _, difference) if !difference.gross.is_zero() => {
                    Some((moved, difference.gross))
                }
                _ => None,
            })
            .collect();
        differ.sort_by_key(|(moved, gross)| {
            (gross.currency(), std::cmp::Reverse(gross.minor().unsigned_abs()), moved.number)
        });
        differ
    }

    /// `Our prices, edition 3`.
    fn edition(schedules: &[Schedule], way: Option<&Way>) -> String {
        way.and_then(|way| schedules.get(way.schedule)).map_or_else(String::new, edition_words)
    }

    /// Every claim and the totals, for programs.
    pub fn data(&self) -> Value {
        let mut totals = Map::new();
        for (currency, sums) in MovedTotals::of(self.moved) {
            let parts: Map<String, Value> = sums
                .parts
                .iter()
                .flatten()
                .map(|(part, amount)| (part_words(*part).to_owned(), json!(amount.to_string())))
                .collect();
            totals.insert(
                currency.code().to_owned(),
                json!({
                    "claims_priced_both_ways": sums.claims,
                    "claims_that_differ": sums.differ,
                    "gross": text(sums.before),
                    "gross_then": text(sums.after),
                    "difference": text(sums.gross()),
                    "difference_insurer_pays": text(sums.insurer_pays),
                    "difference_by_part": parts,
                }),
            );
        }
        let claims: Vec<Value> = self.moved.iter().map(|moved| self.claim(moved)).collect();
        json!({ "totals": totals, "claims": claims })
    }

    fn claim(&self, moved: &Moved) -> Value {
        let (first, other) = ways(&moved.shift);
        let way = |schedules: &[Schedule], way: Option<&Way>| {
            way.map(|way| {
                json!({
                    "schedule": Self::edition(schedules, Some(way)),
                    "currency": way.gross.currency().code(),
                    "gross": way.gross.to_string(),
                    "insurer_pays": way.insurer_pays.to_string(),
                    "outcome": way.outcome.words(),
                    "open": way.open,
                })
            })
        };
        let difference = match &moved.shift {
            Shift::Both(_, _, difference) => {
                let parts: Map<String, Value> = difference
                    .parts
                    .iter()
                    .map(|(part, amount)| (part_words(*part).to_owned(), json!(amount.to_string())))
                    .collect();
                Some(json!({
                    "gross": difference.gross.to_string(),
                    "insurer_pays": difference.insurer_pays.to_string(),
                    "by_part": parts,
                }))
            }
            _ => None,
        };
        json!({
            "claim": self.key(moved),
            "as_it_is": way(self.schedules, first),
            "then": way(self.others, other),
            "difference": difference,
            "remark": fate_words(&moved.shift),
        })
    }

    /// Every claim as a row, in input order.
    pub fn csv(&self) -> io::Result<Vec<u8>> {
        let mut table = CsvTable::new(Vec::new(), COLUMNS)?;
        for moved in self.moved {
            let (first, other) = ways(&moved.shift);
            let (gross, insurer) = match &moved.shift {
                Shift::Both(_, _, difference) => (Some(difference.gross), Some(difference.insurer_pays)),
                _ => (None, None),
            };
            let money = |of: fn(&Way) -> Money, way: Option<&Way>| Field::money(way.map(of));
            let words = |way: Option<&Way>| Field::text(way.map_or("", |way| way.outcome.words()));
            let open = |way: Option<&Way>| way.map_or(Field::Blank, |way| Field::count(way.open));
            let currency = |way: Option<&Way>| Field::text(way.map_or("", |way| way.gross.currency().code()));
            table.row(&[
                Field::text(self.key(moved)),
                currency(first.or(other)),
                money(|way| way.gross, first),
                money(|way| way.gross, other),
                Field::money(gross),
                money(|way| way.insurer_pays, first),
                money(|way| way.insurer_pays, other),
                Field::money(insurer),
                words(first),
                words(other),
                open(first),
                open(other),
                Field::text(Self::edition(self.schedules, first)),
                Field::text(Self::edition(self.others, other)),
                Field::text(fate_words(&moved.shift).unwrap_or_default()),
            ])?;
        }
        Ok(table.finish())
    }
}

/// `Our prices, edition 3`.
pub fn edition_words(schedule: &Schedule) -> String {
    format!("{}, edition {}", schedule.terms.name.value, schedule.terms.edition.value)
}

fn text(sum: Result<Money, QuantityFault>) -> Option<String> {
    sum.ok().map(|sum| sum.to_string())
}

const COLUMNS: &[Column] = &[
    Column { name: "claim", kind: Kind::Text, about: "key of the job" },
    Column { name: "currency", kind: Kind::Text, about: "currency (ISO 4217)" },
    Column { name: "gross", kind: Kind::Money, about: "gross amount as it is" },
    Column { name: "gross then", kind: Kind::Money, about: "gross amount the other way" },
    Column { name: "difference", kind: Kind::Money, about: "gross then less gross" },
    Column { name: "insurer pays", kind: Kind::Money, about: "what the insurer pays as it is" },
    Column { name: "insurer pays then", kind: Kind::Money, about: "what it pays the other way" },
    Column { name: "difference for the insurer", kind: Kind::Money, about: "the second less the first" },
    Column { name: "outcome", kind: Kind::Text, about: "the claim in one word" },
    Column { name: "outcome then", kind: Kind::Text, about: "likewise the other way" },
    Column { name: "open", kind: Kind::Count, about: "open panels and items" },
    Column { name: "open then", kind: Kind::Count, about: "likewise the other way" },
    Column { name: "schedule", kind: Kind::Text, about: "schedule and edition" },
    Column { name: "schedule then", kind: Kind::Text, about: "likewise the other way" },
    Column { name: "remark", kind: Kind::Text, about: "what else changes" },
];

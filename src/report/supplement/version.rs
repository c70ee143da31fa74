//! A claim as a line of `assessments.jsonl` says it: what a supplement needs of it, amounts checked.

use crate::quantity::{Currency, DecimalMark, Money, parse_decimal};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// One claim of a run.
#[derive(Debug, Deserialize)]
pub struct Version {
    /// The form of the line.
    pub format: u32,
    /// The job's key.
    pub claim: String,
    /// What the sheets said.
    pub written: Said,
    /// Missing when it was not priced.
    pub assessment: Option<Priced>,
}

/// What was written.
#[derive(Debug, Default, Deserialize)]
pub struct Said {
    /// Event, numbers, people and terms.
    #[serde(default)]
    pub parties: Map<String, Value>,
    /// The vehicle.
    #[serde(default)]
    pub vehicle: Map<String, Value>,
    /// Every inspection.
    #[serde(default)]
    pub inspections: Vec<Inspected>,
    /// Damaged things that are no panels.
    #[serde(default)]
    pub items: Vec<Map<String, Value>>,
    /// Prices and times of panels.
    #[serde(default)]
    pub parts: Vec<Map<String, Value>>,
    /// A person's decisions.
    #[serde(default)]
    pub overrules: Vec<Map<String, Value>>,
    /// Payments after an earlier event.
    #[serde(default)]
    pub paid_before: Vec<Map<String, Value>>,
}

/// One person's inspection.
#[derive(Debug, Deserialize)]
pub struct Inspected {
    /// Its panels.
    pub panels: Vec<PanelSaid>,
}

/// What was written of a panel.
#[derive(Debug, Deserialize)]
#[serde(try_from = "Map<String, Value>")]
pub struct PanelSaid {
    /// Its marks.
    pub marks: Vec<Map<String, Value>>,
    /// Material, access, paint and the like.
    pub rest: Map<String, Value>,
}

impl TryFrom<Map<String, Value>> for PanelSaid {
    type Error = serde_json::Error;

    fn try_from(mut rest: Map<String, Value>) -> Result<Self, Self::Error> {
        let marks = rest.remove("marks").map_or_else(|| Ok(Vec::new()), serde_json::from_value)?;
        Ok(Self { marks, rest })
    }
}

/// What came out.
#[derive(Debug, Deserialize)]
#[serde(try_from = "RawPriced")]
pub struct Priced {
    /// The claim in one word.
    pub outcome: String,
    /// By which schedule.
    pub schedule: Schedule,
    /// Currency of every amount.
    pub currency: Currency,
    /// Its panels.
    pub panels: Vec<Panel>,
    /// Its lines.
    pub lines: Vec<Line>,
    /// Every sum by its name in the data: totals, then who pays what.
    pub sums: BTreeMap<String, Money>,
}

/// A schedule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Schedule {
    /// Its name.
    pub name: String,
    /// Its edition.
    pub edition: String,
    /// SHA-256 of its files.
    pub digest: String,
}

/// A panel.
#[derive(Debug)]
pub struct Panel {
    /// Everything that is no amount.
    pub is: RawPanel,
    /// What enters the totals.
    pub amount: Option<Money>,
}

/// A line.
#[derive(Debug)]
pub struct Line {
    /// Everything that is no amount.
    pub is: RawLine,
    /// How much.
    pub amount: Money,
}

#[derive(Debug, Deserialize)]
struct RawPriced {
    outcome: String,
    schedule: Schedule,
    currency: String,
    panels: Vec<RawPanel>,
    lines: Vec<RawLine>,
    totals: Map<String, Value>,
    settlement: Map<String, Value>,
}

/// A panel as it stands in the data.
#[derive(Debug, Deserialize)]
pub struct RawPanel {
    /// Its name.
    pub panel: String,
    /// Which inspection it was taken from, and its number there.
    pub inspection: usize,
    /// Its number there.
    pub index: usize,
    /// Its group in the rates.
    pub rated_as: Option<String>,
    /// Assessed, without damage, or not inspected.
    pub state: String,
    /// Counts by size band.
    pub counts: Vec<SizeCount>,
    /// The bands for the whole panel, where a rule names them.
    pub rated_at: Option<RatedAt>,
    /// What is done.
    pub method: String,
    /// Why it is in no total.
    pub open: Option<Open>,
    amount: Option<String>,
}

/// Dents of a size band.
#[derive(Debug, Deserialize)]
pub struct SizeCount {
    /// The band.
    pub size: String,
    /// What was counted.
    pub count: Value,
}

/// Bands of a whole panel.
#[derive(Debug, PartialEq, Eq, Deserialize)]
pub struct RatedAt {
    /// Size band.
    pub size: String,
    /// Count band.
    pub count: String,
}

/// Why a panel is open.
#[derive(Debug, Deserialize)]
pub struct Open {
    /// In words.
    pub because: String,
}

/// A line as it stands in the data.
#[derive(Debug, Clone, Deserialize)]
pub struct RawLine {
    /// Its number on the document.
    pub number: Option<usize>,
    /// Its panel; none for the vehicle.
    pub panel: Option<String>,
    /// What kind of line.
    pub kind: String,
    /// What it is for.
    pub words: String,
    amount: String,
    /// Time in it.
    pub hours: Option<String>,
    /// Rate of the tax on it.
    pub tax_percent: String,
}

/// The sums that are compared, in the order in which a supplement lists them.
pub const SUMS: [&str; 12] = [
    "net",
    "tax",
    "rounding",
    "gross",
    "amount",
    "tax_reclaimed",
    "paid_before",
    "excess",
    "beyond_policy_limit",
    "insurer_pays",
    "owner_bears",
    "salvage_kept",
];

impl TryFrom<RawPriced> for Priced {
    type Error = String;

    fn try_from(raw: RawPriced) -> Result<Self, String> {
        let currency = Currency::from_code(&raw.currency)
            .ok_or_else(|| format!("{:?} is no currency of ISO 4217", raw.currency))?;
        let money = |text: &str| {
            let decimal = parse_decimal(text, DecimalMark::Point);
            let amount = decimal.ok().and_then(|decimal| Money::from_decimal(decimal, currency).ok());
            amount.ok_or_else(|| format!("{text:?} is no amount in {currency}"))
        };
        let mut sums = BTreeMap::new();
        for name in SUMS {
            let said = raw.totals.get(name).or_else(|| raw.settlement.get(name));
            if let Some(said) = said {
                let text = said.as_str().ok_or_else(|| format!("the {name} is no text"))?;
                sums.insert(name.to_owned(), money(text)?);
            } else if name != "rounding" {
                return Err(format!("the {name} is missing"));
            }
        }
        let panel = |is: RawPanel| {
            let amount = is.amount.as_deref().map(money).transpose()?;
            Ok(Panel { is, amount })
        };
        let line = |is: RawLine| {
            let amount = money(&is.amount)?;
            Ok(Line { is, amount })
        };
        Ok(Self {
            outcome: raw.outcome,
            schedule: raw.schedule,
            currency,
            panels: raw.panels.into_iter().map(panel).collect::<Result<_, String>>()?,
            lines: raw.lines.into_iter().map(line).collect::<Result<_, String>>()?,
            sums,
        })
    }
}

impl Version {
    /// What was written of a panel that was assessed.
    pub fn said_of(&self, panel: &RawPanel) -> Option<&PanelSaid> {
        self.written.inspections.get(panel.inspection)?.panels.get(panel.index)
    }
}

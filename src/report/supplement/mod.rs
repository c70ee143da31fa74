//! Supplements: what changed since an agreed version, which is the `assessments.jsonl` of an earlier run. Both versions
//! are taken from the same data, so the same things are the same. The only arithmetic is subtracting an agreed amount
//! from a new one.

mod change;
mod reasons;
mod version;
mod written;

pub use change::{Amounts, Change, Fate, LineChange, PanelChange, SumChange};
pub use reasons::{Cause, Reason};
pub use version::Schedule as AgreedSchedule;
pub use written::{SUPPLEMENTS_TABLE, Supplemented, Supplements};

use super::folder::Written;
use super::json::ClaimView;
use super::run_record::FORMAT;
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::agreed};
use std::collections::{BTreeMap, BTreeSet};
use version::Version;

/// Most of a line that is quoted where it cannot be read.
const QUOTED: usize = 60;

/// An agreed version of a batch.
#[derive(Debug)]
pub struct Agreed {
    /// The file it stands in.
    pub file: Written,
    /// Claims by their keys, as keys are compared.
    claims: BTreeMap<String, Version>,
    /// Keys in the order of the file.
    order: Vec<String>,
}

impl Agreed {
    /// Reads the lines of a file. One line that cannot be read, or two of one claim, and the file is refused: what would
    /// be held against it is not what was agreed.
    pub fn read(file: Written, bytes: &[u8]) -> Result<Self, Problem> {
        let path = file.path.as_str();
        let mut claims: BTreeMap<String, (usize, Version)> = BTreeMap::new();
        let mut order = Vec::new();
        for (index, line) in bytes.split(|byte| *byte == b'\n').enumerate() {
            if line.iter().all(u8::is_ascii_whitespace) {
                continue;
            }
            let number = index + 1;
            let quoted = || String::from_utf8_lossy(line).chars().take(QUOTED).collect::<String>();
            let version: Version = serde_json::from_slice(line)
                .map_err(|error| agreed::not_read(path, number, &error.to_string(), &quoted()))?;
            if version.format != FORMAT {
                let why = format!("its format is {}, and this program knows {FORMAT}", version.format);
                return Err(agreed::not_read(path, number, &why, &quoted()));
            }
            let key = folded(&version.claim);
            if let Some((first, _)) = claims.get(&key) {
                return Err(agreed::twice(path, *first, number, &version.claim));
            }
            order.push(key.clone());
            claims.insert(key, (number, version));
        }
        if claims.is_empty() {
            return Err(agreed::empty(path));
        }
        let claims = claims.into_iter().map(|(key, (_, version))| (key, version)).collect();
        Ok(Self { file, claims, order })
    }

    /// What changed of a claim. Amounts too large to subtract are told.
    pub fn compare(&self, claim: &ClaimView) -> Result<Change, Problem> {
        let now = serde_json::to_value(claim).and_then(serde_json::from_value::<Version>);
        let now = now.map_err(|error| agreed::not_compared(claim.key(), &error.to_string()))?;
        let before = self.claims.get(&folded(&now.claim));
        Change::between(before, &now).map_err(|fault| agreed::not_compared(&now.claim, &fault.to_string()))
    }

    /// Claims that none of these keys names, in the order of the file.
    pub fn gone<'k>(&self, keys: impl IntoIterator<Item = &'k str>) -> Vec<(&str, Change)> {
        let there: BTreeSet<String> = keys.into_iter().map(folded).collect();
        let gone =
            self.order.iter().filter(|key| !there.contains(*key)).filter_map(|key| self.claims.get(key));
        gone.map(|version| (version.claim.as_str(), Change::gone(version))).collect()
    }
}

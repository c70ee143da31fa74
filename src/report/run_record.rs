//! `run.json`: what a run read, what came out, and every file it wrote. No clock: the same input gives the same bytes.

use super::folder::{OutputFolder, Written};
use super::tables::Run;
use crate::batch::{CurrencyTotals, Totals};
use crate::claim::InputFile;
use crate::problem::Problem;
use crate::quantity::{Currency, Date, Money, QuantityFault};
use crate::schedule::Schedule;
use serde::Serialize;
use std::collections::BTreeMap;
use std::io;

/// The record's file name; the folder that holds it is an output.
pub const RECORD: &str = "run.json";
/// The folder of the claims' documents.
pub const CLAIMS: &str = "claims";
/// The folder of the statements of lots.
pub const LOTS: &str = "lots";
/// The folder of work orders.
pub const WORK_ORDERS: &str = "work-orders";
/// The folder of sheets for owners.
pub const OWNERS: &str = "owners";
/// The folder of supplements.
pub const SUPPLEMENTS: &str = "supplements";
/// The folder of claim workbooks.
pub const CLAIM_WORKBOOKS: &str = "claim-workbooks";
/// Every folder of an output; one without a priced claim is empty.
pub const FOLDERS: [&str; 6] = [CLAIM_WORKBOOKS, CLAIMS, LOTS, OWNERS, SUPPLEMENTS, WORK_ORDERS];
/// By whom an output was written.
pub const TOOL: &str = env!("CARGO_PKG_NAME");
/// The version of the program, as documents name it.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");
/// The version of the record's form and of `assessments.jsonl`.
pub const FORMAT: u32 = 1;

/// What a run read and what came out, for programs. Amounts are strings in major units; `null` where a sum is too large.
#[derive(Debug, Clone, Serialize)]
pub struct RunRecord {
    format: u32,
    tool: &'static str,
    version: &'static str,
    /// The date given for claims that carry none.
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<String>,
    read: Vec<Written>,
    /// The agreed version that supplements were written against.
    #[serde(skip_serializing_if = "Option::is_none")]
    agreed: Option<Written>,
    schedules: Vec<ScheduleRecord>,
    claims: ClaimCounts,
    panels: PanelCounts,
    open_items: u64,
    totals: Vec<MoneyTotals>,
    problems: ProblemCounts,
}

/// A schedule of the run.
#[derive(Debug, Clone, Serialize)]
struct ScheduleRecord {
    name: String,
    edition: String,
    currency: &'static str,
    digest: String,
    files: Vec<String>,
}

#[derive(Debug, Clone, Serialize)]
struct ClaimCounts {
    all: u64,
    not_priced: u64,
    by_outcome: BTreeMap<&'static str, u64>,
}

#[derive(Debug, Clone, Serialize)]
struct PanelCounts {
    by_method: BTreeMap<&'static str, u64>,
    without_damage: u64,
    not_inspected: u64,
    open: u64,
    overruled: u64,
    dents: u64,
}

#[derive(Debug, Clone, Serialize)]
struct MoneyTotals {
    currency: &'static str,
    claims: u64,
    net: Option<String>,
    tax: Option<String>,
    rounding: Option<String>,
    gross: Option<String>,
    settlement_amount: Option<String>,
    excess: Option<String>,
    insurer_pays: Option<String>,
    owner_bears: Option<String>,
    salvage_kept: Option<String>,
}

#[derive(Debug, Clone, Serialize)]
struct ProblemCounts {
    by_severity: BTreeMap<&'static str, u64>,
    by_code: BTreeMap<&'static str, u64>,
}

impl RunRecord {
    /// The record of a run over these files and schedules.
    pub fn new(files: &[InputFile], schedules: &[Schedule], date: Option<Date>, totals: &Totals) -> Self {
        Self {
            format: FORMAT,
            tool: TOOL,
            version: VERSION,
            date: date.map(|date| date.to_string()),
            read: files.iter().map(read_file).collect(),
            agreed: None,
            schedules: schedules.iter().map(ScheduleRecord::new).collect(),
            claims: ClaimCounts {
                all: totals.claims,
                not_priced: totals.not_priced,
                by_outcome: totals.outcomes.iter().map(|(outcome, n)| (outcome.words(), *n)).collect(),
            },
            panels: PanelCounts {
                by_method: totals.panels.iter().map(|(method, n)| (method.name(), *n)).collect(),
                without_damage: totals.panels_without_damage,
                not_inspected: totals.panels_not_inspected,
                open: totals.open_panels,
                overruled: totals.overruled,
                dents: totals.dents,
            },
            open_items: totals.open_items,
            totals: totals.money.iter().map(|(currency, money)| money_totals(*currency, money)).collect(),
            problems: ProblemCounts {
                by_severity: totals.severities.iter().map(|(severity, n)| (severity.word(), *n)).collect(),
                by_code: totals.problems.clone(),
            },
        }
    }

    /// Names the agreed version.
    #[must_use]
    pub fn against(mut self, agreed: Option<&Written>) -> Self {
        self.agreed = agreed.cloned();
        self
    }

    /// The bytes of `run.json`, given the files that were written, in the order of their paths, and what the documents of
    /// each claim were drawn from, by their name.
    pub fn to_json(
        &self,
        files: &[Written],
        drawn_from: &BTreeMap<String, String>,
    ) -> serde_json::Result<Vec<u8>> {
        #[derive(Serialize)]
        struct WithFiles<'a> {
            #[serde(flatten)]
            run: &'a RunRecord,
            files: &'a [Written],
            #[serde(skip_serializing_if = "BTreeMap::is_empty")]
            drawn_from: &'a BTreeMap<String, String>,
        }
        lines(&WithFiles { run: self, files, drawn_from })
    }
}

impl ScheduleRecord {
    fn new(schedule: &Schedule) -> Self {
        let terms = &schedule.terms;
        Self {
            name: terms.name.value.clone(),
            edition: terms.edition.value.clone(),
            currency: terms.currency.value.code(),
            digest: schedule.digest.clone(),
            files: schedule.files.iter().map(|file| file.path.clone()).collect(),
        }
    }
}

/// What the record of another command says beside what it says for itself.
#[derive(Serialize)]
struct Around<'a, Of, Out> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    #[serde(flatten)]
    of: Of,
    read: Vec<Written>,
    schedules: Vec<ScheduleRecord>,
    #[serde(flatten)]
    came_out: Out,
    files: &'a [Written],
}

/// The day by which a command looks at things, where there is one.
#[derive(Serialize)]
pub struct Dated {
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<String>,
}

impl Dated {
    /// By this day.
    pub fn on(date: Option<Date>) -> Self {
        Self { date: date.map(|date| date.to_string()) }
    }
}

/// Writes the record of an output whose files are all written, and puts the output in its place. `of` is what the record
/// says before the files that were read, `came_out` what it says behind the schedules. The files, in the order of their
/// paths.
pub fn close(
    folder: OutputFolder,
    run: &Run<'_>,
    mut written: Vec<Written>,
    of: impl Serialize,
    came_out: impl Serialize,
) -> Result<Vec<Written>, Problem> {
    written.sort_unstable();
    let record = lines(&Around {
        format: FORMAT,
        tool: TOOL,
        version: VERSION,
        of,
        read: run.files.iter().map(read_file).collect(),
        schedules: run.schedules.iter().map(ScheduleRecord::new).collect(),
        came_out,
        files: &written,
    });
    let record = record.map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
    folder.put(RECORD, &record)?;
    folder.swap_in()?;
    Ok(written)
}

/// A record as it stands in its file.
fn lines(record: &impl Serialize) -> serde_json::Result<Vec<u8>> {
    let mut bytes = serde_json::to_vec_pretty(record)?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// A file that was read, as records list it.
fn read_file(file: &InputFile) -> Written {
    Written { path: file.path.clone(), bytes: file.bytes, sha256: file.sha256.clone() }
}

fn money_totals(currency: Currency, money: &CurrencyTotals) -> MoneyTotals {
    let shown = |sum: Result<Money, QuantityFault>| sum.ok().map(|money| money.to_string());
    MoneyTotals {
        currency: currency.code(),
        claims: money.claims,
        net: shown(money.net),
        tax: shown(money.tax),
        rounding: shown(money.rounding),
        gross: shown(money.gross),
        settlement_amount: shown(money.settled),
        excess: shown(money.excess),
        insurer_pays: shown(money.insurer_pays),
        owner_bears: shown(money.owner_bears),
        salvage_kept: shown(money.salvage_kept),
    }
}

//! `register.json`: where every claim stands, for programs. Amounts are strings in major units; `null` where a sum is too
//! large.

use super::Filled;
use crate::claim::RegisterRow;
use crate::quantity::{Currency, Money, QuantityFault};
use crate::register::{Standing, Sums, Waits};
use crate::report::json::ProblemView;
use crate::report::run_record::{FORMAT, TOOL, VERSION};
use serde::Serialize;

/// The whole register.
#[derive(Debug, Serialize)]
pub struct RegisterView {
    format: u32,
    tool: &'static str,
    version: &'static str,
    day: Option<String>,
    claims: Vec<ClaimView>,
    rows_without_claim: Vec<RowView>,
    sums: Vec<SumsView>,
    findings: Vec<ProblemView>,
}

#[derive(Debug, Serialize)]
struct ClaimView {
    claim: String,
    insurer: Option<String>,
    owner: Option<String>,
    car: String,
    stands: Option<String>,
    by: Option<String>,
    waits_for: Option<&'static str>,
    what_for: Option<&'static str>,
    since: Option<String>,
    days: Option<i64>,
    currency: Option<&'static str>,
    assessed: Option<String>,
    submitted: Option<String>,
    agreed: Option<String>,
    paid: Option<String>,
    still_to_pay: Option<String>,
    rows: Vec<RowView>,
}

#[derive(Debug, Serialize)]
struct RowView {
    at: String,
    key: String,
    date: String,
    event: String,
    amount: Option<String>,
    currency: Option<&'static str>,
    by: Option<String>,
    remark: Option<String>,
}

#[derive(Debug, Serialize)]
struct SumsView {
    currency: &'static str,
    claims: u64,
    assessed: Option<String>,
    submitted: Option<String>,
    agreed: Option<String>,
    paid: Option<String>,
    still_to_pay: Option<String>,
}

impl RegisterView {
    /// Of a register.
    pub fn new(filled: &Filled<'_>) -> Self {
        let register = filled.register;
        Self {
            format: FORMAT,
            tool: TOOL,
            version: VERSION,
            day: register.day.map(|day| day.to_string()),
            claims: register.standings.iter().map(|standing| claim(standing, filled)).collect(),
            rows_without_claim: register.strangers.iter().map(|stranger| row(stranger, filled)).collect(),
            sums: register.sums.values().map(sums).collect(),
            findings: register
                .findings
                .iter()
                .map(|problem| ProblemView::new(problem, None, filled.run.sources))
                .collect(),
        }
    }

    /// One object, with the end of its last line.
    pub fn to_bytes(&self) -> serde_json::Result<Vec<u8>> {
        let mut bytes = serde_json::to_vec_pretty(self)?;
        bytes.push(b'\n');
        Ok(bytes)
    }
}

fn claim(standing: &Standing, filled: &Filled<'_>) -> ClaimView {
    let Standing { claim, owed, .. } = standing;
    let money = |money: Option<Money>| money.map(|money| money.to_string());
    let is_done = standing.waits == Waits::Nobody;
    ClaimView {
        claim: claim.key.text.clone(),
        insurer: claim.insurer.clone(),
        owner: claim.owner.clone(),
        car: claim.car.clone(),
        stands: standing.stands.map(|step| step.to_string()),
        by: standing.by().map(str::to_owned),
        waits_for: (!is_done).then(|| standing.waits.words()),
        what_for: (!is_done).then_some(standing.next),
        since: standing.since.map(|day| day.to_string()),
        days: standing.days,
        currency: owed.currency().map(Currency::code),
        assessed: money(owed.assessed),
        submitted: money(owed.submitted),
        agreed: money(owed.agreed),
        paid: money(owed.paid),
        still_to_pay: money(owed.still),
        rows: standing.rows.iter().map(|of_claim| row(of_claim, filled)).collect(),
    }
}

fn row(row: &RegisterRow, filled: &Filled<'_>) -> RowView {
    let amount = row.amount.map(|amount| amount.value);
    RowView {
        at: filled.run.sources.short(row.place),
        key: row.key.value.clone(),
        date: row.date.value.to_string(),
        event: row.step.value.to_string(),
        amount: amount.map(|amount| amount.amount.to_string()),
        currency: amount.and_then(|amount| amount.currency).map(Currency::code),
        by: row.by.as_ref().map(|by| by.value.clone()),
        remark: row.remark.as_ref().map(|remark| remark.value.clone()),
    }
}

fn sums(sums: &Sums) -> SumsView {
    let of = |sum: Result<Money, QuantityFault>| sum.ok().map(|sum| sum.to_string());
    SumsView {
        currency: sums.currency.code(),
        claims: sums.claims,
        assessed: of(sums.assessed),
        submitted: of(sums.submitted),
        agreed: of(sums.agreed),
        paid: of(sums.paid),
        still_to_pay: of(sums.still),
    }
}

//! The page of a register: what waits for whom and how long, what was paid, and every claim.

use super::Filled;
use crate::problem::Severity;
use crate::quantity::{Currency, Money, QuantityFault};
use crate::register::{Register, Standing, Sums, Waits};
use crate::report::document::{Figure, Head};
use crate::report::run_record::TOOL;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// The page, ready to be drawn.
#[derive(Debug, Serialize)]
pub struct RegisterPage {
    language: &'static str,
    head: Head,
    waiting: Vec<WaitingRow>,
    done: usize,
    sums: Vec<SumsRow>,
    /// Whether amounts are in several currencies.
    several: bool,
    claims: Vec<ClaimRow>,
    findings: Vec<FindingRow>,
    made_by: String,
    files: Vec<(String, String)>,
}

/// What waits for one of those that claims wait for.
#[derive(Debug, Serialize)]
struct WaitingRow {
    who: String,
    claims: String,
    longest: Option<String>,
}

/// The amounts of one currency; nothing where a sum is too large.
#[derive(Debug, Serialize)]
struct SumsRow {
    currency: &'static str,
    assessed: Option<Figure>,
    submitted: Option<Figure>,
    agreed: Option<Figure>,
    paid: Option<Figure>,
    still: Option<Figure>,
}

#[derive(Debug, Serialize)]
struct ClaimRow {
    claim: String,
    car: String,
    insurer: String,
    stands: String,
    waits: String,
    is_done: bool,
    since: String,
    days: String,
    currency: &'static str,
    assessed: Option<Figure>,
    submitted: Option<Figure>,
    agreed: Option<Figure>,
    paid: Option<Figure>,
    still: Option<Figure>,
}

#[derive(Debug, Serialize)]
struct FindingRow {
    claim: String,
    what: String,
    at: String,
    needs_a_look: bool,
}

impl RegisterPage {
    /// Of a register.
    pub fn new(filled: &Filled<'_>, tool_version: &str) -> Self {
        let register = filled.register;
        let claims = wording::so_many(register.standings.len(), "claim", "claims");
        Self {
            language: "en",
            head: Head {
                what: LABELS.register,
                key_kind: LABELS.of_this_register,
                key: claims.clone(),
                short_key: claims,
                schedule: None,
                for_whom: None,
                date: register.day.map(wording::date),
            },
            waiting: waiting(register),
            done: register.standings.iter().filter(|standing| standing.waits == Waits::Nobody).count(),
            sums: register.sums.values().map(sums).collect(),
            several: register.sums.len() > 1,
            claims: register.standings.iter().map(claim).collect(),
            findings: findings(filled),
            made_by: format!("{TOOL} {tool_version}"),
            files: filled.run.files.iter().map(|file| (file.path.clone(), file.sha256.clone())).collect(),
        }
    }
}

fn waiting(register: &Register) -> Vec<WaitingRow> {
    let rows = Waits::ALL.iter().filter(|waits| **waits != Waits::Nobody).filter_map(|waits| {
        // The first of them waits longest.
        let mut of_it = register.standings.iter().filter(|standing| standing.waits == *waits);
        let longest = of_it.next()?;
        let days = longest.days.and_then(|days| usize::try_from(days).ok());
        Some(WaitingRow {
            who: format!("{} {}", LABELS.waiting_for, waits.words()),
            claims: wording::so_many(of_it.count() + 1, "claim", "claims"),
            longest: days.map(|days| {
                format!("{}: {}, {}", wording::so_many(days, "day", "days"), longest.claim.key, longest.next)
            }),
        })
    });
    rows.collect()
}

fn sums(sums: &Sums) -> SumsRow {
    let figure = |sum: Result<Money, QuantityFault>| sum.ok().map(Figure);
    SumsRow {
        currency: sums.currency.code(),
        assessed: figure(sums.assessed),
        submitted: figure(sums.submitted),
        agreed: figure(sums.agreed),
        paid: figure(sums.paid),
        still: figure(sums.still),
    }
}

fn claim(standing: &Standing) -> ClaimRow {
    let Standing { claim, owed, .. } = standing;
    let is_done = standing.waits == Waits::Nobody;
    ClaimRow {
        claim: claim.key.text.clone(),
        car: claim.car.clone(),
        insurer: claim.insurer.clone().unwrap_or_default(),
        stands: standing.stands.map_or_else(|| LABELS.no_row_yet.to_owned(), |step| step.to_string()),
        waits: if is_done {
            LABELS.nothing_left.to_owned()
        } else {
            format!("{} {}", standing.waits.words(), standing.next)
        },
        is_done,
        // Days of a column stand in one form.
        since: standing.since.map(|day| day.to_string()).unwrap_or_default(),
        days: standing.days.map(|days| days.to_string()).unwrap_or_default(),
        currency: owed.currency().map_or("", Currency::code),
        assessed: owed.assessed.map(Figure),
        submitted: owed.submitted.map(Figure),
        agreed: owed.agreed.map(Figure),
        paid: owed.paid.map(Figure),
        still: owed.still.map(Figure),
    }
}

fn findings(filled: &Filled<'_>) -> Vec<FindingRow> {
    let sources = filled.run.sources;
    let rows = filled.register.findings.iter().map(|problem| {
        let places = problem.place.iter().chain(&problem.also);
        let at: Vec<String> = places.map(|place| sources.short(*place)).collect();
        let written = problem.written.as_ref().map_or(String::new(), |written| format!("{written}: "));
        let help = problem.help.as_ref().map_or(String::new(), |help| format!("; {help}"));
        FindingRow {
            claim: problem.claim.clone().unwrap_or_default(),
            what: wording::sentence(&format!("{written}{}{help}", problem.message)),
            at: at.join("; "),
            needs_a_look: problem.severity() > Severity::Note,
        }
    });
    rows.collect()
}

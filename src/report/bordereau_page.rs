//! The bordereau as one page: sums by outcome, insurer, owner and method, exceptions, every claim with a link, and what it
//! was made from. It draws rows that other tables hold already.

use super::document::{Figure, Head};
use super::groups::{GroupRow, Groups};
use super::overview::open_words;
use super::run_record::{TOOL, VERSION};
use super::tables::{Field, Run, claims};
use super::wording::{self, bordereau as words, bordereau::BordereauLabels, label::LABELS};
use crate::batch::Totals;
use crate::problem::Severity;
use crate::quantity::{Currency, Date, Money, QuantityFault};
use serde::Serialize;

/// Most exceptions that the page lists: a page that nobody scrolls through helps nobody.
const MOST: usize = 2_000;

/// Gathers what the page lists, in input order.
#[derive(Debug, Default)]
pub struct BordereauRows {
    claims: Vec<ListedClaim>,
    exceptions: Vec<ListedException>,
    more_exceptions: usize,
}

#[derive(Debug, Serialize)]
struct ListedClaim {
    claim: String,
    link: Option<String>,
    policy: String,
    insurer: String,
    owner: String,
    vehicle: String,
    registration: String,
    date: String,
    outcome: String,
    open: String,
    currency: String,
    net: Option<Figure>,
    tax: Option<Figure>,
    gross: Option<Figure>,
    excess: Option<Figure>,
    insurer_pays: Option<Figure>,
    owner_bears: Option<Figure>,
}

#[derive(Debug, Serialize)]
struct ListedException {
    severity: &'static str,
    claim: String,
    place: String,
    written: String,
    wrong: String,
    right: String,
}

/// The page, ready to be drawn.
#[derive(Debug, Serialize)]
pub struct BordereauPage {
    language: &'static str,
    words: BordereauLabels,
    head: Head,
    money: Vec<ShownSums>,
    without: Option<String>,
    groups: Vec<ShownGroup>,
    methods: Vec<ShownRow>,
    exceptions: Vec<ListedException>,
    more_exceptions: Option<String>,
    claims: Vec<ListedClaim>,
    made_from: Vec<(&'static str, String, String)>,
}

#[derive(Debug, Serialize)]
struct ShownSums {
    currency: &'static str,
    net: Option<Figure>,
    tax: Option<Figure>,
    gross: Option<Figure>,
    insurer_pays: Option<Figure>,
    owner_bears: Option<Figure>,
}

#[derive(Debug, Serialize)]
struct ShownGroup {
    title: &'static str,
    rows: Vec<ShownRow>,
}

#[derive(Debug, Serialize)]
struct ShownRow {
    of: String,
    count: Option<u64>,
    not_priced: Option<u64>,
    open: Option<u64>,
    currency: Option<&'static str>,
    amounts: [Option<Figure>; 5],
}

impl From<GroupRow> for ShownRow {
    fn from(row: GroupRow) -> Self {
        Self {
            of: row.of,
            count: row.count,
            not_priced: row.not_priced,
            open: row.open,
            currency: row.currency.map(Currency::code),
            amounts: row.amounts.map(|amount| amount.map(Figure)),
        }
    }
}

impl BordereauRows {
    /// Takes a claim's row of `claims.csv`.
    pub fn claim(&mut self, row: &[Field]) {
        let field = |name: &str| {
            let column = claims::COLUMNS.iter().position(|column| column.name == name);
            column.and_then(|column| row.get(column)).unwrap_or(&Field::Blank)
        };
        let money = |name: &str| match field(name) {
            Field::Money(money) => Some(Figure(*money)),
            _ => None,
        };
        let count = |name: &str| match field(name) {
            Field::Count(count) => *count,
            _ => 0,
        };
        let open = count("open panels") + count("open items");
        let vehicle = [field("make").plain(), field("model").plain()].join(" ");
        self.claims.push(ListedClaim {
            claim: field("claim").plain(),
            link: Some(field("document").plain()).filter(|link| !link.is_empty()),
            policy: field("policy").plain(),
            insurer: field("insurer").plain(),
            owner: field("owner").plain(),
            vehicle: vehicle.trim().to_owned(),
            registration: field("registration").plain(),
            date: field("date of loss").plain(),
            outcome: field("outcome").plain(),
            open: if open == 0 { String::new() } else { open.to_string() },
            currency: field("currency").plain(),
            net: money("net"),
            tax: money("tax"),
            gross: money("gross"),
            excess: money("excess"),
            insurer_pays: money("insurer pays"),
            owner_bears: money("owner bears"),
        });
    }

    /// Takes a row of `exceptions.csv`.
    pub fn exception(&mut self, severity: Severity, row: &[Field]) {
        if severity == Severity::Note {
            return;
        }
        if self.exceptions.len() == MOST {
            self.more_exceptions += 1;
            return;
        }
        let field = |column: usize| row.get(column).map(Field::plain).unwrap_or_default();
        let place: Vec<String> = (3..6).map(field).filter(|part| !part.is_empty()).collect();
        self.exceptions.push(ListedException {
            severity: severity.word(),
            claim: field(2),
            place: place.join(" "),
            written: field(6),
            wrong: field(7),
            right: field(8),
        });
    }

    /// Closes the page with the sums of the run.
    pub fn finish(
        self,
        totals: &Totals,
        groups: &Groups,
        run: &Run<'_>,
        date: Option<Date>,
    ) -> BordereauPage {
        let labels = words::LABELS;
        let claims = wording::so_many(self.claims.len(), "claim", "claims");
        let shown = |rows: Vec<GroupRow>| rows.into_iter().map(ShownRow::from).collect();
        let figure = |sum: Result<Money, QuantityFault>| sum.ok().map(Figure);
        let mut made_from = vec![(labels.program, format!("{TOOL} {VERSION}"), String::new())];
        made_from.extend(run.schedules.iter().map(|schedule| {
            let name = format!("{}, edition {}", schedule.terms.name.value, schedule.terms.edition.value);
            (labels.schedule, name, schedule.digest.clone())
        }));
        made_from.extend(run.files.iter().map(|file| (labels.file, file.path.clone(), file.sha256.clone())));
        BordereauPage {
            language: "en",
            words: labels,
            head: Head {
                what: labels.title,
                key_kind: LABELS.of_this_run,
                key: claims.clone(),
                short_key: claims,
                schedule: None,
                for_whom: None,
                date: date.map(wording::date),
            },
            money: totals
                .money
                .iter()
                .map(|(currency, sums)| ShownSums {
                    currency: currency.code(),
                    net: figure(sums.net),
                    tax: figure(sums.tax),
                    gross: figure(sums.gross),
                    insurer_pays: figure(sums.insurer_pays),
                    owner_bears: figure(sums.owner_bears),
                })
                .collect(),
            without: open_words(totals).map(|open| format!("{} {open}", words::WITHOUT)),
            groups: vec![
                ShownGroup { title: labels.by_outcome, rows: shown(groups.outcomes()) },
                ShownGroup { title: labels.by_insurer, rows: shown(groups.insurers()) },
                ShownGroup { title: labels.by_owner, rows: shown(groups.owners()) },
            ],
            methods: shown(groups.methods()),
            exceptions: self.exceptions,
            more_exceptions: (self.more_exceptions > 0).then(|| words::more_exceptions(self.more_exceptions)),
            claims: self.claims,
            made_from,
        }
    }
}

//! The overview of a batch as one page: what the run comes to, who pays what, what needs a person, and every claim with a
//! link to its document. Its only arithmetic is adding what claims hold already.

use super::document::{Figure, Head};
use super::overview::Need;
use super::tables::{Field, claims};
use super::wording::{self, label::LABELS};
use super::words::Words;
use crate::batch::{CurrencyTotals, Totals};
use crate::claim::Method;
use crate::quantity::{Currency, Date, Hours, Money, QuantityFault, TimeUnit};
use serde::Serialize;
use std::collections::BTreeMap;

/// Gathers what the page says, claim by claim in input order.
#[derive(Debug, Default)]
pub struct BatchPage {
    claims: Vec<ClaimRow>,
    needs: Vec<NeedRow>,
    gross: BTreeMap<Currency, Vec<Money>>,
    labour: Hours,
    labour_fault: Option<QuantityFault>,
}

/// One claim.
#[derive(Debug, Serialize)]
struct ClaimRow {
    claim: String,
    link: Option<String>,
    insurer: String,
    vehicle: String,
    outcome: String,
    dents: String,
    open: String,
    currency: String,
    gross: Option<Figure>,
    insurer_pays: Option<Figure>,
    owner_bears: Option<Figure>,
}

/// Something that a person has to decide, with the document that says more.
#[derive(Debug, Serialize)]
struct NeedRow {
    claim: String,
    link: Option<String>,
    what: String,
    why: String,
}

/// The page, ready to be drawn.
#[derive(Debug, Serialize)]
pub struct BatchOverview {
    language: &'static str,
    head: Head,
    outcomes: Vec<(&'static str, u64)>,
    methods: Vec<(&'static str, u64)>,
    dents: String,
    labour: Option<String>,
    money: Vec<MoneyRow>,
    insurers: Vec<MoneyRow>,
    spread: Vec<SpreadRow>,
    needs: Vec<NeedRow>,
    claims: Vec<ClaimRow>,
}

/// The money of some claims in one currency; nothing where a sum is too large to be a number here.
#[derive(Debug, Serialize)]
struct MoneyRow {
    who: String,
    outcomes: String,
    currency: &'static str,
    claims: u64,
    net: Option<Figure>,
    tax: Option<Figure>,
    gross: Option<Figure>,
    insurer_pays: Option<Figure>,
    owner_bears: Option<Figure>,
}

/// Five gross amounts of claims, from the least to the largest.
#[derive(Debug, Serialize)]
struct SpreadRow {
    currency: &'static str,
    amounts: [Figure; 5],
}

impl BatchPage {
    /// Takes a claim's row of `claims.csv`, the document it has, and what it needs.
    pub fn add(&mut self, row: &[Field], document: Option<&str>, needs: &[Need]) {
        let field = |name: &str| {
            let column = claims::COLUMNS.iter().position(|column| column.name == name);
            column.and_then(|column| row.get(column)).unwrap_or(&Field::Blank)
        };
        let money = |name: &str| match field(name) {
            Field::Money(money) => Some(*money),
            _ => None,
        };
        if let Some(gross) = money("gross") {
            self.gross.entry(gross.currency()).or_default().push(gross);
        }
        if let Field::Hours(hours) = field("labour") {
            match self.labour.plus(*hours) {
                Ok(sum) => self.labour = sum,
                Err(fault) => self.labour_fault = Some(fault),
            }
        }
        let link = document.map(str::to_owned);
        self.needs.extend(needs.iter().map(|need| NeedRow {
            claim: need.claim.clone(),
            link: link.clone(),
            what: need.what.clone(),
            why: need.why.clone(),
        }));
        let open = [field("open panels"), field("open items")].map(|open| match open {
            Field::Count(count) => *count,
            _ => 0,
        });
        let open: u64 = open.iter().sum();
        let make_and_model = [field("make").plain(), field("model").plain()].join(" ");
        self.claims.push(ClaimRow {
            claim: field("claim").plain(),
            link,
            insurer: field("insurer").plain(),
            vehicle: make_and_model.trim().to_owned(),
            outcome: field("outcome").plain(),
            dents: field("dents").plain(),
            open: if open == 0 { String::new() } else { open.to_string() },
            currency: field("currency").plain(),
            gross: money("gross").map(Figure::in_english),
            insurer_pays: money("insurer pays").map(Figure::in_english),
            owner_bears: money("owner bears").map(Figure::in_english),
        });
    }

    /// Closes the page with the totals of the run, and of each insurer by name.
    pub fn finish(
        self,
        totals: &Totals,
        by_insurer: &BTreeMap<String, Totals>,
        date: Option<Date>,
    ) -> BatchOverview {
        let claims = wording::so_many(self.claims.len(), "claim", "claims");
        let no_insurer =
            |name: &str| if name.is_empty() { LABELS.no_insurer.to_owned() } else { name.to_owned() };
        let money = |who: &str, totals: &Totals| -> Vec<MoneyRow> {
            totals.money.iter().map(|(currency, sums)| money_row(who, totals, *currency, sums)).collect()
        };
        let methods = Method::ALL.iter().filter_map(|method| {
            totals.panels.get(method).map(|count| (method.name(), *count)).filter(|(_, count)| *count > 0)
        });
        let labour = (!self.labour.is_zero() && self.labour_fault.is_none())
            .then(|| wording::time_with_unit(self.labour, TimeUnit::Tenths, Words::english()));
        BatchOverview {
            language: "en",
            head: Head {
                what: LABELS.batch_overview,
                key_kind: LABELS.of_this_run.to_owned(),
                key: claims.clone(),
                short_key: claims,
                schedule: None,
                for_whom: None,
                date: date.map(wording::date),
            },
            outcomes: outcomes(totals),
            methods: methods.collect(),
            dents: wording::number(totals.dents.into()),
            labour,
            money: money(LABELS.all_claims, totals),
            insurers: by_insurer.iter().flat_map(|(name, part)| money(&no_insurer(name), part)).collect(),
            spread: self.gross.into_iter().filter_map(|(currency, all)| spread(currency, all)).collect(),
            needs: self.needs,
            claims: self.claims,
        }
    }
}

fn outcomes(totals: &Totals) -> Vec<(&'static str, u64)> {
    let priced = totals.outcomes.iter().map(|(outcome, count)| (outcome.words(), *count));
    let not_priced = [(LABELS.not_priced, totals.not_priced)];
    priced.chain(not_priced).filter(|(_, count)| *count > 0).collect()
}

fn money_row(who: &str, totals: &Totals, currency: Currency, sums: &CurrencyTotals) -> MoneyRow {
    let outcomes: Vec<String> =
        outcomes(totals).into_iter().map(|(words, count)| format!("{count} {words}")).collect();
    let figure = |sum: Result<Money, QuantityFault>| sum.ok().map(Figure::in_english);
    MoneyRow {
        who: who.to_owned(),
        outcomes: outcomes.join(", "),
        currency: currency.code(),
        claims: sums.claims,
        net: figure(sums.net),
        tax: figure(sums.tax),
        gross: figure(sums.gross),
        insurer_pays: figure(sums.insurer_pays),
        owner_bears: figure(sums.owner_bears),
    }
}

/// The least, the quarters and the largest by nearest rank, so that each is the amount of a claim.
fn spread(currency: Currency, mut all: Vec<Money>) -> Option<SpreadRow> {
    all.sort_unstable_by_key(|money| money.minor());
    let most = all.len().checked_sub(1)?;
    let at = |quarter: usize| {
        Figure::in_english(all[(quarter * all.len()).div_ceil(4).saturating_sub(1).min(most)])
    };
    Some(SpreadRow {
        currency: currency.code(),
        amounts: [Figure::in_english(all[0]), at(1), at(2), at(3), Figure::in_english(all[most])],
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_five_amounts_are_those_of_claims_by_nearest_rank() {
        let eur = Currency::from_code("EUR").unwrap();
        let of = |minors: &[i64]| {
            let all = minors.iter().map(|minor| Money::from_minor(*minor, eur)).collect();
            spread(eur, all).map(|row| row.amounts.map(|figure| figure.0.minor()))
        };
        assert_eq!(of(&[]), None);
        assert_eq!(of(&[7]), Some([7, 7, 7, 7, 7]));
        assert_eq!(of(&[40, 10, 30, 20]), Some([10, 10, 20, 30, 40]));
        // Nearest rank of 25, 50 and 75 % of ten: the 3rd, 5th and 8th.
        assert_eq!(of(&[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]), Some([1, 3, 5, 8, 10]));
    }
}

//! Statements of lots: the claims of one owner after one event, whose excesses together go no further than a cap. What is
//! shared stands here; each claim's own document takes its own excess.

use super::document::{Figure, Head};
use super::file_name::FileNames;
use super::folder::{OutputFolder, Written};
use super::output::{Draw, table};
use super::run_record::LOTS;
use super::tables::{Field, lots};
use super::wording::{self, label::LABELS};
use crate::assess::{LotMember, LotRow, LotStatement, lot_statement};
use crate::batch::Done;
use crate::claim::{JobKey, KeyKind, words::folded};
use crate::problem::Problem;
use crate::quantity::{Currency, Date, Money, QuantityFault};
use serde::Serialize;
use std::collections::BTreeMap;

/// Their table.
pub const LOTS_TABLE: &str = "lots.csv";

/// A claim that names a lot with a cap.
#[derive(Debug, Clone)]
pub struct LotClaim {
    lot: String,
    insurer: String,
    event: String,
    claim: String,
    vehicle: String,
    document: Option<String>,
    open: usize,
    /// None for a claim that is not priced.
    member: Option<LotMember>,
}

impl LotClaim {
    /// What became of a claim, if it is one of a lot with a cap; `document` is its path in the output.
    pub fn of(done: &Done<'_>, document: Option<&str>) -> Result<Option<Self>, QuantityFault> {
        let claim = &done.intake.claim;
        let parties = &claim.parties;
        let (Some(lot), Some(insurer), Some(_)) = (&parties.lot, &parties.insurer, parties.lot_cap) else {
            return Ok(None);
        };
        let day = claim.event.date.map(|date| date.value.to_string());
        let event = claim.event.name.as_ref().map(|name| name.value.clone()).or(day).unwrap_or_default();
        let assessed = done.result.as_ref().ok();
        let vehicle = [&claim.vehicle.make, &claim.vehicle.model, &claim.vehicle.registration];
        let vehicle: Vec<&str> = vehicle.into_iter().flatten().map(|text| text.value.as_str()).collect();
        Ok(Some(Self {
            lot: lot.value.clone(),
            insurer: insurer.value.clone(),
            event,
            claim: claim.key.text.clone(),
            vehicle: vehicle.join(" "),
            document: document.map(str::to_owned),
            open: assessed.map_or(0, |a| a.open_panels().count() + a.open_items.len()),
            member: assessed.map(|assessed| LotMember::of(claim, assessed)).transpose()?,
        }))
    }
}

/// Gathers the claims of lots, in input order.
#[derive(Debug, Default)]
pub struct Lots {
    lots: BTreeMap<(String, String, String), Vec<LotClaim>>,
}

/// The statement of one lot in one currency, ready to be drawn.
#[derive(Debug, Serialize)]
pub struct LotPage {
    language: &'static str,
    head: Head,
    currency: &'static str,
    insurer: String,
    event: String,
    cap: Figure,
    own_excess: Figure,
    excess: Figure,
    settlement: Figure,
    insurer_pays: Figure,
    owner_bears: Figure,
    salvage_kept: Option<Figure>,
    /// Whether something goes beyond a policy limit, and whether a wreck is kept.
    has_limit: bool,
    rows: Vec<PageRow>,
    /// Claims that are in no sum: not priced, or priced without their open panels.
    without: Vec<Without>,
}

#[derive(Debug, Serialize)]
struct PageRow {
    claim: String,
    link: Option<String>,
    vehicle: String,
    settlement: Figure,
    own_excess: Figure,
    excess: Figure,
    over_limit: Figure,
    insurer_pays: Figure,
    owner_bears: Figure,
    salvage_kept: Figure,
}

#[derive(Debug, Serialize)]
struct Without {
    claim: String,
    link: Option<String>,
    why: String,
}

/// One statement: the name of its page without an ending, the page, and its rows of `lots.csv`.
pub struct Stated {
    /// Its name.
    pub name: String,
    /// The page.
    pub page: LotPage,
    /// Its rows.
    pub rows: Vec<Vec<Field>>,
}

impl Lots {
    /// Takes a claim of a lot.
    pub fn add(&mut self, claim: LotClaim) {
        let key = (folded(&claim.insurer), folded(&claim.lot), folded(&claim.event));
        self.lots.entry(key).or_default().push(claim);
    }

    /// A statement for each lot, insurer, event and currency; `folder` is where their pages stand.
    pub fn finish(self, folder: &str, date: Option<Date>) -> Result<Vec<Stated>, QuantityFault> {
        let mut names = FileNames::new();
        let mut stated = Vec::new();
        for claims in self.lots.into_values() {
            let mut currencies: BTreeMap<Currency, Vec<(&LotClaim, LotMember)>> = BTreeMap::new();
            for (claim, member) in claims.iter().filter_map(|claim| Some((claim, claim.member?))) {
                currencies.entry(member.amount.currency()).or_default().push((claim, member));
            }
            let several = currencies.len() > 1;
            for (currency, priced) in currencies {
                let Some(cap) = priced.iter().find_map(|(_, member)| member.cap) else { continue };
                let members: Vec<LotMember> = priced.iter().map(|(_, member)| *member).collect();
                let statement = lot_statement(&members, cap)?;
                let mut key = claims[0].lot.clone();
                if several {
                    key = format!("{key} {currency}");
                }
                let name = names.give(&JobKey::new(KeyKind::ClaimNumber, key));
                let path = format!("{folder}/{name}.html");
                let mut rows: Vec<Vec<Field>> = priced
                    .iter()
                    .zip(&statement.rows)
                    .map(|(one, row)| priced_row(one, row, cap, &path))
                    .collect();
                let unpriced: Vec<&LotClaim> = claims.iter().filter(|claim| claim.member.is_none()).collect();
                rows.extend(unpriced.iter().map(|claim| unpriced_row(claim, &path)));
                let page = page(&priced, &unpriced, &statement, cap, date)?;
                stated.push(Stated { name, page, rows });
            }
        }
        Ok(stated)
    }
}

/// Writes the statements of lots and their table.
pub(super) fn write(
    folder: &OutputFolder,
    draw: &dyn Draw,
    stated: &[Stated],
) -> Result<Vec<Written>, Problem> {
    folder.folder(LOTS)?;
    let mut written = Vec::new();
    let mut rows = table(folder, LOTS_TABLE, lots::COLUMNS)?;
    for lot in stated {
        let page = draw.lot(&lot.page)?;
        written.push(folder.put(&format!("{LOTS}/{}.html", lot.name), page.as_bytes())?);
        for row in &lot.rows {
            rows.row(row).map_err(|error| folder.refused(LOTS_TABLE, &error))?;
        }
    }
    let ended = rows.finish().finish();
    written.push(ended.map_err(|error| folder.refused(LOTS_TABLE, &error))?);
    Ok(written)
}

fn head_of_row(claim: &LotClaim, path: &str) -> Vec<Field> {
    vec![
        Field::text(claim.lot.clone()),
        Field::text(claim.insurer.clone()),
        Field::text(claim.event.clone()),
        Field::text(path),
        Field::text(claim.claim.clone()),
        Field::text(claim.document.clone().unwrap_or_default()),
    ]
}

fn priced_row((claim, member): &(&LotClaim, LotMember), row: &LotRow, cap: Money, path: &str) -> Vec<Field> {
    let mut fields = head_of_row(claim, path);
    fields.extend([Field::count(claim.open), Field::text(cap.currency().code())]);
    let amounts = [
        cap,
        member.amount,
        row.own_excess,
        row.excess,
        row.over_limit,
        row.insurer_pays,
        row.owner_bears,
        member.salvage_kept,
    ];
    fields.extend(amounts.map(Field::Money));
    fields
}

fn unpriced_row(claim: &LotClaim, path: &str) -> Vec<Field> {
    let mut fields = head_of_row(claim, path);
    fields.resize(lots::COLUMNS.len(), Field::Blank);
    fields
}

/// A claim's document as seen from the folder of statements.
fn link(claim: &LotClaim) -> Option<String> {
    claim.document.as_ref().map(|path| format!("../{path}"))
}

fn page(
    priced: &[(&LotClaim, LotMember)],
    unpriced: &[&LotClaim],
    statement: &LotStatement,
    cap: Money,
    date: Option<Date>,
) -> Result<LotPage, QuantityFault> {
    let currency = cap.currency();
    let sum = |of: fn(&LotMember) -> Money| Money::sum(currency, priced.iter().map(|(_, member)| of(member)));
    let salvage = sum(|member| member.salvage_kept)?;
    let rows = priced.iter().zip(&statement.rows).map(|((claim, member), row)| PageRow {
        claim: wording::said(&claim.claim),
        link: link(claim),
        vehicle: wording::said(&claim.vehicle),
        settlement: Figure::in_english(member.amount),
        own_excess: Figure::in_english(row.own_excess),
        excess: Figure::in_english(row.excess),
        over_limit: Figure::in_english(row.over_limit),
        insurer_pays: Figure::in_english(row.insurer_pays),
        owner_bears: Figure::in_english(row.owner_bears),
        salvage_kept: Figure::in_english(member.salvage_kept),
    });
    let without = |claim: &LotClaim, why: String| Without {
        claim: wording::said(&claim.claim),
        link: link(claim),
        why,
    };
    let open = priced.iter().filter(|(claim, _)| claim.open > 0).map(|(claim, _)| {
        let open = wording::so_many(claim.open, "open panel or item", "open panels and items");
        without(claim, format!("without {open}"))
    });
    let not_priced = unpriced.iter().map(|claim| without(claim, LABELS.not_priced.to_owned()));
    let (first, _) = priced[0];
    let key = wording::said(&first.lot);
    Ok(LotPage {
        language: "en",
        head: Head {
            what: LABELS.lot_statement,
            key_kind: LABELS.lot_of.to_owned(),
            key: key.clone(),
            short_key: key,
            schedule: None,
            for_whom: Some(wording::said(&first.insurer)),
            date: date.map(wording::date),
        },
        currency: currency.code(),
        insurer: wording::said(&first.insurer),
        event: wording::said(&first.event),
        cap: Figure::in_english(cap),
        own_excess: Figure::in_english(statement.own_excess),
        excess: Figure::in_english(statement.excess),
        settlement: Figure::in_english(sum(|member| member.amount)?),
        insurer_pays: Figure::in_english(statement.insurer_pays),
        owner_bears: Figure::in_english(statement.owner_bears),
        salvage_kept: (!salvage.is_zero()).then_some(Figure::in_english(salvage)),
        has_limit: statement.rows.iter().any(|row| !row.over_limit.is_zero()),
        rows: rows.collect(),
        without: open.chain(not_priced).collect(),
    })
}

//! `bordereau.xlsx`: every claim of the run with its totals, and what they were made from.

use super::listing::{Listing, Long};
use super::{book, guarded, save};
use crate::batch::{CurrencyTotals, Totals};
use crate::quantity::{Currency, Money, QuantityFault};
use crate::report::folder::{OutputFolder, Written};
use crate::report::groups::{GroupRow, Groups};
use crate::report::lot_page::Stated;
use crate::report::overview::open_words;
use crate::report::run_record::{TOOL, VERSION};
use crate::report::tables::{self, Column, Field, Kind, Run, claims};
use crate::report::wording::bordereau::LABELS;
use rust_xlsxwriter::{Workbook, XlsxError};
use std::collections::BTreeMap;
use std::io;

/// The columns of [`claims::COLUMNS`] that the listing shows, in its order.
const LISTED: [&str; 34] = [
    "claim",
    "policy",
    "insurer",
    "owner",
    "registration",
    "vin",
    "make",
    "model",
    "date of loss",
    "outcome",
    "ready to send",
    "panels paintless",
    "panels paintless then refinish",
    "panels conventional",
    "panels replaced",
    "open panels",
    "open items",
    "dents",
    "currency",
    "net",
    "tax",
    "rounding",
    "gross",
    "settled as",
    "settlement amount",
    "tax reclaimed",
    "betterment",
    "paid before",
    "excess",
    "beyond policy limit",
    "insurer pays",
    "owner bears",
    "salvage kept",
    "document",
];

/// The listing while it is written.
pub struct Bordereau {
    workbook: Workbook,
    listing: Listing,
    /// Numbers of the listed columns in a row of the claims table.
    picked: Vec<usize>,
}

impl Bordereau {
    /// Begins the workbook.
    pub fn new(folder: &OutputFolder) -> io::Result<Self> {
        let mut workbook = book(folder, "Bordereau")?;
        let picked: Vec<usize> = LISTED
            .iter()
            .filter_map(|name| claims::COLUMNS.iter().position(|column| column.name == *name))
            .collect();
        let columns = picked.iter().map(|number| claims::COLUMNS[*number]).collect();
        let listing = guarded(|| Listing::new(&mut workbook, "Claims", columns, Long::OneLine))?;
        Ok(Self { workbook, listing, picked })
    }

    /// Adds a claim by its row of the claims table.
    pub fn claim(&mut self, row: &[Field]) -> io::Result<()> {
        let picked: Vec<Field> = self.picked.iter().map(|number| row[*number].clone()).collect();
        guarded(|| self.listing.row(&picked).map(|_| ()))
    }

    /// Ends the workbook with its sums and the sheets beside the listing.
    pub fn finish(
        self,
        (totals, by_insurer): (&Totals, &BTreeMap<String, Totals>),
        groups: &Groups,
        stated: &[Stated],
        run: &Run<'_>,
        folder: &OutputFolder,
        name: &str,
    ) -> io::Result<Written> {
        let Self { mut workbook, mut listing, .. } = self;
        guarded(|| {
            if listing.rows() > 0 {
                listing.filter()?;
            }
            sums(&mut listing, totals)?;
            listing.finish(&mut workbook)?;
            insurers(&mut workbook, by_insurer)?;
            grouped(&mut workbook, LABELS.by_outcome, LABELS.claims, &groups.outcomes())?;
            grouped(&mut workbook, LABELS.by_owner, LABELS.claims, &groups.owners())?;
            grouped(&mut workbook, LABELS.by_method, LABELS.panels, &groups.methods())?;
            lots(&mut workbook, stated)?;
            about(&mut workbook, run)
        })?;
        save(workbook, folder, name)
    }
}

fn listed(name: &str) -> usize {
    LISTED.iter().position(|listed| *listed == name).unwrap_or(0)
}

/// A row of sums per currency, and what is in none of them.
fn sums(listing: &mut Listing, totals: &Totals) -> Result<(), XlsxError> {
    let currencies = listing.range(listed("currency"));
    let of_one_currency = totals.money.len() <= 1;
    let ranges: BTreeMap<&str, String> =
        LISTED.iter().map(|name| (*name, listing.range(listed(name)))).collect();
    listing.gap();
    for (currency, money) in &totals.money {
        let code = currency.code();
        let formula = |name: &str| {
            let cells = &ranges[name];
            if of_one_currency {
                format!("=SUM({cells})")
            } else {
                format!("=SUMIF({currencies},\"{code}\",{cells})")
            }
        };
        let sums: Vec<(usize, String, Field)> = AMOUNTS
            .iter()
            .zip(amounts(money))
            .map(|(name, sum)| (listed(name), formula(name), sum))
            .collect();
        listing.sums(&format!("Total {code}"), (listed("currency"), code), &sums)?;
    }
    if listing.left_out() > 0 {
        listing.remark(&format!(
            "{} more claims are in claims.csv: a sheet holds no more rows",
            listing.left_out()
        ))?;
    }
    if let Some(open) = open_words(totals) {
        listing.remark(&format!("The totals are without {open}: a person has to look at them."))?;
    }
    if totals.not_priced > 0 {
        let (not_priced, all) = (totals.not_priced, totals.claims);
        listing.remark(&format!("{not_priced} of {all} claims are not priced: the exceptions say why."))?;
    }
    Ok(())
}

/// Columns of amounts that are summed, in the order of the listing: what was priced, what comes off, and who pays.
const AMOUNTS: [&str; 13] = [
    "net",
    "tax",
    "rounding",
    "gross",
    "settlement amount",
    "tax reclaimed",
    "betterment",
    "paid before",
    "excess",
    "beyond policy limit",
    "insurer pays",
    "owner bears",
    "salvage kept",
];

/// The sums of a currency in the order of [`AMOUNTS`]; blank where one is too large to add up.
fn amounts(money: &CurrencyTotals) -> [Field; 13] {
    let sums: [Result<Money, QuantityFault>; 13] = [
        money.net,
        money.tax,
        money.rounding,
        money.gross,
        money.settled,
        money.tax_reclaimed,
        money.betterment,
        money.paid_before,
        money.excess,
        money.over_limit,
        money.insurer_pays,
        money.owner_bears,
        money.salvage_kept,
    ];
    sums.map(|sum| Field::money(sum.ok()))
}

/// One row per insurer and currency.
fn insurers(workbook: &mut Workbook, by_insurer: &BTreeMap<String, Totals>) -> Result<(), XlsxError> {
    let column = |name, kind| Column { name, kind, about: "" };
    let mut columns = vec![
        column("insurer", Kind::Text),
        column("claims", Kind::Count),
        column("not priced", Kind::Count),
        column("open panels", Kind::Count),
        column("currency", Kind::Text),
    ];
    columns.extend(AMOUNTS.iter().map(|name| column(name, Kind::Money)));
    let mut listing = Listing::new(workbook, "Insurers", columns, Long::OneLine)?;
    for (insurer, totals) in by_insurer {
        let name = if insurer.is_empty() { "(no insurer)" } else { insurer };
        let mut first = true;
        let row = |first: bool, money: Option<(&Currency, &CurrencyTotals)>| {
            let count = |count: u64| if first { Field::Count(count) } else { Field::Blank };
            let mut row = vec![
                Field::text(name),
                count(totals.claims),
                count(totals.not_priced),
                count(totals.open_panels),
            ];
            if let Some((currency, money)) = money {
                row.push(Field::text(currency.code()));
                row.extend(amounts(money));
            }
            row
        };
        for money in &totals.money {
            listing.row(&row(first, Some(money)))?;
            first = false;
        }
        if first {
            listing.row(&row(first, None))?;
        }
    }
    listing.finish(workbook)
}

/// Sums of groups: a sheet with a row for each and each currency. Columns in which nothing can stand are left out.
fn grouped(
    workbook: &mut Workbook,
    name: &'static str,
    counts: &'static str,
    rows: &[GroupRow],
) -> Result<(), XlsxError> {
    let is_of_panels = counts == LABELS.panels;
    let column = |name, kind| Column { name, kind, about: "" };
    let mut columns = vec![column(name, Kind::Text), column(counts, Kind::Count)];
    if !is_of_panels {
        columns.push(column(LABELS.without_price, Kind::Count));
    }
    columns.extend([column(LABELS.open, Kind::Count), column(LABELS.currency, Kind::Text)]);
    let amounts = [LABELS.net, LABELS.tax, LABELS.gross, LABELS.insurer_pays, LABELS.owner_bears];
    let amounts: &[&str] = if is_of_panels { &[LABELS.amount] } else { &amounts };
    columns.extend(amounts.iter().map(|name| column(name, Kind::Money)));
    let mut listing = Listing::new(workbook, name, columns, Long::OneLine)?;
    for row in rows {
        let count = |count: Option<u64>| count.map_or(Field::Blank, Field::Count);
        let mut fields = vec![Field::text(row.of.clone()), count(row.count)];
        if !is_of_panels {
            fields.push(count(row.not_priced));
        }
        fields.push(count(row.open));
        fields.push(row.currency.map_or(Field::Blank, |currency| Field::text(currency.code())));
        fields.extend(row.amounts.iter().take(amounts.len()).map(|amount| Field::money(*amount)));
        listing.row(&fields)?;
    }
    listing.finish(workbook)
}

/// The claims of lots, where a lot's excess has a cap.
fn lots(workbook: &mut Workbook, stated: &[Stated]) -> Result<(), XlsxError> {
    if stated.is_empty() {
        return Ok(());
    }
    let mut listing = Listing::new(workbook, "Lots", tables::lots::COLUMNS.to_vec(), Long::OneLine)?;
    for row in stated.iter().flat_map(|lot| &lot.rows) {
        listing.row(row)?;
    }
    listing.finish(workbook)
}

/// What the listing was made by and from.
pub(super) fn about(workbook: &mut Workbook, run: &Run<'_>) -> Result<(), XlsxError> {
    let column = |name| Column { name, kind: Kind::Text, about: "" };
    let mut listing = Listing::new(
        workbook,
        "Made from",
        vec![column("what"), column("name"), column("SHA-256")],
        Long::OneLine,
    )?;
    listing.row(&[Field::text("program"), Field::text(format!("{TOOL} {VERSION}"))])?;
    for schedule in run.schedules {
        let name = format!("{}, edition {}", schedule.terms.name.value, schedule.terms.edition.value);
        listing.row(&[Field::text("schedule"), Field::text(name), Field::text(schedule.digest.clone())])?;
    }
    for file in run.files {
        listing.row(&[
            Field::text("file"),
            Field::text(file.path.clone()),
            Field::text(file.sha256.clone()),
        ])?;
    }
    listing.finish(workbook)
}

use super::{amount, date, percent, without_open};
use crate::assess::{Screen, ScreenFigures, Settled, Totals, Unscreened};
use crate::claim::Settlement;
use crate::quantity::{Date, Money, Percent};
use crate::report::Subject;
use crate::report::words::Words;
use crate::schedule::TotalLossTerms;
use std::fmt::Write as _;

/// The economic total-loss screen in a sentence or two.
pub fn screen(subject: &Subject<'_>) -> String {
    match subject.assessment.screen {
        Screen::Not(why) => format!("Not screened for total loss: {}.", unscreened(why)),
        Screen::Below(figures) => format!("{} It is not reached.", compared(figures, subject)),
        Screen::Open(figures) => {
            let without = without_open(subject.assessment, subject.words).unwrap_or_default();
            format!("{} It is not reached {without}; with them it is undecided.", compared(figures, subject))
        }
        Screen::Reached(figures) => format!(
            "{} It is reached: a probable total loss, which a licensed adjuster decides by the policy and local law.",
            compared(figures, subject)
        ),
    }
}

fn compared(figures: ScreenFigures, subject: &Subject<'_>) -> String {
    let cost = amount(figures.cost);
    let Some(terms) = subject.schedule.terms.total_loss else {
        return format!("Total-loss screen: {cost} against {}.", amount(figures.limit));
    };
    let tax = if terms.with_tax.value { "with tax" } else { "without tax" };
    format!(
        "Total-loss screen: {} {tax} of {cost}, against {}.",
        terms.rule.value,
        screen_limit(figures, terms)
    )
}

/// What the cost is compared with: "at least 65 % of the market value of 8 000.00, which is 5 200.00".
pub(super) fn screen_limit(figures: ScreenFigures, terms: TotalLossTerms) -> String {
    let mut out = format!(
        "{} {} of the market value of {}",
        terms.comparator.value,
        percent(terms.share.value),
        amount(figures.value)
    );
    if figures.limit != figures.value {
        let _ = write!(out, ", which is {}", amount(figures.limit));
    }
    out
}

/// Why there is no screen.
pub fn unscreened(why: Unscreened) -> &'static str {
    match why {
        Unscreened::NoTerms => "the schedule has no terms for it",
        Unscreened::NoMarketValue => "the market value is not written",
        Unscreened::NoSalvage => "the rule needs a salvage value and none is written",
    }
}

/// `net 4 042.31, tax 768.04`, beside a gross amount; with what brings it to its step, where that is anything.
pub fn net_and_tax(totals: &Totals, words: &Words) -> String {
    let (net, tax) = (words.amount(totals.net), words.amount(totals.tax));
    match totals.rounding.filter(|rounding| !rounding.is_zero()) {
        None => words.say("net-and-tax", &[("net", net.into()), ("tax", tax.into())]),
        Some(rounding) => words.say(
            "net-tax-and-rounding",
            &[("net", net.into()), ("tax", tax.into()), ("rounding", words.amount(rounding).into())],
        ),
    }
}

/// `tax 19 % of 4 042.31`.
pub fn tax_of(rate: Percent, taxable: Money) -> String {
    format!("Tax {} of {}", percent(rate), amount(taxable))
}

/// What the owner's part is made of: "paid before 120.00, excess 500.00"; `None` when there is nothing to tell apart.
pub fn borne(settled: &Settled, words: &Words) -> Option<String> {
    let parts: Vec<String> = [
        ("borne-tax", settled.tax_reclaimed),
        ("borne-betterment", settled.betterment),
        ("borne-paid-before", settled.paid_before),
        ("borne-excess", settled.excess),
        ("borne-over-limit", settled.over_limit),
    ]
    .into_iter()
    .filter(|(_, money)| !money.is_zero())
    .map(|(what, money)| words.say(what, &[("amount", words.amount(money).into())]))
    .collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// What the claim is settled at, and how.
pub fn settlement_amount(basis: Settlement) -> String {
    format!("Settlement amount ({basis})")
}

/// `from 1 May 2026`, `1 May 2026 to 30 April 2027`.
pub fn validity(from: Date, to: Option<Date>) -> String {
    match to {
        Some(to) => format!("{} to {}", date(from), date(to)),
        None => format!("from {}", date(from)),
    }
}

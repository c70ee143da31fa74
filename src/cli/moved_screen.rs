//! What a change of schedules moves, as a screen: totals by currency, by part, by claim, and what opens or closes.

use super::aligned::{aligned, signed, sum};
use super::screen::{block, money_text, so_many};
use crate::batch::{MovedTotals, Shift};
use crate::problem::visible;
use crate::report::moved::{MovedBatch, fate_words, part_words, ways};

/// Claims that are shown; all of them are in the table and the data.
const KEEP: usize = 20;

/// Adds the screen of a batch. `labels` are what the two ways are called.
pub fn moved_screen(out: &mut String, batch: &MovedBatch<'_>, labels: [&str; 2], width: Option<usize>) {
    block(out, "Claims", &claims(batch), width);
    block(out, "Amounts", &amounts(batch, labels), width);
    block(out, "By part", &parts(batch), width);
    block(out, "By claim", &by_claim(batch, labels), width);
    block(out, "Besides", &besides(batch), width);
}

fn claims(batch: &MovedBatch<'_>) -> Vec<String> {
    let count = |is: fn(&Shift) -> bool| batch.moved.iter().filter(|moved| is(&moved.shift)).count() as u64;
    let all = [
        (count(|shift| matches!(shift, Shift::Both(..))), "priced both ways"),
        (count(|shift| matches!(shift, Shift::Currencies(..))), "priced in two currencies, not subtracted"),
        (count(|shift| matches!(shift, Shift::Gained(_))), "priced only then"),
        (count(|shift| matches!(shift, Shift::Lost(..))), "no longer priced then"),
        (count(|shift| matches!(shift, Shift::Neither(_))), "not priced either way"),
        (count(|shift| matches!(shift, Shift::Untouched)), "for whose insurer there is no other schedule"),
    ];
    let rows: Vec<Vec<String>> = all
        .iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| vec![count.to_string(), (*what).to_owned()])
        .collect();
    aligned(&rows, &[true]).into_iter().map(|line| line.replacen("  ", " ", 1)).collect()
}

fn amounts(batch: &MovedBatch<'_>, labels: [&str; 2]) -> Vec<String> {
    let mut rows = Vec::new();
    for (currency, totals) in MovedTotals::of(batch.moved) {
        let heading = ["gross", labels[0], labels[1], "difference", "for the insurer"];
        if rows.is_empty() {
            rows.push(heading.map(str::to_owned).to_vec());
        }
        rows.push(vec![
            currency.code().to_owned(),
            sum(totals.before, money_text),
            sum(totals.after, money_text),
            sum(totals.gross(), signed),
            sum(totals.insurer_pays, signed),
        ]);
    }
    aligned(&rows, &[false, true, true, true, true])
}

fn parts(batch: &MovedBatch<'_>) -> Vec<String> {
    let mut rows = Vec::new();
    for (currency, totals) in MovedTotals::of(batch.moved) {
        for (part, amount) in totals.parts.iter().flatten() {
            rows.push(vec![currency.code().to_owned(), signed(*amount), part_words(*part).to_owned()]);
        }
    }
    aligned(&rows, &[false, true])
}

fn by_claim(batch: &MovedBatch<'_>, labels: [&str; 2]) -> Vec<String> {
    let differ = batch.by_size();
    if differ.is_empty() {
        return vec!["no gross amount differs".to_owned()];
    }
    let mut rows = vec![["claim", "", labels[0], labels[1], "difference"].map(str::to_owned).to_vec()];
    for (moved, gross) in differ.iter().take(KEEP) {
        let (first, other) = ways(&moved.shift);
        let amount =
            |way: Option<&crate::batch::Way>| way.map_or_else(String::new, |way| money_text(way.gross));
        rows.push(vec![
            visible(batch.key(moved)),
            gross.currency().code().to_owned(),
            amount(first),
            amount(other),
            signed(*gross),
        ]);
    }
    let mut lines = aligned(&rows, &[false, false, true, true, true]);
    if differ.len() > KEEP {
        let more = so_many((differ.len() - KEEP) as u64, "claim");
        lines.push(format!("and {more} more with smaller differences: --csv lists all"));
    }
    lines
}

/// Claims of which more than an amount changes.
fn besides(batch: &MovedBatch<'_>) -> Vec<String> {
    let is_news = |shift: &Shift| !matches!(shift, Shift::Neither(_) | Shift::Untouched);
    let mut said = batch
        .moved
        .iter()
        .filter(|moved| is_news(&moved.shift))
        .filter_map(|moved| Some(format!("{}: {}", batch.key(moved), fate_words(&moved.shift)?)));
    let mut lines: Vec<String> = said.by_ref().take(KEEP).map(|line| visible(&line)).collect();
    let more = said.count();
    if more > 0 {
        lines.push(format!("and {} more: --csv lists all", so_many(more as u64, "claim")));
    }
    lines
}

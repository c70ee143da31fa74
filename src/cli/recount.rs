use super::aligned::{aligned, signed};
use super::outcome::Ended;
use super::reception::{InputArgs, receive};
use super::screen::{block, so_many};
use super::terminal;
use crate::assess::{Change, Distance};
use crate::batch::{self, Options, Worth, worth_counting};
use crate::problem::visible;
use crate::quantity::Currency;
use crate::report::recounts::{RecountBatch, change_words, dents_words, fewest_words};
use crate::report::run_record::FORMAT;
use clap::Args;
use serde_json::json;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// Claims that are named with what changes a decision on them.
const KEEP: usize = 8;

/// Say which panels are worth counting again: on which of them a dent more or fewer moves the most.
///
/// Every panel is assessed again with one size band counted otherwise, dent by dent, until a band, a limit, the method or the
/// total-loss screen changes. Nothing is estimated, and nothing is written.
#[derive(Debug, Args)]
pub struct RecountArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Count so many dents more or fewer, at most.
    #[arg(long, value_name = "N", default_value = "5", value_parser = clap::value_parser!(u32).range(1..=100))]
    dents: u32,

    /// Name so many panels, of each currency.
    #[arg(long, value_name = "N", default_value = "20", value_parser = clap::value_parser!(u32).range(1..))]
    panels: u32,

    /// Print every change of every panel as CSV.
    #[arg(long, conflicts_with = "json")]
    csv: bool,

    /// Print everything as JSON, for programs.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &RecountArgs) -> anyhow::Result<Ended> {
    let received = receive(&args.input);
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let recounts = batch::recounts(received.intakes(), &received.schedules, options, args.dents);
    let batch =
        RecountBatch { intakes: received.intakes(), schedules: &received.schedules, recounts: &recounts };
    let currencies: BTreeSet<Currency> = recounts.iter().map(|recount| recount.gross.currency()).collect();
    let most = usize::try_from(args.panels).unwrap_or(usize::MAX);
    let ranked: Vec<(Currency, Vec<Worth<'_>>)> = currencies
        .into_iter()
        .map(|currency| (currency, worth_counting(&recounts, currency).into_iter().take(most).collect()))
        .collect();
    if args.json {
        let ranked: serde_json::Map<_, _> = ranked
            .iter()
            .map(|(currency, panels)| {
                (currency.code().to_owned(), panels.iter().map(|worth| batch.worth(worth)).collect())
            })
            .collect();
        let data = json!({
            "format": FORMAT,
            "up_to_dents": args.dents,
            "worth_counting_again": ranked,
            "claims": batch.data(),
        });
        terminal::print(&(serde_json::to_string_pretty(&data)? + "\n"))?;
    } else {
        super::tell_stopping(&received);
        if args.csv {
            terminal::print_bytes(&batch.csv()?)?;
        } else {
            terminal::print(&screen(args, &batch, &ranked, terminal::width()))?;
        }
    }
    let all_priced = recounts.len() == received.intakes().len();
    let is_stopped = received.all_problems().any(|problem| problem.severity().stops_the_claim());
    Ok(if all_priced && !is_stopped { Ended::Done } else { Ended::Incomplete })
}

fn screen(
    args: &RecountArgs,
    batch: &RecountBatch<'_>,
    ranked: &[(Currency, Vec<Worth<'_>>)],
    width: Option<usize>,
) -> String {
    let mut text = String::new();
    let mut claims = so_many(batch.recounts.len() as u64, "claim");
    let not_priced = batch.intakes.len() - batch.recounts.len();
    if not_priced > 0 {
        let _ = write!(claims, ", and {not_priced} not priced");
    }
    let tried = so_many(u64::from(args.dents), "dent");
    block(
        &mut text,
        "Read",
        &[format!("{claims}; one size of one panel, up to {tried} more or fewer")],
        width,
    );
    for (currency, panels) in ranked {
        let mut rows: Vec<Vec<String>> = vec![
            ["claim", "panel", "size", "counted", "dents", currency.code(), "what changes"]
                .map(str::to_owned)
                .to_vec(),
        ];
        for worth in panels {
            let (distance, counted) = worth.change;
            rows.push(vec![
                visible(batch.key(worth.recount)),
                distance.panel.to_string(),
                visible(batch.size(worth.recount, distance.size)),
                counted.to_string(),
                dents_words(distance),
                signed(distance.gross),
                what_changes(worth),
            ]);
        }
        let lines = aligned(&rows, &[false, false, false, true, true, true]);
        block(&mut text, "Count again", &lines, width);
    }
    block(&mut text, "Decisions", &decisions(batch), width);
    text
}

/// Everything that changes at that count, in words.
fn what_changes(worth: &Worth<'_>) -> String {
    let (own, _) = worth.change;
    let is_there = |other: &&Distance| {
        (other.panel, other.size, other.direction, other.dents)
            == (own.panel, own.size, own.direction, own.dents)
    };
    let all = worth.recount.distances.iter().map(|(distance, _)| distance).filter(is_there);
    all.map(change_words).collect::<Vec<_>>().join("; ")
}

/// How many claims are so many dents from another decision, and the nearest of them by name.
fn decisions(batch: &RecountBatch<'_>) -> Vec<String> {
    let mut near: Vec<_> =
        batch.recounts.iter().filter_map(|recount| Some((recount, recount.fewest?))).collect();
    // A total loss more or less weighs more than a panel.
    near.sort_by_key(|(recount, fewest)| (fewest.dents, fewest.change != Change::Screen, recount.number));
    let mut lines: Vec<String> = near
        .iter()
        .take(KEEP)
        .map(|(recount, fewest)| visible(&format!("{}: {}", batch.key(recount), fewest_words(fewest))))
        .collect();
    if near.len() > KEEP {
        lines.push(format!("and {} more: --csv lists all", so_many((near.len() - KEEP) as u64, "claim")));
    }
    let rest = batch.recounts.len() - near.len();
    if rest > 0 {
        lines.push(format!("{}: no decision changes within so few", so_many(rest as u64, "claim")));
    }
    lines
}

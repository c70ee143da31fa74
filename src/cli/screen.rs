//! What a run prints: first problems in full, then one aligned screen of what was read, what came out, what needs a person,
//! and where it is.

use super::outcome::Ended;
use super::reception::Received;
use super::terminal;
use super::wrap::wrapped;
use crate::assess::Outcome;
use crate::batch::{CurrencyTotals, Totals};
use crate::claim::{Method, Settlement};
use crate::problem::{Problem, Severity, find_code, visible};
use crate::quantity::{Date, Money, QuantityFault};
use crate::report::json::ProblemView;
use crate::report::overview::{Keep, Overview, open_words};
use crate::report::run_record::{CLAIMS, FORMAT, RunRecord};
use anstyle::{AnsiColor, Style};
use serde::Serialize;
use std::fmt::Write as _;
use std::path::Path as FilePath;

/// What is shown of a run that was written: all of it is in the output.
pub const KEEP: Keep = Keep { problems_of_a_kind: 2, needs: 8 };
/// Problems that are shown of such a run, all kinds together.
pub const MOST_PROBLEMS: usize = 10;
/// Characters before the values.
const LABEL: usize = 12;

/// A sum of amounts, if it fits.
type Sum = Result<Money, QuantityFault>;

/// A figure of the screen: its name, whether it is shown, and where its sum stands.
type Figure = (&'static str, bool, fn(&CurrencyTotals) -> Sum);

/// Where the output is, if any was written.
pub enum Place<'a> {
    /// In this folder; some of it may have been taken over from an earlier output.
    Written(&'a FilePath, Option<&'a FilePath>),
    /// Nothing was written.
    Checked,
}

/// A run, ready to be shown.
pub struct Screen<'a> {
    /// What was read.
    pub received: &'a Received,
    /// What came out.
    pub overview: &'a Overview<'a>,
    /// Where it is.
    pub place: Place<'a>,
}

impl Screen<'_> {
    /// Prints it, for a person or for a program.
    pub fn show(&self, json: bool, date: Option<Date>) -> anyhow::Result<Ended> {
        let ended = Ended::of(&self.overview.totals);
        if json {
            terminal::print(&self.json(ended, date)?)?;
        } else {
            self.tell_problems();
            terminal::print(&self.text(terminal::width()))?;
        }
        Ok(ended)
    }

    /// Every problem of a check; of an output the first of each kind, the worst first. Notes stand in its exceptions: a
    /// screen has no room for them.
    fn tell_problems(&self) {
        let is_check = matches!(self.place, Place::Checked);
        let most = if is_check { usize::MAX } else { MOST_PROBLEMS };
        let shown = |problem: &&Problem| is_check || problem.severity() > Severity::Note;
        let mut told = 0;
        for problem in self.overview.problems().filter(shown).take(most) {
            terminal::tell_problem(problem, &self.received.sources, |place| self.received.row(place));
            told += 1;
        }
        let totals = &self.overview.totals;
        let all: u64 = [Severity::Error, Severity::Question, Severity::Warning]
            .into_iter()
            .map(|severity| totals.problems_of(severity))
            .sum();
        if !is_check && all > told {
            let more = so_many(all - told, "problem");
            terminal::tell(&format!("and {more} more: each stands in exceptions.csv\n"));
        }
    }

    fn text(&self, width: Option<usize>) -> String {
        let totals = &self.overview.totals;
        let mut out = String::new();
        let mut block = |label: &str, lines: &[String]| block(&mut out, label, lines, width);
        block("Read", &[self.read()]);
        block("Claims", &claims(totals));
        block("Panels", &panels(totals));
        block("Amounts", &amounts(totals));
        block("Problems", &problems(totals));
        block("To decide", &self.needs());
        block("Written", &self.written());
        out
    }

    fn read(&self) -> String {
        let received = self.received;
        let kept =
            if received.has_standard_input() { " (standard input through a temporary file)" } else { "" };
        format!(
            "{}{kept}, {}, {}",
            so_many(received.files.len() as u64, "file"),
            so_many(received.number_of_sheets() as u64, "sheet"),
            so_many(received.schedules.len() as u64, "schedule")
        )
    }

    fn needs(&self) -> Vec<String> {
        let overview = self.overview;
        let shown = overview.needs.iter().take(KEEP.needs);
        let mut lines: Vec<String> =
            shown.map(|need| visible(&format!("{}, {}: {}", need.claim, need.what, need.why))).collect();
        let more = overview.all_needs.saturating_sub(lines.len() as u64);
        if more > 0 {
            lines.push(format!("and {more} more, each on its claim's document"));
        }
        lines
    }

    fn written(&self) -> Vec<String> {
        match self.place {
            Place::Checked => vec!["nothing: this was a check".to_owned()],
            Place::Written(out, earlier) => {
                let mut line = visible(&out.display().to_string());
                let priced = self.overview.totals.claims - self.overview.totals.not_priced;
                if out.join(CLAIMS).is_dir() {
                    let _ = write!(line, ", with {} in {CLAIMS}", so_many(priced, "document"));
                }
                let mut lines = vec![line];
                if let Some(earlier) = earlier {
                    let claims = so_many(self.overview.taken_over, "claim");
                    let earlier = visible(&earlier.display().to_string());
                    lines.push(format!("documents of {claims} taken over from {earlier}"));
                }
                if self.overview.all_problems() > 0 {
                    lines.push("every problem with its cell: exceptions.csv".to_owned());
                }
                lines
            }
        }
    }

    fn json(&self, ended: Ended, date: Option<Date>) -> anyhow::Result<String> {
        let overview = self.overview;
        let summary = Summary {
            format: FORMAT,
            exit_code: ended.code(),
            out: match self.place {
                Place::Written(out, _) => Some(out.display().to_string()),
                Place::Checked => None,
            },
            run: Some(RunRecord::new(&self.received.files, &self.received.schedules, date, &overview.totals)),
            to_decide: overview
                .needs
                .iter()
                .map(|need| NeedView { claim: &need.claim, what: &need.what, why: &need.why })
                .collect(),
            problems: overview
                .problems()
                .map(|problem| ProblemView::new(problem, None, &self.received.sources))
                .collect(),
        };
        summary.to_text()
    }
}

/// What `--json` prints.
#[derive(Debug, Serialize)]
pub struct Summary<'a> {
    format: u32,
    exit_code: u8,
    out: Option<String>,
    /// Missing when nothing could be done.
    #[serde(skip_serializing_if = "Option::is_none")]
    run: Option<RunRecord>,
    to_decide: Vec<NeedView<'a>>,
    problems: Vec<ProblemView>,
}

#[derive(Debug, Serialize)]
struct NeedView<'a> {
    claim: &'a str,
    what: &'a str,
    why: &'a str,
}

impl Summary<'_> {
    /// The summary of a run that could do nothing.
    pub fn nothing(problems: Vec<ProblemView>) -> Self {
        Self {
            format: FORMAT,
            exit_code: Ended::Nothing.code(),
            out: None,
            run: None,
            to_decide: Vec::new(),
            problems,
        }
    }

    /// One object, with the end of its last line.
    pub fn to_text(&self) -> anyhow::Result<String> {
        let mut text = serde_json::to_string_pretty(self)?;
        text.push('\n');
        Ok(text)
    }
}

/// A label and its lines; nothing without a line.
pub fn block(out: &mut String, label: &str, lines: &[String], width: Option<usize>) {
    let bold = Style::new().bold();
    let width = width.map(|width| width.saturating_sub(LABEL));
    let lines = lines.iter().flat_map(|line| wrapped(line, width));
    for (number, line) in lines.enumerate() {
        let shown = if number == 0 { label } else { "" };
        let _ = writeln!(out, "{bold}{shown:LABEL$}{bold:#}{line}");
    }
}

/// `1 file`, `2 files`.
pub fn so_many(count: u64, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// Counts and what they are of, right-aligned, the largest kinds as given.
fn counted(rows: &[(u64, String)]) -> Vec<String> {
    let width = rows.iter().map(|(count, _)| count.to_string().len()).max().unwrap_or(0);
    rows.iter().map(|(count, what)| format!("{count:>width$} {what}")).collect()
}

fn claims(totals: &Totals) -> Vec<String> {
    let mut rows: Vec<(u64, String)> = Outcome::ALL
        .iter()
        .filter_map(|outcome| totals.outcomes.get(outcome).map(|count| (*count, outcome.words().to_owned())))
        .collect();
    if totals.not_priced > 0 {
        rows.push((totals.not_priced, "not priced".to_owned()));
    }
    let mut lines = counted(&rows);
    let otherwise = totals.settled_as.iter().filter(|(basis, _)| **basis != Settlement::Repair);
    let settled: Vec<String> = otherwise.map(|(basis, count)| format!("{count} as {basis}")).collect();
    if !settled.is_empty() {
        lines.push(format!("of these settled: {}", settled.join("; ")));
    }
    lines
}

fn panels(totals: &Totals) -> Vec<String> {
    let mut rows: Vec<(u64, String)> = Method::ALL
        .iter()
        .filter_map(|method| totals.panels.get(method).map(|count| (*count, method.name().to_owned())))
        .collect();
    for (count, what) in [
        (totals.panels_without_damage, "without damage"),
        (totals.panels_not_inspected, "not inspected, priced at nothing"),
    ] {
        if count > 0 {
            rows.push((count, what.to_owned()));
        }
    }
    counted(&rows)
}

/// A line for each figure and a column for each currency: currencies are never added, and two or three fit side by side.
/// So that they foot, what is nothing for most runs stands where it is not: net, tax and rounding are the gross; insurer,
/// owner and salvage kept are the settlement amounts, which the gross is itself where nothing is settled otherwise.
fn amounts(totals: &Totals) -> Vec<String> {
    if totals.money.is_empty() {
        return Vec::new();
    }
    let not_nothing = |sum: &Sum| sum.is_ok_and(|sum| !sum.is_zero());
    let any = |is: &dyn Fn(&CurrencyTotals) -> bool| totals.money.values().any(is);
    let figures: [Figure; 8] = [
        ("net", true, |money| money.net),
        ("tax", true, |money| money.tax),
        ("rounding", any(&|money| not_nothing(&money.rounding)), |money| money.rounding),
        ("gross", true, |money| money.gross),
        ("settled at", any(&|money| money.settled != money.gross), |money| money.settled),
        ("insurer pays", true, |money| money.insurer_pays),
        ("owner bears", true, |money| money.owner_bears),
        ("salvage kept", any(&|money| not_nothing(&money.salvage_kept)), |money| money.salvage_kept),
    ];
    let figures: Vec<_> = figures.into_iter().filter(|(_, is_shown, _)| *is_shown).collect();
    let sums =
        |money: &CurrencyTotals| figures.iter().map(|(_, _, of)| sum_text(of(money))).collect::<Vec<_>>();
    let columns: Vec<(&str, Vec<String>)> =
        totals.money.iter().map(|(currency, money)| (currency.code(), sums(money))).collect();
    let widths: Vec<usize> = columns
        .iter()
        .map(|(code, sums)| sums.iter().map(String::len).max().unwrap_or(0).max(code.len()))
        .collect();
    let line = |first: &str, cells: &mut dyn Iterator<Item = &str>| {
        let cells = cells.zip(&widths).map(|(cell, width)| format!("  {cell:>width$}"));
        format!("{first:12}{}", cells.collect::<String>())
    };
    let mut lines = vec![line("", &mut columns.iter().map(|(code, _)| *code))];
    for (number, (figure, ..)) in figures.iter().enumerate() {
        lines.push(line(figure, &mut columns.iter().map(|(_, sums)| sums[number].as_str())));
    }
    if let Some(open) = open_words(totals) {
        lines.push(format!("without {open}"));
    }
    lines
}

/// A sum with its thousands apart.
fn sum_text(sum: Sum) -> String {
    sum.map_or_else(|_| "too large".to_owned(), money_text)
}

/// An amount with its thousands apart.
pub fn money_text(money: Money) -> String {
    let plain = money.to_string();
    let (sign, digits) = plain.strip_prefix('-').map_or(("", plain.as_str()), |digits| ("-", digits));
    let (whole, fraction) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            grouped.push(' ');
        }
        grouped.push(digit);
    }
    format!("{sign}{grouped}{fraction}")
}

/// Problems by kind, the worst first and of those the most frequent.
fn problems(totals: &Totals) -> Vec<String> {
    let mut kinds: Vec<(Severity, u64, &str, &str)> = totals
        .problems
        .iter()
        .filter_map(|(id, count)| find_code(id).map(|code| (code.severity, *count, code.id, code.title)))
        .collect();
    kinds.sort_by(|a, b| b.0.cmp(&a.0).then(b.1.cmp(&a.1)).then(a.2.cmp(b.2)));
    let words =
        kinds.iter().map(|(severity, _, id, _)| severity.word().len() + id.len() + 1).max().unwrap_or(0);
    let rows: Vec<(u64, String)> = kinds
        .iter()
        .map(|(severity, count, id, title)| {
            let kind = format!("{severity} {id}");
            (*count, format!("{kind:words$}  {title}"))
        })
        .collect();
    counted(&rows)
}

/// A rendered problem with its severity set off.
pub fn styled_problem(problem: &Problem, text: &str) -> String {
    let style = match problem.severity() {
        Severity::Error | Severity::Question => Style::new().bold().fg_color(Some(AnsiColor::Red.into())),
        Severity::Warning => Style::new().bold().fg_color(Some(AnsiColor::Yellow.into())),
        Severity::Note => Style::new().bold(),
    };
    let word = problem.severity().word();
    text.strip_prefix(word).map_or_else(|| text.to_owned(), |rest| format!("{style}{word}{style:#}{rest}"))
}

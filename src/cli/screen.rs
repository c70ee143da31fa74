//! What a run prints: first problems in full, then one aligned screen of what was read, what came out, what needs a person,
//! and where it is.

use super::outcome::Ended;
use super::reception::Received;
use super::terminal;
use crate::assess::Outcome;
use crate::batch::{CurrencyTotals, Totals};
use crate::claim::Method;
use crate::problem::{Problem, Severity, find_code, visible};
use crate::quantity::{Date, Money, QuantityFault};
use crate::report::json::ProblemView;
use crate::report::overview::{Overview, open_words};
use crate::report::run_record::{CLAIMS, FORMAT, RunRecord};
use anstyle::{AnsiColor, Style};
use serde::Serialize;
use std::fmt::Write as _;
use std::path::Path as FilePath;

/// Problems and things that need a person that are shown of each kind: all of them are in the output.
pub const KEEP: usize = 8;
/// Characters before the values.
const LABEL: usize = 12;

/// Where the output is, if any was written.
pub enum Place<'a> {
    /// In this folder.
    Written(&'a FilePath),
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
            terminal::print(&self.text())?;
        }
        Ok(ended)
    }

    /// The first problems that are kept, the worst first; of a check, all.
    fn tell_problems(&self) {
        let most = if matches!(self.place, Place::Checked) { usize::MAX } else { KEEP };
        // In an output notes stand in the exceptions, and a screen has no room for them.
        let shown = |problem: &&Problem| most == usize::MAX || problem.severity() > Severity::Note;
        for problem in self.overview.problems().filter(shown).take(most) {
            terminal::tell_problem(problem, &self.received.sources, |place| self.received.row(place));
        }
    }

    fn text(&self) -> String {
        let totals = &self.overview.totals;
        let mut out = String::new();
        block(&mut out, "Read", &[self.read()]);
        block(&mut out, "Claims", &claims(totals));
        block(&mut out, "Panels", &panels(totals));
        block(&mut out, "Amounts", &amounts(totals));
        block(&mut out, "Problems", &problems(totals));
        block(&mut out, "To decide", &self.needs());
        block(&mut out, "Written", &self.written());
        out
    }

    fn read(&self) -> String {
        let received = self.received;
        format!(
            "{}, {}, {}",
            so_many(received.files.len() as u64, "file"),
            so_many(received.sheets.len() as u64, "sheet"),
            so_many(received.schedules.len() as u64, "schedule")
        )
    }

    fn needs(&self) -> Vec<String> {
        let overview = self.overview;
        let shown = overview.needs.iter().take(KEEP);
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
            Place::Written(out) => {
                let mut line = visible(&out.display().to_string());
                let priced = self.overview.totals.claims - self.overview.totals.not_priced;
                if out.join(CLAIMS).is_dir() {
                    let _ = write!(line, ", with {} in {CLAIMS}", so_many(priced, "document"));
                }
                let mut lines = vec![line];
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
                Place::Written(out) => Some(out.display().to_string()),
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
pub fn block(out: &mut String, label: &str, lines: &[String]) {
    let bold = Style::new().bold();
    for (number, line) in lines.iter().enumerate() {
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
    counted(&rows)
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

/// One row of sums per currency under their headings, and what is in none of them.
fn amounts(totals: &Totals) -> Vec<String> {
    const HEADINGS: [&str; 5] = ["net", "tax", "gross", "insurer pays", "owner bears"];
    if totals.money.is_empty() {
        return Vec::new();
    }
    let sums = |money: &CurrencyTotals| {
        [money.net, money.tax, money.gross, money.insurer_pays, money.owner_bears].map(sum_text)
    };
    let rows: Vec<(&str, [String; 5])> =
        totals.money.iter().map(|(currency, money)| (currency.code(), sums(money))).collect();
    let widths: Vec<usize> = (0..HEADINGS.len())
        .map(|column| {
            let cells = rows.iter().map(|(_, sums)| sums[column].len());
            cells.max().unwrap_or(0).max(HEADINGS[column].len())
        })
        .collect();
    let line = |first: &str, cells: &[&str]| {
        let cells = cells.iter().zip(&widths).map(|(cell, width)| format!("  {cell:>width$}"));
        format!("{first:3}{}", cells.collect::<String>())
    };
    let mut lines = vec![line("", &HEADINGS)];
    lines.extend(rows.iter().map(|(code, sums)| line(code, &sums.each_ref().map(String::as_str))));
    if let Some(open) = open_words(totals) {
        lines.push(format!("without {open}"));
    }
    lines
}

/// A sum with its thousands apart.
fn sum_text(sum: Result<Money, QuantityFault>) -> String {
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

use super::aligned::aligned;
use super::earlier::EarlierArgs;
use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive_for_claims};
use super::screen::{MOST_PROBLEMS, block, money_text, so_many};
use super::terminal;
use crate::batch::{self, Carried, Done, Options, Repeats, Sink, Stopped};
use crate::problem::{Code, Problem, Severity, catalogue::claim, catalogue::output, visible};
use crate::quantity::{Currency, Money, QuantityFault};
use crate::register::{KnownClaim, Register, Standing, Sums, Waits, register};
use crate::report::folder::OutputFolder;
use crate::report::register::{Filled, RegisterView, write};
use crate::report::tables::Run;
use clap::Args;
use std::convert::Infallible;
use std::path::{Path, PathBuf};

/// Say where each claim of a storm stands, what waits for whom and how long, and what was agreed and paid.
///
/// A register is a table with the headings `date` and `event` and a key of the claim; further `amount`, `by` and `remark`. It
/// stands among the files. Events are listed, inspected, submitted, supplement, agreed, parts in, repaired, handed over,
/// paid. Nothing is kept: what the files say is all there is. With `--date` as of that day, else as of the latest row.
#[derive(Debug, Args)]
pub struct RegisterArgs {
    #[command(flatten)]
    input: InputArgs,

    /// Where the output goes: a folder. Without it, the name of the first path with "-register" in the current folder.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,

    #[command(flatten)]
    earlier: EarlierArgs,

    /// Print what register.json holds, for programs.
    #[arg(long)]
    json: bool,
}

/// Claims that are shown, the longest waiting first.
const SHOWN: usize = 12;

/// Runs it.
pub fn run(args: &RegisterArgs) -> anyhow::Result<Ended> {
    let out = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-register", args.input.name())));
    // Before anything is read: what stands in the way is told at once.
    let folder = match OutputFolder::begin(&out, std::process::id()) {
        Ok(folder) => folder,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let earlier = match args.earlier.cars() {
        Ok(earlier) => earlier,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let mut received = receive_for_claims(&args.input, None);
    let rows = std::mem::take(&mut received.register);
    // Without a schedule nothing is assessed, and all else can be said.
    let lacking = if received.claims.is_empty() {
        Some(output::no_claims())
    } else {
        rows.is_empty().then(output::no_register)
    };
    if let Some(lacking) = lacking {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    received.look_at_photographs(args.input.date);
    let Gathering { known, repeats, stopping, .. } = match gather(&received, args) {
        Ok(gathering) => gathering,
        Err(problem) => return super::nothing_done(&problem, Some(&received), args.json),
    };
    let mut register = register(known, rows, args.input.date, usual_currency(&received));
    register.findings.extend(repeats.problems(&earlier).into_iter().filter(is_of_cars));
    let filled = Filled { register: &register, run: received.run() };
    let data = RegisterView::new(&filled).to_bytes()?;
    if let Err(problem) = write(folder, &filled) {
        return super::nothing_done(&problem, Some(&received), args.json);
    }
    if args.json {
        terminal::print_bytes(&data)?;
    } else {
        tell_problems(&received, &stopping, &register);
        terminal::print(&screen(&received, &register, &out, terminal::width()))?;
    }
    let is_stopped = !stopping.is_empty() || stopping_of(&received).next().is_some();
    Ok(if is_stopped { Ended::Incomplete } else { Ended::Done })
}

/// Photographs are the business of `check`.
fn is_of_cars(problem: &Problem) -> bool {
    [&claim::CAR_IN_TWO_CLAIMS, &claim::CAR_IN_EARLIER_RUN].contains(&problem.code)
}

/// The currency of all schedules, where it is one.
fn usual_currency(received: &Received) -> Option<Currency> {
    let mut currencies = received.schedules.iter().map(|schedule| schedule.terms.currency.value);
    let first = currencies.next()?;
    currencies.all(|currency| currency == first).then_some(first)
}

/// The claims of a run, as far as a register speaks of them.
struct Gathering<'a> {
    run: Run<'a>,
    known: Vec<KnownClaim>,
    repeats: Repeats,
    /// What keeps claims from being priced.
    stopping: Vec<Problem>,
}

impl Sink for Gathering<'_> {
    type Piece = (KnownClaim, Carried, Vec<Problem>);
    type Error = Infallible;

    fn draw(&self, done: &Done<'_>) -> Self::Piece {
        let claim = &done.intake.claim;
        let lacks = self.run.readiness(done).is_some_and(|ready| !ready.lacks.is_empty());
        // Without a schedule that alone is the problem of every claim.
        let has_schedule = !self.run.schedules.is_empty();
        let stops = |problem: &&Problem| has_schedule && problem.severity().stops_the_claim();
        let stopping = done.problems().filter(stops).cloned().collect();
        (KnownClaim::of(claim, done.result.as_ref().ok(), lacks), Carried::of(claim), stopping)
    }

    fn accept(&mut self, (known, carried, stopping): Self::Piece) -> Result<(), Infallible> {
        self.known.push(known);
        self.stopping.extend(stopping);
        self.repeats.add(&carried);
        Ok(())
    }
}

fn gather<'a>(received: &'a Received, args: &RegisterArgs) -> Result<Gathering<'a>, Problem> {
    let mut gathering = Gathering {
        run: received.run(),
        known: Vec::new(),
        repeats: Repeats::default(),
        stopping: Vec::new(),
    };
    let options = Options { run_date: args.input.date, threads: None, working: false };
    let ended = batch::run(received, &received.schedules, options, &mut gathering);
    ended.map_err(|stopped| match stopped {
        Stopped::Source(problem) => problem,
        Stopped::Sink(never) => match never {},
    })?;
    received.claims.check()?;
    Ok(gathering)
}

/// Problems of files and tables that left something out.
fn stopping_of(received: &Received) -> impl Iterator<Item = &Problem> {
    received.problems.iter().filter(|problem| problem.severity().stops_the_claim())
}

/// What stops a claim, then what the register says that does not fit; the first few in full.
fn tell_problems(received: &Received, stopping: &[Problem], register: &Register) {
    let of_register = register.findings.iter().filter(|problem| problem.severity() > Severity::Note);
    let shown: Vec<&Problem> = stopping_of(received).chain(stopping).chain(of_register).collect();
    for problem in shown.iter().take(MOST_PROBLEMS) {
        terminal::tell_problem(problem, &received.sources, |place| received.row(place));
    }
    if shown.len() > MOST_PROBLEMS {
        let more = so_many((shown.len() - MOST_PROBLEMS) as u64, "problem");
        terminal::tell(&format!("and {more} more: each stands in register.xlsx\n"));
    }
}

/// One screen.
fn screen(received: &Received, register: &Register, out: &Path, width: Option<usize>) -> String {
    let mut text = String::new();
    let mut block = |label: &str, lines: &[String]| block(&mut text, label, lines, width);
    let day = register.day.map_or_else(|| "no day".to_owned(), |day| day.to_string());
    block(
        "Read",
        &[format!(
            "{}, {}, {} as of {day}",
            so_many(received.files.len() as u64, "file"),
            so_many(register.standings.len() as u64, "claim"),
            so_many(register.rows as u64, "row")
        )],
    );
    block("Waits for", &waits(register));
    block("Longest", &longest(register));
    block("Amounts", &amounts(register));
    block("Look at", &findings(register));
    block("Written", &[visible(&out.display().to_string())]);
    text
}

fn waits(register: &Register) -> Vec<String> {
    let rows = Waits::ALL.iter().filter_map(|waits| {
        let of_it: Vec<&Standing> =
            register.standings.iter().filter(|standing| standing.waits == *waits).collect();
        let first = of_it.first()?;
        let longest = first
            .days
            .map_or_else(String::new, |days| format!("longest {}", so_many(days.unsigned_abs(), "day")));
        Some(vec![waits.words().to_owned(), of_it.len().to_string(), longest])
    });
    aligned(&rows.collect::<Vec<_>>(), &[false, true])
}

fn longest(register: &Register) -> Vec<String> {
    let waiting = || register.standings.iter().filter(|standing| standing.waits != Waits::Nobody);
    let rows = waiting().take(SHOWN).map(|standing| {
        let days = standing.days.map_or_else(String::new, |days| so_many(days.unsigned_abs(), "day"));
        let what = format!("{} {}", standing.waits.words(), standing.next);
        vec![visible(&standing.claim.key.text), days, what, visible(&standing.claim.car)]
    });
    let mut lines = aligned(&rows.collect::<Vec<_>>(), &[false, true]);
    let more = waiting().count().saturating_sub(SHOWN);
    if more > 0 {
        lines.push(format!("and {more} more"));
    }
    lines
}

/// A line for each figure and a column for each currency.
fn amounts(register: &Register) -> Vec<String> {
    type Sum = Result<Money, QuantityFault>;
    if register.sums.is_empty() {
        return Vec::new();
    }
    let sum = |sum: Sum| sum.map_or_else(|_| "too large".to_owned(), money_text);
    let mut rows = vec![vec![String::new()]];
    rows[0].extend(register.sums.keys().map(|currency| currency.code().to_owned()));
    let mut line = |name: &str, of: fn(&Sums) -> Sum| {
        let mut row = vec![name.to_owned()];
        row.extend(register.sums.values().map(|sums| sum(of(sums))));
        rows.push(row);
    };
    line("assessed", |sums| sums.assessed);
    line("submitted", |sums| sums.submitted);
    line("agreed", |sums| sums.agreed);
    line("paid", |sums| sums.paid);
    line("still to pay", |sums| sums.still);
    let columns = register.sums.len();
    let numbers: Vec<bool> = std::iter::once(false).chain(std::iter::repeat_n(true, columns)).collect();
    aligned(&rows, &numbers)
}

/// Findings by kind.
fn findings(register: &Register) -> Vec<String> {
    let mut kinds: Vec<(&Code, usize)> = Vec::new();
    for problem in &register.findings {
        match kinds.iter_mut().find(|(code, _)| code.id == problem.code.id) {
            Some((_, count)) => *count += 1,
            None => kinds.push((problem.code, 1)),
        }
    }
    kinds.sort_by(|a, b| b.0.severity.cmp(&a.0.severity).then(a.0.id.cmp(b.0.id)));
    let rows = kinds.iter().map(|(code, count)| {
        vec![count.to_string(), format!("{} {}", code.severity, code.id), code.title.to_owned()]
    });
    aligned(&rows.collect::<Vec<_>>(), &[true])
}

//! Times the whole program on an invented batch: `measure PROGRAM CLAIMS FOLDER [REPEATS [PYTHON]]`.
//!
//! Each command runs as a process of its own, as a user runs it. Printed per command: the best and the worst wall time,
//! claims per second, the largest resident memory, and what it wrote. Memory is the kernel's high-water mark (`VmHWM` in
//! `/proc/PID/status`), read until the process ends; elsewhere than on Linux it is not measured.
//!
//! With a Python that has DuckDB, the yardstick runs in turn with the program on the same two files: the best of each,
//! their ratio, and how many claims both find the same figures for. Only ratios of one run count.

mod figures;

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, ExitCode};
use std::thread;
use stipple_bench::{Order, Ran, generate, megabytes, run, weigh};

/// What is timed: a name, the arguments after `assess COUNTS VEHICLES --schedule SCHEDULE --out OUT`, what the yardstick
/// does beside it, and in which order counts stand.
const RUNS: [(&str, &[&str], Option<&str>, Order); 5] = [
    ("bordereau", &["--write", "workbooks"], None, Order::Claims),
    ("claims", &["--write", "claims"], Some("claims"), Order::Claims),
    ("tables", &["--write", "claims,panels,lines"], Some("tables"), Order::Claims),
    ("by panel", &["--write", "claims"], None, Order::Panels),
    ("workings", &["--write", "claims,panels,lines,assessments"], None, Order::Claims),
];
/// The same for a batch of at most so many claims, with a file or more for each.
const FEW: u64 = 10_000;
const RUNS_OF_FEW: [(&str, &[&str], Option<&str>, Order); 4] = [
    ("documents", &["--write", "documents"], None, Order::Claims),
    ("overview", &["--write", "overview"], None, Order::Claims),
    ("bordereau page", &["--write", "bordereau"], None, Order::Claims),
    ("everything", &[], None, Order::Claims),
];

/// What is run, and where.
struct Bench<'a> {
    program: &'a Path,
    python: Option<&'a str>,
    repeats: usize,
    folder: &'a Path,
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (program, claims, folder, rest) = match &arguments[..] {
        [program, claims, folder, rest @ ..] if rest.len() <= 2 => (program, claims, folder, rest),
        _ => {
            eprintln!("usage: measure PROGRAM CLAIMS FOLDER [REPEATS [PYTHON]]");
            return ExitCode::from(2);
        }
    };
    let repeats = rest.first().map_or("3", String::as_str);
    let (Ok(claims), Ok(repeats)) = (claims.parse::<u64>(), repeats.parse()) else {
        eprintln!("CLAIMS and REPEATS are whole numbers");
        return ExitCode::from(2);
    };
    let python = rest.get(1).map(String::as_str);
    let bench = Bench { program: Path::new(program), python, repeats, folder: Path::new(folder) };
    let few = claims.min(FEW);
    match bench.measure(claims, &RUNS).and_then(|()| bench.measure(few, &RUNS_OF_FEW)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

impl Bench<'_> {
    fn measure(&self, claims: u64, runs: &[(&str, &[&str], Option<&str>, Order)]) -> io::Result<()> {
        let out = self.folder.join("out");
        let yard = self.folder.join("yardstick");
        let cores = thread::available_parallelism().map_or(0, usize::from);
        let mut order = None;
        for (name, further, yardstick, wanted) in runs {
            let batch = self.folder.join("batch");
            if order != Some(*wanted) {
                generate(claims, *wanted, &batch)?;
                let first = order.replace(*wanted).is_none();
                let (read, _) = weigh(&batch)?;
                if first {
                    println!(
                        "{claims} claims, {} panels, {} read, {cores} cores",
                        claims * 13,
                        megabytes(read)
                    );
                    println!(
                        "{:<12}{:>9}{:>10}{:>12}{:>10}{:>20}{:>12}{:>8}",
                        "", "best", "worst", "claims/s", "memory", "written", "yardstick", "ratio"
                    );
                }
            }
            let (mut ours, mut theirs): (Vec<Ran>, Vec<Ran>) = (Vec::new(), Vec::new());
            for _ in 0..self.repeats.max(1) {
                if out.exists() {
                    fs::remove_dir_all(&out)?;
                }
                ours.push(run(&mut self.assess(&batch, &out, further))?);
                if let (Some(python), Some(what)) = (self.python, yardstick) {
                    theirs.push(run(&mut yardstick_of(python, &batch, &yard, what))?);
                }
            }
            report(name, claims, &ours, &theirs, weigh(&out)?);
            if !theirs.is_empty() {
                let (same, all) = figures::same(&out.join("claims.csv"), &yard.join("claims.csv"))?;
                println!("{:12}{same} of {all} claims have the yardstick's dents, open panels and net", "");
            }
        }
        Ok(())
    }

    fn assess(&self, batch: &Path, out: &Path, further: &[&str]) -> Command {
        let mut command = Command::new(self.program);
        command.arg("assess").args([batch.join("counts.csv"), batch.join("vehicles.csv")]);
        command.arg("--schedule").arg(batch.join("schedule")).arg("--out").arg(out).args(further);
        command
    }
}

fn yardstick_of(python: &str, batch: &Path, out: &Path, what: &str) -> Command {
    let mut command = Command::new(python);
    command.arg(concat!(env!("CARGO_MANIFEST_DIR"), "/yardstick.py")).args([batch, out]).arg(what);
    command
}

fn report(name: &str, claims: u64, ours: &[Ran], theirs: &[Ran], (bytes, files): (u64, u64)) {
    let best = |runs: &[Ran]| runs.iter().map(|run| run.seconds).min_by(f64::total_cmp);
    let worst = ours.iter().map(|run| run.seconds).fold(0.0, f64::max);
    let memory = ours.iter().filter_map(|run| run.peak_kilobytes).max();
    let ours = best(ours).unwrap_or_default();
    let (yardstick, ratio) = best(theirs).map_or_else(<(String, String)>::default, |theirs| {
        (format!("{theirs:.2} s"), format!("{:.2}", ours / theirs))
    });
    println!(
        "{name:<12}{ours:>7.2} s{worst:>8.2} s{:>12.0}{:>10}{:>20}{yardstick:>12}{ratio:>8}",
        per_second(claims, ours),
        memory.map_or_else(|| "-".to_owned(), |kilobytes| megabytes(kilobytes * 1024)),
        format!("{} in {files}", megabytes(bytes)),
    );
}

fn per_second(claims: u64, seconds: f64) -> f64 {
    u32::try_from(claims).map_or(f64::INFINITY, f64::from) / seconds
}

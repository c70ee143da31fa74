//! Times the whole program on an invented batch: `measure PROGRAM CLAIMS FOLDER [REPEATS]`.
//!
//! Each command runs as a process of its own, as a user runs it. Printed per command: the median and the spread of
//! the wall time, claims per second, the largest resident memory, and what it wrote.

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, ExitCode};
use stipple_bench::{megabytes, run, weigh};

/// What is timed: a name, and the arguments after `assess COUNTS VEHICLES --schedule SCHEDULE --out OUT`.
const RUNS: [(&str, &[&str]); 4] = [
    ("claims", &["--write", "claims"]),
    ("tables", &["--write", "claims,panels,lines"]),
    ("workings", &["--write", "claims,panels,lines,assessments"]),
    ("everything", &[]),
];

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (program, claims, folder, repeats) = match &arguments[..] {
        [program, claims, folder] => (program, claims, folder, "3"),
        [program, claims, folder, repeats] => (program, claims, folder, repeats.as_str()),
        _ => {
            eprintln!("usage: measure PROGRAM CLAIMS FOLDER [REPEATS]");
            return ExitCode::from(2);
        }
    };
    let (Ok(claims), Ok(repeats)) = (claims.parse(), repeats.parse()) else {
        eprintln!("CLAIMS and REPEATS are whole numbers");
        return ExitCode::from(2);
    };
    match measure(Path::new(program), claims, Path::new(folder), repeats) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn measure(program: &Path, claims: u64, folder: &Path, repeats: usize) -> io::Result<()> {
    let (batch, out) = (folder.join("batch"), folder.join("out"));
    stipple_bench::generate(claims, &batch)?;
    let (read, _) = weigh(&batch)?;
    println!("{claims} claims, {} panels, {} read", claims * 13, megabytes(read));
    println!(
        "{:<12}{:>9}{:>18}{:>12}{:>10}{:>18}",
        "", "median", "from - to", "claims/s", "memory", "written"
    );
    for (name, further) in RUNS {
        let mut runs = Vec::new();
        for _ in 0..repeats.max(1) {
            if out.exists() {
                fs::remove_dir_all(&out)?;
            }
            runs.push(run(&mut started(program, &batch, &out, further))?);
        }
        runs.sort_by(|a, b| a.seconds.total_cmp(&b.seconds));
        let (first, last) = (&runs[0], &runs[runs.len() - 1]);
        let median = runs[runs.len() / 2].seconds;
        let memory = runs.iter().filter_map(|run| run.peak_kilobytes).max();
        let (bytes, files) = weigh(&out)?;
        println!(
            "{name:<12}{median:>7.2} s{:>18}{:>12.0}{:>10}{:>18}",
            format!("{:.2} - {:.2} s", first.seconds, last.seconds),
            per_second(claims, median),
            memory.map_or_else(|| "-".to_owned(), |kilobytes| megabytes(kilobytes * 1024)),
            format!("{} in {files}", megabytes(bytes)),
        );
    }
    Ok(())
}

fn started(program: &Path, batch: &Path, out: &Path, further: &[&str]) -> Command {
    let mut command = Command::new(program);
    command
        .arg("assess")
        .args([batch.join("counts.csv"), batch.join("vehicles.csv")])
        .arg("--schedule")
        .arg(batch.join("schedule"))
        .arg("--out")
        .arg(out)
        .args(further);
    command
}

fn per_second(claims: u64, seconds: f64) -> f64 {
    u32::try_from(claims).map_or(f64::INFINITY, f64::from) / seconds
}

//! What a schedule costs that uses every term and table there is: `measure_terms PROGRAM CLAIMS FOLDER [REPEATS]`.
//!
//! The same claims are assessed by a plain schedule and by the same one with everything, in turn: by the engine alone, on one
//! thread without a working, and by the whole command. Printed are the best of each and their ratio; only ratios of one
//! run count.

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Instant;
use stipple::assess::{Silent, assess};
use stipple::claim::Intake;
use stipple::schedule::Schedule;
use stipple_bench::{Order, claims, generate, run, schedule};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [program, claims, folder, rest @ ..] = &arguments[..] else {
        eprintln!("usage: measure_terms PROGRAM CLAIMS FOLDER [REPEATS]");
        return ExitCode::from(2);
    };
    let repeats = rest.first().map_or("5", String::as_str);
    let (Ok(claims), Ok(repeats)) = (claims.parse::<u64>(), repeats.parse::<usize>()) else {
        eprintln!("CLAIMS and REPEATS are whole numbers");
        return ExitCode::from(2);
    };
    match measure(Path::new(program), claims, Path::new(folder), repeats.max(1)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

const SCHEDULES: [&str; 2] = ["schedule", "everything"];

fn measure(program: &Path, number: u64, folder: &Path, repeats: usize) -> io::Result<()> {
    let batch = folder.join("batch");
    generate(number, Order::Claims, &batch)?;
    let (intakes, _) = claims(&batch);
    let both = SCHEDULES.map(|name| schedule(&batch.join(name)));
    let mut alone = [f64::INFINITY; 2];
    let mut whole = [f64::INFINITY; 2];
    for _ in 0..repeats {
        for ((best, all), (schedule, name)) in
            alone.iter_mut().zip(&mut whole).zip(both.iter().zip(SCHEDULES))
        {
            *best = best.min(engine(&intakes, schedule));
            *all = all.min(command(program, &batch, name, &folder.join("out"))?);
        }
    }
    println!("{number} claims, best of {repeats}");
    println!("{:<12}{:>10}{:>14}{:>8}", "", "plain", "everything", "ratio");
    for (name, [plain, everything]) in [("engine", alone), ("command", whole)] {
        println!("{name:<12}{plain:>8.3} s{everything:>12.3} s{:>8.2}", everything / plain);
    }
    Ok(())
}

/// Seconds that the engine alone takes.
fn engine(intakes: &[Intake], schedule: &Schedule) -> f64 {
    let start = Instant::now();
    let stand = intakes.iter().filter(|it| assess(&it.claim, schedule, 0, None, &mut Silent).is_ok()).count();
    assert!(stand > 0, "no claim was assessed");
    start.elapsed().as_secs_f64()
}

/// Seconds that the whole command takes.
fn command(program: &Path, batch: &Path, schedule: &str, out: &Path) -> io::Result<f64> {
    if out.exists() {
        fs::remove_dir_all(out)?;
    }
    let mut command = Command::new(program);
    command.arg("assess").args([batch.join("counts.csv"), batch.join("vehicles.csv")]);
    command.arg("--schedule").arg(batch.join(schedule)).arg("--out").arg(out).args(["--write", "claims"]);
    Ok(run(&mut command)?.seconds)
}

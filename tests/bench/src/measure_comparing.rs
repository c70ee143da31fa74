//! Times a comparison beside one assessment of the same batch: `measure_comparing PROGRAM CARS PEOPLE FOLDER`.
//!
//! The assessment writes its smallest output, the listing of claims, and takes the first person's counts; the comparison
//! writes everything it has.

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, ExitCode};
use stipple_bench::{Ran, generate_looks, megabytes, run, weigh};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [program, cars, people, folder] = &arguments[..] else {
        eprintln!("usage: measure_comparing PROGRAM CARS PEOPLE FOLDER");
        return ExitCode::from(2);
    };
    let (Ok(cars), Ok(people)) = (cars.parse(), people.parse()) else {
        eprintln!("CARS and PEOPLE are whole numbers");
        return ExitCode::from(2);
    };
    match measure(Path::new(program), cars, people, Path::new(folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn measure(program: &Path, cars: u64, people: u64, folder: &Path) -> io::Result<()> {
    let (batch, out) = (folder.join("batch"), folder.join("out"));
    generate_looks(cars, people, &batch)?;
    let (read, _) = weigh(&batch)?;
    println!("{people} people, {cars} cars, {} panel rows, {} read", cars * people * 13, megabytes(read));
    let mut first = None;
    for (name, command, further) in
        [("assess", "assess", &["--write", "claims"][..]), ("compare", "compare", &[][..])]
    {
        if out.exists() {
            fs::remove_dir_all(&out)?;
        }
        let mut started = Command::new(program);
        started.arg(command).args([batch.join("counts.csv"), batch.join("vehicles.csv")]);
        started.arg("--schedule").arg(batch.join("schedule")).arg("--out").arg(&out).args(further);
        let Ran { seconds, peak_kilobytes } = run(&mut started)?;
        let (bytes, files) = weigh(&out)?;
        let times = first.map_or(1.0, |first| seconds / first);
        first.get_or_insert(seconds);
        println!(
            "{name:<9}{seconds:>8.2} s{times:>7.2} times{:>12}{:>20}",
            peak_kilobytes.map_or_else(|| "-".to_owned(), |kilobytes| megabytes(kilobytes * 1024)),
            format!("{} in {files}", megabytes(bytes)),
        );
    }
    Ok(())
}

//! Writes an invented batch: `generate CLAIMS FOLDER`.

use std::path::Path;
use std::process::ExitCode;
use stipple_bench::{Order, generate};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [claims, folder] = &arguments[..] else {
        eprintln!("usage: generate CLAIMS FOLDER");
        return ExitCode::from(2);
    };
    let Ok(claims) = claims.parse() else {
        eprintln!("{claims} is not a number of claims");
        return ExitCode::from(2);
    };
    match generate(claims, Order::Claims, Path::new(folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{folder}: {error}");
            ExitCode::FAILURE
        }
    }
}

use super::outcome::Ended;
use super::terminal;
use crate::problem::{Problem, catalogue::output};
use crate::report::starter::STARTER;
use crate::report::workbook::starter;
use clap::Args;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Write a schedule to begin with: small, complete, with invented amounts and a note on every sheet.
///
/// Nothing that exists is overwritten.
#[derive(Debug, Args)]
pub struct NewArgs {
    /// A workbook, if it ends in .xlsx; else a new folder of CSV files.
    #[arg(value_name = "PATH")]
    path: PathBuf,
}

/// Runs it.
pub fn run(args: &NewArgs) -> anyhow::Result<Ended> {
    let path = &args.path;
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    let written = match ending.as_deref() {
        Some("xlsx") => starter().and_then(|bytes| create(path, &bytes)).map_err(|error| told(path, &error)),
        Some(other @ ("csv" | "ods" | "xls" | "xlsm" | "tsv" | "txt")) => {
            Err(output::starter_ending(&path.display().to_string(), other))
        }
        _ => folder(path).map_err(|error| told(path, &error)),
    };
    if let Err(problem) = written {
        return super::nothing_done(&problem, None, false);
    }
    let shown = crate::problem::visible(&path.display().to_string());
    terminal::print(&format!(
        "{shown}: written, with invented amounts\nReplace them, then: stipple schedule check {shown}\n"
    ))?;
    Ok(Ended::Done)
}

fn told(path: &Path, error: &io::Error) -> Problem {
    let path = path.display().to_string();
    if error.kind() == io::ErrorKind::AlreadyExists {
        output::starter_exists(&path)
    } else {
        output::not_written(&path, error)
    }
}

/// A new folder with a file for each table. What fails half-way is taken away again.
fn folder(path: &Path) -> io::Result<()> {
    fs::create_dir(path)?;
    for table in &STARTER {
        let name = format!("{}.csv", table.name.to_lowercase().replace(' ', "_"));
        if let Err(error) = table.csv().and_then(|bytes| create(&path.join(name), &bytes)) {
            let _ = fs::remove_dir_all(path);
            return Err(error);
        }
    }
    Ok(())
}

/// Writes a file that must not exist yet.
fn create(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    if written.is_err() {
        drop(file);
        let _ = fs::remove_file(path);
    }
    written
}

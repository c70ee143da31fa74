//! Which files a run is about: those that were named, and the spreadsheets in folders that were named.

use crate::problem::{Problem, catalogue::file as say};
use std::collections::BTreeSet;
use std::fs;
use std::path::{MAIN_SEPARATOR, Path, PathBuf};

/// A file to read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::read) struct Found {
    /// As it is called in messages and documents: the path as given, `/` between parts.
    pub(in crate::read) shown: String,
    /// Where it is.
    pub(in crate::read) path: PathBuf,
}

/// The files, sorted by path, and what was odd on the way.
#[derive(Debug, Default)]
pub(super) struct Listing {
    pub(super) files: Vec<Found>,
    pub(super) problems: Vec<Problem>,
}

/// Endings of spreadsheets: files of a folder with one of these are opened, also of those that are then refused with
/// a reason.
pub(super) const ENDINGS: [&str; 9] = ["csv", "tsv", "tab", "xlsx", "xlsm", "xltx", "xls", "xlsb", "ods"];
/// Endings of photographs: lists name them, and a folder of claims is full of them.
const PHOTOGRAPHS: [&str; 8] = ["jpg", "jpeg", "png", "webp", "heic", "heif", "hif", "avif"];
/// Folders below each other that are entered; a deeper one is a slip or a trap.
const MOST_DEEP: usize = 32;

/// The name by which standard input is given, and by which it goes in messages and documents.
pub const STANDARD_INPUT: (&str, &str) = ("-", "standard input");

/// Lists the files of some paths; `kept` is the file in which standard input was kept, if it was.
pub(super) fn list(paths: &[PathBuf], kept: Option<&Path>) -> Listing {
    let mut listing = Listing::default();
    for path in paths {
        if let Some(kept) = kept.filter(|_| path.as_os_str() == STANDARD_INPUT.0) {
            listing.files.push(Found { shown: STANDARD_INPUT.1.to_owned(), path: kept.to_owned() });
            continue;
        }
        match fs::metadata(path) {
            Ok(metadata) if metadata.is_dir() => {
                let before = listing.files.len();
                let is_output = is_own_output(path);
                listing.enter(path, 0);
                if listing.files.len() == before && !is_output {
                    listing.problems.push(say::folder_empty(&shown(path)));
                }
            }
            Ok(metadata) if metadata.is_file() => listing.add(path.clone()),
            Ok(_) => listing.problems.push(say::wrong_type(
                &shown(path),
                "neither a file nor a folder",
                "give a file or a folder",
            )),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                listing.problems.push(say::missing(&shown(path)));
            }
            Err(error) => listing.problems.push(say::unreadable(&shown(path), &error.to_string())),
        }
    }
    listing.files.sort();
    // A file that was named beside its folder is read once.
    let mut seen = BTreeSet::new();
    listing
        .files
        .retain(|found| seen.insert(fs::canonicalize(&found.path).unwrap_or_else(|_| found.path.clone())));
    listing
}

impl Listing {
    fn add(&mut self, path: PathBuf) {
        self.files.push(Found { shown: shown(&path), path });
    }

    /// Takes the spreadsheets of a folder and of those below it. Links to folders are not followed: they may lead
    /// in a circle.
    fn enter(&mut self, folder: &Path, depth: usize) {
        if is_own_output(folder) {
            self.problems.push(say::folder_left_out(&shown(folder)));
            return;
        }
        let entries = match fs::read_dir(folder).and_then(Iterator::collect::<Result<Vec<_>, _>>) {
            Ok(entries) => entries,
            Err(error) => {
                self.problems.push(say::unreadable(&shown(folder), &error.to_string()));
                return;
            }
        };
        let mut paths: Vec<PathBuf> = entries.into_iter().map(|entry| entry.path()).collect();
        paths.sort();
        let mut left_out = Vec::new();
        for path in paths {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            if name.starts_with('.') || name.starts_with("~$") {
                continue;
            }
            let is_link = path.symlink_metadata().is_ok_and(|metadata| metadata.is_symlink());
            if path.is_dir() {
                if is_link || depth >= MOST_DEEP {
                    left_out.push(name);
                } else {
                    self.enter(&path, depth + 1);
                }
            } else if ends_in(&name, &ENDINGS) && path.is_file() {
                self.add(path);
            } else if !ends_in(&name, &PHOTOGRAPHS) {
                left_out.push(name);
            }
        }
        if !left_out.is_empty() {
            self.problems.push(say::files_left_out(&shown(folder), &left_out));
        }
    }
}

fn ends_in(name: &str, endings: &[&str]) -> bool {
    name.rsplit_once('.')
        .is_some_and(|(_, ending)| endings.iter().any(|known| ending.eq_ignore_ascii_case(known)))
}

/// Whether a folder holds what an earlier run wrote: its `run.json` names this program.
fn is_own_output(folder: &Path) -> bool {
    fs::read_to_string(folder.join("run.json"))
        .is_ok_and(|run| run.contains(concat!("\"", env!("CARGO_PKG_NAME"), "\"")))
}

/// The path as messages show it.
fn shown(path: &Path) -> String {
    let text = path.to_string_lossy();
    if MAIN_SEPARATOR == '/' { text.into_owned() } else { text.replace(MAIN_SEPARATOR, "/") }
}

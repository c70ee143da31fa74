//! The output folder: written beside its place, swapped in by renames when complete.
//!
//! While a run writes, `.NAME.writing-N` stands beside the output (N is the run's number), with a lock file in it that
//! the run holds. At the end the earlier output is renamed to `.NAME.earlier-N`, the new one to `NAME`, and the earlier
//! one is removed. A run that fails removes what it wrote. What a killed run leaves is mended by the next one: an
//! unlocked `writing` folder is removed, and an `earlier` folder is put back where no output stands.
//!
//! Not handled: power loss (nothing is synced to disk before the renames).

mod carried;
mod earlier;
mod file;

pub use carried::{DrawnFrom, Earlier};
pub use file::{Digesting, Written};

use crate::problem::{Problem, catalogue::output};
use std::fs::{self, File, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The file by which a folder that is being written is known; the run that writes holds a lock on it.
const LOCK: &str = "being-written";

/// An output that is being written.
#[derive(Debug)]
pub struct OutputFolder {
    /// As the user named it, for messages.
    named: String,
    /// Where it will stand.
    place: PathBuf,
    /// Where it is written.
    writing: PathBuf,
    /// Where the earlier output waits while the new one is put in its place.
    earlier: PathBuf,
    /// Held while writing.
    lock: Option<File>,
}

impl OutputFolder {
    /// Begins an output: mends what killed runs left, makes sure that nothing but an unchanged earlier output stands in
    /// its place, and makes the folder it is written in. `run` tells runs at one time apart (the process's number).
    pub fn begin(named: &Path, run: u32) -> Result<Self, Problem> {
        let shown = named.display().to_string();
        let refused = |error: io::Error| output::not_written(&shown, &error);
        let place = place_of(named).map_err(refused)?;
        let beside = Beside::of(&place);
        beside.mend(&shown)?;
        match fs::metadata(&place) {
            Ok(found) if found.is_dir() => earlier::check(&place, &shown)?,
            Ok(_) => return Err(output::folder_is_a_file(&shown)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => return Err(refused(error)),
        }
        let (writing, earlier) = (beside.named("writing", run), beside.named("earlier", run));
        fs::create_dir(&writing).map_err(refused)?;
        let mut folder = Self { named: shown.clone(), place, writing, earlier, lock: None };
        folder.lock = Some(locked(&folder.writing).map_err(refused)?);
        // Two runs that began at one moment did not see each other above; now at least one of them does.
        if beside.is_written_by_another(&folder.writing).map_err(refused)? {
            return Err(output::folder_busy(&shown));
        }
        Ok(folder)
    }

    /// Where files are written until the output is swapped in.
    pub fn path(&self) -> &Path {
        &self.writing
    }

    /// Makes a folder in it.
    pub fn folder(&self, name: &str) -> Result<(), Problem> {
        fs::create_dir_all(self.writing.join(name)).map_err(|error| self.refused(name, &error))
    }

    /// Begins a file of the output; `name` is its path in the folder, with `/`.
    pub fn create(&self, name: &str) -> io::Result<Digesting> {
        Digesting::create(&self.writing.join(name), name)
    }

    /// Writes a whole file of the output.
    pub fn put(&self, name: &str, bytes: &[u8]) -> Result<Written, Problem> {
        let write = || {
            let mut file = self.create(name)?;
            file.write_all(bytes)?;
            file.finish()
        };
        write().map_err(|error| self.refused(name, &error))
    }

    /// The problem of a file that could not be written.
    pub fn refused(&self, name: &str, error: &io::Error) -> Problem {
        output::not_written(&format!("{}/{name}", self.named), error)
    }

    /// Puts the output in its place, now that it is complete. Either it stands there whole, or the earlier one does.
    pub fn swap_in(mut self) -> Result<(), Problem> {
        let refused = |error: io::Error| output::not_written(&self.named, &error);
        // Some systems rename no folder in which a file is open.
        self.lock = None;
        fs::remove_file(self.writing.join(LOCK)).map_err(refused)?;
        let replaces = self.place.exists();
        if replaces {
            fs::rename(&self.place, &self.earlier).map_err(refused)?;
        }
        if let Err(error) = fs::rename(&self.writing, &self.place) {
            if replaces {
                fs::rename(&self.earlier, &self.place).map_err(refused)?;
            }
            return Err(refused(error));
        }
        if replaces {
            earlier::remove(&self.earlier);
        }
        Ok(())
    }
}

impl Drop for OutputFolder {
    /// Removes what was written, unless it was swapped in.
    fn drop(&mut self) {
        self.lock = None;
        // What cannot be removed now is removed by the next run.
        let _ = fs::remove_dir_all(&self.writing);
    }
}

/// Makes the lock file of a folder. It gets its name when it is locked, so that no other run takes it for one that a killed
/// run left.
fn locked(folder: &Path) -> io::Result<File> {
    let unnamed = folder.join("not-yet-locked");
    let lock = File::create_new(&unnamed)?;
    lock.lock()?;
    fs::rename(unnamed, folder.join(LOCK))?;
    Ok(lock)
}

/// The real place of an output, its parent folders made where they are missing.
fn place_of(named: &Path) -> io::Result<PathBuf> {
    if named.exists() {
        return fs::canonicalize(named);
    }
    let name = named.file_name().ok_or_else(|| io::Error::from(io::ErrorKind::InvalidFilename))?;
    let parent = match named.parent() {
        Some(parent) if parent != Path::new("") => parent,
        _ => Path::new("."),
    };
    fs::create_dir_all(parent)?;
    Ok(fs::canonicalize(parent)?.join(name))
}

/// What stands beside an output while runs write it.
struct Beside {
    parent: PathBuf,
    name: String,
    place: PathBuf,
}

impl Beside {
    fn of(place: &Path) -> Self {
        let name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        Self { parent: place.parent().unwrap_or(place).to_owned(), name, place: place.to_owned() }
    }

    fn named(&self, what: &str, run: u32) -> PathBuf {
        self.parent.join(format!(".{}.{what}-{run}", self.name))
    }

    /// Folders of runs beside the output: what each is (`.writing`, `.earlier`) and where.
    fn of_runs(&self) -> io::Result<Vec<(String, PathBuf)>> {
        let mut found = Vec::new();
        for entry in fs::read_dir(&self.parent)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let after = name.strip_prefix('.').and_then(|name| name.strip_prefix(self.name.as_str()));
            if let Some((what, run)) = after.and_then(|after| after.rsplit_once('-'))
                && !run.is_empty()
                && run.bytes().all(|b| b.is_ascii_digit())
            {
                found.push((what.to_owned(), entry.path()));
            }
        }
        Ok(found)
    }

    /// Removes what killed runs left, and puts an earlier output back where they took it away.
    fn mend(&self, shown: &str) -> Result<(), Problem> {
        let refused = |error: io::Error| output::not_written(shown, &error);
        for (what, left) in self.of_runs().map_err(refused)? {
            match what.as_str() {
                ".writing" => mend_writing(&left, shown)?,
                ".earlier" if !self.place.exists() && earlier::is_ours(&left) => {
                    fs::rename(&left, &self.place).map_err(refused)?;
                }
                ".earlier" => earlier::remove(&left),
                _ => {}
            }
        }
        Ok(())
    }

    /// Whether a run other than the one that writes `own` writes now.
    fn is_written_by_another(&self, own: &Path) -> io::Result<bool> {
        let others = self.of_runs()?.into_iter().filter(|(what, path)| what == ".writing" && path != own);
        let is_held = |(_, path): (String, PathBuf)| {
            let lock = File::open(path.join(LOCK));
            lock.is_ok_and(|lock| matches!(lock.try_lock(), Err(TryLockError::WouldBlock)))
        };
        Ok(others.into_iter().any(is_held))
    }
}

/// Removes a folder in which a run was killed; a run that still writes it keeps it.
fn mend_writing(left: &Path, shown: &str) -> Result<(), Problem> {
    let refused = |error: io::Error| output::not_written(shown, &error);
    let lock = match File::open(left.join(LOCK)) {
        Ok(lock) => lock,
        // Killed before it began, or complete but for its renames: empty, or known by its record.
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            earlier::remove(left);
            let _ = fs::remove_dir(left);
            return Ok(());
        }
        Err(error) => return Err(refused(error)),
    };
    match lock.try_lock() {
        Ok(()) => {
            drop(lock);
            fs::remove_dir_all(left).map_err(refused)
        }
        Err(TryLockError::WouldBlock) => Err(output::folder_busy(shown)),
        Err(TryLockError::Error(error)) => Err(refused(error)),
    }
}

#[cfg(test)]
mod tests;

//! An earlier output whose documents may be taken over.

use super::earlier::{Record, record};
use super::file::hex;
use super::{OutputFolder, Written};
use crate::problem::{Problem, catalogue::output};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// What documents are drawn from, as a digest.
#[derive(Debug, Default)]
pub struct DrawnFrom(Sha256);

impl DrawnFrom {
    /// Adds a part. Parts are told apart by their lengths, so that no two lists of parts are taken for each other.
    pub fn add(&mut self, part: impl AsRef<[u8]>) {
        let part = part.as_ref();
        self.0.update((part.len() as u64).to_le_bytes());
        self.0.update(part);
    }

    /// The digest, in lower-case hexadecimal.
    pub fn finish(self) -> String {
        hex(&self.0.finalize())
    }
}

/// An earlier output: the files that its record lists, and what the documents of each claim were drawn from.
#[derive(Debug)]
pub struct Earlier {
    folder: PathBuf,
    files: BTreeMap<String, Written>,
    drawn_from: BTreeMap<String, String>,
}

impl Earlier {
    /// Opens the output in a folder.
    pub fn open(folder: &Path) -> Result<Self, Problem> {
        let Some(Record { files, drawn_from, .. }) = record(folder) else {
            return Err(output::no_earlier_output(&folder.display().to_string()));
        };
        let files = files.into_iter().map(|file| (file.path.clone(), file)).collect();
        Ok(Self { folder: folder.to_owned(), files, drawn_from })
    }

    /// Whether the documents of this name were drawn from the same.
    pub fn has(&self, name: &str, drawn_from: &str) -> bool {
        self.drawn_from.get(name).is_some_and(|earlier| earlier == drawn_from)
    }

    /// Takes a file over into another output; nothing where it is missing or no longer what its record says.
    pub fn take_over(&self, path: &str, into: &OutputFolder) -> Option<Result<Written, Problem>> {
        let listed = self.files.get(path)?;
        let bytes = fs::read(self.folder.join(path)).ok()?;
        let is_as_written =
            bytes.len() as u64 == listed.bytes && hex(&Sha256::digest(&bytes)) == listed.sha256;
        is_as_written.then(|| into.put(path, &bytes))
    }
}

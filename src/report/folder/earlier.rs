//! An earlier output: known by its record, checked before it is replaced, removed file by file.

use super::Written;
use super::file::digest;
use crate::problem::{Problem, catalogue::output};
use crate::report::run_record::{FOLDERS, RECORD, TOOL};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Component, Path, PathBuf};

/// What a record says of the folder it stands in.
#[derive(serde::Deserialize)]
struct Record {
    tool: String,
    files: Vec<Written>,
}

/// The files that a folder's record lists; `None` where there is no record of ours.
fn listed(folder: &Path) -> Option<BTreeMap<String, Written>> {
    let record: Record = serde_json::from_slice(&fs::read(folder.join(RECORD)).ok()?).ok()?;
    // A record that names a file outside its folder is none of ours.
    let inside =
        |file: &Written| Path::new(&file.path).components().all(|c| matches!(c, Component::Normal(_)));
    let is_ours = record.tool == TOOL && record.files.iter().all(inside);
    is_ours.then(|| record.files.into_iter().map(|file| (file.path.clone(), file)).collect())
}

/// Whether a folder holds an output of ours.
pub(super) fn is_ours(folder: &Path) -> bool {
    listed(folder).is_some()
}

/// Makes sure that a folder may be replaced: it is empty, or holds an output of ours, unchanged, and nothing else.
pub(super) fn check(folder: &Path, shown: &str) -> Result<(), Problem> {
    let mut found = Vec::new();
    gather(folder, "", &mut found).map_err(|error| output::not_written(shown, &error))?;
    if found.is_empty() {
        return Ok(());
    }
    found.sort_unstable();
    let Some(listed) = listed(folder) else {
        return Err(output::folder_not_ours(shown, &found[0]));
    };
    found.retain(|name| name != RECORD);
    if let Some(other) = found.iter().find(|name| !listed.contains_key(*name)) {
        return Err(output::folder_not_ours(shown, other));
    }
    let changed = found.par_iter().find_first(|name| {
        // A file that cannot be read cannot be vouched for.
        digest(&folder.join(name), name).map_or(true, |now| now != listed[*name])
    });
    changed.map_or(Ok(()), |name| Err(output::file_changed(shown, name)))
}

/// Every file in a folder and below, by its path with `/`; an empty folder below is listed with a `/` at its end.
fn gather(folder: &Path, before: &str, found: &mut Vec<String>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = format!("{before}{}", entry.file_name().to_string_lossy());
        // A link is listed as a file whatever it leads to: nothing behind it is looked at.
        if entry.file_type()?.is_dir() {
            let files = found.len();
            gather(&entry.path(), &format!("{name}/"), found)?;
            if found.len() == files && !FOLDERS.contains(&name.as_str()) {
                found.push(format!("{name}/"));
            }
        } else {
            found.push(name);
        }
    }
    Ok(())
}

/// Removes an output of ours: the files that its record lists, the record last, then folders that are left empty.
/// Anything else stays where it is, and so does all of it where the record is missing.
pub(super) fn remove(folder: &Path) {
    let Some(listed) = listed(folder) else { return };
    let mut folders: Vec<PathBuf> = Vec::new();
    for name in listed.keys() {
        let file = folder.join(name);
        if let Some(parent) = file.parent().filter(|parent| *parent != folder)
            && folders.last().is_none_or(|last| last != parent)
        {
            folders.push(parent.to_owned());
        }
        // What cannot be removed now is removed by the next run.
        let _ = fs::remove_file(file);
    }
    folders.extend(FOLDERS.map(|below| folder.join(below)));
    for below in folders {
        let _ = fs::remove_dir(below);
    }
    let only_record_left = fs::read_dir(folder).is_ok_and(|entries| entries.count() == 1);
    if only_record_left {
        let _ = fs::remove_file(folder.join(RECORD));
        let _ = fs::remove_dir(folder);
    }
}

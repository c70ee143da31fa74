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
pub(super) struct Record {
    tool: String,
    pub(super) files: Vec<Written>,
    #[serde(default)]
    pub(super) drawn_from: BTreeMap<String, String>,
}

/// The record of a folder; `None` where there is none of ours.
pub(super) fn record(folder: &Path) -> Option<Record> {
    let record: Record = serde_json::from_slice(&fs::read(folder.join(RECORD)).ok()?).ok()?;
    // A record that names a file outside its folder is none of ours.
    let inside =
        |file: &Written| Path::new(&file.path).components().all(|c| matches!(c, Component::Normal(_)));
    let is_ours = record.tool == TOOL && record.files.iter().all(inside);
    is_ours.then_some(record)
}

/// The files that a folder's record lists.
fn listed(folder: &Path) -> Option<BTreeMap<String, Written>> {
    Some(record(folder)?.files.into_iter().map(|file| (file.path.clone(), file)).collect())
}

/// Whether a folder holds an output of ours.
pub(super) fn is_ours(folder: &Path) -> bool {
    listed(folder).is_some()
}

/// Makes sure that a folder may be replaced: it is empty, or holds an output of ours, unchanged, and nothing else.
pub(super) fn check(folder: &Path, shown: &str) -> Result<(), Problem> {
    let mut found = Vec::new();
    gather(folder, "", &mut found).map_err(|error| output::not_written(shown, &error))?;
    found.retain(|name| !is_of_a_file_manager(name));
    if found.is_empty() {
        return Ok(());
    }
    found.sort_unstable();
    let Some(listed) = listed(folder) else {
        return Err(output::folder_not_ours(shown, &found[0]));
    };
    found.retain(|name| name != RECORD);
    if let Some(open) = found.iter().find_map(|name| held_open(name)) {
        return Err(output::file_open(shown, &open));
    }
    if let Some(other) = found.iter().find(|name| !listed.contains_key(*name)) {
        return Err(output::folder_not_ours(shown, other));
    }
    let refusal = |name: &String| match digest(&folder.join(name), name) {
        Ok(now) if now == listed[name] => None,
        Ok(_) => Some(output::file_changed(shown, name)),
        // A file that cannot be read cannot be vouched for.
        Err(error) => Some(output::not_written(&format!("{shown}/{name}"), &error)),
    };
    found.par_iter().find_map_first(refusal).map_or(Ok(()), Err)
}

/// What file managers leave in every folder that somebody looked at; nobody misses it.
fn is_of_a_file_manager(name: &str) -> bool {
    let last = name.rsplit('/').next().unwrap_or(name);
    [".DS_Store", ".directory", "Thumbs.db", "desktop.ini"].contains(&last)
}

/// The workbook beside which a spreadsheet program has laid a lock of its own.
fn held_open(name: &str) -> Option<String> {
    let (folder, last) = name.rsplit_once('/').map_or(("", name), |(folder, last)| (folder, last));
    let book = match last.strip_prefix(".~lock.") {
        Some(book) => book.trim_end_matches('#'),
        None => last.strip_prefix("~$")?,
    };
    Some(if folder.is_empty() { book.to_owned() } else { format!("{folder}/{book}") })
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
    let mut others = Vec::new();
    let _ = gather(folder, "", &mut others);
    for name in others.iter().filter(|name| is_of_a_file_manager(name)) {
        let _ = fs::remove_file(folder.join(name));
    }
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

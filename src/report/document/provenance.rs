use super::{Entry, Fact, Filling};
use crate::claim::InputFile;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// Where everything comes from, so that anyone can check it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Provenance {
    /// Tool and schedule.
    pub facts: Vec<Fact>,
    /// The files that this document rests on.
    pub files: Vec<FileRow>,
}

/// One file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FileRow {
    /// Its path as given.
    pub path: String,
    /// Its sheets with their short names: "s1 Counts, s2 Vehicles"; the short name alone for a text file.
    pub sheets: String,
    /// Its length.
    pub bytes: Option<String>,
    /// Its SHA-256, where the run kept it.
    pub digest: Option<String>,
}

pub(super) fn provenance(filling: &Filling<'_>) -> Provenance {
    Provenance { facts: facts(filling), files: files(filling) }
}

fn facts(filling: &Filling<'_>) -> Vec<Fact> {
    let subject = &filling.subject;
    let terms = &subject.schedule.terms;
    let fact = |label, value| Fact { label, value, cell: None };
    vec![
        fact(LABELS.tool, Entry::Words(format!("stipple {}", filling.imprint.tool_version))),
        fact(
            LABELS.schedule,
            Entry::Words(format!(
                "{}, {} {}",
                wording::said(&terms.name.value),
                LABELS.edition,
                wording::said(&terms.edition.value)
            )),
        ),
        fact(
            LABELS.valid,
            Entry::Words(wording::validity(terms.valid_from.value, terms.valid_to.map(|to| to.value))),
        ),
        fact(LABELS.dated_by, Entry::Words(wording::dated(subject.assessment))),
        fact(LABELS.source, Entry::said(terms.source.value.as_str())),
        fact(LABELS.digest, Entry::Words(subject.schedule.digest.clone())),
    ]
}

/// The files of every sheet that has a short name, in the order of their first sheet.
fn files(filling: &Filling<'_>) -> Vec<FileRow> {
    let subject = &filling.subject;
    // Few of a storm's thousands of files are named: they are looked for, and not listed for every document.
    let known = |path: &str| {
        subject.files.iter().chain(&subject.schedule.files).rev().find(|file: &&InputFile| file.path == path)
    };
    let mut rows: Vec<FileRow> = Vec::new();
    for (id, name) in filling.sheets.named() {
        let source = subject.sources.get(id);
        let sheet = format!("{name} {}", wording::said(&source.sheet));
        let sheet = sheet.trim_end();
        if let Some(row) = rows.iter_mut().find(|row| row.path == source.file) {
            row.sheets.push_str(", ");
            row.sheets.push_str(sheet);
            continue;
        }
        let file = known(source.file.as_str());
        rows.push(FileRow {
            path: source.file.clone(),
            sheets: sheet.to_owned(),
            bytes: file.map(|file| wording::number(file.bytes.into())),
            digest: file.map(|file| file.sha256.clone()),
        });
    }
    rows
}

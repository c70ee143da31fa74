//! From files as people write them to claims.

#![expect(clippy::unwrap_used, reason = "what a helper cannot do fails its test")]

mod arranged;
mod asked;
mod conventions;
mod files;
mod formats;
mod guesses;
mod hostile;
mod layouts;
mod long;
mod mutated;
mod own_words;
mod problems;
mod shuffled;
mod slips;
mod vin;
mod words;
mod xlsb;

use std::fs;
use std::path::{Path, PathBuf};
use stipple::claim::{Claim, Counted, Intake, PanelCount};
use stipple::problem::{Problem, Sources};
use stipple::read::{Opened, arrange, forms, gather, open, read_apart_with};
use stipple::table::{recognise, unrecognised};

/// What became of some files.
struct Run {
    opened: Opened,
    intakes: Vec<Intake>,
    /// What concerns no claim: of files, sheets and tables.
    problems: Vec<Problem>,
}

impl Run {
    /// Reads files and folders the way the program does.
    fn of(paths: &[PathBuf]) -> Self {
        read_apart_with(env!("CARGO_BIN_EXE_stipple").into());
        let mut opened = open(paths);
        let mut problems = std::mem::take(&mut opened.problems);
        let mut tables = Vec::new();
        let arranged = arrange(&opened.sheets, &opened.sources, forms());
        problems.extend(arranged.problems);
        for sheet in &arranged.sheets {
            let recognition = recognise(sheet, forms());
            problems.extend(unrecognised(sheet, &recognition, forms()));
            tables.extend(recognition.tables);
        }
        let (intakes, of_tables) = gather(&tables, &opened.sources);
        drop(tables);
        drop(arranged.sheets);
        problems.extend(of_tables);
        Self { opened, intakes, problems }
    }

    /// Reads text files with these names.
    fn texts(files: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in files {
            write(folder.path(), name, text.as_bytes());
        }
        Self::of(&[folder.path().to_owned()])
    }

    /// Reads one table of counts beside a table of vehicles that makes its claims whole.
    fn counts(text: &str) -> Self {
        Self::texts(&[("counts.csv", text), ("vehicles.csv", VEHICLES)])
    }

    fn claim(&self, key: &str) -> &Claim {
        &self.intake(key).claim
    }

    fn intake(&self, key: &str) -> &Intake {
        let known: Vec<&str> = self.intakes.iter().map(|intake| intake.claim.key.text.as_str()).collect();
        self.intakes
            .iter()
            .find(|intake| intake.claim.key.text == key)
            .unwrap_or_else(|| panic!("no {key} among {known:?}"))
    }

    /// Ids and places of a claim's problems, as `count-negative counts.csv C2`.
    fn of_claim(&self, key: &str) -> Vec<String> {
        self.intake(key).problems.iter().map(|problem| said(problem, &self.opened.sources)).collect()
    }

    /// Likewise of what concerns no claim.
    fn of_files(&self) -> Vec<String> {
        self.problems.iter().map(|problem| said(problem, &self.opened.sources)).collect()
    }
}

/// A car of each kind of body that the tests need; all belong to one invented insurer.
const VEHICLES: &str = "\
claim,registration,make,model,body type,insurer
A-1,AB 12 CDE,Larch,Finch,hatchback,Alder Mutual
A-2,AB 13 CDE,Larch,Heron,coupe,Alder Mutual
A-3,AB 14 CDE,Larch,Crane,van,Alder Mutual
";

fn write(folder: &Path, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, bytes).unwrap();
    path
}

/// A problem as its id and place, without the folder that the file stands in.
fn said(problem: &Problem, sources: &Sources) -> String {
    let place = problem.place.map(|place| {
        let short = sources.short(place);
        short.rsplit('/').next().unwrap_or_default().to_owned()
    });
    format!("{} {}", problem.code.id, place.unwrap_or_default()).trim().to_owned()
}

/// Counts of a panel by heading, `None` for none written.
fn tally(panel: &PanelCount) -> Vec<(&str, Option<u32>)> {
    panel
        .tally
        .iter()
        .map(|entry| {
            let count = match entry.count {
                Counted::Counted(count) => Some(count),
                Counted::NoneWritten => None,
                Counted::Estimated { .. } | Counted::Open => panic!("{entry:?}"),
            };
            (entry.size.text.as_str(), count)
        })
        .collect()
}

/// The panel of a claim's only inspection.
fn panel<'c>(claim: &'c Claim, name: &str) -> &'c PanelCount {
    assert_eq!(claim.inspections.len(), 1, "{:?}", claim.inspections);
    let panels = &claim.inspections[0].panels;
    let known: Vec<String> = panels.iter().map(|panel| panel.panel.to_string()).collect();
    panels
        .iter()
        .find(|panel| panel.panel.to_string() == name)
        .unwrap_or_else(|| panic!("no {name} among {known:?}"))
}

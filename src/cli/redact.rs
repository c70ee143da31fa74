//! A run without what names a person or a car: claims are redacted before they are assessed, so that nothing that is
//! written can hold what was left out. The screen is not redacted.

use super::reception::Received;
use crate::batch::Source;
use crate::claim::{InputFile, Intake, redact};
use crate::problem::{self, Problem, Sources};
use crate::report::tables::Run;
use crate::schedule::Schedule;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// What was received, with numbers in place of the names of files and sheets.
pub struct Redacted<'a> {
    received: &'a Received,
    files: Vec<InputFile>,
    sources: Sources,
    schedules: Vec<Schedule>,
    problems: Vec<Problem>,
}

impl<'a> Redacted<'a> {
    /// The same run, redacted.
    pub fn new(received: &'a Received) -> Self {
        let names: BTreeMap<&str, String> = (1..)
            .zip(&received.files)
            .map(|(number, file)| (file.path.as_str(), format!("file {number}")))
            .collect();
        let name = |path: &str| names.get(path).cloned().unwrap_or_else(|| "file".to_owned());
        let renamed = |file: &InputFile| InputFile { path: name(&file.path), ..file.clone() };
        let mut sources = Sources::new();
        for (id, source) in received.sources.iter() {
            let sheet = if source.sheet.is_empty() { String::new() } else { format!("sheet {}", id.0 + 1) };
            sources.add(problem::Source { file: name(&source.file), sheet, kind: source.kind });
        }
        let schedules = received.schedules.iter().map(|schedule| Schedule {
            files: schedule.files.iter().map(renamed).collect(),
            ..schedule.clone()
        });
        Self {
            files: received.files.iter().map(renamed).collect(),
            schedules: schedules.collect(),
            problems: received.problems.iter().map(|problem| problem.redacted(None)).collect(),
            sources,
            received,
        }
    }

    /// What rows and documents cite. What a claim lacks before it can be sent is not told: it lacks what was left out.
    pub fn run(&self) -> Run<'_> {
        Run { schedules: &self.schedules, sources: &self.sources, files: &self.files, required: &[] }
    }

    /// What belongs to no claim.
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }
}

impl Source for Redacted<'_> {
    type Error = Problem;

    fn groups(&self) -> usize {
        self.received.groups()
    }

    fn group(&self, number: usize) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let first = self.received.claims.before(number) + 1;
        let group = self.received.group(number)?;
        let redacted = |(number, intake): (usize, Cow<'_, Intake>)| {
            let claim = redact::redacted(&intake.claim, number);
            let key = claim.key.text.clone();
            let problems = intake.problems.iter().map(|problem| problem.redacted(Some(&key))).collect();
            Cow::Owned(Intake { claim, problems })
        };
        Ok((first..).zip(group).map(redacted).collect())
    }
}

//! Which documents are what they were in an earlier run, and are taken over from it.
//!
//! Everything is read and assessed anew; only what is drawn of a claim is taken over. A document shows the claim, its
//! assessment and the cells of both, so it is the same where these are: see [`Origin::of`].

use super::Subject;
use super::csv::Rows;
use super::folder::DrawnFrom;
use super::run_record::VERSION;
use super::tables::{Field, Run, lines, panels};
use crate::claim::Place;
use crate::problem::{Problem, SourceId};
use crate::quantity::Date;
use std::collections::{BTreeMap, BTreeSet};
use std::io;

/// What is the same for all claims of a run.
#[derive(Debug)]
pub struct Origin<'a> {
    run: Run<'a>,
    date: Option<Date>,
    digests: BTreeMap<&'a str, &'a str>,
    /// Sheets that say something of all claims.
    for_all: BTreeSet<SourceId>,
}

impl<'a> Origin<'a> {
    /// Of a run, and its sheets that say something of all claims.
    pub fn new(run: Run<'a>, date: Option<Date>, for_all: BTreeSet<SourceId>) -> Self {
        let digests = run.files.iter().map(|file| (file.path.as_str(), file.sha256.as_str())).collect();
        Self { run, date, digests, for_all }
    }

    /// What a claim's documents are drawn from, as a digest: the version of the program, the date, the schedule with its
    /// files, every file that holds a row of the claim or is named by a problem of it, what speaks of all claims, what
    /// other claims of its lot say, its photographs, its problems, and all its rows in the tables.
    pub fn of(&self, subject: &Subject<'_>, claim: &[Field]) -> io::Result<String> {
        let mut from = DrawnFrom::default();
        from.add(VERSION);
        from.add(self.date.map(|date| date.to_string()).unwrap_or_default());
        let schedule = subject.schedule;
        from.add(&schedule.digest);
        for file in &schedule.files {
            from.add(&file.path);
            from.add(&file.sha256);
        }
        let problems = || subject.problems.iter().chain(&subject.assessment.problems);
        let mut sources = subject.claim.sources.clone();
        sources.extend(problems().flat_map(places).map(|place| place.source));
        for of in [&self.for_all, &sources] {
            from.add("sources");
            for source in of {
                self.add_source(*source, &mut from);
            }
        }
        if let Some(cap) = &subject.claim.parties.lot_cap {
            from.add(cap.value.amount.to_string());
            from.add(self.run.sources.short(cap.place));
            self.add_source(cap.place.source, &mut from);
        }
        for photograph in &subject.claim.photographs {
            from.add(format!("{:?}", photograph.image));
        }
        for problem in problems() {
            from.add(problem.code.id);
            from.add(&problem.message);
            from.add(problem.help.as_deref().unwrap_or_default());
            from.add(problem.written.as_deref().unwrap_or_default());
            places(problem).for_each(|place| from.add(self.run.sources.short(place)));
        }
        let rows = [vec![claim.to_vec()], panels::rows(subject), lines::rows(subject)];
        for rows in rows.iter().filter(|rows| !rows.is_empty()) {
            from.add(Rows::draw(rows.iter().map(Vec::as_slice))?.as_bytes());
        }
        Ok(from.finish())
    }

    fn add_source(&self, source: SourceId, from: &mut DrawnFrom) {
        let source = self.run.sources.get(source);
        from.add(&source.file);
        from.add(&source.sheet);
        from.add(self.digests.get(source.file.as_str()).copied().unwrap_or_default());
    }
}

fn places(problem: &Problem) -> impl Iterator<Item = Place> {
    problem.place.into_iter().chain(problem.also.iter().copied())
}

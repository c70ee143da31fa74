//! The documents of one claim, drawn and put into the output: each as a page, and as PDF where that was asked for; and its
//! workbook. What an earlier output holds of them is taken over.

use super::Subject;
use super::folder::{Earlier, OutputFolder, Written};
use super::output::{Draw, Paper};
use super::run_record::CLAIM_WORKBOOKS;
use crate::problem::{Problem, Severity};

/// What became of them.
#[derive(Default)]
pub struct Papers {
    /// The files that were written, or why one was not.
    pub written: Vec<Result<Written, Problem>>,
    /// What kept documents from being printed, once each; their pages stand.
    pub unprinted: Vec<Problem>,
    /// Files that were taken over.
    taken_over: usize,
}

/// Where the documents of a claim go.
#[derive(Clone, Copy)]
pub struct Place<'p> {
    /// The output.
    pub folder: &'p OutputFolder,
    /// The name of the claim's files.
    pub name: &'p str,
    /// An earlier output whose documents of this name were drawn from the same.
    pub earlier: Option<&'p Earlier>,
}

impl Papers {
    /// Draws each of `wanted` and puts it into its folder under the claim's name.
    pub fn put(draw: &dyn Draw, place: Place<'_>, subject: &Subject<'_>, wanted: &[(Paper, &str)]) -> Self {
        let mut papers = Self::default();
        let Place { folder, name, .. } = place;
        for (paper, below) in wanted {
            let path = format!("{below}/{name}.html");
            papers.file(place, &path, || {
                let page = draw.paper(*paper, subject)?;
                folder.put(&path, page.as_bytes())
            });
            // Fonts may have changed: what is printed is printed anew.
            match draw.print(*paper, subject) {
                None => {}
                Some(Ok(bytes)) => papers.written.push(folder.put(&format!("{below}/{name}.pdf"), &bytes)),
                Some(Err(problems)) => papers.unprinted(problems),
            }
        }
        papers
    }

    /// Draws the claim's workbook.
    pub fn workbook(&mut self, draw: &dyn Draw, place: Place<'_>, subject: &Subject<'_>) {
        let path = format!("{CLAIM_WORKBOOKS}/{}.xlsx", place.name);
        self.file(place, &path, || place.folder.put(&path, &draw.claim_workbook(subject)?));
    }

    /// None, for this reason.
    pub fn failed(problem: Problem) -> Self {
        Self { written: vec![Err(problem)], ..Self::default() }
    }

    /// Whether there are any, all of them taken over.
    pub fn all_taken_over(&self) -> bool {
        self.taken_over > 0 && self.taken_over == self.written.len()
    }

    /// Takes a file over, or draws it.
    fn file(&mut self, place: Place<'_>, path: &str, draw: impl FnOnce() -> Result<Written, Problem>) {
        let taken_over = place.earlier.and_then(|earlier| earlier.take_over(path, place.folder));
        self.taken_over += usize::from(taken_over.is_some());
        self.written.push(taken_over.unwrap_or_else(draw));
    }

    /// An error ends the run; anything less leaves the document out.
    pub(super) fn unprinted(&mut self, problems: Vec<Problem>) {
        for problem in problems {
            if problem.severity() == Severity::Error {
                self.written.push(Err(problem));
            } else if !self.unprinted.contains(&problem) {
                self.unprinted.push(problem);
            }
        }
    }
}

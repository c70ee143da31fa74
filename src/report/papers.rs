//! The documents of one claim, drawn and put into the output: each as a page, and as PDF where that was asked for.

use super::Subject;
use super::folder::{OutputFolder, Written};
use super::output::{Draw, Paper};
use crate::problem::{Problem, Severity};

/// What became of them.
#[derive(Default)]
pub struct Papers {
    /// The files that were written, or why one was not.
    pub written: Vec<Result<Written, Problem>>,
    /// What kept documents from being printed, once each; their pages stand.
    pub unprinted: Vec<Problem>,
}

impl Papers {
    /// Draws each of `wanted` and puts it into its folder under the claim's name.
    pub fn put(
        draw: &dyn Draw,
        folder: &OutputFolder,
        subject: &Subject<'_>,
        wanted: &[(Paper, &str)],
        name: &str,
    ) -> Self {
        let mut papers = Self::default();
        for (paper, below) in wanted {
            let page = draw.paper(*paper, subject);
            let put = |page: String| folder.put(&format!("{below}/{name}.html"), page.as_bytes());
            papers.written.push(page.and_then(put));
            match draw.print(*paper, subject) {
                None => {}
                Some(Ok(bytes)) => papers.written.push(folder.put(&format!("{below}/{name}.pdf"), &bytes)),
                Some(Err(problems)) => papers.unprinted(problems),
            }
        }
        papers
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

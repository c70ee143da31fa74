//! What is wrong, where it stands, and what would be right. Problems are collected, never thrown one at a time.
//!
//! The wording of every problem stands in `catalogue/`, one file per stage; the rest of the crate says which problem
//! it is and where. Rendering here gives text and data; printing is the command line's.

pub mod catalogue;
mod code;
mod nearest;
mod place;
mod render;

pub use code::{Code, Severity, all_codes, find_code};
pub use nearest::nearest;
pub use place::{Located, Place, Source, SourceId, SourceKind, Sources, column_letters};
pub use render::{QuotedRow, render_text, render_with_row, visible};

/// One thing that is wrong or worth knowing, at its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Which problem it is; decides the severity and the page that explains it.
    pub code: &'static Code,
    /// The cell, row, sheet or file it is about.
    pub place: Option<Place>,
    /// Other places that belong to it: the second of two cells that disagree.
    pub also: Vec<Place>,
    /// The claim it concerns, as its key reads; `None` when it concerns a file or the schedule.
    pub claim: Option<String>,
    /// What is wrong, one plain sentence without a final full stop.
    pub message: String,
    /// What would be right, if that can be said.
    pub help: Option<String>,
    /// The cell as it was written, when there is one to quote.
    pub written: Option<String>,
}

impl Problem {
    /// A problem of a code with its sentence. Only the catalogue calls this: wording lives there.
    pub(crate) fn new(code: &'static Code, message: impl Into<String>) -> Self {
        Self {
            code,
            place: None,
            also: Vec::new(),
            claim: None,
            message: message.into(),
            help: None,
            written: None,
        }
    }

    /// Where it stands.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// A further place that belongs to it.
    #[must_use]
    pub fn and(mut self, place: Place) -> Self {
        self.also.push(place);
        self
    }

    /// What would be right.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// The cell as it was written.
    #[must_use]
    pub fn written(mut self, written: impl Into<String>) -> Self {
        self.written = Some(written.into());
        self
    }

    /// The claim it takes out or concerns.
    #[must_use]
    pub fn of_claim(mut self, claim: impl Into<String>) -> Self {
        self.claim = Some(claim.into());
        self
    }

    /// The same kind of problem at the same place, without anything that was written: its title in place of its sentence.
    #[must_use]
    pub fn redacted(&self, claim: Option<&str>) -> Self {
        Self {
            claim: claim.map(str::to_owned),
            message: self.code.title.to_owned(),
            help: None,
            written: None,
            also: self.also.clone(),
            ..*self
        }
    }

    /// Its severity, by its code.
    pub fn severity(&self) -> Severity {
        self.code.severity
    }
}

/// The worst of some problems, if there is any.
pub fn worst<'a>(problems: impl IntoIterator<Item = &'a Problem>) -> Option<Severity> {
    problems.into_iter().map(Problem::severity).max()
}

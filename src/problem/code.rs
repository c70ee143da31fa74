use super::catalogue;
use std::fmt;

/// How much a problem takes away. Ordered from least to most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; nothing to do.
    Note,
    /// Something to look at; the claim is assessed.
    Warning,
    /// The tool will not guess: the claim is listed and not priced until it is answered.
    Question,
    /// The claim, file or schedule it stands in drops out.
    Error,
}

impl Severity {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Question => "question",
            Self::Error => "error",
        }
    }

    /// Whether a claim with it is left unpriced.
    pub fn stops_the_claim(self) -> bool {
        self >= Self::Question
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A kind of problem: a stable name, its severity, and the page that explains it.
#[derive(Debug, PartialEq, Eq)]
pub struct Code {
    /// Stable name in lower case with hyphens, as `problem CODE` takes it.
    pub id: &'static str,
    /// What it takes away.
    pub severity: Severity,
    /// One line.
    pub title: &'static str,
    /// The page: what it means, what follows, and how to mend it, with an example.
    pub page: &'static str,
}

/// Every code, in the order of the stages.
pub fn all_codes() -> impl Iterator<Item = &'static Code> {
    catalogue::ALL.iter().flat_map(|codes| codes.iter().copied())
}

/// The code of a name, in any case.
pub fn find_code(id: &str) -> Option<&'static Code> {
    all_codes().find(|code| code.id.eq_ignore_ascii_case(id.trim()))
}

use std::fmt;

/// What a job's rows are joined by. Earlier kinds are preferred.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KeyKind {
    /// The insurer's claim number.
    ClaimNumber,
    /// The assessor's own job number.
    JobNumber,
    /// The registration plate.
    Registration,
    /// The vehicle identification number.
    Vin,
    /// Nothing but the file and sheet it stands in.
    Sheet,
}

impl KeyKind {
    /// The words for it.
    pub fn words(self) -> &'static str {
        match self {
            Self::ClaimNumber => "claim number",
            Self::JobNumber => "job number",
            Self::Registration => "registration",
            Self::Vin => "VIN",
            Self::Sheet => "sheet",
        }
    }
}

/// The key of a job: which kind, and the text as first written (trimmed).
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JobKey {
    /// What it is.
    pub kind: KeyKind,
    /// As written, without spaces around it.
    pub text: String,
}

impl JobKey {
    /// A key of a kind.
    pub fn new(kind: KeyKind, text: impl Into<String>) -> Self {
        Self { kind, text: text.into() }
    }
}

impl fmt::Display for JobKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

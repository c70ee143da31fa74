use super::vin;
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

    /// A key's text as it is compared: claims and jobs by their letters in any case, plates and VINs without spaces and
    /// hyphens, too.
    pub fn compared(self, text: &str) -> String {
        match self {
            Self::Registration | Self::Vin => vin::normalised(text),
            // Punctuation tells numbers apart: 1-17 and 11-7.
            _ if text.is_ascii()
                && !text.contains("  ")
                && !text.contains(['\t', '\r', '\n', '\u{b}', '\u{c}']) =>
            {
                text.trim().to_ascii_lowercase()
            }
            _ => text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase(),
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

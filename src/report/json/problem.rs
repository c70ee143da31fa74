use super::written::Cells;
use crate::problem::{Problem, Sources};
use serde::Serialize;

/// A problem as data.
#[derive(Debug, Serialize)]
pub struct ProblemView {
    severity: &'static str,
    code: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    claim: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    also_at: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    written: Option<String>,
    wrong: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    right: Option<String>,
}

impl ProblemView {
    /// A problem of a claim, or of none.
    pub fn new(problem: &Problem, claim: Option<&str>, sources: &Sources) -> Self {
        let cells = Cells(sources);
        Self {
            severity: problem.severity().word(),
            code: problem.code.id,
            claim: problem.claim.as_deref().or(claim).map(str::to_owned),
            at: problem.place.map(|place| cells.at(place)),
            also_at: cells.all(&problem.also),
            written: problem.written.clone(),
            wrong: problem.message.clone(),
            right: problem.help.clone(),
        }
    }
}

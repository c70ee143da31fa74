use super::reception::Received;
use crate::claim::Intake;
use crate::compare::comparison::Source;
use crate::problem::{Problem, Severity};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// The claims of a comparison, of which those of long files are read when they are asked for: what reading finds of them
/// is kept, and the claims are not.
pub struct Heard<'a> {
    received: &'a Received,
    /// By the claim's number, since one may be asked for again.
    found: Mutex<BTreeMap<usize, Vec<Problem>>>,
}

impl<'a> Heard<'a> {
    /// Of what was received.
    pub const fn new(received: &'a Received) -> Self {
        Self { received, found: Mutex::new(BTreeMap::new()) }
    }

    /// Problems above a warning of claims that are not held, in the order of the batch.
    pub fn into_problems(self) -> Vec<Problem> {
        let found = self.found.into_inner().unwrap_or_else(PoisonError::into_inner);
        found.into_values().flatten().collect()
    }
}

impl Source for Heard<'_> {
    type Error = Problem;

    fn count(&self) -> usize {
        self.received.claims.len()
    }

    fn some(&self, numbers: &[usize]) -> Result<Vec<Cow<'_, Intake>>, Problem> {
        let read = self.received.claims.some(numbers, &self.received.sources)?;
        let passing = numbers.iter().zip(&read).filter(|(_, intake)| matches!(intake, Cow::Owned(_)));
        for (number, intake) in passing {
            let is_told = |problem: &&Problem| problem.severity() > Severity::Warning;
            let told: Vec<Problem> = intake.problems.iter().filter(is_told).cloned().collect();
            if !told.is_empty() {
                self.found.lock().unwrap_or_else(PoisonError::into_inner).insert(*number, told);
            }
        }
        Ok(read)
    }
}

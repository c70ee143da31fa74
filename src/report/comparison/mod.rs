//! What a comparison writes: `comparison.json`, its tables, and what is drawn of it.
//!
//! Every function takes the finished comparison and draws; nothing is compared here.

pub mod adjudication;
pub mod by_counts;
pub mod document;
pub mod figure;
pub mod json;
pub mod output;
pub mod sampled;
pub mod statistics;
pub mod tables;
mod traces;

use super::tables::Run;
use crate::compare::comparison::Comparison;

/// Everything that a comparison's documents may speak of.
#[derive(Debug, Clone, Copy)]
pub struct Compared<'a> {
    /// What came out.
    pub comparison: &'a Comparison,
    /// Schedules, files, and what places refer to.
    pub run: Run<'a>,
}

impl Compared<'_> {
    /// The name of an assessor by number.
    pub fn name(&self, assessor: usize) -> &str {
        self.comparison.assessors.get(assessor).map_or("", |assessor| assessor.name.as_str())
    }
}

#![doc = include_str!("README.md")]

pub mod batch_page;
pub mod bordereau_page;
pub mod carried;
pub mod comparison;
pub mod csv;
pub mod data_package;
pub mod document;
pub mod explain;
pub mod file_name;
pub mod folder;
pub mod form;
pub mod groups;
pub mod html;
pub mod json;
mod listings;
pub mod lot_page;
pub mod moved;
pub mod output;
pub mod overview;
mod papers;
mod part;
#[cfg(feature = "pdf")]
pub mod pdf;
pub mod plan;
pub mod recounts;
pub mod register;
pub mod run_record;
pub mod starter;
pub mod supplement;
pub mod tables;
pub mod terms;
pub mod wording;
pub mod workbook;

use crate::assess::Assessment;
use crate::claim::{Claim, InputFile};
use crate::problem::{Problem, Sources};
use crate::schedule::Schedule;

/// Everything a document may speak of.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// What was written.
    pub claim: &'a Claim,
    /// What came out.
    pub assessment: &'a Assessment,
    /// The schedule it was assessed with.
    pub schedule: &'a Schedule,
    /// What places refer to.
    pub sources: &'a Sources,
    /// Every file of the run.
    pub files: &'a [InputFile],
    /// What reading the claim met with; problems of assessing stand in the assessment.
    pub problems: &'a [Problem],
}

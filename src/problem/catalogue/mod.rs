//! The wording of every problem, by the stage that finds it. A code is declared once with its page; the functions
//! beside it make the problem from what was found.

use super::{Code, Problem, Severity};

/// Declares the codes of one stage, each a static with its page, and the list of them.
macro_rules! codes {
    ($($(#[$meta:meta])* $name:ident = $id:literal, $severity:ident, $title:literal, $page:literal;)+) => {
        $(#[doc = $title] pub static $name: Code = Code { id: $id, severity: Severity::$severity, title: $title, page: $page };)+
        /// All codes of this stage.
        pub static CODES: &[&Code] = &[$(&$name),+];
    };
}

pub mod agreed;
pub mod asked;
pub mod assess;
pub mod claim;
pub mod counts;
pub mod file;
pub mod outlook;
pub mod output;
pub mod schedule;
pub mod tally;
pub mod words;

/// Every stage's codes.
pub(super) static ALL: &[&[&Code]] = &[
    file::CODES,
    counts::CODES,
    claim::CODES,
    asked::CODES,
    schedule::CODES,
    tally::CODES,
    words::CODES,
    outlook::CODES,
    assess::CODES,
    output::CODES,
    agreed::CODES,
];

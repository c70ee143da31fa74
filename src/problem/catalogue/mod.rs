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
pub mod photographs;
pub mod plan;
pub mod register;
pub mod schedule;
pub mod sending;
pub mod tally;
pub mod words;

/// Every stage's codes.
pub(super) static ALL: &[&[&Code]] = &[
    file::CODES,
    counts::CODES,
    claim::CODES,
    asked::CODES,
    photographs::CODES,
    sending::CODES,
    register::CODES,
    schedule::CODES,
    tally::CODES,
    words::CODES,
    outlook::CODES,
    assess::CODES,
    output::CODES,
    agreed::CODES,
    plan::CODES,
];

/// Other claims by their keys, and how many more there are.
fn named_others(others: &[(&str, super::Place)], more: usize) -> String {
    let names: Vec<&str> = others.iter().map(|(name, _)| *name).collect();
    let rest = if more == 0 { String::new() } else { format!(" and {more} more") };
    format!("{}{rest}", names.join(", "))
}

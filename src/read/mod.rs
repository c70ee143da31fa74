#![doc = include_str!("README.md")]

mod arrange;
mod cells;
mod columns;
mod count;
mod csv;
mod draft;
mod file;
mod finish;
mod form_header;
mod gather;
mod inspections;
mod jobs;
mod long;
mod lots;
mod meanings;
mod measures;
mod not_counts;
mod own_words;
mod panels;
pub mod photographs;
mod questions;
mod register;
mod required;
mod rows;
mod sizes;
mod tables;
mod totals;
mod understood;
mod unknown;
mod web_page;
mod workbook;
mod workshop;

pub use arrange::{Arranged, arrange};
pub use file::{STANDARD_INPUT, open, open_for_claims};
pub use gather::gather;
pub use long::{Claims, Long, Longs, for_all, plan};
pub use meanings::shape_of;
pub use questions::{Question, questions};
pub use register::register_rows;
pub use required::requirements;
pub use understood::{Understood, UnderstoodColumn, understood};
pub use workbook::{READ_APART, answer as answer_apart, read_apart_with};
pub use workshop::workshop;

use crate::claim::InputFile;
use crate::problem::{Problem, Sources};
use crate::table::{Form, Sheet};

/// Everything that was opened: sheets of located cells, in the order of their paths.
#[derive(Debug, Default)]
pub struct Opened {
    /// The sheets.
    pub sheets: Vec<Sheet>,
    /// The files, each with its digest.
    pub files: Vec<InputFile>,
    /// What places refer to.
    pub sources: Sources,
    /// Files that could not be read, and what is odd about those that could.
    pub problems: Vec<Problem>,
}

/// The forms of claim tables, for [`crate::table::recognise`].
pub fn forms() -> &'static [&'static Form] {
    tables::FORMS
}

/// The forms of a workshop's tables, likewise; [`workshop`] reads them.
pub fn workshop_forms() -> &'static [&'static Form] {
    workshop::FORMS
}

#![doc = include_str!("README.md")]

mod csv;
mod file;
mod xlsx;

pub use file::open;

use crate::claim::{InputFile, Intake};
use crate::problem::{Problem, Sources};
use crate::table::{Form, Sheet, Table};

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
    todo!()
}

/// Gathers the rows of all recognised claim tables into claims, in the order of their first rows. The second part is
/// what concerns no single claim.
pub fn gather(tables: &[Table<'_>], sources: &Sources) -> (Vec<Intake>, Vec<Problem>) {
    let _ = (tables, sources);
    todo!()
}

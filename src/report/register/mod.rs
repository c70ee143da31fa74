//! What a register writes: a page, a workbook, and the same for programs. Every figure comes from
//! [`crate::register`]; nothing is computed here.

mod json;
mod output;
mod page;
mod tables;

pub use json::RegisterView;
pub use output::write;
pub use page::RegisterPage;

use super::tables::Run;
use crate::register::Register;

/// Everything that the register's documents may speak of.
#[derive(Debug, Clone, Copy)]
pub struct Filled<'a> {
    /// Where the claims stand.
    pub register: &'a Register,
    /// Schedules, files, and what places refer to.
    pub run: Run<'a>,
}

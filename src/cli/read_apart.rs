use super::Ended;
use crate::read::answer_apart;
use std::io::{stdin, stdout};

/// Reads one old workbook from the standard input and tells its cells: what the program starts itself for, since a
/// damaged one of these may take all memory.
pub fn run() -> anyhow::Result<Ended> {
    answer_apart(stdin().lock(), stdout().lock())?;
    Ok(Ended::Done)
}

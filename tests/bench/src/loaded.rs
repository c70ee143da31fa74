//! A batch and a schedule in memory, for what is timed without the program around it.

use std::path::Path;
use stipple::claim::Intake;
use stipple::problem::Sources;
use stipple::read::{Opened, gather, open};
use stipple::schedule::Schedule;
use stipple::table::{Form, Sheet, Table, recognise};

fn tables<'s>(sheets: &'s [Sheet], forms: &[&'static Form]) -> Vec<Table<'s>> {
    sheets.iter().flat_map(|sheet| recognise(sheet, forms).tables).collect()
}

/// The claims of a folder that [`crate::generate`] wrote.
pub fn claims(folder: &Path) -> (Vec<Intake>, Sources) {
    let opened = open(&[folder.join("counts.csv"), folder.join("vehicles.csv")]);
    let tables = tables(&opened.sheets, stipple::read::forms());
    let (intakes, _) = gather(&tables, &opened.sources);
    (intakes, opened.sources)
}

/// The schedule of a folder.
///
/// # Panics
/// When it does not stand.
pub fn schedule(folder: &Path) -> Schedule {
    let opened: Opened = open(&[folder.to_owned()]);
    let tables = tables(&opened.sheets, stipple::schedule::forms());
    let tables: Vec<&Table<'_>> = tables.iter().collect();
    match stipple::schedule::read(&tables, &opened.files, &opened.sources) {
        Ok((schedule, _)) => schedule,
        Err(problems) => panic!("the invented schedule does not stand: {problems:?}"),
    }
}

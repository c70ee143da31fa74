//! What the fuzz targets for files share.

use stipple::read::{forms, gather, open};
use stipple::table::recognise;

/// Writes the bytes as a file of this name into a temporary folder and reads it as the program does. The reader takes
/// paths, not bytes, so the file is real.
///
/// # Panics
/// Where reading panics, or forgets a file, or names a place that does not exist.
pub fn read_whole(name: &str, bytes: &[u8]) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).expect("the temporary folder can be written");
    let opened = open(&[path]);
    assert!(opened.files.len() == 1 || !opened.problems.is_empty(), "the file was lost");
    let tables: Vec<_> = opened.sheets.iter().flat_map(|sheet| recognise(sheet, forms()).tables).collect();
    let (intakes, problems) = gather(&tables, &opened.sources);
    let of_claims = intakes.iter().flat_map(|intake| &intake.problems);
    for problem in opened.problems.iter().chain(&problems).chain(of_claims) {
        assert!(!stipple::problem::render_text(problem, &opened.sources).is_empty());
    }
}

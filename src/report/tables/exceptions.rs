//! One row per problem: what a person mends, with the cell it stands in.

use super::{Column, Field, Kind, places};
use crate::problem::{Problem, SourceKind, Sources};

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new(
        "severity",
        Kind::Text,
        "`error` (drops out), `question` (not priced until answered), `warning`, `note`",
    ),
    Column::new("code", Kind::Text, "name of the problem; `problem CODE` explains it"),
    Column::new("claim", Kind::Text, "the claim it concerns; blank for files and schedules"),
    Column::new("file", Kind::Text, "the file it stands in"),
    Column::new("sheet", Kind::Text, "the sheet; blank in text files"),
    Column::new("cell", Kind::Text, "the cell, row or column; lines of text files are named like rows"),
    Column::new("as written", Kind::Text, "the cell as it was written"),
    Column::new("what is wrong", Kind::Text, "in one sentence"),
    Column::new("what would be right", Kind::Text, "where that can be said"),
    Column::new("see also", Kind::Text, "further cells that belong to it"),
];

/// The column that links to the cell in workbooks.
pub const CELL: usize = 5;

/// The row of a problem of a claim, or of none.
pub fn row(problem: &Problem, claim: Option<&str>, sources: &Sources) -> Vec<Field> {
    let source = problem.place.map(|place| sources.get(place.source));
    let sheet = source.filter(|source| source.kind == SourceKind::Sheet);
    vec![
        Field::text(problem.severity().word()),
        Field::text(problem.code.id),
        Field::text(problem.claim.as_deref().or(claim).unwrap_or_default()),
        source.map_or(Field::Blank, |source| Field::text(source.file.clone())),
        sheet.map_or(Field::Blank, |source| Field::text(source.sheet.clone())),
        problem.place.map_or(Field::Blank, |place| Field::text(Sources::position(place))),
        problem.written.as_ref().map_or(Field::Blank, |written| Field::text(written.clone())),
        Field::text(problem.message.clone()),
        problem.help.as_ref().map_or(Field::Blank, |help| Field::text(help.clone())),
        Field::text(places(&problem.also, sources)),
    ]
}

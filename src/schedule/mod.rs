#![doc = include_str!("README.md")]

mod asked;
mod bands;
mod betterment;
mod check;
mod editions;
mod factor;
mod forms;
mod grid;
mod groups;
mod limit;
mod lookup;
mod operation;
mod outlook;
mod panels;
mod price;
mod raw;
mod scope;
mod terms;
mod title;

pub use asked::Asked;
pub use bands::{CountBand, SizeBand, SizeFit, fit_size};
pub use betterment::{BetterOf, Betterment};
pub use editions::editions;
pub use factor::{AppliesTo, Factor, FactorEffect, FactorTest, PercentOf};
pub use grid::{Grid, GridCell, Per, Price};
pub use groups::{groups, home};
pub use limit::{Limit, Measure};
pub use operation::{Once, Operation};
pub use outlook::outlook;
pub use panels::{Joint, PanelTerms, Plane};
pub use price::{MarkRate, Typical};
pub use scope::{GroupId, Scope};
pub use terms::{
    BetweenCounts, Comparator, DiscountOn, DiscountTaken, EditionBy, ExcessTaken, Fit, LabourClass,
    LabourRate, LossRule, MixedRule, SeveralMarks, TaxOn, TaxRate, Terms, TotalLossTerms,
};
pub use title::TitleRule;

use crate::claim::InputFile;
use crate::problem::{Place, Problem, Severity, Sources, catalogue, worst};
use crate::table::{Form, Table};
use check::Origin;
use raw::Raw;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// A schedule that was checked whole: nothing in it contradicts itself, and every value knows its cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule {
    /// Name, dates, rules.
    pub terms: Terms,
    /// Labour rates by class, at most one each.
    pub labour: Vec<LabourRate>,
    /// Tax rates by what they are on; exactly one each.
    pub taxes: Vec<TaxRate>,
    /// Size bands from small to large, without gap or overlap.
    pub sizes: Vec<SizeBand>,
    /// Count bands from few to many, from 1, without gap or overlap.
    pub counts: Vec<CountBand>,
    /// Names of the groups that panels are rated as; [`GroupId`] counts in it.
    pub groups: Vec<String>,
    /// The panels it knows, at most one row per kind.
    pub panels: Vec<PanelTerms>,
    /// Amount or time by group, size band and count band.
    pub grid: Grid,
    /// Amount or time of marks that are rated by their own size.
    pub mark_rates: Vec<MarkRate>,
    /// Factors in the order in which they are applied.
    pub factors: Vec<Factor>,
    /// Typical prices and times, most specific first.
    pub typical: Vec<Typical>,
    /// Limits in the order of their rows.
    pub limits: Vec<Limit>,
    /// Operations in the order of their rows.
    pub operations: Vec<Operation>,
    /// What of new parts' prices the owner bears.
    pub betterment: Vec<Betterment>,
    /// What the law of a place notes on titles, in the order of the rows.
    pub titles: Vec<TitleRule>,
    /// The files it was read from.
    pub files: Vec<InputFile>,
    /// SHA-256 over the digests of its files in order of their paths, each followed by a line feed, in lower-case
    /// hexadecimal.
    pub digest: String,
    /// The workbook or folder, for messages.
    pub place: Place,
}

/// The forms of schedule tables, for [`crate::table::recognise`].
pub fn forms() -> &'static [&'static Form] {
    forms::ALL
}

/// Makes one schedule of the tables of one workbook or folder (see [`groups()`]), checked whole. The problems of a
/// schedule that stands are warnings and notes; one that does not stand gives all its errors (and warnings) at once,
/// ordered by place. Of the files those are kept that hold one of the tables.
pub fn read(
    tables: &[&Table<'_>],
    files: &[InputFile],
    sources: &Sources,
) -> Result<(Schedule, Vec<Problem>), Vec<Problem>> {
    read_asked(tables, files, sources, &[])
}

/// The same with values asked for in place of those that are written; checked whole like any other.
pub fn read_asked(
    tables: &[&Table<'_>],
    files: &[InputFile],
    sources: &Sources,
    asked: &[Asked],
) -> Result<(Schedule, Vec<Problem>), Vec<Problem>> {
    let Some(first) = tables.first() else { return Err(vec![catalogue::schedule::no_tables()]) };
    let mut problems = Vec::new();
    let mut raw = Raw::read(tables, &mut problems);
    raw.ask(asked, Place::whole(first.sheet.source));
    let origin = origin(tables, files, sources, Place::whole(first.sheet.source));
    let schedule = check::check(&raw, origin, &mut problems);
    problems.sort_by_key(|problem| problem.place);
    match schedule {
        Some(schedule) if worst(&problems) < Some(Severity::Error) => Ok((schedule, problems)),
        _ => Err(problems),
    }
}

fn origin(tables: &[&Table<'_>], files: &[InputFile], sources: &Sources, place: Place) -> Origin {
    let holds_a_table =
        |file: &&InputFile| tables.iter().any(|table| sources.get(table.sheet.source).file == file.path);
    let mut files: Vec<InputFile> = files.iter().filter(holds_a_table).cloned().collect();
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Origin { digest: digest(&files), files, place }
}

/// SHA-256 over the files' digests, each followed by a line feed: what `sha256sum` gives of their first columns.
fn digest(files: &[InputFile]) -> String {
    let mut hasher = Sha256::new();
    for file in files {
        hasher.update(file.sha256.as_bytes());
        hasher.update(b"\n");
    }
    let mut hexadecimal = String::with_capacity(64);
    for byte in hasher.finalize() {
        let _ = write!(hexadecimal, "{byte:02x}");
    }
    hexadecimal
}

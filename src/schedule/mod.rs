#![doc = include_str!("README.md")]

mod bands;
mod factor;
mod grid;
mod limit;
mod operation;
mod panels;
mod price;
mod scope;
mod terms;

pub use bands::{CountBand, SizeBand, SizeFit, fit_size};
pub use factor::{AppliesTo, Factor, FactorEffect, FactorTest, PercentOf};
pub use grid::{Grid, GridCell, Per, Price};
pub use limit::{Limit, Measure};
pub use operation::{Once, Operation};
pub use panels::{Joint, PanelTerms, Plane};
pub use price::{MarkRate, Typical};
pub use scope::{GroupId, Scope};
pub use terms::{
    Comparator, Fit, LabourClass, LabourRate, LossRule, MixedRule, TaxOn, TaxRate, Terms, TotalLossTerms,
};

use crate::claim::InputFile;
use crate::problem::{Place, Problem, Sources};
use crate::table::{Form, Table};

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
    /// The files it was read from.
    pub files: Vec<InputFile>,
    /// SHA-256 over the digests of its files in order of their paths, in lower-case hexadecimal.
    pub digest: String,
    /// The workbook or folder, for messages.
    pub place: Place,
}

/// The forms of schedule tables, for [`crate::table::recognise`].
pub fn forms() -> &'static [&'static Form] {
    todo!()
}

/// Makes one schedule of the tables of one workbook or folder, checked whole. The problems of a schedule that stands
/// are warnings and notes; one that does not stand gives all its errors (and warnings) at once.
pub fn read(
    tables: &[&Table<'_>],
    files: &[InputFile],
    sources: &Sources,
) -> Result<(Schedule, Vec<Problem>), Vec<Problem>> {
    let _ = (tables, files, sources);
    todo!()
}

//! The parts of an output that can be asked for, and who draws them.

use super::Subject;
use super::batch_page::BatchOverview;
use super::bordereau_page::BordereauPage;
use super::document::SupplementPage;
use super::folder::{Earlier, OutputFolder};
use super::lot_page::LotPage;
use super::overview::Keep;
use super::run_record::{CLAIMS, OWNERS, WORK_ORDERS};
use super::supplement::Agreed;
use super::workbook::Links;
use crate::batch::EarlierCars;
use crate::problem::{Problem, SourceId};
use crate::quantity::Date;
use std::collections::BTreeSet;

/// What a run can write beside the exceptions and its record, which are always written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A document per claim.
    Documents,
    /// A work order per claim.
    WorkOrders,
    /// A sheet for the owner per claim.
    Owners,
    /// A workbook per claim that calculates.
    ClaimWorkbooks,
    /// `claims.csv`.
    Claims,
    /// `panels.csv`.
    Panels,
    /// `lines.csv`.
    Lines,
    /// `bordereau.xlsx` and `exceptions.xlsx`.
    Workbooks,
    /// `assessments.jsonl`.
    Assessments,
    /// `overview.html`.
    Overview,
    /// `bordereau.html`.
    Bordereau,
    /// Statements of lots, where a lot's excess has a cap.
    Lots,
    /// What changed since the agreed version, where one is given.
    Supplements,
}

impl Part {
    /// Every part.
    pub const ALL: [Self; 13] = [
        Self::Documents,
        Self::WorkOrders,
        Self::Owners,
        Self::ClaimWorkbooks,
        Self::Claims,
        Self::Panels,
        Self::Lines,
        Self::Workbooks,
        Self::Assessments,
        Self::Overview,
        Self::Bordereau,
        Self::Lots,
        Self::Supplements,
    ];

    /// Its name, and what it writes.
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Documents => ("documents", "claims/: a document for each claim"),
            Self::WorkOrders => ("work-orders", "work-orders/: a work order for each claim, without money"),
            Self::Owners => ("owners", "owners/: a sheet for the owner of each claim"),
            Self::ClaimWorkbooks => {
                ("claim-workbooks", "claim-workbooks/: a workbook with live formulas for each claim")
            }
            Self::Claims => ("claims", "claims.csv"),
            Self::Panels => ("panels", "panels.csv"),
            Self::Lines => ("lines", "lines.csv"),
            Self::Workbooks => ("workbooks", "bordereau.xlsx and exceptions.xlsx"),
            Self::Assessments => ("assessments", "assessments.jsonl"),
            Self::Overview => ("overview", "overview.html: the batch on one page"),
            Self::Bordereau => {
                ("bordereau", "bordereau.html: the listing with its sums and exceptions on one page")
            }
            Self::Lots => ("lots", "lots/ and lots.csv: a statement for each lot whose excess has a cap"),
            Self::Supplements => (
                "supplements",
                "supplements/ and supplements.csv: what changed since --agreed, where it is given",
            ),
        }
    }
}

/// A document that each priced claim has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// For the insurer, or the quotation for a customer without one.
    Claim,
    /// For the technician.
    WorkOrder,
    /// For the owner.
    Owner,
}

impl Paper {
    /// Every one, with the part it is named by and the folder it stands in.
    pub(super) const ALL: [(Self, Part, &'static str); 3] = [
        (Self::Claim, Part::Documents, CLAIMS),
        (Self::WorkOrder, Part::WorkOrders, WORK_ORDERS),
        (Self::Owner, Part::Owners, OWNERS),
    ];
}

/// What to write, where, and by whom documents are drawn.
pub struct Order<'d> {
    /// Where the output goes, begun.
    pub folder: OutputFolder,
    /// What is written.
    pub parts: BTreeSet<Part>,
    /// The date for claims that carry none.
    pub date: Option<Date>,
    /// Where the files stand as seen from the output.
    pub links: Links,
    /// Draws documents.
    pub draw: &'d dyn Draw,
    /// What is kept for the screen.
    pub keep: Keep,
    /// What was agreed earlier, for supplements.
    pub agreed: Option<&'d Agreed>,
    /// The cars of an earlier run.
    pub earlier: EarlierCars,
    /// An earlier output whose documents may be taken over.
    pub reused: Option<&'d Earlier>,
    /// Sheets that say something of all claims.
    pub for_all: BTreeSet<SourceId>,
}

/// Draws pages.
pub trait Draw: Sync {
    /// A document of a priced claim.
    fn paper(&self, paper: Paper, subject: &Subject<'_>) -> Result<String, Problem>;

    /// The statement of a lot.
    fn lot(&self, statement: &LotPage) -> Result<String, Problem>;

    /// The same as PDF, where that was asked for. Warnings say why this one cannot be printed; errors end the run.
    fn print(&self, paper: Paper, subject: &Subject<'_>) -> Option<Result<Vec<u8>, Vec<Problem>>>;

    /// What changed of a claim since it was agreed.
    fn supplement(&self, page: &SupplementPage) -> Result<String, Problem>;

    /// The same as PDF, as of documents.
    fn print_supplement(
        &self,
        page: &SupplementPage,
        subject: &Subject<'_>,
    ) -> Option<Result<Vec<u8>, Vec<Problem>>>;

    /// The workbook of a priced claim.
    fn claim_workbook(&self, subject: &Subject<'_>) -> Result<Vec<u8>, Problem>;

    /// The bordereau of the batch.
    fn bordereau(&self, page: &BordereauPage) -> Result<String, Problem>;

    /// The overview of the batch.
    fn overview(&self, overview: &BatchOverview) -> Result<String, Problem>;
}

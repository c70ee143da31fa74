//! Documents as PDF: the models that fill the pages, set by typst. Tagged, and held to PDF/A-2a and PDF/UA-1.
//!
//! Texts reach the templates as data in a file that stands in memory; nothing that somebody wrote is ever made markup.
//! Templates see each other, that file and the fonts given, and nothing else: no folder, no package, no clock. What is
//! not handled: a document whose texts hold a character that no font has is not written, for PDF/A wants each of them
//! readable; it is told, with the cell where it stands.

mod field;
mod fonts;
mod glyphs;
mod world;

pub use fonts::Fonts;

use super::document::{Document, Kind, OwnerSheet, SupplementPage, WorkOrder};
use super::run_record::{TOOL, VERSION};
use super::wording::label::LABELS;
use crate::claim::Claim;
use crate::problem::{Problem, catalogue::output};
use crate::quantity::Date;
use rayon::{ThreadPool, ThreadPoolBuilder};
use serde::Serialize;
use serde_json::{Value, json};
use std::fmt;
use typst::LibraryExt;
use typst::comemo;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Smart};
use typst::utils::LazyHash;
use typst::{Feature, Library};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use world::{Desk, Templates};

/// The paper that documents are set for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaperSize {
    /// ISO A4.
    A4,
    /// US Letter.
    Letter,
}

impl PaperSize {
    /// Its name, as the templates know it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "us-letter",
        }
    }
}

/// The creation date of a document without a date of its own: a fixed one, as in the workbooks.
const NO_DATE: Date = Date::constant(2000, 1, 1);

/// Why a document could not be set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unset {
    /// Characters that no font has, text by text.
    Glyphs(Vec<glyphs::Lacking>),
    /// A template's mistake, with its file and line.
    Template(String),
}

impl Unset {
    /// As problems of a claim, each at the cell where its text was written.
    pub fn problems(&self, claim: &Claim) -> Vec<Problem> {
        match self {
            Self::Glyphs(lacking) => {
                let mut problems = Vec::new();
                for text in lacking {
                    for problem in field::problems(text, claim) {
                        if !problems.contains(&problem) {
                            problems.push(problem);
                        }
                    }
                }
                problems
            }
            Self::Template(why) => vec![output::not_drawn(&claim.key.text, why)],
        }
    }
}

impl fmt::Display for Unset {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Glyphs(lacking) => write!(f, "no font has characters of {} texts", lacking.len()),
            Self::Template(why) => f.write_str(why),
        }
    }
}

impl std::error::Error for Unset {}

/// Sets documents. Made once for a run; setting may happen on many threads.
pub struct Press {
    library: LazyHash<Library>,
    templates: Templates,
    fonts: Fonts,
    standards: PdfStandards,
    paper: PaperSize,
    threads: ThreadPool,
}

/// Room for what typst calls in itself, with some to spare in a build that is not optimised.
const STACK: usize = 64 << 20;

impl Press {
    /// A press with the templates that come with the tool; it sets on so many threads, or one for each core.
    pub fn new(paper: PaperSize, fonts: Fonts, threads: Option<usize>) -> Result<Self, Unset> {
        let fault = |why: &dyn fmt::Display| Unset::Template(why.to_string());
        let threads = ThreadPoolBuilder::new().num_threads(threads.unwrap_or(0)).stack_size(STACK).build();
        let threads = threads.map_err(|error| fault(&error))?;
        let standards = PdfStandards::new(&[PdfStandard::A_2a, PdfStandard::Ua_1]);
        let standards = standards.map_err(|error| fault(&error.message()))?;
        // Cells that head their row can only be said to do so with what typst calls an extra.
        let library = Library::builder().with_features([Feature::A11yExtras].into_iter().collect()).build();
        let templates = Templates::new().map_err(|error| fault(&error))?;
        Ok(Self { library: LazyHash::new(library), templates, fonts, standards, paper, threads })
    }

    /// A claim file or a quotation.
    pub fn claim(&self, document: &Document, made: Option<Date>) -> Result<Vec<u8>, Unset> {
        let template = match document.kind {
            Kind::Claim => "claim.typ",
            Kind::Quotation => "quotation.typ",
        };
        self.set(template, document, made)
    }

    /// A work order.
    pub fn work_order(&self, order: &WorkOrder, made: Option<Date>) -> Result<Vec<u8>, Unset> {
        self.set("work_order.typ", order, made)
    }

    /// An owner's sheet.
    pub fn owner_sheet(&self, sheet: &OwnerSheet, made: Option<Date>) -> Result<Vec<u8>, Unset> {
        self.set("owner.typ", sheet, made)
    }

    /// A supplement.
    pub fn supplement(&self, page: &SupplementPage, made: Option<Date>) -> Result<Vec<u8>, Unset> {
        self.set("supplement.typ", page, made)
    }

    fn set(&self, template: &str, model: &impl Serialize, made: Option<Date>) -> Result<Vec<u8>, Unset> {
        let fault = |error: serde_json::Error| Unset::Template(error.to_string());
        let made = made.unwrap_or(NO_DATE);
        let made = json!({ "year": made.year(), "month": made.month(), "day": made.day() });
        let mut data = json!({ "label": LABELS, "paper": self.paper.name(), "made": made });
        if let (Value::Object(data), Value::Object(model)) =
            (&mut data, serde_json::to_value(model).map_err(fault)?)
        {
            data.extend(model);
        }
        let lacking = glyphs::prepare(&mut data, &self.fonts);
        if !lacking.is_empty() {
            return Err(Unset::Glyphs(lacking));
        }
        let desk = Desk {
            library: &self.library,
            templates: &self.templates,
            fonts: &self.fonts,
            main: self.templates.id(template).ok_or_else(|| Unset::Template(format!("no {template}")))?,
            data: Bytes::new(serde_json::to_vec(&data).map_err(fault)?),
        };
        let identity = format!("{} {}", data["head"]["what"], data["head"]["key"]);
        // typst hands work to threads and waits for it. A thread of the batch that waits takes up the next claim meanwhile,
        // and another one inside that, until its stack is full; so typst has threads of its own, and this one only waits.
        let set = std::thread::scope(|scope| {
            scope.spawn(|| self.threads.install(|| self.print(&desk, identity))).join()
        });
        let set =
            set.unwrap_or_else(|_| Err(Unset::Template("typst stopped in the middle of it".to_owned())));
        // Without this, what typst remembers of each document adds up over a batch.
        comemo::evict(0);
        set
    }

    fn print(&self, desk: &Desk<'_>, identity: String) -> Result<Vec<u8>, Unset> {
        let located = |errors: &[SourceDiagnostic]| Unset::Template(desk.told(errors));
        let document = typst::compile::<PagedDocument>(desk).output.map_err(|errors| located(&errors))?;
        let options = PdfOptions {
            ident: Smart::Custom(identity),
            creator: Smart::Custom(Some(format!("{TOOL} {VERSION}"))),
            standards: self.standards.clone(),
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&document, &options).map_err(|errors| located(&errors))
    }
}

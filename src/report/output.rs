//! Everything a run writes: documents drawn on all cores, tables filled in input order, swapped in when complete.

use super::Subject;
use super::batch_page::{BatchOverview, BatchPage};
use super::csv::CsvTable;
use super::data_package;
use super::file_name::FileNames;
use super::folder::{Digesting, OutputFolder, Written};
use super::json::ClaimView;
use super::overview::{Glance, Keep, Overview};
use super::run_record::{CLAIM_WORKBOOKS, CLAIMS, OWNERS, RECORD, RunRecord, WORK_ORDERS};
use super::tables::{Column, Field, Run, claims, exceptions, lines, panels};
use super::workbook::{Bordereau, ExceptionsBook, Links};
use crate::batch::{Done, Sink, Totals};
use crate::claim::Intake;
use crate::problem::Problem;
use crate::quantity::Date;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};

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
}

impl Part {
    /// Every part.
    pub const ALL: [Self; 10] = [
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
    const ALL: [(Self, Part, &'static str); 3] = [
        (Self::Claim, Part::Documents, CLAIMS),
        (Self::WorkOrder, Part::WorkOrders, WORK_ORDERS),
        (Self::Owner, Part::Owners, OWNERS),
    ];
}

/// Draws pages.
pub trait Draw: Sync {
    /// A document of a priced claim.
    fn paper(&self, paper: Paper, subject: &Subject<'_>) -> Result<String, Problem>;

    /// The workbook of a priced claim.
    fn claim_workbook(&self, subject: &Subject<'_>) -> Result<Vec<u8>, Problem>;

    /// The overview of the batch.
    fn overview(&self, overview: &BatchOverview) -> Result<String, Problem>;
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
}

/// An output that is being written; a sink of a batch.
pub struct Output<'a, 'd> {
    run: Run<'a>,
    date: Option<Date>,
    draw: &'d dyn Draw,
    /// Documents of each claim, with their folders.
    papers: Vec<(Paper, &'static str)>,
    /// Whether each claim has a workbook.
    claim_workbooks: bool,
    /// Names of the claims' files, by the claim's number.
    names: Vec<String>,
    claims: Option<CsvTable<Digesting>>,
    panels: Option<CsvTable<Digesting>>,
    lines: Option<CsvTable<Digesting>>,
    exceptions: CsvTable<Digesting>,
    assessments: Option<Digesting>,
    bordereau: Option<Bordereau>,
    exceptions_book: Option<ExceptionsBook>,
    overview: Overview<'a>,
    batch_page: Option<BatchPage>,
    by_insurer: BTreeMap<String, Totals>,
    written: Vec<Written>,
    /// Last, so that the files in it are closed before an output that failed is removed.
    folder: OutputFolder,
}

/// One claim, drawn.
pub struct Piece {
    papers: Vec<Result<Written, Problem>>,
    document: Option<String>,
    claim: Vec<Field>,
    panels: Vec<Vec<Field>>,
    lines: Vec<Vec<Field>>,
    assessment: Result<Vec<u8>, serde_json::Error>,
    insurer: String,
    key: String,
    problems: Vec<Problem>,
    glance: Glance,
}

const CLAIMS_TABLE: &str = "claims.csv";
const PANELS_TABLE: &str = "panels.csv";
const LINES_TABLE: &str = "lines.csv";
const EXCEPTIONS_TABLE: &str = "exceptions.csv";
const ASSESSMENTS: &str = "assessments.jsonl";
const BORDEREAU: &str = "bordereau.xlsx";
const OVERVIEW: &str = "overview.html";
const EXCEPTIONS_BOOK: &str = "exceptions.xlsx";

impl<'a, 'd> Output<'a, 'd> {
    /// Begins the output of a run over these claims.
    pub fn begin(order: Order<'d>, intakes: &[Intake], run: Run<'a>) -> Result<Self, Problem> {
        let folder = order.folder;
        let wants = |part: Part| order.parts.contains(&part);
        let table = |part: Part, name: &str, columns: &[Column]| {
            wants(part).then(|| table(&folder, name, columns)).transpose()
        };
        let papers: Vec<(Paper, &str)> = Paper::ALL
            .iter()
            .filter(|(_, part, _)| wants(*part))
            .map(|(paper, _, below)| (*paper, *below))
            .collect();
        let claim_workbooks = wants(Part::ClaimWorkbooks);
        for below in papers.iter().map(|(_, below)| *below).chain(claim_workbooks.then_some(CLAIM_WORKBOOKS))
        {
            folder.folder(below)?;
        }
        let bordereau = wants(Part::Workbooks)
            .then(|| Bordereau::new(&folder))
            .transpose()
            .map_err(|error| folder.refused(BORDEREAU, &error))?;
        let exceptions_book = wants(Part::Workbooks)
            .then(|| ExceptionsBook::new(&folder, order.links))
            .transpose()
            .map_err(|error| folder.refused(EXCEPTIONS_BOOK, &error))?;
        let assessments = wants(Part::Assessments)
            .then(|| folder.create(ASSESSMENTS))
            .transpose()
            .map_err(|error| folder.refused(ASSESSMENTS, &error))?;
        let mut names = FileNames::new();
        Ok(Self {
            claims: table(Part::Claims, CLAIMS_TABLE, claims::COLUMNS)?,
            panels: table(Part::Panels, PANELS_TABLE, panels::COLUMNS)?,
            lines: table(Part::Lines, LINES_TABLE, lines::COLUMNS)?,
            exceptions: self::table(&folder, EXCEPTIONS_TABLE, exceptions::COLUMNS)?,
            assessments,
            bordereau,
            exceptions_book,
            names: intakes.iter().map(|intake| names.give(&intake.claim.key)).collect(),
            draw: order.draw,
            papers,
            claim_workbooks,
            batch_page: wants(Part::Overview).then(BatchPage::default),
            date: order.date,
            overview: Overview::new(run, order.keep),
            by_insurer: BTreeMap::new(),
            written: Vec::new(),
            run,
            folder,
        })
    }

    /// Lists a problem that belongs to no claim of the run: of a file, a table, a schedule.
    pub fn report(&mut self, problem: &Problem) -> Result<(), Problem> {
        self.overview.report(problem);
        self.list(problem, None)
    }

    fn list(&mut self, problem: &Problem, claim: Option<&str>) -> Result<(), Problem> {
        let row = exceptions::row(problem, claim, self.run.sources);
        self.exceptions.row(&row).map_err(|error| self.folder.refused(EXCEPTIONS_TABLE, &error))?;
        if let Some(book) = &mut self.exceptions_book {
            book.problem(problem, &row, self.run.sources)
                .map_err(|error| self.folder.refused(EXCEPTIONS_BOOK, &error))?;
        }
        Ok(())
    }

    /// The path of a claim's document in the output.
    fn path(&self, below: &str, number: usize) -> String {
        format!("{below}/{}.html", self.names[number])
    }

    /// Ends every file, writes the record, and puts the output in its place.
    pub fn finish(mut self) -> Result<(Overview<'a>, Vec<Written>), Problem> {
        let tables: [(_, _, &[Column]); 4] = [
            (self.claims.take(), CLAIMS_TABLE, claims::COLUMNS),
            (self.panels.take(), PANELS_TABLE, panels::COLUMNS),
            (self.lines.take(), LINES_TABLE, lines::COLUMNS),
            (Some(self.exceptions), EXCEPTIONS_TABLE, exceptions::COLUMNS),
        ];
        let mut described = Vec::new();
        let folder = self.folder;
        for (table, name, columns) in tables {
            if let Some(table) = table {
                described.push((name, columns));
                let ended = table.finish().and_then(Digesting::finish);
                self.written.push(ended.map_err(|error| folder.refused(name, &error))?);
            }
        }
        let package = data_package::describe(&described).map_err(io::Error::from);
        let package = package.map_err(|error| folder.refused(data_package::FILE, &error))?;
        self.written.push(folder.put(data_package::FILE, &package)?);
        if let Some(file) = self.assessments {
            self.written.push(file.finish().map_err(|error| folder.refused(ASSESSMENTS, &error))?);
        }
        if let Some(book) = self.bordereau {
            let ended = book.finish(&self.overview.totals, &self.by_insurer, &self.run, &folder, BORDEREAU);
            self.written.push(ended.map_err(|error| folder.refused(BORDEREAU, &error))?);
        }
        if let Some(book) = self.exceptions_book {
            let ended = book.finish(&folder, EXCEPTIONS_BOOK);
            self.written.push(ended.map_err(|error| folder.refused(EXCEPTIONS_BOOK, &error))?);
        }
        if let Some(page) = self.batch_page {
            let overview = page.finish(&self.overview.totals, &self.by_insurer, self.date);
            let page = self.draw.overview(&overview)?;
            self.written.push(folder.put(OVERVIEW, page.as_bytes())?);
        }
        self.written.sort_unstable();
        let record = RunRecord::new(self.run.files, self.run.schedules, self.date, &self.overview.totals);
        let bytes =
            record.to_json(&self.written).map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
        folder.put(RECORD, &bytes)?;
        folder.swap_in()?;
        Ok((self.overview, self.written))
    }
}

fn table(folder: &OutputFolder, name: &str, columns: &[Column]) -> Result<CsvTable<Digesting>, Problem> {
    folder
        .create(name)
        .and_then(|file| CsvTable::new(file, columns))
        .map_err(|error| folder.refused(name, &error))
}

impl Sink for Output<'_, '_> {
    type Piece = Piece;
    type Error = Problem;

    fn draw(&self, done: &Done<'_>) -> Piece {
        let subject = self.run.subject(done);
        let papers = subject.iter().flat_map(|subject| {
            self.papers.iter().map(|(paper, below)| {
                let page = self.draw.paper(*paper, subject)?;
                self.folder.put(&self.path(below, done.number), page.as_bytes())
            })
        });
        let workbook = subject.iter().filter(|_| self.claim_workbooks).map(|subject| {
            let bytes = self.draw.claim_workbook(subject)?;
            self.folder.put(&format!("{CLAIM_WORKBOOKS}/{}.xlsx", self.names[done.number]), &bytes)
        });
        let papers = papers.chain(workbook).collect();
        let has_document = subject.is_some() && self.papers.iter().any(|(paper, _)| *paper == Paper::Claim);
        let document = has_document.then(|| self.path(CLAIMS, done.number));
        let link = document.as_deref();
        let rows = |wanted: bool, rows: fn(&Subject<'_>) -> Vec<Vec<Field>>| {
            subject.as_ref().filter(|_| wanted).map_or_else(Vec::new, rows)
        };
        let claim = &done.intake.claim;
        Piece {
            claim: claims::row(done, link, &self.run),
            panels: rows(self.panels.is_some(), panels::rows),
            lines: rows(self.lines.is_some(), lines::rows),
            assessment: match &self.assessments {
                Some(_) => ClaimView::new(done, link, &self.run).to_line(),
                None => Ok(Vec::new()),
            },
            insurer: claim.parties.insurer.as_ref().map(|name| name.value.clone()).unwrap_or_default(),
            key: claim.key.text.clone(),
            problems: done.problems().cloned().collect(),
            glance: self.overview.glance(done),
            papers,
            document,
        }
    }

    fn accept(&mut self, piece: Piece) -> Result<(), Problem> {
        for paper in piece.papers {
            self.written.push(paper?);
        }
        if let Some(page) = &mut self.batch_page {
            page.add(&piece.claim, piece.document.as_deref(), &piece.glance.needs);
        }
        if let Some(table) = &mut self.claims {
            table.row(&piece.claim).map_err(|error| self.folder.refused(CLAIMS_TABLE, &error))?;
        }
        if let Some(table) = &mut self.panels {
            for row in &piece.panels {
                table.row(row).map_err(|error| self.folder.refused(PANELS_TABLE, &error))?;
            }
        }
        if let Some(table) = &mut self.lines {
            for row in &piece.lines {
                table.row(row).map_err(|error| self.folder.refused(LINES_TABLE, &error))?;
            }
        }
        if let Some(file) = &mut self.assessments {
            piece
                .assessment
                .map_err(io::Error::from)
                .and_then(|mut line| {
                    line.push(b'\n');
                    file.write_all(&line)
                })
                .map_err(|error| self.folder.refused(ASSESSMENTS, &error))?;
        }
        if let Some(book) = &mut self.bordereau {
            book.claim(&piece.claim).map_err(|error| self.folder.refused(BORDEREAU, &error))?;
        }
        self.by_insurer.entry(piece.insurer).or_default().add(&piece.glance.totals);
        for problem in &piece.problems {
            self.list(problem, Some(&piece.key))?;
        }
        self.overview.add(piece.glance);
        Ok(())
    }
}

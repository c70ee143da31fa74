//! Everything a run writes: documents drawn on all cores, tables filled in input order, swapped in when complete.

use super::Subject;
use super::batch_page::BatchPage;
use super::carried::Origin;
use super::csv::{CsvTable, Rows};
use super::data_package;
use super::file_name::FileNames;
use super::folder::{Digesting, Earlier, OutputFolder, Written};
use super::groups::GroupPiece;
use super::json::ClaimView;
use super::listings::Listings;
use super::lot_page::{self, LOTS_TABLE, LotClaim, Lots};
use super::overview::{Glance, Overview};
use super::papers::{Papers, Place};
pub use super::part::{Draw, Order, Paper, Part};
use super::run_record::{CLAIM_WORKBOOKS, CLAIMS, LOTS, RECORD, RunRecord};
use super::supplement::{SUPPLEMENTS_TABLE, Supplemented, Supplements};
use super::tables::{Column, Field, Run, claims, exceptions, lines, lots, panels, supplements};
use super::workbook::ExceptionsBook;
use crate::batch::{Done, EarlierCars, Sink, Totals};
use crate::claim::Intake;
use crate::problem::Problem;
use crate::quantity::{Date, QuantityFault};
use std::collections::BTreeMap;
use std::io::{self, Write};

/// An output that is being written; a sink of a batch.
pub struct Output<'a, 'd> {
    run: Run<'a>,
    date: Option<Date>,
    draw: &'d dyn Draw,
    /// Documents of each claim, with their folders.
    papers: Vec<(Paper, &'static str)>,
    /// Whether each claim has a workbook.
    claim_workbooks: bool,
    /// Names of the files of claims that are drawn next.
    names: Vec<String>,
    /// Number of the first claim that they are names of.
    named_from: usize,
    accepted: usize,
    file_names: FileNames,
    claims: Option<CsvTable<Digesting>>,
    panels: Option<CsvTable<Digesting>>,
    lines: Option<CsvTable<Digesting>>,
    exceptions: CsvTable<Digesting>,
    assessments: Option<Digesting>,
    listings: Listings,
    exceptions_book: Option<ExceptionsBook>,
    overview: Overview<'a>,
    earlier: EarlierCars,
    batch_page: Option<BatchPage>,
    lots: Option<Lots>,
    supplements: Option<Supplements<'d>>,
    by_insurer: BTreeMap<String, Totals>,
    written: Vec<Written>,
    reused: Option<&'d Earlier>,
    origin: Origin<'a>,
    /// What the documents of each claim were drawn from, by their name.
    drawn_from: BTreeMap<String, String>,
    /// Last, so that the files in it are closed before an output that failed is removed.
    folder: OutputFolder,
}

/// One claim, drawn.
pub struct Piece {
    papers: Papers,
    supplement: Supplemented,
    group: GroupPiece,
    drawn_from: Option<(String, String)>,
    document: Option<String>,
    claim: Vec<Field>,
    claim_row: io::Result<Rows>,
    panels: io::Result<Rows>,
    lines: io::Result<Rows>,
    assessment: Result<Vec<u8>, serde_json::Error>,
    lot: Result<Option<LotClaim>, QuantityFault>,
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
const OVERVIEW: &str = "overview.html";
const EXCEPTIONS_BOOK: &str = "exceptions.xlsx";

impl<'a, 'd> Output<'a, 'd> {
    /// Begins the output of a run.
    pub fn begin(order: Order<'d>, run: Run<'a>) -> Result<Self, Problem> {
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
        let exceptions_book = wants(Part::Workbooks)
            .then(|| ExceptionsBook::new(&folder, order.links))
            .transpose()
            .map_err(|error| folder.refused(EXCEPTIONS_BOOK, &error))?;
        let assessments = wants(Part::Assessments)
            .then(|| folder.create(ASSESSMENTS))
            .transpose()
            .map_err(|error| folder.refused(ASSESSMENTS, &error))?;
        let supplements = order
            .agreed
            .map(|agreed| Supplements::begin(agreed, &folder, wants(Part::Supplements), order.date))
            .transpose()?;
        Ok(Self {
            supplements,
            claims: table(Part::Claims, CLAIMS_TABLE, claims::COLUMNS)?,
            panels: table(Part::Panels, PANELS_TABLE, panels::COLUMNS)?,
            lines: table(Part::Lines, LINES_TABLE, lines::COLUMNS)?,
            exceptions: self::table(&folder, EXCEPTIONS_TABLE, exceptions::COLUMNS)?,
            assessments,
            listings: Listings::begin(&folder, &order.parts)?,
            exceptions_book,
            names: Vec::new(),
            named_from: 0,
            accepted: 0,
            file_names: FileNames::new(),
            draw: order.draw,
            papers,
            claim_workbooks,
            batch_page: wants(Part::Overview).then(BatchPage::default),
            lots: wants(Part::Lots).then(Lots::default),
            date: order.date,
            overview: Overview::new(run, order.keep),
            earlier: order.earlier,
            by_insurer: BTreeMap::new(),
            written: Vec::new(),
            reused: order.reused,
            origin: Origin::new(run, order.date, order.for_all),
            drawn_from: BTreeMap::new(),
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
        self.listings.exception(problem.severity(), &row);
        if let Some(book) = &mut self.exceptions_book {
            book.problem(problem, &row, self.run.sources)
                .map_err(|error| self.folder.refused(EXCEPTIONS_BOOK, &error))?;
        }
        Ok(())
    }

    /// The path of a claim's document in the output.
    fn path(&self, below: &str, number: usize) -> String {
        format!("{below}/{}.html", self.name(number))
    }

    /// The name of a claim's files, which have one where any are drawn.
    fn name(&self, number: usize) -> &str {
        &self.names[number - self.named_from]
    }

    /// Draws the documents of a claim, or takes them over; and says what they are drawn from.
    fn documents(
        &self,
        subject: &Subject<'_>,
        row: &[Field],
        name: &str,
    ) -> (Papers, Option<(String, String)>) {
        let drawn_from = match self.origin.of(subject, row) {
            Ok(drawn_from) => drawn_from,
            Err(error) => return (Papers::failed(self.folder.refused(CLAIMS_TABLE, &error)), None),
        };
        let earlier = self.reused.filter(|earlier| earlier.has(name, &drawn_from));
        let place = Place { folder: &self.folder, name, earlier };
        let mut papers = Papers::put(self.draw, place, subject, &self.papers);
        if self.claim_workbooks {
            papers.workbook(self.draw, place, subject);
        }
        (papers, Some((name.to_owned(), drawn_from)))
    }

    /// Ends every file, writes the record, and puts the output in its place.
    pub fn finish(mut self) -> Result<(Overview<'a>, Vec<Written>), Problem> {
        for problem in self.overview.repeats(&self.earlier) {
            self.report(&problem)?;
        }
        let mut supplements = self.supplements.take();
        let gone =
            supplements.as_mut().map_or(Ok(Vec::new()), |supplements| supplements.gone(&self.folder))?;
        for problem in &gone {
            self.report(problem)?;
        }
        let agreed = supplements.as_ref().map(|supplements| supplements.agreed.file.clone());
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
                let ended = table.finish().finish();
                self.written.push(ended.map_err(|error| folder.refused(name, &error))?);
            }
        }
        let lots = self.lots.map_or(Ok(Vec::new()), |lots| lots.finish(LOTS, self.date));
        let lots = lots.map_err(|fault| folder.refused(LOTS_TABLE, &too_large(fault)))?;
        if !lots.is_empty() {
            described.push((LOTS_TABLE, lots::COLUMNS));
            self.written.extend(lot_page::write(&folder, self.draw, &lots)?);
        }
        if let Some(written) = supplements.map_or(Ok(None), |supplements| supplements.finish(&folder))? {
            described.push((SUPPLEMENTS_TABLE, supplements::COLUMNS));
            self.written.push(written);
        }
        let package = data_package::describe(&described).map_err(io::Error::from);
        let package = package.map_err(|error| folder.refused(data_package::FILE, &error))?;
        self.written.push(folder.put(data_package::FILE, &package)?);
        if let Some(file) = self.assessments {
            self.written.push(file.finish().map_err(|error| folder.refused(ASSESSMENTS, &error))?);
        }
        let sums = (&self.overview.totals, &self.by_insurer);
        self.written.extend(self.listings.finish(sums, &lots, &self.run, self.date, self.draw, &folder)?);
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
        let record = RunRecord::new(self.run.files, self.run.schedules, self.date, &self.overview.totals)
            .against(agreed.as_ref());
        let bytes = record
            .to_json(&self.written, &self.drawn_from)
            .map_err(|error| folder.refused(RECORD, &io::Error::from(error)))?;
        folder.put(RECORD, &bytes)?;
        folder.swap_in()?;
        Ok((self.overview, self.written))
    }
}

/// An absurd sum as the reason why a file cannot be written.
fn too_large(fault: QuantityFault) -> io::Error {
    io::Error::other(fault)
}

/// Begins a table of the output.
pub(super) fn table(
    folder: &OutputFolder,
    name: &str,
    columns: &[Column],
) -> Result<CsvTable<Digesting>, Problem> {
    folder
        .create(name)
        .and_then(|file| CsvTable::new(file, columns))
        .map_err(|error| folder.refused(name, &error))
}

impl Sink for Output<'_, '_> {
    type Piece = Piece;
    type Error = Problem;

    fn expect<'i>(&mut self, claims: impl Iterator<Item = &'i Intake>) {
        let claims: Vec<&Intake> = claims.collect();
        let mut has_pages = false;
        if let Some(supplements) = &mut self.supplements {
            supplements.expect(claims.iter().copied());
            has_pages = supplements.has_pages();
        }
        if self.claim_workbooks || !self.papers.is_empty() || has_pages {
            if self.accepted == self.named_from + self.names.len() {
                self.names.clear();
                self.named_from = self.accepted;
            }
            self.names.extend(claims.into_iter().map(|intake| self.file_names.give(&intake.claim.key)));
        }
    }

    fn draw(&self, done: &Done<'_>) -> Piece {
        let subject = self.run.subject(done);
        let has_document = subject.is_some() && self.papers.iter().any(|(paper, _)| *paper == Paper::Claim);
        let document = has_document.then(|| self.path(CLAIMS, done.number));
        let link = document.as_deref();
        let row = claims::row(done, link, &self.run);
        let drawn = subject.as_ref().filter(|_| self.claim_workbooks || !self.papers.is_empty());
        let (papers, drawn_from) = drawn
            .map_or_else(Default::default, |subject| self.documents(subject, &row, self.name(done.number)));
        let rows = |wanted: bool, rows: fn(&Subject<'_>) -> Vec<Vec<Field>>| {
            let rows = subject.as_ref().filter(|_| wanted).map_or_else(Vec::new, rows);
            if rows.is_empty() { Ok(Rows::default()) } else { Rows::draw(rows.iter().map(Vec::as_slice)) }
        };
        let claim = &done.intake.claim;
        let owner = claim.parties.owner.as_ref().map_or("", |name| name.value.as_str());
        let view = self.assessments.is_some() || self.supplements.is_some();
        let view = view.then(|| ClaimView::new(done, link, &self.run));
        let (view, supplement) = match (view, &self.supplements) {
            (Some(view), Some(supplements)) => {
                supplements.draw(view, subject.as_ref(), self.draw, &self.folder, || self.name(done.number))
            }
            (view, _) => (view, Supplemented::default()),
        };
        Piece {
            claim_row: if self.claims.is_some() { Rows::draw([&*row]) } else { Ok(Rows::default()) },
            claim: row,
            panels: rows(self.panels.is_some(), panels::rows),
            lines: rows(self.lines.is_some(), lines::rows),
            assessment: match view.filter(|_| self.assessments.is_some()) {
                Some(view) => view.to_line(),
                None => Ok(Vec::new()),
            },
            lot: if self.lots.is_some() { LotClaim::of(done, link) } else { Ok(None) },
            insurer: claim.parties.insurer.as_ref().map(|name| name.value.clone()).unwrap_or_default(),
            key: claim.key.text.clone(),
            problems: done.problems().cloned().chain(self.run.unready(done)).collect(),
            glance: self.overview.glance(done),
            papers,
            supplement,
            group: GroupPiece::of(owner, subject.as_ref().filter(|_| self.listings.is_wanted())),
            drawn_from,
            document,
        }
    }

    fn accept(&mut self, piece: Piece) -> Result<(), Problem> {
        self.accepted += 1;
        self.overview.taken_over += u64::from(piece.papers.all_taken_over());
        self.drawn_from.extend(piece.drawn_from);
        for paper in piece.papers.written.into_iter().chain(piece.supplement.papers.written) {
            self.written.push(paper?);
        }
        if let Some(supplements) = &mut self.supplements {
            supplements.accept(&piece.supplement.row, &self.folder)?;
        }
        if let Some(page) = &mut self.batch_page {
            page.add(&piece.claim, piece.document.as_deref(), &piece.glance.needs);
        }
        if let Some(table) = &mut self.claims {
            let added = piece.claim_row.and_then(|row| table.add(&row));
            added.map_err(|error| self.folder.refused(CLAIMS_TABLE, &error))?;
        }
        if let Some(table) = &mut self.panels {
            let added = piece.panels.and_then(|rows| table.add(&rows));
            added.map_err(|error| self.folder.refused(PANELS_TABLE, &error))?;
        }
        if let Some(table) = &mut self.lines {
            let added = piece.lines.and_then(|rows| table.add(&rows));
            added.map_err(|error| self.folder.refused(LINES_TABLE, &error))?;
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
        let totals = &piece.glance.totals;
        self.listings.claim(&piece.claim, &piece.insurer, totals, piece.group, &self.folder)?;
        let lot = piece.lot.map_err(|fault| self.folder.refused(LOTS_TABLE, &too_large(fault)))?;
        if let (Some(lots), Some(lot)) = (&mut self.lots, lot) {
            lots.add(lot);
        }
        self.by_insurer.entry(piece.insurer).or_default().add(&piece.glance.totals);
        for problem in &piece.problems {
            self.list(problem, Some(&piece.key))?;
        }
        for problem in piece.papers.unprinted.iter().chain(&piece.supplement.papers.unprinted) {
            self.report(problem)?;
        }
        self.overview.add(piece.glance);
        Ok(())
    }
}

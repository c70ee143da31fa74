//! Supplements as they are written: a page for each claim that is priced, a row for each that is or was agreed.

use super::Agreed;
use crate::claim::Intake;
use crate::problem::{Problem, catalogue::agreed};
use crate::quantity::Date;
use crate::report::Subject;
use crate::report::csv::CsvTable;
use crate::report::document::{Imprint, supplement_page};
use crate::report::folder::{Digesting, OutputFolder, Written};
use crate::report::json::ClaimView;
use crate::report::output::{Draw, table};
use crate::report::papers::Papers;
use crate::report::run_record::{SUPPLEMENTS, VERSION};
use crate::report::tables::{Field, supplements};

/// Their table.
pub const SUPPLEMENTS_TABLE: &str = "supplements.csv";

/// The supplements of a run.
pub struct Supplements<'d> {
    /// What they are held against.
    pub agreed: &'d Agreed,
    date: Option<Date>,
    table: Option<CsvTable<Digesting>>,
    keys: Vec<String>,
}

/// What was drawn of one claim.
#[derive(Default)]
pub struct Supplemented {
    /// Its row; none where nothing could be compared.
    pub row: Vec<Field>,
    /// Its pages, and what kept them from being printed.
    pub papers: Papers,
}

impl<'d> Supplements<'d> {
    /// Begins them; files are written where they are wanted.
    pub fn begin(
        agreed: &'d Agreed,
        folder: &OutputFolder,
        is_wanted: bool,
        date: Option<Date>,
    ) -> Result<Self, Problem> {
        let table = if is_wanted {
            folder.folder(SUPPLEMENTS)?;
            Some(table(folder, SUPPLEMENTS_TABLE, supplements::COLUMNS)?)
        } else {
            None
        };
        Ok(Self { agreed, date, table, keys: Vec::new() })
    }

    /// Whether pages of claims are written, whose files need names.
    pub fn has_pages(&self) -> bool {
        self.table.is_some()
    }

    /// Sees claims that are drawn next.
    pub fn expect<'i>(&mut self, claims: impl Iterator<Item = &'i Intake>) {
        self.keys.extend(claims.map(|intake| intake.claim.key.text.clone()));
    }

    /// Draws a claim's supplement and says what changed in its data.
    pub fn draw<'n>(
        &self,
        view: ClaimView,
        subject: Option<&Subject<'_>>,
        draw: &dyn Draw,
        folder: &OutputFolder,
        name: impl Fn() -> &'n str,
    ) -> (Option<ClaimView>, Supplemented) {
        let change = match self.agreed.compare(&view) {
            Ok(change) => change,
            Err(problem) => {
                let mut told = Supplemented::default();
                told.papers.unprinted.push(problem);
                return (Some(view), told);
            }
        };
        let mut drawn = Supplemented::default();
        let mut document = None;
        if let Some(subject) = subject.filter(|_| self.has_pages()) {
            let imprint = Imprint { tool_version: VERSION, run_date: self.date };
            let page = supplement_page(subject, &imprint, &change, &self.agreed.file);
            let name = format!("{SUPPLEMENTS}/{}", name());
            let path = format!("{name}.html");
            let put = |html: String| folder.put(&path, html.as_bytes());
            drawn.papers.written.push(draw.supplement(&page).and_then(put));
            match draw.print_supplement(&page, subject) {
                None => {}
                Some(Ok(bytes)) => drawn.papers.written.push(folder.put(&format!("{name}.pdf"), &bytes)),
                Some(Err(problems)) => drawn.papers.unprinted(problems),
            }
            document = Some(path);
        }
        drawn.row = supplements::row(view.key(), &change, document.as_deref());
        (Some(view.supplemented(change)), drawn)
    }

    /// Takes a claim's row.
    pub fn accept(&mut self, row: &[Field], folder: &OutputFolder) -> Result<(), Problem> {
        if let Some(table) = self.table.as_mut().filter(|_| !row.is_empty()) {
            table.row(row).map_err(|error| folder.refused(SUPPLEMENTS_TABLE, &error))?;
        }
        Ok(())
    }

    /// Claims that were agreed and are in no sheet now: their rows, and a problem for each.
    pub fn gone(&mut self, folder: &OutputFolder) -> Result<Vec<Problem>, Problem> {
        let mut problems = Vec::new();
        for (claim, change) in self.agreed.gone(self.keys.iter().map(String::as_str)) {
            if let Some(table) = &mut self.table {
                let added = table.row(&supplements::row(claim, &change, None));
                added.map_err(|error| folder.refused(SUPPLEMENTS_TABLE, &error))?;
            }
            problems.push(agreed::gone(&self.agreed.file.path, claim));
        }
        Ok(problems)
    }

    /// Ends their table.
    pub fn finish(self, folder: &OutputFolder) -> Result<Option<Written>, Problem> {
        let ended = self.table.map(|table| table.finish().finish()).transpose();
        ended.map_err(|error| folder.refused(SUPPLEMENTS_TABLE, &error))
    }
}

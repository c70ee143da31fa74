//! Documents as PDF: what can be asked for, and what becomes of it in a program that was built without.

use crate::problem::Problem;
#[cfg(not(feature = "pdf"))]
use crate::problem::catalogue::output;
use crate::report::Subject;
use crate::report::document::Imprint;
use crate::report::output::Paper;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// How documents are printed.
#[derive(Debug, Args)]
pub struct PrintingArgs {
    /// Write each claim's documents as PDF as well: tagged, PDF/A-2a and PDF/UA-1.
    #[arg(long)]
    pdf: bool,

    /// The paper of these PDF files.
    #[arg(long, value_name = "PAPER", requires = "pdf", default_value = "a4")]
    paper: PaperArg,

    /// A folder of fonts for characters that are neither Latin, Greek nor Cyrillic.
    #[arg(long, value_name = "DIR", requires = "pdf")]
    fonts: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperArg {
    /// ISO A4
    A4,
    /// US Letter
    Letter,
}

#[cfg(feature = "pdf")]
pub use with_pdf::Printing;

#[cfg(feature = "pdf")]
mod with_pdf {
    use super::{Imprint, Paper, PaperArg, PrintingArgs, Problem, Subject};
    use crate::problem::catalogue::output;
    use crate::report::document::{fill, owner_sheet, work_order};
    use crate::report::pdf::{Fonts, PaperSize, Press};

    /// What prints documents.
    pub struct Printing(Press);

    impl PrintingArgs {
        /// Makes ready what was asked for.
        pub fn printing(&self) -> Result<Option<Printing>, Problem> {
            if !self.pdf {
                return Ok(None);
            }
            let fonts =
                self.fonts.as_ref().map_or_else(|| Ok(Fonts::bundled()), |dir| Fonts::with_folder(dir))?;
            let paper = match self.paper {
                PaperArg::A4 => PaperSize::A4,
                PaperArg::Letter => PaperSize::Letter,
            };
            let press = Press::new(paper, fonts);
            let press = press.map_err(|why| output::not_drawn("any PDF", &why.to_string()))?;
            Ok(Some(Printing(press)))
        }
    }

    impl Printing {
        /// A document of a claim.
        pub fn print(
            &self,
            paper: Paper,
            subject: &Subject<'_>,
            imprint: &Imprint<'_>,
        ) -> Result<Vec<u8>, Vec<Problem>> {
            let press = &self.0;
            let inspections = &subject.claim.inspections;
            let inspected = subject.assessment.inspection.and_then(|index| inspections.get(index)?.date);
            let made = imprint.run_date.or(inspected.map(|day| day.value));
            let printed = match paper {
                Paper::Claim => press.claim(&fill(subject, imprint), made),
                Paper::WorkOrder => press.work_order(&work_order(subject, imprint), made),
                Paper::Owner => press.owner_sheet(&owner_sheet(subject, imprint), made),
            };
            printed.map_err(|unset| unset.problems(subject.claim))
        }
    }
}

/// What prints documents: nothing can, in a program that was built without PDF.
#[cfg(not(feature = "pdf"))]
pub enum Printing {}

#[cfg(not(feature = "pdf"))]
impl PrintingArgs {
    /// Refuses what cannot be done.
    pub fn printing(&self) -> Result<Option<Printing>, Problem> {
        if self.pdf { Err(output::pdf_left_out()) } else { Ok(None) }
    }
}

#[cfg(not(feature = "pdf"))]
impl Printing {
    /// No document.
    pub fn print(&self, _: Paper, _: &Subject<'_>, _: &Imprint<'_>) -> Result<Vec<u8>, Vec<Problem>> {
        match *self {}
    }
}

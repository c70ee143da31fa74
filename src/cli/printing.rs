//! Documents as PDF: what can be asked for, and what becomes of it in a program that was built without.

use crate::problem::Problem;
#[cfg(not(feature = "pdf"))]
use crate::problem::catalogue::output;
use crate::report::Subject;
use crate::report::document::{Imprint, SupplementPage};
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
    use super::{Imprint, Paper, PaperArg, PrintingArgs, Problem, Subject, SupplementPage};
    use crate::problem::catalogue::output;
    use crate::quantity::Date;
    use crate::report::document::{fill, owner_sheet, work_order};
    use crate::report::pdf::{Fonts, PaperSize, Press};
    use std::fs;
    use std::path::{Path, PathBuf};

    /// What a font's file is called.
    const ENDINGS: [&str; 4] = ["ttf", "otf", "ttc", "otc"];

    /// What prints documents.
    pub struct Printing(Press);

    impl PrintingArgs {
        /// Makes ready what was asked for.
        pub fn printing(&self, threads: Option<usize>) -> Result<Option<Printing>, Problem> {
            if !self.pdf {
                return Ok(None);
            }
            let fonts = self.fonts.as_deref().map_or_else(|| Ok(Fonts::bundled()), fonts_of)?;
            let paper = match self.paper {
                PaperArg::A4 => PaperSize::A4,
                PaperArg::Letter => PaperSize::Letter,
            };
            let press = Press::new(paper, fonts, threads);
            let press = press.map_err(|why| output::not_drawn("any PDF", &why.to_string()))?;
            Ok(Some(Printing(press)))
        }
    }

    /// The fonts of a folder beside our own, in the order of their files' names, so that the same folder gives the same
    /// bytes.
    fn fonts_of(folder: &Path) -> Result<Fonts, Problem> {
        let refused = |why: &str| output::fonts_not_read(&folder.display().to_string(), why);
        let entries = fs::read_dir(folder).map_err(|error| refused(&error.to_string()))?;
        let paths = entries.map(|entry| entry.map(|entry| entry.path())).collect::<Result<Vec<_>, _>>();
        let mut paths: Vec<PathBuf> = paths.map_err(|error| refused(&error.to_string()))?;
        paths.retain(|path| is_font(path));
        paths.sort_unstable();
        if paths.is_empty() {
            return Err(refused("it holds no file that ends in .ttf, .otf, .ttc or .otc"));
        }
        let mut files = Vec::new();
        for path in paths {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            files.push(fs::read(&path).map_err(|error| refused(&format!("{name}: {error}")))?);
        }
        Fonts::with(files).ok_or_else(|| refused("a file in it is no font that can be read"))
    }

    fn is_font(path: &Path) -> bool {
        let ending = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
        ENDINGS.contains(&ending.as_str())
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
            let made = made(subject, imprint);
            let printed = match paper {
                Paper::Claim => press.claim(&fill(subject, imprint), made),
                Paper::WorkOrder => press.work_order(&work_order(subject, imprint), made),
                Paper::Owner => press.owner_sheet(&owner_sheet(subject, imprint), made),
            };
            printed.map_err(|unset| unset.problems(subject.claim))
        }

        /// What changed of a claim since it was agreed.
        pub fn print_supplement(
            &self,
            page: &SupplementPage,
            subject: &Subject<'_>,
            imprint: &Imprint<'_>,
        ) -> Result<Vec<u8>, Vec<Problem>> {
            let printed = self.0.supplement(page, made(subject, imprint));
            printed.map_err(|unset| unset.problems(subject.claim))
        }
    }

    /// The day of a document, else that of the inspection it rests on.
    fn made(subject: &Subject<'_>, imprint: &Imprint<'_>) -> Option<Date> {
        let inspections = &subject.claim.inspections;
        let inspected = subject.assessment.inspection.and_then(|index| inspections.get(index)?.date);
        imprint.run_date.or(inspected.map(|day| day.value))
    }
}

/// What prints documents: nothing can, in a program that was built without PDF.
#[cfg(not(feature = "pdf"))]
pub enum Printing {}

#[cfg(not(feature = "pdf"))]
impl PrintingArgs {
    /// Refuses what cannot be done.
    pub fn printing(&self, _: Option<usize>) -> Result<Option<Printing>, Problem> {
        if self.pdf { Err(output::pdf_left_out()) } else { Ok(None) }
    }
}

#[cfg(not(feature = "pdf"))]
impl Printing {
    /// No document.
    pub fn print(&self, _: Paper, _: &Subject<'_>, _: &Imprint<'_>) -> Result<Vec<u8>, Vec<Problem>> {
        match *self {}
    }

    /// No document.
    pub fn print_supplement(
        &self,
        _: &SupplementPage,
        _: &Subject<'_>,
        _: &Imprint<'_>,
    ) -> Result<Vec<u8>, Vec<Problem>> {
        match *self {}
    }
}

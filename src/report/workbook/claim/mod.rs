//! A claim as a workbook that calculates: what was counted, banded, rated and added up, as formulas with our results.
//!
//! The steps of the working are drawn as cells, so that every line, of whatever kind, stands here as it was made.
//! Methods, limits and which lines there are stand as values: a spreadsheet does not decide.

mod arithmetic;
mod counts;
mod decided;
mod lines;
mod plan;
mod rates;
mod rounding;
mod sheet;
mod working;

use super::{guarded, properties};
use crate::report::Subject;
use crate::report::document::{Imprint, fill, steps_in_words};
use plan::Plan;
use rust_xlsxwriter::Workbook;
use sheet::Dress;
use std::io;

/// The workbook of a claim whose working was recorded.
pub fn draw(subject: &Subject<'_>, imprint: &Imprint<'_>) -> io::Result<Vec<u8>> {
    let document = fill(subject, imprint);
    let words = steps_in_words(subject, imprint);
    let plan = Plan::new(*subject, &document, &words);
    let dress = Dress::new(subject.assessment.currency);
    guarded(|| {
        let mut workbook = Workbook::new();
        // Thousands of small files: packing them tighter takes longer than writing the bytes.
        workbook.set_zip_compression_level(1);
        workbook.set_properties(&properties(&document.head.short_key)?);
        lines::fill(&mut workbook, &dress, &plan)?;
        counts::fill(&mut workbook, &dress, &plan)?;
        decided::decisions(&mut workbook, &dress, &document)?;
        working::fill(&mut workbook, &dress, &plan)?;
        rates::fill(&mut workbook, &dress, &plan)?;
        decided::sources(&mut workbook, &dress, &document)?;
        workbook.save_to_buffer()
    })
}

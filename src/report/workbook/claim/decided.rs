//! What was decided, and from what all of it was made: values, which a spreadsheet does not compute.

use super::plan::{DECISIONS, MADE_FROM};
use super::sheet::{Dress, Sheet, behind};
use crate::report::document::{Document, Entry};
use crate::report::wording;
use crate::report::workbook::listing::clipped;
use rust_xlsxwriter::{Workbook, XlsxError};

const FIRST: u32 = 4;

pub(super) fn decisions(
    workbook: &mut Workbook,
    dress: &Dress,
    document: &Document,
) -> Result<(), XlsxError> {
    let decisions = &document.decisions;
    let mut widths = vec![26, 28];
    widths.extend(decisions.methods.iter().map(|_| 14));
    widths.push(64);
    let mut sheet = Sheet::new(workbook, dress, (DECISIONS, "Decisions"), &widths)?;
    sheet.wide();
    let last = behind(widths.len() - 1);
    sheet.words(
        1,
        last,
        "All of this stands as it was assessed and follows no count: which way of repair is taken, what each would have \
         cost, and which limits are crossed.",
        &dress.quiet,
    )?;
    let methods: Vec<String> = decisions.methods.iter().map(|method| wording::sentence(method)).collect();
    let mut headings = vec![("Panel", false), ("Method", false)];
    headings.extend(methods.iter().map(|method| (method.as_str(), true)));
    headings.push(("Why", false));
    sheet.headings(FIRST - 1, &headings)?;
    for (row, decision) in (FIRST..).zip(&decisions.rows) {
        let reasons = decision.reasons.join(" ");
        sheet.text(row, 0, &decision.panel, &dress.text)?;
        sheet.text(row, 1, &decision.method, &dress.text)?;
        sheet.text(row, last, &reasons, &dress.beside)?;
        sheet.height(row, &[(0, &decision.panel), (1, &decision.method), (usize::from(last), &reasons)])?;
        for (column, choice) in (2..).zip(&decision.choices) {
            match choice.as_ref().map(|choice| (choice.amount, choice.unpriced)) {
                Some((Some(amount), _)) => sheet.money(row, column, amount.0, &dress.amount)?,
                Some((None, why)) => sheet.text(row, column, why.unwrap_or_default(), &dress.quiet_right)?,
                None => {}
            }
        }
    }
    Ok(())
}

pub(super) fn sources(workbook: &mut Workbook, dress: &Dress, document: &Document) -> Result<(), XlsxError> {
    let mut sheet = Sheet::new(workbook, dress, (MADE_FROM, "Sources"), &[44, 40, 68])?;
    sheet.wide();
    let provenance = &document.provenance;
    let mut row = 2;
    for fact in &provenance.facts {
        let value = match &fact.value {
            Entry::Words(text) | Entry::Number(text) | Entry::Cell(text) => text.clone(),
            Entry::Said(text) => wording::said(text),
            Entry::Amount(amount) => wording::amount(amount.0),
        };
        sheet.text(row, 0, &wording::sentence(fact.label), &dress.quiet)?;
        sheet.inner.merge_range(row, 1, row, 2, &clipped(&value), &dress.text)?;
        sheet.height(row, &[(2, &value)])?;
        row += 1;
    }
    sheet.headings(row + 1, &[("File", false), ("Sheets", false), ("SHA-256", false)])?;
    row += 2;
    for file in &provenance.files {
        let path = wording::said(&file.path);
        sheet.text(row, 0, &path, &dress.text)?;
        sheet.text(row, 1, &file.sheets, &dress.text)?;
        sheet.text(row, 2, file.digest.as_deref().unwrap_or_default(), &dress.text)?;
        sheet.height(row, &[(0, &path), (1, &file.sheets)])?;
        row += 1;
    }
    row += 1;
    let cautions = document.cautions.iter().map(|(about, caution)| format!("{about}: {caution}"));
    for text in cautions.chain([document.standing.to_owned()]) {
        sheet.words(row, 2, &text, &dress.text)?;
        row += 1;
    }
    Ok(())
}

//! The first sheet: lines, totals, who pays what.

use super::plan::{AMOUNT, CHANGED, CLAIM, COUNTS, FIRST_LINE, Plan, name};
use super::sheet::{Dress, Sheet, hours};
use crate::assess::{Formula, NumberedLine, Shown, StepId};
use crate::report::document::{LineGroup, Total};
use crate::report::wording;
use rust_xlsxwriter::{FormatAlign, FormatBorder, RowNum, Workbook, XlsxError};

const LAST: u16 = AMOUNT + 1;
const SAME: &str = "Counts are as they were assessed.";

pub(super) fn fill(workbook: &mut Workbook, dress: &Dress, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let document = plan.document;
    let title = format!("{} {}", document.head.what, document.head.short_key);
    let mut sheet = Sheet::new(workbook, dress, (CLAIM, &title), &[6, 50, 9, 9, 15, 15])?;
    let terms = &plan.subject.schedule.terms;
    let schedule = format!(
        "Schedule {}, edition {}. Amounts in {}, rounded {}.",
        wording::said(&terms.name.value),
        wording::said(&terms.edition.value),
        document.currency,
        terms.rounding.value.words()
    );
    sheet.words(1, LAST, &document.summary.vehicle, &dress.strong)?;
    sheet.words(2, LAST, &schedule, &dress.text)?;
    sheet.words(3, LAST, &document.summary.to_do, &dress.text)?;
    status(&mut sheet)?;
    sheet.words(
        5,
        LAST,
        "Change the framed cells on the sheet Counts, and amounts follow. Methods, limits, the total-loss screen and \
         which lines there are stand as values: they are decided by an assessment.",
        &dress.quiet,
    )?;
    let headings = [
        ("Line", true),
        ("What for, as assessed", false),
        ("Hours", true),
        ("Tax", true),
        ("Amount", true),
        ("Panel", true),
    ];
    sheet.headings(FIRST_LINE - 1, &headings)?;
    let mut row = FIRST_LINE;
    let mut lines = plan.lines.iter();
    for group in &document.lines.groups {
        group_row(&mut sheet, row, group, plan)?;
        row += 1;
        // The drawn line first: where those of the group end, none of the claim's may be taken.
        for (drawn, line) in group.lines.iter().zip(lines.by_ref()) {
            line_row(&mut sheet, row, line, &drawn.what, plan)?;
            row += 1;
        }
    }
    totals(&mut sheet, row + 1, plan)
}

/// Whether the counts are still those that were assessed.
fn status(sheet: &mut Sheet<'_>) -> Result<(), XlsxError> {
    let changed = format!("{COUNTS}!{}", name(CHANGED));
    let dress = sheet.dress;
    sheet.words(4, LAST, SAME, &dress.status)?;
    let formula = format!(
        "IF({changed}>0,\"Decision to be reassessed: changed counts: \"&{changed}&\". Amounts follow them; methods and \
         limits do not.\",\"{SAME}\")"
    );
    sheet.formula(4, 0, &formula, SAME, &dress.status)?;
    sheet.mark_where((4, 0), (4, LAST), &format!("{changed}>0"))
}

fn group_row(
    sheet: &mut Sheet<'_>,
    row: RowNum,
    group: &LineGroup,
    plan: &Plan<'_>,
) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let title = match group.method {
        Some(method) => format!("{}: {method}", group.title),
        None => group.title.clone(),
    };
    for column in 0..=LAST {
        sheet.inner.write_blank(row, column, &dress.group)?;
    }
    sheet.text(row, 1, &title, &dress.group.clone().set_indent(1))?;
    sheet.height(row, &[(1, &title)])?;
    let Some(sum) = group.sum else { return Ok(()) };
    let panel = plan
        .subject
        .assessment
        .panels
        .iter()
        .find(|panel| wording::sentence(&panel.panel.to_string()) == group.title);
    let cell = panel.and_then(|panel| plan.outside(panel.chosen()?.step));
    let format = dress.amount.clone().set_bold().set_border_top(FormatBorder::Hair);
    match cell {
        Some(cell) => sheet.formula(row, LAST, &cell, &sum.0.to_string(), &format),
        None => sheet.money(row, LAST, sum.0, &format),
    }
}

fn line_row(
    sheet: &mut Sheet<'_>,
    row: RowNum,
    numbered: &NumberedLine<'_>,
    what: &str,
    plan: &Plan<'_>,
) -> Result<(), XlsxError> {
    let (line, dress) = (numbered.line, sheet.dress);
    sheet.number(row, 0, &numbered.number.to_string(), &dress.number)?;
    sheet.text(row, 1, what, &dress.beside)?;
    sheet.height(row, &[(1, what)])?;
    if let Some((_, time)) = line.hours {
        match time_cell(line.step, plan) {
            Some(cell) => sheet.formula(row, 2, &cell, &hours(time), &dress.hours)?,
            None => sheet.time(row, 2, time, &dress.hours)?,
        }
    }
    sheet.number(row, 3, &line.tax.to_string(), &dress.percent)?;
    match plan.outside(line.step) {
        Some(cell) => sheet.formula(row, AMOUNT, &cell, &line.amount.to_string(), &dress.amount),
        None => sheet.money(row, AMOUNT, line.amount, &dress.amount),
    }
}

/// The cell of a line's time: what its rate is multiplied by.
fn time_cell(line: StepId, plan: &Plan<'_>) -> Option<String> {
    let Formula::Times { by, .. } = plan.step(line)?.formula else { return None };
    matches!(plan.step(by)?.result, Shown::Time(_)).then(|| plan.outside(by))?
}

/// Net to gross, then who pays what; beside the formulas what was assessed.
fn totals(sheet: &mut Sheet<'_>, mut row: RowNum, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let (dress, document) = (sheet.dress, plan.document);
    let lines = &document.lines;
    let steps = plan.document_steps();
    let of = |index: usize| steps.iter().find(|(at, _)| *at == index).map(|(_, id)| *id);
    let blocks = [(0, &lines.totals), (lines.totals.len(), &lines.settlement)];
    for (column, heading) in [(AMOUNT, document.currency), (LAST, "as assessed")] {
        sheet.text(row, column, heading, &dress.heading_right)?;
    }
    row += 1;
    for (first, block) in blocks.into_iter().filter(|(_, block)| !block.is_empty()) {
        for (index, total) in block.iter().enumerate() {
            let label = tax_label(first + index, plan).unwrap_or_else(|| total.label.clone());
            total_row(sheet, row, (total, &label), of(first + index), plan)?;
            row += 1;
        }
        row += 1;
    }
    let screen = lines.screen.as_ref().map(|screen| format!("{screen} This stands as it was assessed."));
    let open = document.summary.person.iter().cloned();
    for text in lines.without.iter().cloned().chain(open).chain(screen) {
        sheet.words(row, LAST, &text, &dress.text)?;
        row += 1;
    }
    Ok(())
}

/// The label of a tax, which stands behind the net amount: without what it is on, for that follows counts.
fn tax_label(index: usize, plan: &Plan<'_>) -> Option<String> {
    let tax = plan.subject.assessment.totals.taxes.get(index.checked_sub(1)?)?;
    Some(wording::sentence(&wording::tax_line(tax.percent)))
}

fn total_row(
    sheet: &mut Sheet<'_>,
    row: RowNum,
    (total, label): (&Total, &str),
    step: Option<StepId>,
    plan: &Plan<'_>,
) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let (text, amount) =
        if total.main { (&dress.total_text, &dress.total) } else { (&dress.text, &dress.amount) };
    if total.main {
        for column in 1..=AMOUNT {
            sheet.inner.write_blank(row, column, text)?;
        }
    }
    sheet.text(row, 1, label, &text.clone().set_align(FormatAlign::Left).set_indent(1))?;
    sheet.height(row, &[(1, label)])?;
    match step.and_then(|step| plan.outside(step)) {
        Some(cell) => sheet.formula(row, AMOUNT, &cell, &total.amount.0.to_string(), amount)?,
        None => sheet.money(row, AMOUNT, total.amount.0, amount)?,
    }
    sheet.money(row, LAST, total.amount.0, &dress.value)
}

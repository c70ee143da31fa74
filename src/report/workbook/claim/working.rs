//! Every step that the lines and totals rest on, as a cell.

use super::arithmetic::{Content, content, share};
use super::plan::{
    Entry, FIRST_SIZE, FIRST_STEP, Plan, RATES, RESULT, SIZES, WORKING, at, column, name, range,
};
use super::sheet::{Dress, MOST, Sheet, hours};
use crate::assess::{Shown, Step, StepId};
use crate::report::wording;
use rust_xlsxwriter::{Format, RowNum, Workbook, XlsxError};

const KIND: u16 = RESULT + 1;
const REMARK: u16 = RESULT + 2;

pub(super) fn fill(workbook: &mut Workbook, dress: &Dress, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let mut sheet = Sheet::new(workbook, dress, (WORKING, "Working"), &[7, 50, 26, 14, 20, 22])?;
    sheet.wide();
    sheet.words(
        1,
        REMARK,
        "Steps have the names that the claim's document gives them; a cell such as s2 D14 is cell D14 of sheet s2 in the \
         list of sources. An amount is taken in its smallest unit, brought to more decimals than it can have, so that \
         no trace of binary floats is left, then rounded by the schedule's mode. #N/A: the schedule has no rate there.",
        &dress.quiet,
    )?;
    let headings = [
        ("Step", false),
        ("What, as assessed", false),
        ("Read from", false),
        ("Result", true),
        ("In", false),
        ("Remark", false),
    ];
    sheet.headings(FIRST_STEP - 1, &headings)?;
    for section in &plan.sections {
        for column in 0..=REMARK {
            sheet.inner.write_blank(section.row, column, &dress.group)?;
        }
        sheet.text(section.row, 1, &section.title, &dress.group)?;
        for (row, entry) in (section.row + 1..).zip(&section.entries) {
            match entry {
                Entry::Step(id) => step_row(&mut sheet, row, *id, plan)?,
                Entry::Share(id, index) => share_row(&mut sheet, row, *id, *index, plan)?,
            }
        }
    }
    Ok(())
}

fn share_row(
    sheet: &mut Sheet<'_>,
    row: RowNum,
    id: StepId,
    index: usize,
    plan: &Plan<'_>,
) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    sheet.text(row, 1, &format!("share {} before it is made whole", index + 1), &dress.text)?;
    sheet.text(row, KIND, "smallest units", &dress.quiet_beside)?;
    match share(plan, id, index) {
        Some((formula, result)) => sheet.formula(row, RESULT, &formula, &result, &dress.number),
        None => sheet.text(row, REMARK, "not computed here", &dress.quiet),
    }
}

fn step_row(sheet: &mut Sheet<'_>, row: RowNum, id: StepId, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let Some(step) = plan.step(id) else { return Ok(()) };
    if let Some(words) = plan.words.get(id.0 as usize) {
        sheet.text(row, 0, words.name.as_deref().unwrap_or_default(), &dress.text)?;
        sheet.text(row, 1, &words.what, &dress.text)?;
        sheet.text(row, 2, &words.cells, &dress.quiet)?;
        sheet.height(row, &[(1, &words.what), (2, &words.cells)])?;
    }
    let format = format(&step.result, dress);
    let content = match &step.result {
        Shown::Money(money) if money.minor().unsigned_abs() >= MOST => Content::Stays,
        _ => content(plan, step),
    };
    match (&content, digits(&step.result)) {
        (Content::Formula(formula), Some(result)) => sheet.formula(row, RESULT, formula, &result, format)?,
        _ => value(sheet, row, step, plan)?,
    }
    if content == Content::Stays {
        sheet.text(row, REMARK, "stands as it was assessed", &dress.quiet)?;
    }
    kind(sheet, row, step, plan)
}

fn format<'d>(shown: &Shown, dress: &'d Dress) -> &'d Format {
    match shown {
        Shown::Money(_) => &dress.amount,
        Shown::Time(_) => &dress.hours,
        Shown::Percent(_) => &dress.percent,
        _ => &dress.number,
    }
}

/// A result in digits, where it is a number. Bands are numbered from 1.
fn digits(shown: &Shown) -> Option<String> {
    Some(match shown {
        Shown::Money(money) => money.to_string(),
        Shown::Rate(rate) => rate.to_string(),
        Shown::Count(count) => count.to_string(),
        Shown::Weighted(number) => number.to_string(),
        Shown::Time(time) => hours(*time),
        Shown::Percent(percent) => percent.to_string(),
        Shown::SizeBand(band) | Shown::CountBand(band) => (band + 1).to_string(),
        Shown::Length(_) | Shown::Area(_) | Shown::Word(_) => return None,
    })
}

fn value(sheet: &mut Sheet<'_>, row: RowNum, step: &Step, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let format = format(&step.result, dress);
    match (&step.result, digits(&step.result)) {
        (Shown::Time(time), _) => sheet.time(row, RESULT, *time, format),
        (_, Some(digits)) => sheet.number(row, RESULT, &digits, format),
        (shown, None) => sheet.text(row, RESULT, &wording::shown(shown, plan.subject.schedule), &dress.text),
    }
}

/// In what the result is; of a band, its name.
fn kind(sheet: &mut Sheet<'_>, row: RowNum, step: &Step, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let schedule = plan.subject.schedule;
    let currency = plan.document.currency;
    let last = (SIZES, FIRST_SIZE + column(schedule.sizes.len().max(1)) - 1);
    let names = match step.result {
        Shown::SizeBand(_) => range((SIZES, FIRST_SIZE), last),
        Shown::CountBand(_) => {
            let first = super::plan::FIRST_BAND;
            range((first, 0), (first + at(schedule.counts.len().max(1)) - 1, 0))
        }
        Shown::Money(_) => return sheet.text(row, KIND, currency, &dress.quiet_beside),
        Shown::Rate(_) => return sheet.text(row, KIND, &format!("{currency} each"), &dress.quiet_beside),
        Shown::Count(_) => return sheet.text(row, KIND, "dents", &dress.quiet_beside),
        Shown::Weighted(_) => {
            return sheet.text(row, KIND, "equivalent dents or weight", &dress.quiet_beside);
        }
        Shown::Time(_) => return sheet.text(row, KIND, "hours", &dress.quiet_beside),
        Shown::Length(_) | Shown::Area(_) | Shown::Percent(_) | Shown::Word(_) => return Ok(()),
    };
    let formula = format!("INDEX({RATES}!{names},{})", name((row, RESULT)));
    sheet.formula(row, KIND, &formula, &wording::shown(&step.result, schedule), &dress.quiet_beside)
}

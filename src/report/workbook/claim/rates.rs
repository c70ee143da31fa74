//! The schedule's bands, and the parts of its grid that this claim is rated by.

use super::plan::{Block, FIRST_BAND, FIRST_SIZE, Plan, RATES, SIZES, WEIGHTS, at, column, is_in};
use super::sheet::{Dress, Sheet};
use crate::report::wording;
use crate::schedule::{MixedRule, Per, Price};
use rust_xlsxwriter::{RowNum, Workbook, XlsxError};

/// Size bands that an upright page has room for.
const NARROW: usize = 6;

pub(super) fn fill(workbook: &mut Workbook, dress: &Dress, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let schedule = plan.subject.schedule;
    let mut widths = vec![30, 9, 9];
    widths.extend(schedule.sizes.iter().map(|_| 13));
    let mut sheet = Sheet::new(workbook, dress, (RATES, "Rates"), &widths)?;
    if schedule.sizes.len() > NARROW {
        sheet.wide();
    }
    let last = FIRST_SIZE + column(schedule.sizes.len().max(1)) - 1;
    let text = format!(
        "Mixed sizes: {}. A blank cell has no price. A dent exactly at the upper edge of a size band belongs to it.",
        wording::mixed(schedule)
    );
    sheet.words(1, last, &text, &dress.quiet)?;
    let sizes: Vec<String> = schedule.sizes.iter().map(|band| wording::said(&band.name)).collect();
    let mut headings = vec![("Count band", false), ("from", true), ("to", true)];
    headings.extend(sizes.iter().map(|size| (size.as_str(), true)));
    sheet.headings(SIZES, &headings)?;
    let is_weighted = matches!(schedule.terms.mixed.value, MixedRule::Equivalents(_));
    sheet.text(SIZES + 1, 0, "up to and with", &dress.quiet)?;
    if is_weighted {
        sheet.text(WEIGHTS, 0, "weight", &dress.quiet)?;
    }
    for (number, band) in (FIRST_SIZE..).zip(&schedule.sizes) {
        sheet.text(SIZES + 1, number, &wording::length(band.high), &dress.quiet_right)?;
        if let Some(weight) = band.weight.filter(|_| is_weighted) {
            sheet.number(WEIGHTS, number, &weight.to_string(), &dress.number)?;
        }
    }
    for (row, band) in (FIRST_BAND..).zip(&schedule.counts) {
        sheet.text(row, 0, &wording::count_band(band), &dress.text)?;
        sheet.number(row, 1, &band.from.to_string(), &dress.number)?;
        match band.to {
            Some(to) => sheet.number(row, 2, &to.to_string(), &dress.number)?,
            None => sheet.text(row, 2, "or more", &dress.quiet)?,
        }
    }
    for (block, row) in &plan.blocks {
        draw(&mut sheet, *block, *row, plan)?;
    }
    Ok(())
}

/// The cells of one group that give the same for the same.
fn draw(sheet: &mut Sheet<'_>, block: Block, row: RowNum, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let (schedule, dress) = (plan.subject.schedule, sheet.dress);
    let (group, timed, per) = block;
    let gives = if timed { "hours" } else { plan.document.currency };
    let per_what = match per {
        Per::Panel => "panel",
        Per::Dent => "dent",
    };
    let named =
        schedule.groups.get(usize::from(group.0)).map_or_else(String::new, |name| wording::said(name));
    let title = format!("Rated as {named}: {gives} per {per_what}");
    let last = FIRST_SIZE + column(schedule.sizes.len().max(1)) - 1;
    sheet.words(row, last, &title, &dress.group)?;
    for (count, band) in schedule.counts.iter().enumerate() {
        let row = row + 1 + at(count);
        sheet.text(row, 0, &wording::count_band(band), &dress.text)?;
        for size in 0..schedule.sizes.len() {
            let Some(cell) = schedule.grid.get(group, size, count) else { continue };
            if !is_in(block, &cell.price, cell.per) {
                continue;
            }
            let column = FIRST_SIZE + column(size);
            match cell.price {
                Price::Amount(rate) => sheet.number(row, column, &rate.to_string(), &dress.number)?,
                Price::Time(time) => sheet.time(row, column, time, &dress.hours)?,
            }
        }
    }
    Ok(())
}

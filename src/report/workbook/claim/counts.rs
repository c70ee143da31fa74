//! Counts by panel and size band: framed where amounts follow them, and beside them what was assessed.

use super::plan::{CHANGED, COUNTS, FIRST_PANEL, Plan, at, column, count_cell, name, range};
use super::sheet::{Dress, Sheet, behind};
use crate::assess::{PanelAssessment, PanelState};
use crate::claim::Counted;
use crate::report::wording;
use rust_xlsxwriter::{ColNum, RowNum, Workbook, XlsxError};

const SAME: &str = "as assessed";

pub(super) fn fill(workbook: &mut Workbook, dress: &Dress, plan: &Plan<'_>) -> Result<(), XlsxError> {
    let sizes: Vec<String> =
        plan.subject.schedule.sizes.iter().map(|band| wording::said(&band.name)).collect();
    let columns = Columns::of(sizes.len());
    let mut widths = vec![26];
    widths.extend(sizes.iter().map(|_| 11));
    widths.extend([9, 34, 18, 3]);
    widths.extend(sizes.iter().map(|_| 11));
    let mut sheet = Sheet::new(workbook, dress, (COUNTS, "Counts"), &widths)?;
    sheet.wide();
    sheet.words(
        1,
        columns.check,
        "Dents by size band, measured ones included. Amounts follow the framed cells. A count without a frame has no line \
         that could follow it: a size without dents, a method that does not go by dents, a panel in no total, a rate \
         between count bands. On the right stands what was assessed.",
        &dress.quiet,
    )?;
    let panels = &plan.subject.assessment.panels;
    let last = FIRST_PANEL + at(panels.len().max(1)) - 1;
    let end = columns.dents - 1;
    let (live, kept) = (
        range((FIRST_PANEL, 1), (last, end)),
        range((FIRST_PANEL, columns.kept), (last, columns.kept + end - 1)),
    );
    sheet.text(CHANGED.0, 0, "Changed counts", &dress.strong)?;
    sheet.formula(CHANGED.0, CHANGED.1, &format!("SUMPRODUCT(({live}<>{kept})*1)"), "0", &dress.number)?;
    let mut headings: Vec<(&str, bool)> = vec![("Panel", false)];
    headings.extend(sizes.iter().map(|size| (size.as_str(), true)));
    headings.extend([("Dents", true), ("Method", false), ("Check", false), ("", false)]);
    let copies: Vec<String> = sizes.iter().map(|size| format!("{size} as assessed")).collect();
    headings.extend(copies.iter().map(|size| (size.as_str(), true)));
    sheet.headings(FIRST_PANEL - 1, &headings)?;
    for (index, panel) in panels.iter().enumerate() {
        row(&mut sheet, index, panel, plan, columns)?;
    }
    let rule = format!("{}<>{}", name((FIRST_PANEL, 1)), name((FIRST_PANEL, columns.kept)));
    sheet.mark_where((FIRST_PANEL, 1), (last, end), &rule)
}

/// Columns behind the sizes.
#[derive(Clone, Copy)]
struct Columns {
    dents: ColNum,
    method: ColNum,
    check: ColNum,
    kept: ColNum,
}

impl Columns {
    fn of(sizes: usize) -> Self {
        let dents = behind(sizes + 1);
        Self { dents, method: dents + 1, check: dents + 2, kept: dents + 4 }
    }
}

fn row(
    sheet: &mut Sheet<'_>,
    index: usize,
    panel: &PanelAssessment,
    plan: &Plan<'_>,
    columns: Columns,
) -> Result<(), XlsxError> {
    let dress = sheet.dress;
    let row: RowNum = FIRST_PANEL + at(index);
    let method = wording::method_of(panel);
    let method = if panel.overruled.is_some() { format!("{method} (overruled)") } else { method };
    let title = wording::sentence(&panel.panel.to_string());
    sheet.text(row, 0, &title, &dress.text)?;
    sheet.text(row, columns.method, &method, &dress.beside)?;
    sheet.height(row, &[(0, &title), (usize::from(columns.method), &method)])?;
    if panel.state == PanelState::NotInspected {
        return Ok(());
    }
    for (size, count) in panel.counts.iter().enumerate() {
        let format = if plan.is_live(index, size) { &dress.framed } else { &dress.number };
        let cell = count_cell(index, size);
        let none = count.count == Counted::NoneWritten && count.from_marks == 0;
        for (column, format) in [(cell.1, format), (columns.kept + column(size), &dress.number)] {
            if none {
                sheet.inner.write_blank(row, column, format)?;
            } else {
                sheet.number(row, column, &count.dents().to_string(), format)?;
            }
        }
    }
    let last = panel.counts.len().saturating_sub(1);
    let live = range(count_cell(index, 0), count_cell(index, last));
    let kept = range((row, columns.kept), (row, columns.kept + column(last)));
    sheet.formula(row, columns.dents, &format!("SUM({live})"), &panel.dents.to_string(), &dress.number)?;
    let check = format!("IF(SUMPRODUCT(({live}<>{kept})*1)>0,\"to be reassessed\",\"{SAME}\")");
    sheet.formula(row, columns.check, &check, SAME, &dress.quiet)
}

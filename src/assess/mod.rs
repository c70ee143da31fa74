#![doc = include_str!("README.md")]
#![doc = include_str!("worked.md")]

mod alone;
mod alternatives;
mod base;
mod betterment;
mod bounds;
mod cautions;
mod cells;
mod choose;
mod count;
mod decide;
mod desk;
mod draft;
mod estimate;
mod factors;
mod finding;
mod frame;
mod inspection;
mod items;
mod limits;
mod line;
mod lot;
mod mark;
mod note;
mod notes;
mod operations;
mod panel;
mod panels;
mod price;
mod recount;
mod result;
mod screen;
mod settle;
mod tax;
mod title;
mod totals;
mod vehicle;
mod working;
mod written;

pub use alone::{assess_look, panel_alone};
pub use cautions::{caution_of, cautions_of_item, cautions_of_panel};
pub use choose::{Dates, choose_schedule, choose_schedule_by, choose_whenever};

pub use estimate::{AtEnd, End, Range};
pub use finding::{Crossing, Finding, Measured};
pub use line::{Line, LineKind};
pub use lot::{LotMember, LotRow, LotStatement, lot_statement};
pub use note::{Caution, Excluded, ExclusionReason, Note};
pub use panel::{
    Alternative, MarkAssessment, OpenReason, Overruled, PanelAssessment, PanelState, SizeCount, Unpriced,
};
pub use recount::{Change, Direction, Distance, Fewest, distances, fewest, nearest_decision};
pub use result::{Assessment, DateOrigin, ItemUnpriced, JobKind, NumberedLine, OpenItem, Outcome};
pub use tax::{tax_on, taxable_by_rate};
pub use title::{TitleAnswer, TitleFinding, TitleLacks};
pub use totals::{Screen, ScreenFigures, Settled, TaxLine, Totals, Unscreened};
pub use working::{Formula, Recorder, Rule, Shown, Silent, Step, StepId, Working};

use crate::claim::{Claim, Method};
use crate::problem::Problem;
use crate::quantity::{Date, Hours};
use crate::schedule::{LabourClass, Schedule};
use desk::{Desk, OrStop as _};
use inspection::Inspected;
use vehicle::panel_lines;

/// Assesses one claim against one schedule (number `index` in the run). A pure function: the same claim and schedule
/// give the same assessment, whatever the recorder. Problems that keep the claim from being priced come back all at
/// once; warnings and notes about it are in the assessment.
pub fn assess<R: Recorder>(
    claim: &Claim,
    schedule: &Schedule,
    index: usize,
    run_date: Option<Date>,
    recorder: &mut R,
) -> Result<Assessment, Vec<Problem>> {
    let mut desk = Desk::new(claim, schedule, recorder);
    let (dated, inspected) = opened(&mut desk, run_date)?;
    let mut assessment = finished(desk, inspected, index, dated)?;
    assessment.range = estimate::range(claim, schedule, run_date, &assessment);
    Ok(assessment)
}

/// The course of an assessment from its panels on.
fn finished<'a, R: Recorder>(
    mut desk: Desk<'a, R>,
    inspected: Inspected<'a>,
    index: usize,
    dated: (Date, DateOrigin),
) -> Result<Assessment, Vec<Problem>> {
    let (claim, schedule) = (desk.claim, desk.schedule);
    let panels = stop(Ok(panels::assessed(&mut desk, &inspected.panels)), &mut desk)?;
    written::idle_parts(&mut desk, &panels);
    let (lines, open_items) = stop(vehicle::lines(&mut desk, &panels), &mut desk)?;
    let totals = stop(tax::totals(&mut desk, &panels, &lines), &mut desk)?;
    let is_open = !open_items.is_empty() || panels.iter().any(|panel| panel.open.is_some());
    let screen = stop(screen::screened(&mut desk, &totals, is_open), &mut desk)?;
    let titles = stop(title::titles(&mut desk, &totals, dated.0, is_open), &mut desk)?;
    let settled = stop(settle::settled(&mut desk, &totals, &panels, &lines, dated.0), &mut desk)?;
    let hours = stop(hours(&panels, &lines, schedule), &mut desk)?;
    notes::of_claim(&mut desk, &inspected);
    Ok(Assessment {
        key: claim.key.clone(),
        kind: if claim.parties.insurer.is_some() { JobKind::Claim } else { JobKind::Quotation },
        schedule: index,
        dated,
        currency: desk.currency(),
        inspection: Some(inspected.base),
        overlays: inspected.overlays,
        outcome: outcome(&panels, &lines, &screen, is_open),
        cautions: cautions::cautions(&desk, &panels, &lines),
        panels,
        vehicle_lines: lines,
        open_items,
        excluded: std::mem::take(&mut desk.excluded),
        totals,
        screen,
        titles,
        settled,
        hours,
        range: None,
        notes: std::mem::take(&mut desk.notes),
        problems: desk.told(),
        working: desk.finish(),
    })
}

/// What has to be right before the first panel: the date, the inspection, and what the claim states. All that is
/// wrong is told at once.
fn opened<'a, R: Recorder>(
    desk: &mut Desk<'a, R>,
    run_date: Option<Date>,
) -> Result<((Date, DateOrigin), Inspected<'a>), Vec<Problem>> {
    written::check(desk);
    let inspected = inspection::inspected(desk.claim);
    let dated = choose::dated(desk.claim, &desk.schedule.terms, run_date);
    match (dated, inspected) {
        (Ok(dated), Ok(inspected)) => {
            let is_seen = |panel| inspected.panels.iter().any(|seen| seen.panel.panel == panel);
            written::unseen_overrules(desk, is_seen);
            written::unseen_paid_before(desk, is_seen);
            desk.problems.extend(inspected.left_out.iter().cloned());
            Ok((dated, inspected))
        }
        (dated, inspected) => {
            let dated = dated.err();
            // Two candidates are found by the date as well: told once.
            let inspected = inspected.err().filter(|problem| dated.as_ref() != Some(problem));
            desk.problems.extend(dated.into_iter().chain(inspected));
            Err(desk.told())
        }
    }
}

/// A stage's result, unless it or anything before it stops the claim.
fn stop<T, R: Recorder>(result: Result<T, Problem>, desk: &mut Desk<'_, R>) -> Result<T, Vec<Problem>> {
    match result {
        Ok(done) if !desk.is_stopped() => Ok(done),
        Ok(_) => Err(desk.told()),
        Err(problem) => {
            desk.problems.push(problem);
            Err(desk.told())
        }
    }
}

fn outcome(panels: &[PanelAssessment], lines: &[Line], screen: &Screen, is_open: bool) -> Outcome {
    let is_worked_on = panels.iter().any(|panel| panel.method != Method::NoRepair);
    match screen {
        Screen::Reached(_) => Outcome::ProbableTotalLoss,
        _ if is_open => Outcome::NeedsAPerson,
        _ if is_worked_on || !lines.is_empty() => Outcome::Repair,
        _ => Outcome::NothingFound,
    }
}

/// Labour by class, over the lines that enter the totals.
fn hours(
    panels: &[PanelAssessment],
    lines: &[Line],
    schedule: &Schedule,
) -> Result<Vec<(LabourClass, Hours)>, Problem> {
    let mut sums = Vec::new();
    for class in LabourClass::ALL {
        let of_class = panel_lines(panels).chain(lines).filter_map(|line| line.hours);
        let mut hours = of_class.filter(|(of, _)| of == class).map(|(_, hours)| hours).peekable();
        if hours.peek().is_some() {
            let sum = hours.try_fold(Hours::ZERO, Hours::plus);
            sums.push((*class, sum.or_stop(schedule.terms.place)?));
        }
    }
    Ok(sums)
}

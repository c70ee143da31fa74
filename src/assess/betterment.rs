//! Betterment: the share of what is new that the owner bears, because it takes the place of something old.

use super::desk::{Desk, OrStop};
use super::vehicle::panel_lines;
use super::{Formula, Line, LineKind, PanelAssessment, Recorder, Rule, StepId};
use crate::claim::words::folded;
use crate::problem::{Problem, catalogue::assess as wording};
use crate::quantity::{Date, Money};
use crate::schedule::{BetterOf, Betterment};

/// The owner's shares of new parts and items that are in the totals, added.
pub(super) fn betterment<R: Recorder>(
    desk: &mut Desk<'_, R>,
    panels: &[PanelAssessment],
    lines: &[Line],
    date: Date,
) -> Result<(Money, StepId), Problem> {
    let mut shares = (desk.nothing(), Vec::new());
    for panel in panels {
        for line in panel_lines(std::slice::from_ref(panel)).filter(|line| line.kind == LineKind::Part) {
            if let Some(row) = of_part(desk, panel, date)? {
                add(desk, row, line, &mut shares)?;
            }
        }
    }
    for line in lines {
        let LineKind::ItemPrice(item) = line.kind else { continue };
        if let Some(row) = of_item(desk, item, date)? {
            add(desk, row, line, &mut shares)?;
        }
    }
    let (sum, steps) = shares;
    if sum.is_zero() {
        return Ok((sum, StepId::NONE));
    }
    Ok((sum, desk.step(Rule::Betterment, sum, || Formula::Sum(steps))))
}

fn add<R: Recorder>(
    desk: &mut Desk<'_, R>,
    row: &Betterment,
    line: &Line,
    (sum, steps): &mut (Money, Vec<StepId>),
) -> Result<(), Problem> {
    let share = line.amount.percent(row.share.value, desk.rounding()).or_stop(row.place)?;
    *sum = sum.plus(share).or_stop(row.place)?;
    let year: Vec<_> = if row.is_ageless() {
        Vec::new()
    } else {
        desk.claim.vehicle.year.map(|year| year.place).into_iter().collect()
    };
    let percent = desk.term(row.share.place, row.share.value);
    steps
        .push(desk.step_at(Rule::Betterment, &year, share, || Formula::PercentOf { percent, of: line.step }));
    Ok(())
}

/// The most particular row for the part of a panel.
fn of_part<'a, R>(
    desk: &Desk<'a, R>,
    panel: &PanelAssessment,
    date: Date,
) -> Result<Option<&'a Betterment>, Problem> {
    let terms = desk.schedule.panels.iter().find(|terms| terms.kind == panel.panel.kind);
    let holds =
        |row: &Betterment| row.on == BetterOf::Parts && terms.is_some_and(|terms| row.scope.holds_for(terms));
    most_particular(desk, date, holds, |row| row.scope.rank())
}

/// The row that names an item, else the one for any.
fn of_item<'a, R>(desk: &Desk<'a, R>, item: usize, date: Date) -> Result<Option<&'a Betterment>, Problem> {
    let item = folded(&desk.claim.items[item].name.value);
    let holds = |row: &Betterment| {
        row.on == BetterOf::Items && row.item.as_ref().is_none_or(|named| folded(&named.value) == item)
    };
    most_particular(desk, date, holds, |row| u8::from(row.item.is_some()))
}

/// Of the rows that hold at the vehicle's age the most particular; without its year that cannot be known where a row asks
/// for it.
fn most_particular<'a, R, K: Ord>(
    desk: &Desk<'a, R>,
    date: Date,
    holds: impl Fn(&Betterment) -> bool,
    rank: impl Fn(&Betterment) -> K,
) -> Result<Option<&'a Betterment>, Problem> {
    let rows = || desk.schedule.betterment.iter().filter(|row| holds(row));
    let years = desk.claim.vehicle.year.map(|year| age(date, year.value));
    if years.is_none()
        && let Some(row) = rows().find(|row| !row.is_ageless())
    {
        return Err(wording::year_missing(row.place));
    }
    Ok(rows().filter(|row| row.holds_at(years.unwrap_or(0))).max_by_key(|row| rank(row)))
}

/// Whole calendar years from the vehicle's to the date's; a vehicle of the coming year is new.
fn age(date: Date, year: u16) -> u32 {
    u32::try_from(i32::from(date.year()) - i32::from(year)).unwrap_or(0)
}

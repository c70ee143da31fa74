//! Marks that are rated by their own measured length: oversize dents, creases, crowns, brace marks.

use super::count::length_place;
use super::desk::{Desk, OrStop};
use super::draft::{Draft, Labour};
use super::{Formula, Line, LineKind, MarkAssessment, Recorder, Rule, Unpriced};
use crate::claim::{Mark, MarkKind, PanelCount};
use crate::problem::Problem;
use crate::quantity::Length;
use crate::schedule::{LabourClass, MarkRate, PanelTerms, Price, Schedule, SeveralMarks, TaxOn};

/// The kind a mark counts as: a dent that no band holds is an oversize dent, and one that a band holds is none.
pub(super) fn counts_as(mark: &Mark, fate: &MarkAssessment) -> MarkKind {
    match (mark.kind.value, fate) {
        (MarkKind::Dent, MarkAssessment::Rated | MarkAssessment::NotPriced) => MarkKind::OversizeDent,
        (MarkKind::OversizeDent, MarkAssessment::Counted(_)) => MarkKind::Dent,
        (kind, _) => kind,
    }
}

/// The rate of a kind of mark at a length: the most particular row whose interval holds it.
fn rate<'a>(
    schedule: &'a Schedule,
    terms: &PanelTerms,
    kind: MarkKind,
    length: Length,
) -> Option<&'a MarkRate> {
    let holds = |rate: &&MarkRate| {
        rate.mark == kind
            && rate.scope.holds_for(terms)
            && rate.over < length
            && rate.up_to.is_none_or(|most| length <= most)
    };
    // Of equally particular rows the first: a checked schedule has no two.
    schedule.mark_rates.iter().filter(holds).rev().max_by_key(|rate| rate.scope.rank())
}

/// Adds a line for each mark that is rated by itself. Marks without a rate are set down as not priced.
pub(super) fn marks<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    panel: &PanelCount,
    terms: &PanelTerms,
    fates: &mut [MarkAssessment],
) -> Result<(), Problem> {
    let before = draft.lines.len();
    for (index, (mark, fate)) in panel.marks.iter().zip(fates).enumerate() {
        let (MarkAssessment::Rated, Some(length)) = (&*fate, mark.length) else { continue };
        let kind = counts_as(mark, fate);
        let priced = match rate(desk.schedule, terms, kind, length.value) {
            Some(rate) => line(desk, index, mark, rate)?,
            None => Err(Unpriced::NoMarkRate(index)),
        };
        match priced {
            Ok(line) => draft.lines.push(line),
            Err(why) => {
                draft.miss(why);
                *fate = MarkAssessment::NotPriced;
            }
        }
    }
    if draft.missing.is_none() {
        further(desk, &mut draft.lines[before..])?;
    }
    Ok(())
}

/// Of several marks the dearest counts in full, of equal ones the first; the others as the schedule says. Their time is no
/// longer what is charged and is left out.
fn further<R: Recorder>(desk: &mut Desk<'_, R>, lines: &mut [Line]) -> Result<(), Problem> {
    let Some(rule) = desk.schedule.terms.several_marks else { return Ok(()) };
    let SeveralMarks::Further(share) = rule.value else { return Ok(()) };
    let dearer = |best: usize, next: usize| lines[next].amount.minor() > lines[best].amount.minor();
    let dearest = (0..lines.len()).reduce(|best, next| if dearer(best, next) { next } else { best });
    for (index, line) in lines.iter_mut().enumerate() {
        let LineKind::Mark(mark) = line.kind else { continue };
        if Some(index) == dearest {
            continue;
        }
        let amount = line.amount.percent(share, desk.rounding()).or_stop(rule.place)?;
        let (percent, of) = (desk.term(rule.place, share), line.step);
        let step = desk.step(Rule::FurtherMark, amount, || Formula::PercentOf { percent, of });
        *line = Line {
            kind: LineKind::FurtherMark { mark, share },
            amount,
            hours: None,
            tax: line.tax,
            cite: line.cite,
            step,
        };
    }
    Ok(())
}

fn line<R: Recorder>(
    desk: &mut Desk<'_, R>,
    index: usize,
    mark: &Mark,
    rate: &MarkRate,
) -> Result<Result<Line, Unpriced>, Problem> {
    let kind = LineKind::Mark(index);
    let cells = [rate.place, length_place(mark)];
    match rate.price {
        Price::Amount(each) => {
            let amount = each.times(1, desk.rounding()).or_stop(rate.place)?;
            let step = desk.step_at(Rule::MarkAmount, &cells, amount, || Formula::Read);
            let tax = desk.tax_rate(TaxOn::Labour);
            Ok(Ok(Line { kind, amount, hours: None, tax, cite: Some(rate.place), step }))
        }
        Price::Time(hours) => {
            let class = LabourClass::Paintless;
            let Some(per_hour) = desk.labour(class) else { return Ok(Err(Unpriced::NoLabourRate)) };
            let step = desk.step_at(Rule::Term, &cells, hours, || Formula::Read);
            let labour = Labour { class, rate: per_hour, hours, place: rate.place, step };
            // What is agreed for the mark is its time.
            let line = labour.line(desk, kind, Rule::MarkAmount)?;
            Ok(Ok(Line { cite: Some(rate.place), ..line }))
        }
    }
}

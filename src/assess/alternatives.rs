//! The ways of repair beside paintless, each with its lines: paintless then refinish, conventional repair, replace.

use super::desk::{Desk, OrStop};
use super::draft::{Draft, Labour};
use super::price::{Found, Prices};
use super::{Alternative, Formula, Line, LineKind, Recorder, Rule, Unpriced};
use crate::claim::{Method, Place};
use crate::problem::Problem;
use crate::quantity::{Hours, Money, Percent};
use crate::schedule::{LabourClass, TaxOn};

/// All ways of repair, in the order of [`Method`], the paintless one first.
pub(super) fn beside<R: Recorder>(
    desk: &mut Desk<'_, R>,
    paintless: Alternative,
    prices: &Prices,
    place: Place,
) -> Result<Vec<Alternative>, Problem> {
    let refinish = refinish_after(desk, &paintless, prices, place)?;
    let conventional = conventional(desk, prices, place)?;
    let replace = replace(desk, prices, place)?;
    Ok(vec![paintless, refinish, conventional, replace])
}

fn refinish_after<R: Recorder>(
    desk: &mut Desk<'_, R>,
    paintless: &Alternative,
    prices: &Prices,
    place: Place,
) -> Result<Alternative, Problem> {
    let mut draft = Draft { typical: paintless.typical, ..Draft::default() };
    match paintless.amount {
        Ok(amount) => readying(desk, &mut draft, paintless, amount, place)?,
        Err(why) => draft.miss(why),
    }
    paint(desk, &mut draft, prices)?;
    draft.finish(desk, Method::RefinishAfter, place)
}

/// The share of the paintless amount that readies a panel for paint; all of it where the schedule names no share.
fn readying<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    paintless: &Alternative,
    whole: Money,
    place: Place,
) -> Result<(), Problem> {
    if whole.is_zero() {
        return Ok(());
    }
    let (share, amount, cite, step) = if let Some(share) = desk.schedule.terms.readying {
        let amount = whole.percent(share.value, desk.rounding()).or_stop(place)?;
        let percent = desk.term(share.place, share.value);
        let formula = || Formula::PercentOf { percent, of: paintless.step };
        (share.value, amount, Some(share.place), desk.step(Rule::Readying, amount, formula))
    } else {
        let step = desk.step(Rule::Readying, whole, || Formula::Sum(vec![paintless.step]));
        (Percent::HUNDRED, whole, None, step)
    };
    let (kind, tax) = (LineKind::Readying(share), desk.tax_rate(TaxOn::Labour));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite, step });
    Ok(())
}

fn conventional<R: Recorder>(
    desk: &mut Desk<'_, R>,
    prices: &Prices,
    place: Place,
) -> Result<Alternative, Problem> {
    let mut draft = Draft::default();
    let work = Work {
        kind: LineKind::ConventionalLabour,
        class: LabourClass::Conventional,
        missing: Unpriced::NoConventional,
    };
    needed(desk, &mut draft, prices.conventional, work)?;
    paint(desk, &mut draft, prices)?;
    draft.finish(desk, Method::Conventional, place)
}

fn replace<R: Recorder>(
    desk: &mut Desk<'_, R>,
    prices: &Prices,
    place: Place,
) -> Result<Alternative, Problem> {
    let mut draft = Draft::default();
    match prices.part {
        Some(part) => price(desk, &mut draft, part, LineKind::Part, TaxOn::Parts),
        None => draft.miss(Unpriced::NoPart),
    }
    let work =
        Work { kind: LineKind::FittingLabour, class: LabourClass::Refit, missing: Unpriced::NoFitting };
    needed(desk, &mut draft, prices.fitting, work)?;
    paint(desk, &mut draft, prices)?;
    draft.finish(desk, Method::Replace, place)
}

/// Refinish time, which is needed, then paint material and blends, which may be nothing.
fn paint<R: Recorder>(desk: &mut Desk<'_, R>, draft: &mut Draft, prices: &Prices) -> Result<(), Problem> {
    let class = LabourClass::Refinish;
    needed(
        desk,
        draft,
        prices.refinish,
        Work { kind: LineKind::RefinishLabour, class, missing: Unpriced::NoRefinish },
    )?;
    if let Some(found) = prices.paint_material {
        price(desk, draft, found, LineKind::PaintMaterial, TaxOn::PaintMaterial);
    }
    if prices.blend.is_some() {
        needed(
            desk,
            draft,
            prices.blend,
            Work { kind: LineKind::BlendLabour, class, missing: Unpriced::NoRefinish },
        )?;
    }
    Ok(())
}

/// A kind of work, and what its time is called when it is missing.
struct Work {
    kind: LineKind,
    class: LabourClass,
    missing: Unpriced,
}

fn needed<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    hours: Option<Found<Hours>>,
    work: Work,
) -> Result<(), Problem> {
    let Some(found) = hours else {
        draft.miss(work.missing);
        return Ok(());
    };
    let Some(rate) = desk.labour(work.class) else {
        draft.miss(Unpriced::NoLabourRate);
        return Ok(());
    };
    draft.typical |= found.typical;
    let labour = Labour { class: work.class, rate, hours: found.value, place: found.place, step: found.step };
    let line = labour.line(desk, work.kind, Rule::LabourAmount)?;
    draft.lines.push(line);
    Ok(())
}

fn price<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    found: Found<Money>,
    kind: LineKind,
    tax: TaxOn,
) {
    draft.typical |= found.typical;
    let step = desk.step(Rule::PriceAmount, found.value, || Formula::Sum(vec![found.step]));
    let (amount, tax, cite) = (found.value, desk.tax_rate(tax), Some(found.place));
    draft.lines.push(Line { kind, amount, hours: None, tax, cite, step });
}

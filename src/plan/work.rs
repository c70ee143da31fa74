//! From an assessment to the steps of a car and their hours.

use crate::assess::{Assessment, Line, LineKind};
use crate::claim::words::folded;
use crate::claim::{Claim, ItemAction, Method, Pace, PanelId, Skill, words::named};
use crate::quantity::{Hours, Money, QuantityFault, UnitRate};
use crate::schedule::{LabourClass, Schedule};
use std::collections::BTreeMap;

named! {
    /// A step of a car, in the order in which it is worked. Common practice, no source.
    pub enum Step {
        Strip = "strip",
        Paintless = "paintless",
        Body = "body repair",
        Fit = "fit new parts",
        Paint = "paint",
        Glass = "glass",
        Refit = "refit",
    }
}

impl Step {
    /// What one has to be able to do.
    pub const fn skill(self) -> Skill {
        match self {
            Self::Strip | Self::Fit | Self::Refit => Skill::Fitting,
            Self::Paintless => Skill::Paintless,
            Self::Body => Skill::Body,
            Self::Paint => Skill::Paint,
            Self::Glass => Skill::Glass,
        }
    }
}

/// Some work on a car.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// The step it belongs to.
    pub step: Step,
    /// The panel's method; `None` for work on the whole car and its items.
    pub method: Option<Method>,
    /// The panel that gets a new part in it.
    pub panel: Option<PanelId>,
    /// How long.
    pub hours: Hours,
}

/// Why the hours of a car cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoHours {
    /// Its paintless work is priced by amounts, and nothing says what an hour brings in.
    Paintless,
    /// The hours are more than can be added up.
    TooMany,
}

/// The work on a car, line by line.
///
/// A line with hours is work of its class. Removing and refitting is halved: the first half, down to the tenth of an hour,
/// before all other work, the rest after it. Paintless lines without hours are an amount for each panel; it is divided by the
/// schedule's paintless rate, else by the pace of its currency, and rounded up to the tenth of an hour. Items are glass where their
/// name says so.
pub fn work(
    claim: &Claim,
    assessment: &Assessment,
    schedule: &Schedule,
    paces: &[Pace],
) -> Result<Vec<Work>, NoHours> {
    let mut all = Vec::new();
    let mut by_amount: BTreeMap<usize, (Option<Method>, Money)> = BTreeMap::new();
    for line in assessment.lines() {
        let panel = line.panel.and_then(|id| assessment.panels.iter().position(|panel| panel.panel == id));
        let method = panel.map(|panel| assessment.panels[panel].method);
        if let Some((class, hours)) = line.line.hours {
            add(&mut all, line.line, class, hours, (method, line.panel), claim);
        } else if let Some(panel) = panel.filter(|_| is_paintless(&line.line.kind)) {
            let sum = by_amount.entry(panel).or_insert((method, Money::zero(assessment.currency)));
            sum.1 = sum.1.plus(line.line.amount).map_err(|_: QuantityFault| NoHours::TooMany)?;
        }
    }
    if by_amount.values().any(|(_, amount)| amount.minor() > 0) {
        let rate = rate(schedule, assessment, paces).ok_or(NoHours::Paintless)?;
        for (method, amount) in by_amount.into_values() {
            let hours = Hours::that_earn(amount, rate).ok_or(NoHours::TooMany)?;
            all.push(Work { step: Step::Paintless, method, panel: None, hours });
        }
    }
    all.retain(|work| !work.hours.is_zero());
    Ok(all)
}

/// What an hour of paintless work brings in.
fn rate(schedule: &Schedule, assessment: &Assessment, paces: &[Pace]) -> Option<UnitRate> {
    let own = schedule.labour.iter().find(|rate| rate.class == LabourClass::Paintless);
    if let Some(rate) = own {
        return Some(rate.per_hour.value);
    }
    let pace = paces.iter().find(|pace| pace.an_hour.value.currency == Some(assessment.currency))?;
    UnitRate::from_decimal(pace.an_hour.value.amount, assessment.currency).ok()
}

/// Whether a line is paintless work on its panel.
const fn is_paintless(kind: &LineKind) -> bool {
    matches!(
        kind,
        LineKind::Dents { .. }
            | LineKind::Equivalents { .. }
            | LineKind::Mark(_)
            | LineKind::FurtherMark { .. }
            | LineKind::Factor(_)
            | LineKind::FactorCeiling
            | LineKind::Floor
            | LineKind::Cap
            | LineKind::UpToNothing
            | LineKind::Readying(_)
    )
}

fn add(
    all: &mut Vec<Work>,
    line: &Line,
    class: LabourClass,
    hours: Hours,
    (method, panel): (Option<Method>, Option<PanelId>),
    claim: &Claim,
) {
    let mut push = |step, panel, hours| all.push(Work { step, method, panel, hours });
    match (&line.kind, class) {
        (LineKind::FittingLabour, _) => push(Step::Fit, panel, hours),
        (LineKind::ItemLabour(item), _) => {
            let item = claim.items.get(*item);
            let action = item.and_then(|item| item.action).map(|action| action.value);
            if item.is_some_and(|item| is_glass(&item.name.value)) {
                push(Step::Glass, None, hours);
            } else if action == Some(ItemAction::Refit) {
                halved(hours, &mut push);
            } else {
                push(Step::Fit, None, hours);
            }
        }
        (_, LabourClass::Refit) => halved(hours, &mut push),
        (_, LabourClass::Paintless) => push(Step::Paintless, None, hours),
        (_, LabourClass::Conventional) => push(Step::Body, None, hours),
        (_, LabourClass::Refinish) => push(Step::Paint, None, hours),
    }
}

fn halved(hours: Hours, push: &mut impl FnMut(Step, Option<PanelId>, Hours)) {
    let before = hours.seconds() / 2 / 360 * 360;
    push(Step::Strip, None, Hours::from_seconds(before));
    push(Step::Refit, None, Hours::from_seconds(hours.seconds() - before));
}

/// Whether an item is one of glass, by its name. Mirrors are fitted.
pub(super) fn is_glass(name: &str) -> bool {
    let name = folded(name);
    let says = |words: &[&str]| words.iter().any(|word| name.contains(word));
    says(&["glass", "windscreen", "windshield", "window"]) && !says(&["mirror"])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn removing_and_refitting_is_halved_to_tenths_and_nothing_is_lost() {
        for (seconds, before) in [(0, 0), (360, 0), (720, 360), (5_400, 2_520), (2_520, 1_080)] {
            let mut all = Vec::new();
            halved(Hours::from_seconds(seconds), &mut |step, _, hours| all.push((step, hours.seconds())));
            assert_eq!(all, [(Step::Strip, before), (Step::Refit, seconds - before)]);
        }
    }

    #[test]
    fn glass_is_told_by_its_name_and_a_mirror_is_none() {
        for name in ["windscreen", "Panoramic roof glass", "rear window", "Windshield, heated"] {
            assert!(is_glass(name), "{name}");
        }
        for name in ["mirror glass, left", "left rear lamp", "soft top"] {
            assert!(!is_glass(name), "{name}");
        }
    }

    #[test]
    fn steps_stand_in_the_order_in_which_they_are_worked() {
        assert!(Step::ALL.is_sorted());
        assert!(Step::Strip < Step::Paintless && Step::Paintless < Step::Paint && Step::Paint < Step::Refit);
    }
}

use super::hybrid::{Half, differing, hybrid};
use super::{Cause, shapley};
use crate::assess::{Assessment, PanelAssessment, Silent, assess};
use crate::claim::{Claim, Inspection, PanelCount};
use crate::compare::pairing::{PanelPair, Seen};
use crate::problem::Problem;
use crate::quantity::{Date, Money};
use crate::schedule::Schedule;

/// One look at a car as the engine judges it.
#[derive(Debug, Clone)]
pub struct Judged<'a> {
    /// What was written.
    pub inspection: &'a Inspection,
    /// What the engine made of it, with the car's own vehicle, parties and prices.
    pub assessment: Assessment,
}

/// Which way a whole difference on a panel came about; the first that holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turned {
    /// The two looks lead to different methods.
    Method,
    /// Same method, other bands of size or count.
    Band,
    /// The same cells of the schedule.
    SameCell,
}

/// Why a panel's difference is not split.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotSplit {
    /// One look or both did not inspect it, or do not mention it.
    NotInspected,
    /// One look or both leave it open.
    Open,
    /// Both are priced, but a mixture of the two looks is not.
    MixtureOpen,
}

/// A panel's difference, second look less first, by cause.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PanelSplit {
    /// The whole difference.
    pub difference: Money,
    /// Its parts, in the order of the causes; they sum to it.
    pub causes: Vec<(Cause, Money)>,
}

/// A panel on which two looks may differ in money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PanelDifference {
    /// Amount of the first look, where it is priced.
    pub a: Option<Money>,
    /// Amount of the second look, where it is priced.
    pub b: Option<Money>,
    /// How the difference came about; only where both are priced.
    pub turned: Option<Turned>,
    /// Its split, or why there is none.
    pub split: Result<PanelSplit, NotSplit>,
}

/// What both looks at a car are judged by.
#[derive(Debug, Clone, Copy)]
pub struct Bench<'a> {
    /// The claim whose vehicle, parties and prices hold for every look.
    pub claim: &'a Claim,
    /// Its schedule.
    pub schedule: &'a Schedule,
    /// The schedule's number in the run.
    pub index: usize,
    /// The date for claims that carry none.
    pub run_date: Option<Date>,
}

impl Bench<'_> {
    /// Puts one look before the engine as if it were the claim's only one.
    pub fn judge<'l>(&self, inspection: &'l Inspection) -> Result<Judged<'l>, Vec<Problem>> {
        Ok(Judged { inspection, assessment: self.assess(inspection.clone())? })
    }

    fn assess(&self, inspection: Inspection) -> Result<Assessment, Vec<Problem>> {
        let alone =
            Claim { inspections: vec![Inspection { role: None, ..inspection }], ..self.claim.clone() };
        assess(&alone, self.schedule, self.index, self.run_date, &mut Silent)
    }

    /// What one panel alone enters the totals with.
    fn price(&self, panel: PanelCount) -> Option<Money> {
        let inspection = Inspection {
            assessor: None,
            date: None,
            location: None,
            pass: None,
            role: None,
            panels: vec![panel],
        };
        self.paid(self.assess(inspection).ok()?.panels.first()?)
    }

    /// The amount a panel enters the totals with: nothing where nothing is to be done, none where it is open.
    fn paid(&self, panel: &PanelAssessment) -> Option<Money> {
        let nothing = Money::zero(self.schedule.terms.currency.value);
        if panel.open.is_some() { None } else { Some(panel.amount().unwrap_or(nothing)) }
    }

    /// What a panel's difference in money, `b` less `a`, comes from.
    pub fn split(&self, pair: PanelPair, a: &Judged<'_>, b: &Judged<'_>) -> PanelDifference {
        let (side_a, side_b) = (a.side(pair.a), b.side(pair.b));
        let amount = |side: Option<(&PanelAssessment, _)>| side.and_then(|(panel, _)| self.paid(panel));
        let (amount_a, amount_b) = (amount(side_a), amount(side_b));
        let plain = |why| PanelDifference { a: amount_a, b: amount_b, turned: None, split: Err(why) };
        let (Some((panel_a, written_a)), Some((panel_b, written_b))) = (side_a, side_b) else {
            return plain(NotSplit::NotInspected);
        };
        let (Some(of_a), Some(of_b)) = (amount_a, amount_b) else { return plain(NotSplit::Open) };
        let (half_a, half_b) = (Half::new(written_a, panel_a), Half::new(written_b, panel_b));
        let causes = differing(&half_a, &half_b);
        let value = |mask: u32| {
            if mask == 0 {
                return Some(of_a.minor());
            }
            if mask + 1 == 1 << causes.len() {
                return Some(of_b.minor());
            }
            let is_exchanged = |bit: usize| mask & (1 << bit) != 0;
            let exchanged: Vec<Cause> = causes
                .iter()
                .enumerate()
                .filter(|(bit, _)| is_exchanged(*bit))
                .map(|(_, cause)| *cause)
                .collect();
            self.price(hybrid(&half_a, &half_b, &exchanged, self.schedule)).map(Money::minor)
        };
        let split = match (of_b.minus(of_a), shapley(causes.len(), value)) {
            (Ok(difference), Some(parts)) => {
                let money = parts.into_iter().map(|minor| Money::from_minor(minor, of_a.currency()));
                Ok(PanelSplit { difference, causes: causes.iter().copied().zip(money).collect() })
            }
            _ => Err(NotSplit::MixtureOpen),
        };
        PanelDifference { turned: Some(turned(panel_a, panel_b)), split, ..plain(NotSplit::Open) }
    }
}

impl Judged<'_> {
    /// An inspected panel of the look: what the engine made of it, and what was written.
    fn side(&self, seen: Seen) -> Option<(&PanelAssessment, &PanelCount)> {
        let Seen::Inspected(index) = seen else { return None };
        let assessed = self.assessment.panels.iter().find(|panel| panel.index == index)?;
        Some((assessed, self.inspection.panels.get(index)?))
    }
}

fn turned(a: &PanelAssessment, b: &PanelAssessment) -> Turned {
    let cells = |panel: &PanelAssessment| {
        panel
            .chosen()
            .map(|chosen| chosen.lines.iter().filter_map(|line| line.cite).collect::<Vec<_>>())
            .unwrap_or_default()
    };
    if a.method != b.method {
        Turned::Method
    } else if cells(a) != cells(b) {
        Turned::Band
    } else {
        Turned::SameCell
    }
}

use super::hybrid::{Half, Marks, differing, hybrid};
use super::{Cause, shapley};
use crate::assess::{Assessment, DateOrigin, MarkAssessment, PanelAssessment, assess_look, panel_alone};
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
    /// The claim whose overrules hold for it: the one it is written in, with the car's vehicle, parties and prices.
    pub claim: &'a Claim,
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

/// A panel's difference, first look minus second, by cause.
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
    /// The date that every look is priced by, and which date that is.
    pub dated: (Date, DateOrigin),
}

impl Bench<'_> {
    /// Puts one look before the engine as if it were the only one of a claim, whose overrules hold for it.
    pub fn judge<'l>(
        &self,
        inspection: &'l Inspection,
        claim: &'l Claim,
    ) -> Result<Judged<'l>, Vec<Problem>> {
        let assessment = assess_look(claim, inspection, self.schedule, self.index, self.dated)?;
        Ok(Judged { inspection, claim, assessment })
    }

    /// What a mixture of two looks at a panel enters the totals with, in minor units.
    fn price(&self, a: &Half<'_>, b: &Half<'_>, exchanged: &[Cause]) -> Option<i64> {
        let claim = if exchanged.contains(&Cause::Overrule) { b.claim } else { a.claim };
        let panel = hybrid(a, b, exchanged, self.schedule);
        self.paid(&panel_alone(claim, &panel, self.schedule)?).map(Money::minor)
    }

    /// The amount a panel enters the totals with: nothing where nothing is to be done, none where it is open.
    pub fn paid(&self, panel: &PanelAssessment) -> Option<Money> {
        let nothing = Money::zero(self.schedule.terms.currency.value);
        if panel.open.is_some() { None } else { Some(panel.amount().unwrap_or(nothing)) }
    }

    /// What a panel's difference in money, `a` minus `b`, comes from.
    pub fn split(&self, pair: PanelPair, a: &Judged<'_>, b: &Judged<'_>) -> PanelDifference {
        let (side_a, side_b) = (a.side(pair.a), b.side(pair.b));
        let amount = |side: Option<(&PanelAssessment, _)>| side.and_then(|(panel, _)| self.paid(panel));
        let (amount_a, amount_b) = (amount(side_a), amount(side_b));
        let plain = |why| PanelDifference { a: amount_a, b: amount_b, turned: None, split: Err(why) };
        let (Some((panel_a, written_a)), Some((panel_b, written_b))) = (side_a, side_b) else {
            return plain(NotSplit::NotInspected);
        };
        let (Some(of_a), Some(of_b)) = (amount_a, amount_b) else { return plain(NotSplit::Open) };
        let turned = Some(turned(panel_a, panel_b));
        let Ok(difference) = of_a.minus(of_b) else {
            return PanelDifference { turned, ..plain(NotSplit::MixtureOpen) };
        };
        let parts = |taken| {
            let half_a = Half::new(written_a, panel_a, a.claim, taken);
            let half_b = Half::new(written_b, panel_b, b.claim, taken);
            let causes = differing(&half_a, &half_b);
            let together = together(&causes);
            self.parts(&half_a, &half_b, (of_a, of_b), causes).or_else(|| {
                // Somebody's number in somebody else's sizes may meet no price. It is not guessed.
                together.and_then(|causes| self.parts(&half_a, &half_b, (of_a, of_b), causes))
            })
        };
        // A mark that is counted with the dents can also bear on a limit by itself. Where it does, all marks are taken
        // as marks: then both looks are given back whole.
        let is_counted = |panel: &PanelAssessment| {
            panel.marks.iter().any(|mark| matches!(mark, MarkAssessment::Counted(_)))
        };
        let causes = parts(Marks::Counted)
            .or_else(|| (is_counted(panel_a) || is_counted(panel_b)).then(|| parts(Marks::Apart)).flatten());
        let split = causes.ok_or(NotSplit::MixtureOpen).map(|causes| PanelSplit { difference, causes });
        PanelDifference { turned, split, ..plain(NotSplit::Open) }
    }

    /// The parts of a difference by cause; none where a mixture is not priced, or where both sides whole are not what
    /// the engine made of them.
    fn parts(
        &self,
        a: &Half<'_>,
        b: &Half<'_>,
        (of_a, of_b): (Money, Money),
        causes: Vec<Cause>,
    ) -> Option<Vec<(Cause, Money)>> {
        // Where nothing was measured one by one, a whole side is what the engine was given.
        let is_whole = |half: &Half<'_>| half.written.marks.is_empty();
        let gives_back = |exchanged: &[Cause], whole: &Half<'_>, amount: Money| {
            is_whole(whole) || self.price(a, b, exchanged) == Some(amount.minor())
        };
        if !gives_back(&[], a, of_a) || !gives_back(&causes, b, of_b) {
            return None;
        }
        if causes.is_empty() {
            return (of_a == of_b).then(Vec::new);
        }
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
            self.price(a, b, &exchanged)
        };
        let parts = shapley(causes.len(), value)?;
        // Exchanging adds what turns the first look into the second; the difference is the other way round.
        let money = parts.into_iter().map(|minor| Money::from_minor(-minor, of_a.currency()));
        Some(causes.into_iter().zip(money).collect())
    }
}

impl Judged<'_> {
    /// An inspected panel of the look: what the engine made of it, and what was written.
    pub fn side(&self, seen: Seen) -> Option<(&PanelAssessment, &PanelCount)> {
        let Seen::Inspected(index) = seen else { return None };
        let assessed = self.assessment.panels.iter().find(|panel| panel.index == index)?;
        Some((assessed, self.inspection.panels.get(index)?))
    }
}

/// The same causes with number and size as one, where both are among them.
fn together(causes: &[Cause]) -> Option<Vec<Cause>> {
    let (Some(Cause::Number), Some(Cause::Size)) = (causes.first(), causes.get(1)) else { return None };
    Some([Cause::Dents].into_iter().chain(causes[2..].iter().copied()).collect())
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

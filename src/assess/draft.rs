//! One way of repair while its lines are being made.

use super::desk::{Desk, OrStop, Rate};
use super::{Alternative, Formula, Line, LineKind, Recorder, Rule, StepId, Unpriced};
use crate::claim::{Method, Place};
use crate::problem::Problem;
use crate::quantity::{Hours, Money};
use crate::schedule::{LabourClass, TaxOn};

/// Lines so far, and the first thing that is missing.
#[derive(Default)]
pub(super) struct Draft {
    /// The lines.
    pub lines: Vec<Line>,
    /// Why there is no amount.
    pub missing: Option<Unpriced>,
    /// Whether a typical price stands in it.
    pub typical: bool,
}

impl Draft {
    /// Something has no price. The first one is named.
    pub fn miss(&mut self, why: Unpriced) {
        self.missing.get_or_insert(why);
    }

    /// The sum of the lines, or the problem of adding them.
    pub fn sum<R: Recorder>(&self, desk: &Desk<'_, R>, place: Place) -> Result<Money, Problem> {
        Money::sum(desk.currency(), self.lines.iter().map(|line| line.amount)).or_stop(place)
    }

    /// The alternative that these lines make.
    pub fn finish<R: Recorder>(
        self,
        desk: &mut Desk<'_, R>,
        method: Method,
        place: Place,
    ) -> Result<Alternative, Problem> {
        let Self { lines, missing, typical } = self;
        let sum = Money::sum(desk.currency(), lines.iter().map(|line| line.amount)).or_stop(place)?;
        let step = desk.step(Rule::MethodAmount, sum, || sum_of(&lines));
        let amount = missing.map_or(Ok(sum), Err);
        Ok(Alternative { method, lines, amount, typical, step })
    }
}

/// The sum of lines as a formula.
pub(super) fn sum_of(lines: &[Line]) -> Formula {
    Formula::Sum(lines.iter().map(|line| line.step).collect())
}

/// A time at its rate.
#[derive(Clone, Copy)]
pub(super) struct Labour {
    /// Which labour.
    pub class: LabourClass,
    /// Its rate.
    pub rate: Rate,
    /// The time.
    pub hours: Hours,
    /// The cell of the time.
    pub place: Place,
    /// Step of the time.
    pub step: StepId,
}

impl Labour {
    /// Its line. It cites the rate per hour; the cell of the time is the step's own.
    pub fn line<R: Recorder>(
        self,
        desk: &mut Desk<'_, R>,
        kind: LineKind,
        rule: Rule,
    ) -> Result<Line, Problem> {
        let amount = self.hours.at(self.rate.per_hour, desk.rounding()).or_stop(self.place)?;
        let formula = || Formula::Times { rate: self.rate.step, by: self.step };
        let step = desk.step_at(rule, &[self.place], amount, formula);
        let tax = desk.tax_rate(TaxOn::Labour);
        let hours = Some((self.class, self.hours));
        Ok(Line { kind, amount, hours, tax, cite: Some(self.rate.place), step })
    }
}

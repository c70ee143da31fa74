use super::Node;
use crate::assess::{Formula, Shown, Step, StepId, Working};
use crate::claim::Place;
use crate::quantity::Money;
use crate::report::{Subject, wording};
use std::cell::RefCell;
use std::collections::BTreeSet;

/// Sums of more amounts than this are said by their number.
const MOST_WRITTEN_OUT: usize = 8;

/// Words the steps of a working and follows them down to their cells.
pub(super) struct Steps<'a> {
    subject: Subject<'a>,
    working: Option<&'a Working>,
    /// Steps that have a row of their own: their numbers are shown, not once more what is below them.
    own: BTreeSet<StepId>,
    /// Steps that were followed down once: told again, they are not followed again.
    followed: RefCell<BTreeSet<StepId>>,
}

impl<'a> Steps<'a> {
    pub fn new(subject: &Subject<'a>) -> Self {
        let assessment = subject.assessment;
        let alternatives = assessment.panels.iter().flat_map(|panel| &panel.alternatives);
        let lines = alternatives.clone().flat_map(|alternative| &alternative.lines);
        let mut own: BTreeSet<StepId> =
            lines.chain(&assessment.vehicle_lines).map(|line| line.step).collect();
        own.extend(alternatives.map(|alternative| alternative.step));
        let totals = &assessment.totals;
        own.extend([totals.net_step, totals.gross_step]);
        own.extend(totals.taxes.iter().map(|tax| tax.step).chain(totals.rounding_step));
        let settled = &assessment.settled;
        own.extend([settled.amount_step, settled.insurer_step]);
        Self { subject: *subject, working: assessment.working.as_ref(), own, followed: RefCell::default() }
    }

    fn get(&self, id: StepId) -> Option<&'a Step> {
        self.working?.steps.get(usize::try_from(id.0).ok()?)
    }

    /// A row for an amount: its words and how it follows, its cell, and the operands below.
    pub fn amount(&self, label: &str, amount: Money, id: StepId, cite: Option<Place>) -> Node {
        let step = self.get(id);
        let mut node = Node::new(label).figure(wording::amount(amount));
        let mut places = step.map_or_else(Vec::new, |step| step.cells.clone());
        if let Some(cite) = cite.filter(|cite| !places.contains(cite)) {
            places.insert(0, cite);
        }
        node.cells = cells(&places, &self.subject);
        if let Some(step) = step {
            self.explain(id, step, &mut node);
        }
        node
    }

    /// Adds to a row how its step follows from others, and those.
    fn explain(&self, id: StepId, step: &Step, node: &mut Node) {
        let how = self.formula(&step.formula);
        if !how.is_empty() {
            node.text.push_str(": ");
            node.text.push_str(&how);
        }
        if !self.followed.borrow_mut().insert(id) {
            return;
        }
        for id in operands(&step.formula) {
            if let Some(operand) = self.get(id).filter(|_| !self.own.contains(&id)) {
                node.below.push(self.operand(id, operand));
            }
        }
    }

    fn operand(&self, id: StepId, step: &Step) -> Node {
        let mut node = Node::new(wording::rule(step.rule)).figure(self.shown(&step.result));
        node.cells = cells(&step.cells, &self.subject);
        self.explain(id, step, &mut node);
        node
    }

    /// How a step follows, with the numbers filled in; nothing for what was read as it stands.
    fn formula(&self, formula: &Formula) -> String {
        let of = |id: &StepId| self.get(*id).map_or_else(String::new, |step| self.shown(&step.result));
        let joined = |ids: &[StepId], between: &str| -> String {
            ids.iter().map(of).collect::<Vec<_>>().join(between)
        };
        match formula {
            Formula::Read => String::new(),
            Formula::Sum(ids) => match ids.len() {
                0 => "nothing to add".to_owned(),
                1 => String::new(),
                many if many > MOST_WRITTEN_OUT => format!("the sum of {many} amounts"),
                _ => joined(ids, " + "),
            },
            Formula::Difference(a, b) => joined(&[*a, *b], " less "),
            Formula::Negative(id) => format!("{} taken off", of(id)),
            Formula::Times { rate, by } => joined(&[*by, *rate], " x "),
            Formula::PercentOf { percent, of: whole } => joined(&[*percent, *whole], " of "),
            Formula::Weighted(pairs) => {
                let products: Vec<String> =
                    pairs.iter().map(|(count, weight)| joined(&[*count, *weight], " x ")).collect();
                products.join(" + ")
            }
            Formula::BandOf(id) => format!("it holds {}", of(id)),
            Formula::ChosenSize(_) => format!("chosen from {}", joined(&operands(formula), ", ")),
            Formula::GridCell { size, count } => format!("the rate of {}, {}", of(size), of(count)),
            Formula::UpTo { floor, amount } => format!("{} less {}", of(floor), of(amount)),
            Formula::DownTo { cap, amount } => format!("{} less {}", of(cap), of(amount)),
            Formula::Part { total, weights, .. } => {
                format!("its part of {}, split by {}", of(total), joined(weights, " and "))
            }
            Formula::ToStep { amount, step } => format!("{} to the nearest {}", of(amount), of(step)),
            Formula::Smallest(ids) => format!("the smallest of {}, at least nothing", joined(ids, " and ")),
            Formula::AtLeastZero(a, b) => format!("{} less {}, at least nothing", of(a), of(b)),
        }
    }

    fn shown(&self, shown: &Shown) -> String {
        let schedule = self.subject.schedule;
        match shown {
            Shown::Money(money) => wording::amount(*money),
            Shown::Rate(rate) => wording::rate(*rate),
            Shown::Count(count) => wording::number((*count).into()),
            Shown::Weighted(weighted) => wording::number(*weighted),
            Shown::Time(time) => wording::time_with_unit(*time, schedule.terms.time_unit.value),
            Shown::Length(length) => wording::length(*length),
            Shown::Percent(percent) => wording::percent(*percent),
            Shown::SizeBand(size) => wording::said(&schedule.sizes[*size].name),
            Shown::CountBand(count) => wording::said(&schedule.counts[*count].name),
            Shown::Word(word) => wording::said(word),
        }
    }
}

/// The steps a formula uses, in the order in which it names them.
fn operands(formula: &Formula) -> Vec<StepId> {
    match formula {
        Formula::Read => Vec::new(),
        Formula::Sum(ids) | Formula::Smallest(ids) => ids.clone(),
        Formula::ChosenSize(bands) => bands.iter().map(|(_, id)| *id).collect(),
        Formula::Difference(a, b) | Formula::AtLeastZero(a, b) => vec![*a, *b],
        Formula::Negative(id) | Formula::BandOf(id) => vec![*id],
        Formula::Times { rate, by } => vec![*by, *rate],
        Formula::PercentOf { percent, of } => vec![*percent, *of],
        Formula::Weighted(pairs) => pairs.iter().flat_map(|(count, weight)| [*count, *weight]).collect(),
        Formula::GridCell { size, count } => vec![*size, *count],
        Formula::UpTo { floor: bound, amount } | Formula::DownTo { cap: bound, amount } => {
            vec![*bound, *amount]
        }
        Formula::Part { total, weights, .. } => {
            std::iter::once(*total).chain(weights.iter().copied()).collect()
        }
        Formula::ToStep { amount, step } => vec![*amount, *step],
    }
}

/// Cells in short: `storm.xlsx Counts!C12, C13`.
pub(super) fn cells(places: &[Place], subject: &Subject<'_>) -> String {
    let mut out = String::new();
    let mut last = None;
    for place in places {
        if !out.is_empty() {
            out.push_str(", ");
        }
        let is_same = last == Some(place.source);
        let position = crate::problem::Sources::position(*place);
        out.push_str(&if is_same { position } else { subject.sources.short(*place) });
        last = Some(place.source);
    }
    out
}

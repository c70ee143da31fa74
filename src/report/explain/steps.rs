use super::Node;
use crate::assess::{Formula, Shown, Step, StepId, Working};
use crate::claim::Place;
use crate::quantity::Money;
use crate::report::Subject;
use crate::report::wording::{self, Piece};
use std::borrow::Cow;
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
        for id in wording::operands(&step.formula) {
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

    /// How a step follows, with the numbers filled in; nothing for what was read or taken over as it stands.
    fn formula(&self, formula: &Formula) -> String {
        match formula {
            Formula::Read => return String::new(),
            Formula::Sum(ids) if ids.len() == 1 => return String::new(),
            Formula::Sum(ids) if ids.len() > MOST_WRITTEN_OUT => {
                return format!("the sum of {} amounts", ids.len());
            }
            _ => {}
        }
        let pieces = wording::formula(formula).into_iter().map(|piece| match piece {
            Piece::Words(words) => words,
            Piece::Step(id) => {
                Cow::Owned(self.get(id).map_or_else(String::new, |step| self.shown(&step.result)))
            }
        });
        pieces.collect()
    }

    fn shown(&self, shown: &Shown) -> String {
        wording::shown(shown, self.subject.schedule)
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

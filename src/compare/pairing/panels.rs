use crate::claim::{Inspection, PanelId};
use std::collections::BTreeSet;

/// What one look says of a panel. The three stay apart: a comparison of counts takes the last alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The look's sheets do not mention it.
    NotListed,
    /// Listed without a number or a mark.
    NotInspected(usize),
    /// Counted or marked; its number in the inspection's panels.
    Inspected(usize),
}

/// One panel in two looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PanelPair {
    /// Which panel.
    pub panel: PanelId,
    /// What the first look says.
    pub a: Seen,
    /// What the second look says.
    pub b: Seen,
}

impl PanelPair {
    /// Whether both looks inspected it.
    pub fn is_common(&self) -> bool {
        self.numbers().is_some()
    }

    /// Its numbers in both looks, where both inspected it.
    pub const fn numbers(&self) -> Option<(usize, usize)> {
        match (self.a, self.b) {
            (Seen::Inspected(a), Seen::Inspected(b)) => Some((a, b)),
            _ => None,
        }
    }
}

/// Every panel that either look mentions, in document order.
pub fn facing(a: &Inspection, b: &Inspection) -> Vec<PanelPair> {
    let panels: BTreeSet<PanelId> = a.panels.iter().chain(&b.panels).map(|panel| panel.panel).collect();
    panels.into_iter().map(|panel| PanelPair { panel, a: seen(a, panel), b: seen(b, panel) }).collect()
}

fn seen(inspection: &Inspection, panel: PanelId) -> Seen {
    match inspection.panels.iter().position(|counted| counted.panel == panel) {
        None => Seen::NotListed,
        Some(index) if inspection.panels[index].is_inspected() => Seen::Inspected(index),
        Some(index) => Seen::NotInspected(index),
    }
}

//! The parts that planned cars need.

use super::work::{Step, is_glass};
use crate::assess::{Assessment, LineKind};
use crate::claim::{Claim, ItemAction, Located, PanelId};
use crate::quantity::{Date, Money};

/// What a part is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartOf {
    /// A panel that is replaced.
    Panel(PanelId),
    /// An item, by its number in the claim.
    Item(usize),
    /// What an operation uses up, by its number in the schedule.
    Operation(usize),
}

/// A part that a car needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The car, by its number in the batch.
    pub intake: usize,
    /// What it is for.
    pub of: PartOf,
    /// The step that it is needed in; small parts of an operation hold nothing up.
    pub step: Option<Step>,
    /// Its price in the assessment, without tax.
    pub price: Money,
    /// Whether it is a price of the schedule and not one that was quoted.
    pub typical: bool,
    /// Who quoted it.
    pub source: Option<String>,
    /// When.
    pub quoted: Option<Date>,
    /// The day of its arrival, where that is written.
    pub arrives: Option<Date>,
}

/// The parts of a car, in the order of its lines.
pub fn parts(intake: usize, claim: &Claim, assessment: &Assessment) -> Vec<Part> {
    let mut all = Vec::new();
    for numbered in assessment.lines() {
        let price = numbered.line.amount;
        let text = |text: &Option<Located<String>>| text.as_ref().map(|text| text.value.clone());
        let part = |of, step| Part {
            intake,
            of,
            step,
            price,
            typical: false,
            source: None,
            quoted: None,
            arrives: None,
        };
        match (&numbered.line.kind, numbered.panel) {
            (LineKind::Part, Some(panel)) => {
                let quoted = claim.parts.iter().find(|part| part.panel == panel && part.price.is_some());
                all.push(Part {
                    typical: quoted.is_none(),
                    source: quoted.and_then(|quoted| text(&quoted.source)),
                    quoted: quoted.and_then(|quoted| quoted.date).map(|date| date.value),
                    ..part(PartOf::Panel(panel), Some(Step::Fit))
                });
            }
            (LineKind::ItemPrice(number), _) => {
                let Some(item) = claim.items.get(*number) else { continue };
                if item.action.is_none_or(|action| action.value == ItemAction::Replace) {
                    let step = if is_glass(&item.name.value) { Step::Glass } else { Step::Fit };
                    all.push(Part {
                        source: text(&item.source),
                        quoted: item.date.map(|date| date.value),
                        ..part(PartOf::Item(*number), Some(step))
                    });
                }
            }
            (LineKind::OperationParts { operation, .. }, _) => {
                all.push(Part { typical: true, ..part(PartOf::Operation(*operation), None) });
            }
            _ => {}
        }
    }
    all
}

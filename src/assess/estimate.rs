//! What a claim would come to at both ends of its estimates.

use super::desk::Desk;
use super::{Assessment, PanelAssessment, Silent, finished, opened};
use crate::claim::{Claim, Method, PanelId};
use crate::quantity::{Date, Money};
use crate::schedule::Schedule;

/// Which number of an estimate is rated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum End {
    /// The lower end of its interval.
    Low,
    /// The estimate itself.
    #[default]
    Best,
    /// The upper end.
    High,
}

/// The claim assessed with every estimate at one end of its interval.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AtEnd {
    /// Net, tax and rounding; `None` where panels or items are open there beside those that are open in the claim itself.
    pub gross: Option<Money>,
    /// The insurer's part, likewise.
    pub insurer_pays: Option<Money>,
    /// Panels and items that are open then.
    pub open: usize,
    /// The estimated panels: what is done with each, and its amount unless it is open.
    pub panels: Vec<(PanelId, Method, Option<Money>)>,
}

/// What estimates leave open: the whole assessment made again with all of them at their lower ends, and at their upper ends;
/// `None` where something stops it there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Range {
    /// All at their lower ends.
    pub low: Option<AtEnd>,
    /// All at their upper ends.
    pub high: Option<AtEnd>,
}

/// Both ends, where a panel is estimated. Nothing is computed where none is.
pub(super) fn range(
    claim: &Claim,
    schedule: &Schedule,
    run_date: Option<Date>,
    assessed: &Assessment,
) -> Option<Range> {
    let estimated: Vec<PanelId> =
        assessed.panels.iter().filter(|panel| panel.is_estimated()).map(|panel| panel.panel).collect();
    if estimated.is_empty() {
        return None;
    }
    let open_of = |of: &Assessment| of.open_panels().count() + of.open_items.len();
    let own_open = open_of(assessed);
    let at = |end| {
        let mut recorder = Silent;
        let mut desk = Desk::new(claim, schedule, &mut recorder);
        desk.end = end;
        let (dated, inspected) = opened(&mut desk, run_date).ok()?;
        let again = finished(desk, inspected, assessed.schedule, dated).ok()?;
        let open = open_of(&again);
        // Nothing to do costs nothing.
        let nothing = Money::zero(again.currency);
        let amount = |panel: &PanelAssessment| {
            if panel.method == Method::NoRepair { Some(nothing) } else { panel.amount() }
        };
        let of = |panel: &PanelAssessment| (panel.panel, panel.method, amount(panel));
        Some(AtEnd {
            gross: (open <= own_open).then_some(again.totals.gross),
            insurer_pays: (open <= own_open).then_some(again.settled.insurer_pays),
            open,
            panels: again.panels.iter().filter(|panel| estimated.contains(&panel.panel)).map(of).collect(),
        })
    };
    Some(Range { low: at(End::Low), high: at(End::High) })
}

//! A claim's totals, screen and settlement as data.

use super::written::Cells;
use crate::assess::{
    AtEnd, Range, Screen, ScreenFigures, Settled, TaxLine, TitleAnswer, TitleFinding, Totals,
};
use crate::quantity::Hours;
use crate::report::tables::claims;
use crate::report::wording;
use crate::schedule::{LabourClass, Schedule};
use serde::Serialize;

/// Net, tax and gross, each with its step in the working.
#[derive(Debug, Serialize)]
pub struct TotalsView {
    net: String,
    net_step: u32,
    taxes: Vec<TaxView>,
    tax: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    rounding: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rounding_step: Option<u32>,
    gross: String,
    gross_step: u32,
}

#[derive(Debug, Serialize)]
struct TaxView {
    percent: String,
    taxable: String,
    tax: String,
    rate_at: Vec<String>,
    step: u32,
}

impl TotalsView {
    /// A claim's.
    pub fn new(totals: &Totals, cells: Cells<'_>) -> Self {
        let tax = |tax: &TaxLine| TaxView {
            percent: tax.percent.to_string(),
            taxable: tax.taxable.to_string(),
            tax: tax.tax.to_string(),
            rate_at: cells.all(&tax.cells),
            step: tax.step.0,
        };
        Self {
            net: totals.net.to_string(),
            net_step: totals.net_step.0,
            taxes: totals.taxes.iter().map(tax).collect(),
            tax: totals.tax.to_string(),
            rounding: totals.rounding.map(|rounding| rounding.to_string()),
            rounding_step: totals.rounding_step.map(|step| step.0),
            gross: totals.gross.to_string(),
            gross_step: totals.gross_step.0,
        }
    }
}

/// The total-loss screen.
#[derive(Debug, Serialize)]
pub struct ScreenView {
    answer: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    figures: Option<FiguresView>,
}

#[derive(Debug, Serialize)]
struct FiguresView {
    cost: String,
    cost_step: u32,
    limit: String,
    limit_step: u32,
    market_value: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    salvage: Option<String>,
}

impl ScreenView {
    /// A claim's.
    pub fn new(screen: &Screen) -> Self {
        Self { answer: claims::screen(screen), figures: claims::figures(screen).map(FiguresView::new) }
    }
}

impl FiguresView {
    fn new(figures: &ScreenFigures) -> Self {
        Self {
            cost: figures.cost.to_string(),
            cost_step: figures.cost_step.0,
            limit: figures.limit.to_string(),
            limit_step: figures.limit_step.0,
            market_value: figures.value.to_string(),
            salvage: figures.salvage.map(|salvage| salvage.to_string()),
        }
    }
}

/// What the law of the place of registration notes on the title.
#[derive(Debug, Serialize)]
pub struct TitleView {
    note: String,
    registered_in: String,
    answer: &'static str,
    source: String,
    rule_at: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    figures: Option<FiguresView>,
}

impl TitleView {
    /// One finding.
    pub fn new(found: &TitleFinding, schedule: &Schedule, cells: Cells<'_>) -> Self {
        let rule = &schedule.titles[found.rule];
        let figures = match &found.answer {
            TitleAnswer::Below(figures) | TitleAnswer::Open(figures) | TitleAnswer::Reached(figures) => {
                Some(figures)
            }
            TitleAnswer::CauseLeftOut | TitleAnswer::Lacks(_) => None,
        };
        Self {
            note: rule.note.value.clone(),
            registered_in: rule.place.value.clone(),
            answer: wording::title_answer(&found.answer),
            source: rule.source.value.clone(),
            rule_at: cells.at(rule.row),
            figures: figures.map(FiguresView::new),
        }
    }
}

/// Who pays what: `insurer_pays`, `owner_bears` and `salvage_kept` sum to `amount`.
#[derive(Debug, Serialize)]
pub struct SettlementView {
    settled_as: &'static str,
    amount: String,
    amount_step: u32,
    tax_reclaimed: String,
    betterment: String,
    paid_before: String,
    excess: String,
    excess_step: u32,
    beyond_policy_limit: String,
    insurer_pays: String,
    insurer_step: u32,
    owner_bears: String,
    owner_step: u32,
    salvage_kept: String,
}

impl SettlementView {
    /// A claim's.
    pub fn new(settled: &Settled) -> Self {
        Self {
            settled_as: settled.basis.name(),
            amount: settled.amount.to_string(),
            amount_step: settled.amount_step.0,
            tax_reclaimed: settled.tax_reclaimed.to_string(),
            betterment: settled.betterment.to_string(),
            paid_before: settled.paid_before.to_string(),
            excess: settled.excess.to_string(),
            excess_step: settled.excess_step.0,
            beyond_policy_limit: settled.over_limit.to_string(),
            insurer_pays: settled.insurer_pays.to_string(),
            insurer_step: settled.insurer_step.0,
            owner_bears: settled.owner_bears.to_string(),
            owner_step: settled.owner_step.0,
            salvage_kept: settled.salvage_kept.to_string(),
        }
    }
}

/// Labour of one class in the claim's lines.
#[derive(Debug, Serialize)]
pub struct LabourView {
    labour: &'static str,
    hours: String,
}

impl LabourView {
    /// Hours of a class.
    pub fn new(class: LabourClass, hours: Hours) -> Self {
        Self { labour: class.name(), hours: hours.to_string() }
    }
}

/// What the claim comes to with every estimate at its lower or its upper end; an end is missing where it is not priced.
#[derive(Debug, Serialize)]
pub struct RangeView {
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<EndView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<EndView>,
}

#[derive(Debug, Serialize)]
struct EndView {
    #[serde(skip_serializing_if = "Option::is_none")]
    gross: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    insurer_pays: Option<String>,
    /// Panels and items that are open then.
    open: usize,
    panels: Vec<PanelEndView>,
}

#[derive(Debug, Serialize)]
struct PanelEndView {
    panel: String,
    method: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    amount: Option<String>,
}

impl RangeView {
    /// A claim's.
    pub fn new(range: &Range) -> Self {
        Self { low: range.low.as_ref().map(EndView::new), high: range.high.as_ref().map(EndView::new) }
    }
}

impl EndView {
    fn new(end: &AtEnd) -> Self {
        let panels = end.panels.iter().map(|(panel, method, amount)| PanelEndView {
            panel: panel.to_string(),
            method: method.name(),
            amount: amount.map(|amount| amount.to_string()),
        });
        Self {
            gross: end.gross.map(|gross| gross.to_string()),
            insurer_pays: end.insurer_pays.map(|part| part.to_string()),
            open: end.open,
            panels: panels.collect(),
        }
    }
}

//! The working of a claim as data: each step's rule, formula, result and cells.

use super::written::Cells;
use crate::assess::{End, Formula, Rule, Shown, Step, StepId, Working};
use crate::schedule::Schedule;
use serde::Serialize;

/// One step; `step` is the number by which amounts and formulas name it.
#[derive(Debug, Serialize)]
pub struct StepView {
    step: u32,
    rule: &'static str,
    formula: FormulaView,
    result: ResultView,
    cells: Vec<String>,
}

/// How a step follows from others; numbers are steps.
#[derive(Debug, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
enum FormulaView {
    Read,
    Sum {
        of: Vec<u32>,
    },
    Difference {
        of: u32,
        less: u32,
    },
    Negative {
        of: u32,
    },
    Times {
        rate: u32,
        by: u32,
    },
    PercentOf {
        percent: u32,
        of: u32,
    },
    WeightedSum {
        of: Vec<[u32; 2]>,
    },
    Scaled {
        count: u32,
        part: u32,
        whole: u32,
        at: &'static str,
    },
    BandOf {
        of: u32,
    },
    /// Each size band by its number from 0, with its step.
    ChosenSize {
        of: Vec<(usize, u32)>,
    },
    GridCell {
        size: u32,
        count: u32,
    },
    UpTo {
        floor: u32,
        amount: u32,
    },
    DownTo {
        cap: u32,
        amount: u32,
    },
    Between {
        low: u32,
        high: u32,
        at: u32,
        from: u32,
        to: u32,
    },
    PartOf {
        total: u32,
        weights: Vec<u32>,
        part: usize,
    },
    ToStep {
        amount: u32,
        to: u32,
    },
    Smallest {
        of: Vec<u32>,
    },
    AtLeastZero {
        of: u32,
        less: u32,
    },
}

/// What came out, with its unit.
#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
enum ResultView {
    Amount(String),
    Rate(String),
    Dents(u32),
    Equivalents(String),
    Hours(String),
    Length(String),
    Area(String),
    Percent(String),
    SizeBand(String),
    CountBand(String),
    Words(String),
}

/// Every step of a working, in the order they were made.
pub fn steps(working: &Working, schedule: &Schedule, cells: Cells<'_>) -> Vec<StepView> {
    (0..).zip(&working.steps).map(|(number, step)| view(number, step, schedule, cells)).collect()
}

fn view(number: u32, step: &Step, schedule: &Schedule, cells: Cells<'_>) -> StepView {
    StepView {
        step: number,
        rule: rule(step.rule),
        formula: formula(&step.formula),
        result: result(&step.result, schedule),
        cells: cells.all(&step.cells),
    }
}

fn formula(formula: &Formula) -> FormulaView {
    let all = |steps: &[StepId]| steps.iter().map(|step| step.0).collect();
    match formula {
        Formula::Read => FormulaView::Read,
        Formula::Sum(steps) => FormulaView::Sum { of: all(steps) },
        Formula::Difference(of, less) => FormulaView::Difference { of: of.0, less: less.0 },
        Formula::Negative(of) => FormulaView::Negative { of: of.0 },
        Formula::Times { rate, by } => FormulaView::Times { rate: rate.0, by: by.0 },
        Formula::PercentOf { percent, of } => FormulaView::PercentOf { percent: percent.0, of: of.0 },
        Formula::Weighted(pairs) => {
            FormulaView::WeightedSum { of: pairs.iter().map(|(count, weight)| [count.0, weight.0]).collect() }
        }
        Formula::Scaled { count, part, whole, end } => {
            let at = match end {
                End::Low => "low end",
                End::Best => "best",
                End::High => "high end",
            };
            FormulaView::Scaled { count: count.0, part: part.0, whole: whole.0, at }
        }
        Formula::BandOf(of) => FormulaView::BandOf { of: of.0 },
        Formula::ChosenSize(bands) => {
            FormulaView::ChosenSize { of: bands.iter().map(|(band, step)| (*band, step.0)).collect() }
        }
        Formula::GridCell { size, count } => FormulaView::GridCell { size: size.0, count: count.0 },
        Formula::UpTo { floor, amount } => FormulaView::UpTo { floor: floor.0, amount: amount.0 },
        Formula::DownTo { cap, amount } => FormulaView::DownTo { cap: cap.0, amount: amount.0 },
        Formula::Between { low, high, at, from, to } => {
            FormulaView::Between { low: low.0, high: high.0, at: at.0, from: from.0, to: to.0 }
        }
        Formula::Part { total, weights, index } => {
            FormulaView::PartOf { total: total.0, weights: all(weights), part: *index }
        }
        Formula::ToStep { amount, step } => FormulaView::ToStep { amount: amount.0, to: step.0 },
        Formula::Smallest(steps) => FormulaView::Smallest { of: all(steps) },
        Formula::AtLeastZero(of, less) => FormulaView::AtLeastZero { of: of.0, less: less.0 },
    }
}

fn result(shown: &Shown, schedule: &Schedule) -> ResultView {
    match shown {
        Shown::Money(money) => ResultView::Amount(money.to_string()),
        Shown::Rate(rate) => ResultView::Rate(rate.to_string()),
        Shown::Count(dents) => ResultView::Dents(*dents),
        Shown::Weighted(number) => ResultView::Equivalents(number.to_string()),
        Shown::Time(hours) => ResultView::Hours(hours.to_string()),
        Shown::Length(length) => ResultView::Length(length.to_string()),
        Shown::Area(area) => ResultView::Area(area.to_string()),
        Shown::Percent(percent) => ResultView::Percent(percent.to_string()),
        Shown::SizeBand(band) => ResultView::SizeBand(schedule.sizes[*band].name.clone()),
        Shown::CountBand(band) => ResultView::CountBand(schedule.counts[*band].name.clone()),
        Shown::Word(word) => ResultView::Words(word.clone()),
    }
}

const fn rule(rule: Rule) -> &'static str {
    match rule {
        Rule::Input => "cell of the claim",
        Rule::Term => "cell of the schedule",
        Rule::DentsOfPanel => "dents of the panel",
        Rule::DentsOfSize => "dents of a size",
        Rule::ScaledDents => "dents scaled to the panel",
        Rule::LowestDents => "low end of scaled dents",
        Rule::HighestDents => "high end of scaled dents",
        Rule::RatedSize => "rated size",
        Rule::EquivalentDents => "equivalent dents",
        Rule::BandOfCount => "count band",
        Rule::Base => "base",
        Rule::LabourTime => "time",
        Rule::FactorBase => "base of a factor",
        Rule::MarkAmount => "mark",
        Rule::FurtherMark => "further mark",
        Rule::FactorAmount => "factor",
        Rule::FactorSum => "all factors",
        Rule::FactorCeiling => "most that factors add",
        Rule::FactorTakeOff => "down to the most that factors add",
        Rule::FloorTopUp => "up to the floor",
        Rule::CapTakeOff => "down to the cap",
        Rule::UpToNothing => "up to nothing",
        Rule::MethodAmount => "amount of a method",
        Rule::Readying => "readying for paint",
        Rule::LabourAmount => "labour",
        Rule::PriceAmount => "price",
        Rule::LimitAmount => "amount of a limit",
        Rule::OperationAmount => "operation",
        Rule::ItemAmount => "item",
        Rule::Betterment => "betterment",
        Rule::PaidBefore => "paid before",
        Rule::SalvageKept => "salvage kept",
        Rule::NetBeforeMinimum => "net before the minimum",
        Rule::MinimumTopUp => "up to the minimum",
        Rule::Discounted => "discounted lines",
        Rule::DiscountTotal => "discount",
        Rule::DiscountPart => "part of the discount",
        Rule::Taxable => "taxable",
        Rule::Tax => "tax",
        Rule::Net => "net",
        Rule::TotalRounding => "rounding of the total",
        Rule::Gross => "gross",
        Rule::ScreenLimit => "limit of the screen",
        Rule::ScreenCost => "cost of the screen",
        Rule::TitleLimit(_) => "limit of a title rule",
        Rule::TitleCost => "cost of a title rule",
        Rule::SettlementAmount => "settlement amount",
        Rule::TaxReclaimed => "tax reclaimed",
        Rule::Excess => "excess",
        Rule::OverLimit => "beyond the policy limit",
        Rule::InsurerPays => "insurer pays",
        Rule::OwnerBears => "owner bears",
    }
}

use super::{Figure, Filling};
use crate::assess::{JobKind, Line, NumberedLine, PanelAssessment, Rule, StepId};
use crate::claim::PanelId;
use crate::quantity::Money;
use crate::report::Subject;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// Every amount that enters the totals, numbered, and what they add up to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Lines {
    /// Panel by panel, then the vehicle.
    pub groups: Vec<LineGroup>,
    /// How many lines there are.
    pub count: usize,
    /// Whether a time stands on any line.
    pub timed: bool,
    /// Columns that the name of a panel stands over: from what a line is for up to its amount.
    pub spanned: usize,
    /// The unit of times.
    pub time_unit: String,
    /// The tax rate of every line, where there is only one; else it stands on each line.
    pub one_tax: Option<String>,
    /// Net, tax, rounding, gross.
    pub totals: Vec<Total>,
    /// What every total leaves out.
    pub without: Option<String>,
    /// Labour by class, over all lines.
    pub labour: Option<String>,
    /// From the settlement amount to what each one pays; empty on a quotation.
    pub settlement: Vec<Total>,
    /// The total-loss screen in words, and the step of its cost; only on a claim file.
    pub screen: Option<String>,
    /// What the law notes on the title, rule by rule; only on a claim file.
    pub titles: Vec<String>,
}

/// The lines of one panel, or of the vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LineGroup {
    /// The panel's name.
    pub title: String,
    /// What is done with it.
    pub method: Option<&'static str>,
    /// Its lines.
    pub lines: Vec<LineRow>,
    /// What they add up to; none for the vehicle's.
    pub sum: Option<Figure>,
    /// The step of the sum.
    pub step: Option<String>,
}

/// One line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LineRow {
    /// Its number in this document.
    pub number: usize,
    /// What it is for.
    pub what: String,
    /// Labour in it.
    pub time: Option<String>,
    /// Rate of the tax on it.
    pub tax: String,
    /// The amount without tax.
    pub amount: Figure,
    /// Its step in the annex.
    pub step: Option<String>,
}

/// A sum, or a step on the way to one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Total {
    /// What it is.
    pub label: String,
    /// How much.
    pub amount: Figure,
    /// Its step in the annex.
    pub step: Option<String>,
    /// Whether it is one of the sums that a reader looks for.
    pub main: bool,
}

pub(super) fn lines(filling: &Filling<'_>) -> Lines {
    let subject = &filling.subject;
    let assessment = subject.assessment;
    let unit = subject.schedule.terms.time_unit.value;
    let mut groups: Vec<LineGroup> = Vec::new();
    let mut last: Option<Option<PanelId>> = None;
    for numbered in assessment.lines() {
        if last != Some(numbered.panel) {
            groups.push(group(numbered.panel, filling));
            last = Some(numbered.panel);
        }
        if let Some(group) = groups.last_mut() {
            group.lines.push(row(numbered, filling));
        }
    }
    let taxes: Vec<String> = assessment.lines().map(|numbered| wording::percent(numbered.line.tax)).collect();
    let one_tax = taxes.first().filter(|first| taxes.iter().all(|tax| tax == *first)).cloned();
    let claim = assessment.kind == JobKind::Claim;
    let timed = groups.iter().flat_map(|group| &group.lines).any(|line| line.time.is_some());
    Lines {
        count: taxes.len(),
        groups,
        timed,
        spanned: 1 + usize::from(timed) + usize::from(one_tax.is_none()),
        time_unit: wording::time_unit(unit),
        one_tax,
        totals: totals(filling),
        without: wording::without_open(assessment, subject.words),
        labour: labour(subject),
        settlement: if claim { settlement(filling) } else { Vec::new() },
        titles: if claim { wording::titles(subject) } else { Vec::new() },
        screen: claim.then(|| wording::screen(subject)),
    }
}

/// Labour by class over all lines: "paintless 6.9 h, refinish 3.3 h"; nothing where all is by amounts.
pub(super) fn labour(subject: &Subject<'_>) -> Option<String> {
    let words = subject.words;
    let unit = subject.schedule.terms.time_unit.value;
    let labour: Vec<String> = subject
        .assessment
        .hours
        .iter()
        .filter(|(_, time)| !time.is_zero())
        .map(|(class, time)| {
            format!("{} {}", words.name(*class), wording::time_with_unit(*time, unit, words))
        })
        .collect();
    (!labour.is_empty()).then(|| labour.join(", "))
}

fn group(panel: Option<PanelId>, filling: &Filling<'_>) -> LineGroup {
    let assessed =
        panel.and_then(|panel| filling.subject.assessment.panels.iter().find(|other| other.panel == panel));
    LineGroup {
        title: panel
            .map_or_else(|| LABELS.of_vehicle.to_owned(), |panel| wording::sentence(&panel.to_string())),
        method: assessed.map(|panel| panel.method.name()),
        lines: Vec::new(),
        sum: assessed.and_then(PanelAssessment::amount).map(|money| Figure(money, filling.subject.words)),
        step: assessed.and_then(PanelAssessment::chosen).and_then(|chosen| filling.refs.name(chosen.step)),
    }
}

fn row(numbered: NumberedLine<'_>, filling: &Filling<'_>) -> LineRow {
    let line: &Line = numbered.line;
    let unit = filling.subject.schedule.terms.time_unit.value;
    LineRow {
        number: numbered.number,
        what: wording::line(line, numbered.panel, &filling.subject),
        time: line.hours.map(|(_, time)| wording::time(time, unit, filling.subject.words)),
        tax: wording::percent(line.tax),
        amount: Figure(line.amount, filling.subject.words),
        step: filling.refs.name(line.step),
    }
}

fn totals(filling: &Filling<'_>) -> Vec<Total> {
    let totals = &filling.subject.assessment.totals;
    let total = |label: &str, amount: Money, step: Option<StepId>, main| Total {
        label: label.to_owned(),
        amount: Figure(amount, filling.subject.words),
        step: step.and_then(|step| filling.refs.name(step)),
        main,
    };
    let mut out = vec![total(LABELS.net, totals.net, Some(totals.net_step), true)];
    for tax in &totals.taxes {
        let label = wording::tax_of(tax.percent, tax.taxable);
        out.push(total(&label, tax.tax, Some(tax.step), false));
    }
    if let Some(rounding) = totals.rounding {
        out.push(total(LABELS.rounding_line, rounding, totals.rounding_step, false));
    }
    out.push(total(LABELS.gross, totals.gross, Some(totals.gross_step), true));
    out
}

fn settlement(filling: &Filling<'_>) -> Vec<Total> {
    let settled = &filling.subject.assessment.settled;
    let total = |label: String, amount: Money, step: Option<StepId>, main| Total {
        label,
        amount: Figure(amount, filling.subject.words),
        step: step.and_then(|step| filling.refs.name(step)),
        main,
    };
    let label = wording::settlement_amount(settled.basis);
    let mut out = vec![total(label, settled.amount, Some(settled.amount_step), false)];
    let mut less = [
        (LABELS.less_tax, settled.tax_reclaimed, filling.last_step(Rule::TaxReclaimed)),
        (LABELS.less_salvage, settled.salvage_kept, None),
        (LABELS.less_betterment, settled.betterment, filling.last_step(Rule::Betterment)),
        (LABELS.less_paid, settled.paid_before, filling.last_step(Rule::PaidBefore)),
        (LABELS.less_excess, settled.excess, Some(settled.excess_step)),
        (LABELS.less_limit, settled.over_limit, filling.last_step(Rule::OverLimit)),
    ];
    if settled.is_limit_first {
        less[4..].reverse();
    }
    for (label, amount, step) in less {
        if !amount.is_zero() {
            out.push(total(label.to_owned(), amount, step, false));
        }
    }
    out.push(total(LABELS.insurer_pays.to_owned(), settled.insurer_pays, Some(settled.insurer_step), true));
    out.push(total(LABELS.owner_bears.to_owned(), settled.owner_bears, Some(settled.owner_step), true));
    if !settled.salvage_kept.is_zero() {
        out.push(total(LABELS.salvage_kept.to_owned(), settled.salvage_kept, None, true));
    }
    out
}

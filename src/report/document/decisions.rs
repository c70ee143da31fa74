use super::{Figure, Filling};
use crate::assess::{Alternative, Crossing, Finding, PanelAssessment, PanelState};
use crate::claim::Method;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// The ways of repair of each panel side by side, and why one was taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Decisions {
    /// The ways of repair that any panel could take, in the order of [`Method`].
    pub methods: Vec<&'static str>,
    /// The panels that were assessed.
    pub rows: Vec<Decision>,
}

/// One panel's decision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Decision {
    /// Its panel.
    pub panel: String,
    /// A choice for each way of repair; `None` where it was not looked at.
    pub choices: Vec<Option<Choice>>,
    /// What is to be done.
    pub method: String,
    /// Whether it enters no total.
    pub open: bool,
    /// Whether there is nothing to say beyond that no limit is crossed.
    pub plain: bool,
    /// Why, a sentence each: the limit that decides, others that are crossed, what is not priced and why.
    pub reasons: Vec<String>,
}

/// One way of repair.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// Its amount; `None` is not priced, and a reason says why.
    pub amount: Option<Figure>,
    /// Whether it is the one that was decided.
    pub chosen: bool,
    /// Its step in the annex.
    pub step: Option<String>,
}

pub(super) fn decisions(filling: &Filling<'_>) -> Decisions {
    let assessed = || {
        filling.subject.assessment.panels.iter().filter(|panel| panel.state == PanelState::Assessed)
    };
    let methods: Vec<Method> = Method::ALL
        .iter()
        .copied()
        .filter(|method| assessed().flat_map(|panel| &panel.alternatives).any(|a| a.method == *method))
        .collect();
    let rows = assessed().map(|panel| decision(panel, &methods, filling)).collect();
    Decisions { methods: methods.into_iter().map(Method::name).collect(), rows }
}

fn decision(panel: &PanelAssessment, methods: &[Method], filling: &Filling<'_>) -> Decision {
    let choice = |alternative: &Alternative| Choice {
        amount: alternative.amount.ok().map(Figure),
        chosen: alternative.method == panel.method,
        step: filling.refs.name(alternative.step),
    };
    let of = |method: &Method| panel.alternatives.iter().find(|a| a.method == *method).map(choice);
    let reasons = reasons(panel, filling);
    Decision {
        panel: wording::sentence(&panel.panel.to_string()),
        choices: methods.iter().map(of).collect(),
        method: wording::method_of(panel),
        open: panel.open.is_some(),
        plain: reasons.len() == 1 && panel.decided_by.is_none(),
        reasons,
    }
}

fn reasons(panel: &PanelAssessment, filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let mut reasons = Vec::new();
    let crossed = |(index, finding): &(usize, &Finding)| {
        finding.crossing == Crossing::Yes && Some(*index) != panel.decided_by
    };
    let cited = |finding: &Finding| {
        let limit = &subject.schedule.limits[finding.limit];
        let cell = filling.sheets.cell(limit.place, subject.sources);
        let seen = if finding.cells.is_empty() {
            String::new()
        } else {
            format!("; seen at {}", filling.sheets.cells(&finding.cells, subject.sources))
        };
        format!(
            "{}: {} ({}, {cell}{seen})",
            wording::sentence(&wording::said(&limit.name)),
            wording::finding(finding, subject),
            wording::limit_row(limit)
        )
    };
    if let Some(overruled) = &panel.overruled {
        reasons.push(wording::overruled(overruled, subject));
    }
    match panel.decided_by.and_then(|index| panel.findings.get(index)) {
        Some(decided) => reasons.push(format!("{}.", cited(decided))),
        None => reasons.push(LABELS.no_limit.to_owned()),
    }
    for (_, finding) in panel.findings.iter().enumerate().filter(crossed) {
        let then = subject.schedule.limits[finding.limit].then;
        reasons.push(format!("{}: {}: {then}.", LABELS.also_crossed, cited(finding)));
    }
    for finding in panel.findings.iter().filter(|finding| finding.crossing == Crossing::CannotTell) {
        reasons.push(format!("{}.", cited(finding)));
    }
    for alternative in &panel.alternatives {
        if let Err(why) = alternative.amount {
            let method = wording::sentence(alternative.method.name());
            reasons.push(format!("{method}: {}, {}.", LABELS.not_priced, wording::unpriced(why, subject)));
        }
    }
    let typical: Vec<String> = panel
        .alternatives
        .iter()
        .filter(|alternative| alternative.typical)
        .map(|alternative| alternative.method.name().to_owned())
        .collect();
    if !typical.is_empty() {
        reasons.push(format!("{}: {}.", LABELS.typical, wording::list(&typical)));
    }
    reasons
}

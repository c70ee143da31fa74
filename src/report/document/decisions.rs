use super::{Figure, Filling};
use crate::assess::{Alternative, Crossing, OpenReason, PanelAssessment, PanelState};
use crate::claim::Method;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;

/// The ways of repair of each panel side by side, and why one was taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Decisions {
    /// The ways of repair that any panel could take, in the order of [`Method`].
    pub methods: Vec<&'static str>,
    /// What the signs in the table mean, those that are used.
    pub keys: Vec<&'static str>,
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
    /// Why, a sentence each: the limit that decides, others that are crossed.
    pub reasons: Vec<String>,
}

/// One way of repair.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// Its amount; `None` is not priced.
    pub amount: Option<Figure>,
    /// Why it is not priced, in a word or two.
    pub unpriced: Option<&'static str>,
    /// Whether a typical price or time of the schedule stands in it.
    pub typical: bool,
    /// Whether it is the one that was decided.
    pub chosen: bool,
    /// Its step in the annex.
    pub step: Option<String>,
}

pub(super) fn decisions(filling: &Filling<'_>) -> Decisions {
    let assessed =
        || filling.subject.assessment.panels.iter().filter(|panel| panel.state == PanelState::Assessed);
    let methods: Vec<Method> = Method::ALL
        .iter()
        .copied()
        .filter(|method| assessed().flat_map(|panel| &panel.alternatives).any(|a| a.method == *method))
        .collect();
    let rows: Vec<Decision> = assessed().map(|panel| decision(panel, &methods, filling)).collect();
    let any = |test: fn(&Choice) -> bool| rows.iter().flat_map(|row| row.choices.iter().flatten()).any(test);
    let mut keys = vec![LABELS.decisions_key];
    if any(|choice| choice.unpriced.is_some()) {
        keys.push(LABELS.unpriced_key);
    }
    if any(|choice| choice.typical) {
        keys.push(LABELS.typical_key);
    }
    Decisions { methods: methods.into_iter().map(Method::name).collect(), keys, rows }
}

fn decision(panel: &PanelAssessment, methods: &[Method], filling: &Filling<'_>) -> Decision {
    let choice = |alternative: &Alternative| Choice {
        amount: alternative.amount.ok().map(|money| Figure(money, filling.subject.words)),
        unpriced: alternative.amount.err().map(wording::unpriced_in_short),
        typical: alternative.typical && alternative.amount.is_ok(),
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

/// The overrule, the limit that decides, others that are crossed, and why the decided way is not priced.
fn reasons(panel: &PanelAssessment, filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let mut reasons = Vec::new();
    if let Some(overruled) = &panel.overruled {
        reasons.push(wording::overruled(overruled, subject));
    }
    match panel.decided_by.and_then(|index| panel.findings.get(index)) {
        Some(decided) => reasons
            .push(format!("{}.", wording::cited_finding(decided, subject, |place| filling.cell(place)))),
        None => reasons.push(LABELS.no_limit.to_owned()),
    }
    for (index, finding) in panel.findings.iter().enumerate() {
        if finding.crossing == Crossing::Yes && Some(index) != panel.decided_by {
            reasons.push(wording::also_crossed(finding, subject, |place| filling.cell(place)));
        }
    }
    if let Some(OpenReason::NotPriced(why)) = panel.open {
        reasons.push(format!("{}.", wording::sentence(&wording::unpriced(why, subject))));
    }
    reasons
}

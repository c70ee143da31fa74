use super::{mark, said, sentence};
use crate::assess::{Assessment, LineKind, MarkAssessment, PanelAssessment, PanelState, Screen};
use crate::claim::{ItemAction, Method, Settlement};
use crate::report::Subject;
use crate::report::words::{Fill, Words};

/// What an owner looks at before taking the car back. Common practice, no source.
pub const CHECK: [&str; 6] = [
    "owner-check-walk",
    "owner-check-open",
    "owner-check-residue",
    "owner-check-warnings",
    "owner-check-calibration",
    "owner-check-ask",
];

/// The answer first: what becomes of the car.
pub fn answer(subject: &Subject<'_>) -> String {
    let assessment = subject.assessment;
    subject.words.text(match (assessment.screen, assessment.settled.basis) {
        (_, Settlement::TotalLoss) => "owner-total-loss",
        (_, Settlement::TotalLossKept) => "owner-total-loss-kept",
        (_, Settlement::Cash) => "owner-cash",
        (Screen::Reached(_), Settlement::Repair) => "owner-screen-reached",
        _ if assessment.open_panels().next().is_some() || !assessment.open_items.is_empty() => {
            "owner-repair-open"
        }
        _ if assessment.lines().next().is_none() => "owner-no-damage",
        _ => "owner-repair",
    })
}

/// Everything that was found: dents by panel, larger marks, other things.
pub fn found(subject: &Subject<'_>) -> Vec<String> {
    let words = subject.words;
    let panels = || subject.assessment.panels.iter().filter(|panel| panel.state == PanelState::Assessed);
    let dents = |panel: &PanelAssessment| {
        let (name, dents) = (words.panel(panel.panel), Fill::Many(panel.dents.into()));
        words.say("owner-dents-of-panel", &[("panel", name.into()), ("count", dents)])
    };
    let dented: Vec<String> = panels().filter(|panel| panel.dents > 0).map(dents).collect();
    let marks: Vec<String> = panels().flat_map(|panel| single_marks(panel, subject)).collect();
    let items: Vec<String> = subject.claim.items.iter().map(|item| said(&item.name.value)).collect();
    [("owner-dents", dented), ("owner-marks", marks), ("owner-items", items)]
        .into_iter()
        .filter(|(_, things)| !things.is_empty())
        .map(|(key, things)| words.say(key, &[("list", words.list(&things).into())]))
        .collect()
}

fn single_marks(panel: &PanelAssessment, subject: &Subject<'_>) -> Vec<String> {
    let paid = |outcome: &MarkAssessment| {
        matches!(outcome, MarkAssessment::Rated | MarkAssessment::Noted | MarkAssessment::NotPriced)
    };
    let words = subject.words;
    let marks = panel.marks.iter().enumerate().filter(|(_, outcome)| paid(outcome));
    marks
        .filter_map(|(index, _)| {
            let (mark, panel) = (mark(panel, index, subject)?, words.panel(panel.panel));
            Some(words.say("owner-mark-on-panel", &[("mark", mark.into()), ("panel", panel.into())]))
        })
        .collect()
}

/// What is done, a sentence for each way of repair, then the other things.
pub fn done(subject: &Subject<'_>) -> Vec<String> {
    let (assessment, words) = (subject.assessment, subject.words);
    let mut out = Vec::new();
    for method in Method::ALL {
        let panels: Vec<String> = assessment
            .panels_by(*method)
            .filter(|panel| panel.open.is_none() && panel.state == PanelState::Assessed)
            .map(|panel| words.panel(panel.panel))
            .collect();
        if !panels.is_empty() {
            let method = sentence(&super::included_method(*method, words));
            let panels = words.list(&panels);
            out.push(words.say("owner-done", &[("method", method.into()), ("list", panels.into())]));
        }
    }
    for (index, item) in subject.claim.items.iter().enumerate() {
        if !assessment.open_items.iter().any(|open| open.item == index) {
            let action = item.action.map_or(ItemAction::Replace, |action| action.value);
            let item = sentence(&said(&item.name.value));
            out.push(
                words.say("owner-item-done", &[("item", item.into()), ("action", action.name().into())]),
            );
        }
    }
    out
}

/// What is not decided yet.
pub fn undecided(subject: &Subject<'_>) -> Vec<String> {
    let words = subject.words;
    let panel = |panel: &PanelAssessment| {
        words.say("owner-panel-undecided", &[("panel", sentence(&words.panel(panel.panel)).into())])
    };
    let mut out: Vec<String> = subject.assessment.open_panels().map(panel).collect();
    out.extend(super::open_items(subject));
    out
}

/// What the owner's part is made of, a sentence each.
pub fn why_you_pay(assessment: &Assessment, words: &Words) -> Vec<String> {
    let settled = &assessment.settled;
    [
        ("owner-excess", settled.excess),
        ("owner-tax", settled.tax_reclaimed),
        ("owner-betterment", settled.betterment),
        ("owner-paid-before", settled.paid_before),
        ("owner-over-limit", settled.over_limit),
    ]
    .into_iter()
    .filter(|(_, money)| !money.is_zero())
    .map(|(key, money)| {
        let currency = money.currency().code();
        words.say(key, &[("amount", words.amount(money).into()), ("currency", currency.into())])
    })
    .collect()
}

/// How long it takes, as far as it is reckoned by time.
pub fn how_long(labour: Option<&str>, assessment: &Assessment, words: &Words) -> String {
    let by_piece = assessment.lines().any(|numbered| {
        let of_dents = matches!(
            numbered.line.kind,
            LineKind::Dents { .. } | LineKind::Equivalents { .. } | LineKind::Mark(_)
        );
        of_dents && numbered.line.hours.is_none()
    });
    let by_time = |key, labour: &str| words.say(key, &[("labour", labour.into())]);
    match (labour, by_piece) {
        (Some(labour), true) => by_time("owner-hours-and-dents", labour),
        (Some(labour), false) => by_time("owner-hours", labour),
        (None, true) => words.text("owner-dents-by-number"),
        (None, false) => words.text("owner-no-hours"),
    }
}

/// Panels without damage: "No damage was found on 2 panels: hood and roof."
pub fn nothing_found(panels: &[String], words: &Words) -> Option<String> {
    let count = Fill::Many(u64::try_from(panels.len()).unwrap_or(u64::MAX));
    (!panels.is_empty())
        .then(|| words.say("owner-nothing-found", &[("count", count), ("list", words.list(panels).into())]))
}

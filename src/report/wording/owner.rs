use super::{amount, list, mark, number, said, sentence, so_many};
use crate::assess::{Assessment, LineKind, MarkAssessment, PanelAssessment, PanelState, Screen};
use crate::claim::{ItemAction, Method, Settlement};
use crate::report::Subject;

/// What an owner looks at before taking the car back. Common practice, no source.
pub const CHECK: [&str; 6] = [
    "Walk round the washed car in daylight and look along each panel named here, from two directions.",
    "Open and close doors, windows and lids; switch on the lamps.",
    "Look for residue of glue or polish, for loose trim and for rattles on the way home.",
    "No warning lamp is on that was not on before.",
    "Where a camera or a radar was touched, ask for the record that it was calibrated.",
    "Ask what stays visible and why, and keep this sheet.",
];

/// What everybody has a right to ask. Rules differ by place.
pub const WHO_DECIDES: &str = "This sheet is information. Your policy, your contract with the workshop and local law decide what \
     you are owed; ask your insurer or an adviser where you do not agree.";

/// Days are not hours.
pub const HOURS_NOT_DAYS: &str = "These are hours of work. How many days the car stays also depends on parts, paint and drying: \
     ask the workshop.";

/// The answer first: what becomes of the car.
pub fn answer(subject: &Subject<'_>) -> &'static str {
    let assessment = subject.assessment;
    match (assessment.screen, assessment.settled.basis) {
        (_, Settlement::TotalLoss) => {
            "Your car is settled as a total loss; it is not repaired on this claim."
        }
        (_, Settlement::TotalLossKept) => {
            "Your car is settled as a total loss, and you keep it; it is not repaired on this claim."
        }
        (_, Settlement::Cash) => "You are paid in money; repair on this claim is not ordered.",
        (Screen::Reached(_), Settlement::Repair) => {
            "Repair may cost more than your car allows. A licensed adjuster decides by the policy and local law; until then \
             the figures are those of a repair."
        }
        _ if assessment.open_panels().next().is_some() || !assessment.open_items.is_empty() => {
            "Your car is repaired. Something is not decided yet: see below."
        }
        _ if assessment.lines().next().is_none() => "No damage was found that has to be repaired.",
        _ => "Your car is repaired.",
    }
}

/// Everything that was found: dents by panel, larger marks, other things.
pub fn found(subject: &Subject<'_>) -> Vec<String> {
    let panels = || subject.assessment.panels.iter().filter(|panel| panel.state == PanelState::Assessed);
    let dented: Vec<String> = panels()
        .filter(|panel| panel.dents > 0)
        .map(|panel| format!("{} {}", panel.panel, number(panel.dents.into())))
        .collect();
    let mut out = Vec::new();
    if !dented.is_empty() {
        out.push(format!("Dents: {}.", list(&dented)));
    }
    let marks: Vec<String> = panels().flat_map(|panel| single_marks(panel, subject)).collect();
    if !marks.is_empty() {
        out.push(format!("Measured one by one: {}.", list(&marks)));
    }
    let items: Vec<String> = subject.claim.items.iter().map(|item| said(&item.name.value)).collect();
    if !items.is_empty() {
        out.push(format!("Also damaged: {}.", list(&items)));
    }
    out
}

fn single_marks(panel: &PanelAssessment, subject: &Subject<'_>) -> Vec<String> {
    let paid = |outcome: &MarkAssessment| {
        matches!(outcome, MarkAssessment::Rated | MarkAssessment::Noted | MarkAssessment::NotPriced)
    };
    let marks = panel.marks.iter().enumerate().filter(|(_, outcome)| paid(outcome));
    marks
        .filter_map(|(index, _)| Some(format!("{} on {}", mark(panel, index, subject)?, panel.panel)))
        .collect()
}

/// What is done, a sentence for each way of repair, then the other things.
pub fn done(subject: &Subject<'_>) -> Vec<String> {
    let assessment = subject.assessment;
    let mut out = Vec::new();
    for method in Method::ALL {
        let panels: Vec<String> = assessment
            .panels_by(*method)
            .filter(|panel| panel.open.is_none() && panel.state == PanelState::Assessed)
            .map(|panel| panel.panel.to_string())
            .collect();
        if !panels.is_empty() {
            out.push(format!("{}: {}.", sentence(super::included_method(*method)), list(&panels)));
        }
    }
    for (index, item) in subject.claim.items.iter().enumerate() {
        if !assessment.open_items.iter().any(|open| open.item == index) {
            let done = match item.action.map_or(ItemAction::Replace, |action| action.value) {
                ItemAction::Repair => "repaired",
                ItemAction::Replace => "replaced",
                ItemAction::Refit => "taken off and put back",
            };
            out.push(format!("{}: {done}.", sentence(&said(&item.name.value))));
        }
    }
    out
}

/// What is not decided yet.
pub fn undecided(subject: &Subject<'_>) -> Vec<String> {
    let mut out: Vec<String> = subject
        .assessment
        .open_panels()
        .map(|panel| {
            format!(
                "{}: not decided or not priced yet; somebody looks at it first. It is in no figure here.",
                sentence(&panel.panel.to_string())
            )
        })
        .collect();
    out.extend(super::open_items(subject));
    out
}

/// What the owner's part is made of, a sentence each.
pub fn why_you_pay(assessment: &Assessment) -> Vec<String> {
    let settled = &assessment.settled;
    [
        (settled.excess, "is the excess that your policy leaves with you."),
        (settled.tax_reclaimed, "is tax that you get back elsewhere, so the insurer does not pay it."),
        (settled.betterment, "is your share of parts that are new where the old ones were worn."),
        (settled.paid_before, "was paid to you before for the same panels."),
        (settled.over_limit, "goes beyond the limit of your policy."),
    ]
    .into_iter()
    .filter(|(money, _)| !money.is_zero())
    .map(|(money, why)| format!("{} {} {why}", amount(money), money.currency()))
    .collect()
}

/// How long it takes, as far as it is reckoned by time.
pub fn how_long(labour: Option<&str>, assessment: &Assessment) -> String {
    let by_piece = assessment.lines().any(|numbered| {
        let of_dents = matches!(
            numbered.line.kind,
            LineKind::Dents { .. } | LineKind::Equivalents { .. } | LineKind::Mark(_)
        );
        of_dents && numbered.line.hours.is_none()
    });
    match (labour, by_piece) {
        (Some(labour), true) => {
            format!("Reckoned by time: {labour}. The dents are priced by their number and come on top.")
        }
        (Some(labour), false) => format!("Reckoned by time: {labour}."),
        (None, true) => "The dents are priced by their number; no hours are written for them.".to_owned(),
        (None, false) => "No hours are written.".to_owned(),
    }
}

/// Panels without damage: "No damage was found on 2 panels: hood and roof."
pub fn nothing_found(panels: &[String]) -> Option<String> {
    let so_many = so_many(panels.len(), "panel", "panels");
    (!panels.is_empty()).then(|| format!("No damage was found on {so_many}: {}.", list(panels)))
}

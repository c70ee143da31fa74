use super::settlement::screen_limit;
use super::{amount, cited_finding, date, list, open, said, sentence, so_many};
use crate::assess::{
    Assessment, DateOrigin, ItemUnpriced, OpenReason, Outcome, Overruled, PanelAssessment, PanelState, Screen,
};
use crate::claim::{Method, PanelId, Place, Settlement};
use crate::report::Subject;
use crate::report::words::Words;
use std::fmt::Write as _;

/// What is to be done, in a sentence or two: the first thing a reader wants to know.
pub fn headline(subject: &Subject<'_>) -> String {
    let assessment = subject.assessment;
    let work = methods(subject);
    let settled = settled_as(assessment.settled.basis);
    match assessment.outcome {
        Outcome::NothingFound => format!("{settled}Nothing to repair was found."),
        Outcome::Repair => {
            let would_be = match assessment.settled.basis {
                Settlement::Repair => "Repair: ",
                Settlement::Cash | Settlement::TotalLoss | Settlement::TotalLossKept => "Repair would be: ",
            };
            format!("{settled}{would_be}{work}.")
        }
        Outcome::NeedsAPerson => {
            let open = sentence(&open_things(assessment));
            let verb = if open_count(assessment) == 1 { "is" } else { "are" };
            let rest = if work.is_empty() { String::new() } else { format!(" Decided: {work}.") };
            format!("{settled}{open} {verb} open: a person has to look first.{rest}")
        }
        Outcome::ProbableTotalLoss => {
            format!("{settled}Probable total loss; a licensed adjuster decides.{}", reached(subject))
        }
    }
}

/// How the claim is settled where that is no repair, before whatever else is to be said.
fn settled_as(basis: Settlement) -> &'static str {
    match basis {
        Settlement::Repair => "",
        Settlement::Cash => "Settled in cash in place of repair, as the claim sheet says. ",
        Settlement::TotalLoss => "Settled as total loss, as the claim sheet says. ",
        Settlement::TotalLossKept => "Settled as total loss, car kept, as the claim sheet says. ",
    }
}

/// Whether the claim sheet settles it as a total loss.
fn is_settled_as_loss(assessment: &Assessment) -> bool {
    matches!(assessment.settled.basis, Settlement::TotalLoss | Settlement::TotalLossKept)
}

/// The claim in a word or two: what came out, or a total loss where that is how a claim with nothing open is settled.
pub fn outcome(assessment: &Assessment) -> &'static str {
    match assessment.outcome {
        Outcome::Repair | Outcome::NothingFound if is_settled_as_loss(assessment) => {
            assessment.settled.basis.name()
        }
        other => other.words(),
    }
}

fn reached(subject: &Subject<'_>) -> String {
    match (subject.assessment.screen, subject.schedule.terms.total_loss) {
        (Screen::Reached(figures), Some(terms)) => format!(
            " {} at {} is {}.",
            sentence(terms.rule.value.name()),
            amount(figures.cost),
            screen_limit(figures, terms)
        ),
        _ => String::new(),
    }
}

/// Panels by method, open ones left out, then items: "9 panels paintless; 1 panel replaced; 2 items". Empty when there is
/// nothing to do.
pub fn methods(subject: &Subject<'_>) -> String {
    let assessment = subject.assessment;
    let mut parts = Vec::new();
    for method in Method::ALL {
        let panels = assessment.panels_by(*method).filter(|panel| panel.open.is_none()).count();
        if let Some(done) = done_by(*method).filter(|_| panels > 0) {
            parts.push(format!("{} {done}", so_many(panels, "panel", "panels")));
        }
    }
    let items = subject.claim.items.len().saturating_sub(assessment.open_items.len());
    if items > 0 {
        parts.push(so_many(items, "item", "items"));
    }
    parts.join("; ")
}

fn done_by(method: Method) -> Option<&'static str> {
    match method {
        Method::NoRepair | Method::Refer => None,
        Method::Paintless => Some("paintless"),
        Method::RefinishAfter => Some("paintless, then refinished"),
        Method::Conventional => Some("repaired conventionally"),
        Method::Replace => Some("replaced"),
    }
}

/// What is to be done with one panel, in the words of the panel table.
pub fn method_of(panel: &PanelAssessment) -> String {
    match (panel.state, panel.open) {
        (PanelState::NotInspected, _) => "not inspected".to_owned(),
        (PanelState::NoDamage, _) => "no damage found".to_owned(),
        (PanelState::Assessed, Some(OpenReason::NotPriced(_))) => format!("{}, not priced", panel.method),
        (PanelState::Assessed, _) => panel.method.name().to_owned(),
    }
}

fn open_count(assessment: &Assessment) -> usize {
    assessment.open_panels().count() + assessment.open_items.len()
}

fn open_things(assessment: &Assessment) -> String {
    let panels = assessment.open_panels().count();
    let mut things = Vec::new();
    if panels > 0 {
        things.push(so_many(panels, "panel", "panels"));
    }
    if !assessment.open_items.is_empty() {
        things.push(so_many(assessment.open_items.len(), "item", "items"));
    }
    list(&things)
}

/// What every total leaves out: "without 1 open panel"; `None` when nothing is open.
pub fn without_open(assessment: &Assessment, words: &Words) -> Option<String> {
    let panels = assessment.open_panels().count();
    let mut things = Vec::new();
    if panels > 0 {
        things.push(words.so_many("open-panels", panels));
    }
    if !assessment.open_items.is_empty() {
        things.push(words.so_many("open-items", assessment.open_items.len()));
    }
    (!things.is_empty()).then(|| words.say("without", &[("list", words.list(&things).into())]))
}

/// An open panel for the list of what needs a person: what was decided, by which limit, and what is known of its amounts;
/// `cell` gives the limit's place the name that it has there.
pub fn open_panel(panel: &PanelAssessment, subject: &Subject<'_>, cell: impl Fn(Place) -> String) -> String {
    // That it is not priced is said below, with the reason.
    let mut out = format!("{}: {}", sentence(&panel.panel.to_string()), panel.method);
    if let Some(decided) = panel.decided_by.and_then(|index| panel.findings.get(index)) {
        let _ = write!(out, ". {}", cited_finding(decided, subject, cell));
    }
    if let Some(reason @ OpenReason::NotPriced(_)) = panel.open {
        let _ = write!(out, ". {}", sentence(&open(reason, subject)));
    }
    out.push_str(". In no total.");
    out
}

/// The items that could not be priced, for the same list.
pub fn open_items(subject: &Subject<'_>) -> Vec<String> {
    subject
        .assessment
        .open_items
        .iter()
        .filter_map(|open| Some((subject.claim.items.get(open.item)?, open.why)))
        .map(|(item, why)| {
            let item = sentence(&said(&item.name.value));
            let why = item_unpriced(why, subject.words);
            subject.words.say("open-item", &[("item", item.into()), ("why", why.into())])
        })
        .collect()
}

/// Why an item could not be priced.
pub fn item_unpriced(why: ItemUnpriced, words: &Words) -> String {
    words.text(match why {
        ItemUnpriced::NothingWritten => "item-nothing-written",
        ItemUnpriced::NoLabourRate => "item-no-labour-rate",
    })
}

/// Which date chose the schedule's edition: "date of loss, 14 June 2026".
pub fn dated(assessment: &Assessment) -> String {
    let (day, origin) = assessment.dated;
    format!("{}, {}", date_of(origin), date(day))
}

/// What a date is: "date of loss".
pub(super) fn date_of(origin: DateOrigin) -> &'static str {
    match origin {
        DateOrigin::Loss => "date of loss",
        DateOrigin::Inspection => "date of inspection",
        DateOrigin::Run => "date of this run",
    }
}

/// What was not looked at, for the list of what needs a person; `None` when everything was.
pub fn not_inspected(panels: &[PanelId], words: &Words) -> Option<String> {
    let names: Vec<String> = panels.iter().map(|panel| words.panel(*panel)).collect();
    (!names.is_empty()).then(|| words.say("not-inspected", &[("list", words.list(&names).into())]))
}

/// A total loss that the claim sheet settles and no screen bears out: what is wrong with that, and who decides.
pub fn settled_unscreened(assessment: &Assessment) -> Option<String> {
    let how = match assessment.screen {
        Screen::Reached(_) => return None,
        Screen::Not(why) => format!("there is no screen, as {}", super::unscreened(why)),
        Screen::Below(_) => "the screen is not reached".to_owned(),
        Screen::Open(_) => "the screen is not reached without what is open".to_owned(),
    };
    is_settled_as_loss(assessment)
        .then(|| format!("settled so by the claim sheet, though {how}; a licensed adjuster decides"))
}

/// A probable total loss that waits for a decision, one that is settled though no screen is reached, or a screen that
/// open panels keep undecided.
pub fn undecided_loss(subject: &Subject<'_>) -> Option<String> {
    if let Some(why) = settled_unscreened(subject.assessment) {
        return Some(format!("Total loss: {why}."));
    }
    match subject.assessment.screen {
        Screen::Reached(_) => {
            let wait = match subject.claim.parties.settlement {
                Some(_) => "",
                None => " Until then the figures are those of a repair.",
            };
            Some(format!(
                "Total loss or repair: a licensed adjuster decides by the policy and local law.{wait}"
            ))
        }
        Screen::Open(_) => Some("Total loss: undecided until what is open is priced.".to_owned()),
        Screen::Not(_) | Screen::Below(_) => None,
    }
}

/// A person's decision in place of the schedule's.
pub fn overruled(overruled: &Overruled, subject: &Subject<'_>) -> String {
    let overrule = &subject.claim.overrules[overruled.overrule];
    let by = overrule.by.as_ref().map_or_else(|| "a person not named".to_owned(), |by| said(&by.value));
    let mut out =
        format!("Decided by {by}: {}. The schedule says {}.", overrule.method.value, overruled.schedule_says);
    if let Some(reason) = &overrule.reason {
        let _ = write!(out, " Reason: {}.", said(&reason.value).trim_end_matches('.'));
    }
    if let Some(difference) = overruled.difference {
        let _ = write!(out, " Difference to the schedule's {}.", amount(difference));
    }
    out
}

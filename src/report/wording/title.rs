use super::{amount, date, list, percent, said, sentence};
use crate::assess::{ScreenFigures, TitleAnswer, TitleFinding, TitleLacks};
use crate::report::Subject;
use crate::schedule::TitleRule;

/// What the law of the place of registration notes on the title, rule by rule, each with its source. Where the schedule has
/// such rules and the place is not written, that is said.
pub fn titles(subject: &Subject<'_>) -> Vec<String> {
    let (claim, schedule) = (subject.claim, subject.schedule);
    if schedule.titles.is_empty() {
        return Vec::new();
    }
    let Some(place) = &claim.vehicle.registered_in else {
        return vec!["Title note: not looked at, the place of registration is not written.".to_owned()];
    };
    let findings = &subject.assessment.titles;
    if findings.is_empty() {
        return vec![format!(
            "Title note: the schedule has no rule for {} on this date.",
            said(&place.value)
        )];
    }
    findings.iter().map(|found| title(found, &schedule.titles[found.rule])).collect()
}

fn title(found: &TitleFinding, rule: &TitleRule) -> String {
    let note = format!("Title note \u{201c}{}\u{201d}, {}", said(&rule.note.value), said(&rule.place.value));
    let cost = sentence(rule.rule.value.name());
    let compared = |figures: &ScreenFigures| {
        format!(
            "{cost} at {}, the limit is {} {} of the market value, {}",
            amount(figures.cost),
            rule.comparator.value,
            percent(rule.share.value),
            amount(figures.limit)
        )
    };
    let answer = match &found.answer {
        TitleAnswer::CauseLeftOut => {
            let causes: Vec<String> = rule.not_from.iter().map(|cause| said(cause)).collect();
            format!("does not follow. The law leaves out damage from {}", list(&causes))
        }
        TitleAnswer::Lacks(lacks) => format!("cannot be told. {} is not written", sentence(lacking(*lacks))),
        TitleAnswer::Below(figures) => format!("does not follow. {}", compared(figures)),
        TitleAnswer::Open(figures) => format!("is open. {}, without what is open", compared(figures)),
        TitleAnswer::Reached(figures) => format!("is to be expected. {}", compared(figures)),
    };
    format!(
        "{note}: {answer}. By {}, as of {}; a licensed adjuster and the authority there decide.",
        said(&rule.source.value),
        date(rule.valid_from.value)
    )
}

const fn lacking(lacks: TitleLacks) -> &'static str {
    match lacks {
        TitleLacks::Cause => "the cause of loss",
        TitleLacks::MarketValue => "the market value",
        TitleLacks::Salvage => "the salvage value",
    }
}

/// The answers in a word or two, with what is noted: `salvage: reached`.
pub fn titles_in_short(subject: &Subject<'_>) -> String {
    let findings = subject.assessment.titles.iter();
    let short = findings.map(|found| {
        format!("{}: {}", subject.schedule.titles[found.rule].note.value, title_answer(&found.answer))
    });
    short.collect::<Vec<_>>().join("; ")
}

/// The answer as tables name it.
pub fn title_answer(answer: &TitleAnswer) -> &'static str {
    match answer {
        TitleAnswer::CauseLeftOut => "cause left out",
        TitleAnswer::Lacks(TitleLacks::Cause) => "no cause of loss",
        TitleAnswer::Lacks(TitleLacks::MarketValue) => "no market value",
        TitleAnswer::Lacks(TitleLacks::Salvage) => "no salvage value",
        TitleAnswer::Below(_) => "below",
        TitleAnswer::Open(_) => "open",
        TitleAnswer::Reached(_) => "reached",
    }
}

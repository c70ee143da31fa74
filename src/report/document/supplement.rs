use super::{Head, Imprint, plain, summary};
use crate::quantity::Money;
use crate::report::Subject;
use crate::report::folder::Written;
use crate::report::supplement::{AgreedSchedule, Amounts, Change, Fate};
use crate::report::wording::{self, supplement as words, supplement::SupplementLabels};
use crate::report::words::Words;
use serde::Serialize;

/// What changed of a claim since it was agreed, ready to be drawn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SupplementPage {
    /// Language of our own words, as in BCP 47.
    pub language: &'static str,
    /// Currency of every amount, by its ISO 4217 code.
    pub currency: &'static str,
    /// Its labels.
    pub words: SupplementLabels,
    /// What it is and whom it concerns.
    pub head: Head,
    /// Which car.
    pub vehicle: String,
    /// What happened.
    pub event: Option<String>,
    /// What became of it, in a sentence.
    pub answer: String,
    /// What the figures leave out.
    pub without: Option<String>,
    /// Sums: agreed, difference, now.
    pub sums: Vec<ThenNow>,
    /// What differs for the claim as a whole.
    pub reasons: Vec<String>,
    /// Panels that changed.
    pub panels: Vec<PanelThenNow>,
    /// Lines that changed.
    pub lines: Vec<LineThenNow>,
    /// What it was made from: what it is, what it says, and its digest.
    pub made_from: Vec<(&'static str, String, String)>,
    /// Who signs; nobody where nothing changed.
    pub signatures: Vec<&'static str>,
    /// Whose amounts these are.
    pub standing: &'static str,
}

/// An amount then and now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ThenNow {
    /// What it is.
    pub what: String,
    /// As agreed; a sign where there was none.
    pub before: String,
    /// The second less the first, with its sign.
    pub difference: String,
    /// Now.
    pub now: String,
    /// Whether it is the sum of the others.
    pub main: bool,
}

/// A panel then and now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelThenNow {
    /// Its name and what is done with it.
    #[serde(flatten)]
    pub amounts: ThenNow,
    /// What is done with it.
    pub method: String,
    /// Why, one thing each.
    pub reasons: Vec<String>,
}

/// A line then and now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LineThenNow {
    /// What it is for now, and its amounts.
    #[serde(flatten)]
    pub amounts: ThenNow,
    /// Its number on the claim's document.
    pub number: Option<usize>,
    /// Its panel, or the vehicle.
    pub panel: String,
    /// What it was for, where that differs.
    pub was: Option<String>,
}

/// Fills the page of a claim that is priced now.
pub fn supplement_page(
    subject: &Subject<'_>,
    imprint: &Imprint<'_>,
    change: &Change,
    agreed: &Written,
) -> SupplementPage {
    let filling = plain(subject, imprint);
    let gross = change.sum("gross").and_then(|gross| gross.difference);
    let schedule = AgreedSchedule {
        name: subject.schedule.terms.name.value.clone(),
        edition: subject.schedule.terms.edition.value.clone(),
        digest: subject.schedule.digest.clone(),
    };
    let labels = words::LABELS;
    let mut made_from = vec![(labels.agreed_version, agreed.path.clone(), agreed.sha256.clone())];
    if let Some(before) = &change.agreed_schedule {
        made_from.push((labels.agreed_schedule, words::schedule(before), before.digest.clone()));
    }
    made_from.push((labels.schedule, words::schedule(&schedule), schedule.digest.clone()));
    made_from.push((labels.tool, format!("stipple {}", imprint.tool_version), String::new()));
    SupplementPage {
        language: "en",
        currency: subject.assessment.currency.code(),
        words: labels,
        head: Head { what: words::TITLE, schedule: None, ..summary::head(&filling) },
        vehicle: summary::vehicle(&filling),
        event: summary::event(&filling),
        answer: words::answer(change.is, gross),
        without: wording::without_open(subject.assessment, Words::english()),
        sums: change.sums.iter().map(|sum| then_now(words::sum(sum.sum), sum.sum, &sum.amounts)).collect(),
        reasons: change.reasons.iter().map(|reason| reason.words.clone()).collect(),
        panels: change
            .panels
            .iter()
            .map(|panel| PanelThenNow {
                amounts: then_now(&panel.panel, "", &panel.amounts),
                method: method(panel.method_before.as_deref(), panel.method_now.as_deref()),
                reasons: panel.reasons.iter().map(|reason| reason.words.clone()).collect(),
            })
            .collect(),
        lines: change
            .lines
            .iter()
            .map(|line| {
                let now = line.words_now.as_deref().or(line.words_before.as_deref()).unwrap_or_default();
                LineThenNow {
                    amounts: then_now(now, "", &line.amounts),
                    number: line.number,
                    panel: line.panel.clone().unwrap_or_else(|| labels.vehicle.to_owned()),
                    was: line.words_before.clone().filter(|before| before != now),
                }
            })
            .collect(),
        made_from,
        signatures: if change.is == Fate::Unchanged { Vec::new() } else { words::SIGNATURES.to_vec() },
        standing: words::STANDING,
    }
}

fn method(before: Option<&str>, now: Option<&str>) -> String {
    match (before, now) {
        (Some(before), Some(now)) if before != now => words::method(before, now),
        (before, now) => now.or(before).unwrap_or_default().to_owned(),
    }
}

fn then_now(what: &str, name: &str, amounts: &Amounts) -> ThenNow {
    let shown = |money: Option<Money>| money.map_or_else(|| words::NOT_THERE.to_owned(), wording::amount);
    ThenNow {
        what: what.to_owned(),
        before: shown(amounts.before),
        difference: amounts.difference.map_or_else(|| words::NOT_THERE.to_owned(), words::difference),
        now: shown(amounts.now),
        main: name == "gross",
    }
}

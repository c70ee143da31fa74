//! What a claim lacks that its insurer wants before it is sent.

use crate::assess::Assessment;
use crate::claim::words::folded;
use crate::claim::{
    Cause, Claim, Counted, Errand, Mark, MarkKind, PanelCount, PanelId, Per, Photograph, Place, Requirement,
    Role, Wanted, WrittenAmount,
};
use crate::problem::{Problem, catalogue::sending as say};
use std::collections::BTreeMap;

/// Whether a claim can be sent, as far as a table says what that takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Readiness {
    /// What is missing, in the order in which it is fetched: where, what, and the row that requires it.
    pub lacks: Vec<(Errand, String, Place)>,
}

impl Readiness {
    /// Of a claim; nothing where no row holds for its insurer. Limits hold against the gross amount, which a claim that is
    /// not priced does not have.
    pub fn of(claim: &Claim, assessment: Option<&Assessment>, required: &[Requirement]) -> Option<Self> {
        let insurer = folded(&claim.parties.insurer.as_ref()?.value);
        let loss = claim.event.date.map(|date| date.value);
        let mut holding = required
            .iter()
            .filter(|row| row.insurer.as_ref().is_none_or(|name| folded(name) == insurer))
            .filter(|row| loss.is_none_or(|loss| row.since.is_none_or(|since| since <= loss)))
            .filter(|row| loss.is_none_or(|loss| row.until.is_none_or(|until| loss <= until)))
            .peekable();
        holding.peek()?;
        let seen = Seen::of(claim);
        let holding = holding.filter(|row| row.above.is_none_or(|limit| is_above(assessment, limit.value)));
        let mut lacks: Vec<(Errand, Rank, String, Place)> = Vec::new();
        for row in holding {
            let missing = missing(row, claim, &seen);
            let rank = rank(row.wanted);
            lacks.extend(missing.into_iter().map(|what| (row.wanted.errand(), rank, what, row.place)));
        }
        lacks.sort_by_key(|(errand, rank, _, place)| (*errand, *rank, *place));
        let lacks = lacks.into_iter().map(|(errand, _, what, place)| (errand, what, place)).collect();
        Some(Self { lacks })
    }

    /// The same as problems of the claim, one for each place where something is fetched.
    pub fn problems(&self, claim: &Claim) -> Vec<Problem> {
        // The cell that names the insurer stands in the row that says most of the car.
        let place = claim.parties.insurer.as_ref().map(|insurer| insurer.place);
        let together = self.lacks.chunk_by(|a, b| a.0 == b.0);
        let said = together.map(|lacks| {
            let fetched = lacks.first().map_or("", |(errand, ..)| errand.words());
            let lacks: Vec<(String, Place)> =
                lacks.iter().map(|(_, what, place)| (what.clone(), *place)).collect();
            say::claim_not_ready(place, fetched, &lacks).of_claim(claim.key.text.as_str())
        });
        said.collect()
    }

    /// All of it in one line; empty where nothing is missing.
    pub fn in_one_line(&self) -> String {
        let together = self.lacks.chunk_by(|a, b| a.0 == b.0).map(|lacks| {
            let all: Vec<&str> = lacks.iter().map(|(_, what, _)| what.as_str()).collect();
            format!("{}: {}", lacks.first().map_or("", |(errand, ..)| errand.words()), all.join("; "))
        });
        together.collect::<Vec<_>>().join(". ")
    }
}

/// Within one errand: photographs, counts, then what is written down.
type Rank = u8;

const fn rank(wanted: Wanted) -> Rank {
    match wanted {
        Wanted::Photograph => 0,
        Wanted::Count => 1,
        Wanted::Fact(_) | Wanted::Enclosure | Wanted::Consent => 2,
    }
}

/// Whether the gross amount is above a limit. One in another currency cannot be compared, and is taken for exceeded.
fn is_above(assessment: Option<&Assessment>, limit: WrittenAmount) -> bool {
    assessment.is_some_and(|assessment| {
        let is_other = limit.currency.is_some_and(|currency| currency != assessment.currency);
        is_other || assessment.totals.gross.to_decimal() > limit.amount
    })
}

/// The damage that a claim's own, agreed and later counts show, by panel.
#[derive(Debug, Default)]
struct Seen {
    /// Panels with damage, and on each the marks that were measured.
    damaged: BTreeMap<PanelId, usize>,
    /// Every panel that is listed, and whether anybody looked at it.
    listed: BTreeMap<PanelId, bool>,
}

impl Seen {
    fn of(claim: &Claim) -> Self {
        let mut seen = Self::default();
        let inspections = claim.inspections.iter().filter(|inspection| inspection.role() != Role::Second);
        for panel in inspections.flat_map(|inspection| &inspection.panels) {
            *seen.listed.entry(panel.panel).or_default() |= panel.is_inspected();
            if is_damaged(panel) {
                let marks =
                    panel.marks.iter().filter(|mark| is_of_event(mark) && mark.length.is_some()).count();
                // A panel that was counted again shows the same marks.
                let most = seen.damaged.entry(panel.panel).or_default();
                *most = marks.max(*most);
            }
        }
        seen
    }
}

fn is_damaged(panel: &PanelCount) -> bool {
    let has_dents = |count: &Counted| match count {
        Counted::Counted(count) => *count > 0,
        Counted::Estimated { .. } => true,
        Counted::NoneWritten | Counted::Open => false,
    };
    panel.tally.iter().any(|entry| has_dents(&entry.count)) || panel.marks.iter().any(is_of_event)
}

fn is_of_event(mark: &Mark) -> bool {
    mark.kind.value != MarkKind::NotDamage && mark.cause.is_none_or(|cause| cause.value == Cause::ThisEvent)
}

/// What one row finds missing, in words.
fn missing(row: &Requirement, claim: &Claim, seen: &Seen) -> Vec<String> {
    let which = row.which.as_deref();
    match row.wanted {
        Wanted::Photograph => missing_photographs(row, claim, seen),
        Wanted::Count if row.per == Per::Panel => {
            let unseen = seen.listed.iter().filter(|(_, is_inspected)| !**is_inspected);
            unseen.map(|(panel, _)| say::counts(Some(&panel.to_string()), 1, 0)).collect()
        }
        Wanted::Count => {
            let have = seen.listed.values().filter(|is_inspected| **is_inspected).count();
            if have < row.at_least { vec![say::counts(None, row.at_least, have)] } else { Vec::new() }
        }
        Wanted::Fact(fact) if !(fact.is_there)(claim) => vec![say::fact(fact.name)],
        Wanted::Enclosure if !is_enclosed(claim, which.unwrap_or_default()) => {
            vec![which.unwrap_or_default().to_owned()]
        }
        Wanted::Consent if !is_enclosed(claim, which.unwrap_or("consent")) => {
            let limit = row.above.map(|limit| match limit.value.currency {
                Some(currency) => format!("{currency} {}", limit.value.amount),
                None => limit.value.amount.to_string(),
            });
            vec![say::consent(limit.as_deref())]
        }
        Wanted::Fact(_) | Wanted::Enclosure | Wanted::Consent => Vec::new(),
    }
}

/// Whether a paper of that name is listed; its name may say more.
fn is_enclosed(claim: &Claim, name: &str) -> bool {
    claim.enclosures.iter().any(|paper| holds(&paper.name.value, name))
}

/// Whether a text holds all words of another, in their order and together.
fn holds(text: &str, words: &str) -> bool {
    format!(" {} ", folded(text)).contains(&format!(" {} ", folded(words)))
}

fn missing_photographs(row: &Requirement, claim: &Claim, seen: &Seen) -> Vec<String> {
    let which = row.which.as_deref();
    // What is missing or broken counts for nothing.
    let usable =
        claim.photographs.iter().filter(|photograph| photograph.image.is_some()).filter(|photograph| {
            let shows = photograph.shows.as_ref();
            which.is_none_or(|which| shows.is_some_and(|shows| holds(&shows.value, which)))
        });
    let usable: Vec<&Photograph> = usable.collect();
    let of = |panel: PanelId| {
        usable.iter().filter(move |photograph| photograph.panel.is_some_and(|of| of.value == panel))
    };
    let marks = row.per == Per::Mark;
    let of_panels = |wanted: &mut dyn Iterator<Item = (PanelId, usize, usize)>| {
        // Panels that lack as many stand in one list.
        let mut lacking: BTreeMap<(usize, usize), Vec<String>> = BTreeMap::new();
        for (panel, need, have) in wanted.filter(|(_, need, have)| have < need) {
            lacking.entry((need, have)).or_default().push(panel.to_string());
        }
        lacking
            .iter()
            .map(|((need, have), panels)| say::photographs(panels, marks, which, *need, *have))
            .collect()
    };
    match row.per {
        Per::Claim if usable.len() < row.at_least => {
            vec![say::photographs(&[], false, which, row.at_least, usable.len())]
        }
        Per::Claim => Vec::new(),
        Per::Panel => {
            of_panels(&mut seen.damaged.keys().map(|panel| (*panel, row.at_least, of(*panel).count())))
        }
        Per::Mark => of_panels(&mut seen.damaged.iter().map(|(panel, marks)| {
            let have = of(*panel).filter(|photograph| photograph.mark.is_some()).count();
            (*panel, marks * row.at_least, have)
        })),
    }
}

use super::summary::{self, KeyFigure};
use super::{Head, Imprint, plain};
use crate::assess::{JobKind, PanelAssessment, PanelState};
use crate::report::Subject;
use crate::report::wording::{self, owner};
use crate::report::words::Words;
use serde::Serialize;

/// One page for the owner, in plain words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OwnerSheet {
    /// Language of our own words, as in BCP 47.
    pub language: String,
    /// Currency of every amount, by its ISO 4217 code.
    pub currency: &'static str,
    /// What it is and whom it concerns.
    pub head: Head,
    /// Which car.
    pub vehicle: String,
    /// What happened.
    pub event: Option<String>,
    /// What becomes of the car.
    pub answer: String,
    /// What was found.
    pub found: Vec<String>,
    /// What will be done.
    pub done: Vec<String>,
    /// What is not decided yet.
    pub undecided: Vec<String>,
    /// What is not covered, and why.
    pub not_covered: Vec<String>,
    /// What it costs and who pays what.
    pub figures: Vec<KeyFigure>,
    /// What the figures leave out.
    pub without: Option<String>,
    /// Why there is something to pay.
    pub why: Vec<String>,
    /// How long it takes.
    pub time: Vec<String>,
    /// What to check on collection.
    pub check: Vec<String>,
    /// Who decides.
    pub standing: String,
}

/// Fills the owner's sheet of a claim.
pub fn owner_sheet(subject: &Subject<'_>, imprint: &Imprint<'_>) -> OwnerSheet {
    let words = imprint.words;
    let subject = &subject.said_in(words);
    let filling = plain(subject, imprint);
    let assessment = subject.assessment;
    let labour = super::lines::labour(subject);
    let owner = subject.claim.parties.owner.as_ref().map(|owner| owner.value.clone());
    OwnerSheet {
        language: words.tag().to_owned(),
        currency: assessment.currency.code(),
        head: Head {
            what: words.label.owner_sheet,
            for_whom: owner,
            schedule: None,
            ..summary::head(&filling)
        },
        vehicle: summary::vehicle(&filling),
        event: summary::event(&filling),
        answer: owner::answer(subject),
        found: owner::found(subject),
        done: owner::done(subject),
        undecided: owner::undecided(subject),
        not_covered: not_covered(subject),
        figures: summary::figures(&filling).into_iter().map(|figure| to_the_owner(figure, words)).collect(),
        without: wording::without_open(assessment, words),
        why: if assessment.kind == JobKind::Claim {
            owner::why_you_pay(assessment, words)
        } else {
            Vec::new()
        },
        time: vec![owner::how_long(labour.as_deref(), assessment, words), words.text("owner-hours-not-days")],
        check: owner::CHECK.iter().map(|key| words.text(key)).collect(),
        standing: words.text("owner-who-decides"),
    }
}

/// The owner is spoken to.
fn to_the_owner(figure: KeyFigure, words: &Words) -> KeyFigure {
    let of = &words.label;
    let label = match figure.label {
        label if label == of.owner_bears => of.you_bear,
        label if label == of.salvage_kept => of.salvage_yours,
        label if label == of.gross => of.repair_with_tax,
        label => label,
    };
    KeyFigure { label, ..figure }
}

fn not_covered(subject: &Subject<'_>) -> Vec<String> {
    let assessment = subject.assessment;
    let excluded = assessment.excluded.iter().map(|excluded| wording::excluded_mark(excluded, subject));
    let in_state = |state: PanelState| -> Vec<&PanelAssessment> {
        assessment.panels.iter().filter(|panel| panel.state == state).collect()
    };
    let missed: Vec<_> = in_state(PanelState::NotInspected).iter().map(|panel| panel.panel).collect();
    let clean: Vec<String> =
        in_state(PanelState::NoDamage).iter().map(|panel| subject.words.panel(panel.panel)).collect();
    let mut out: Vec<String> = excluded.collect();
    out.extend(wording::not_inspected(&missed, subject.words));
    out.extend(owner::nothing_found(&clean, subject.words));
    out.push(subject.words.text("not-seen-yet"));
    out
}

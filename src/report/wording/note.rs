use super::{amount, date, list, mark_size, number, said, sentence, so_many, written_mark};
use crate::assess::{AtEnd, ExclusionReason, MarkAssessment, Note, Range};
use crate::claim::{Claim, Inspection, Method, PanelId, Place, Role};
use crate::report::Subject;
use crate::report::words::Words;

/// How the claim was understood, a sentence or two; `cell` gives a place the name that it has there.
pub fn note(note: &Note, subject: &Subject<'_>, cell: impl Fn(Place) -> String) -> String {
    match note {
        Note::PanelsNotListed(panels) => {
            let names: Vec<String> = panels.iter().map(PanelId::to_string).collect();
            format!(
                "On no sheet, though this body type has {}: {}. Nothing is priced there.",
                if panels.len() == 1 { "it" } else { "them" },
                list(&names)
            )
        }
        Note::NoneWritten(cells) => {
            let cells = usize::try_from(*cells).unwrap_or(usize::MAX);
            format!(
                "{} left blank beside numbers: rated as no dents, printed as a dash.",
                so_many(cells, "count was", "counts were")
            )
        }
        Note::SizeTakenAs { place, heading, band } => format!(
            "The size \u{201c}{}\u{201d} ({}) was taken for the schedule's {}.",
            said(heading),
            said(&cell(*place)),
            said(&subject.schedule.sizes[*band].name)
        ),
        Note::SecondInspection(index) => {
            let other = &subject.claim.inspections[*index];
            match other.role() {
                Role::Agreed | Role::Supplement => format!(
                    "No panel of the inspection with the role {}, {}, stands: it is named here and not added.",
                    other.role(),
                    inspection(other)
                ),
                Role::Own | Role::Second => {
                    format!(
                        "There is a second inspection, {}. It is named here and not added.",
                        inspection(other)
                    )
                }
            }
        }
        Note::NotOversize(panel, mark) => {
            let size = subject
                .assessment
                .panels
                .iter()
                .find(|assessed| assessed.panel == *panel)
                .and_then(|assessed| written_mark(assessed, *mark, subject))
                .map(|mark| mark_size(mark, subject.words))
                .unwrap_or_default();
            format!(
                "{}: a mark called oversize dent ({size}) is not larger than the largest size band and was counted with \
                 the dents.",
                sentence(&panel.to_string())
            )
        }
        Note::MoreCouldBeLess(panel) => format!(
            "{}: under this schedule's rule for mixed sizes, one more dent could lower the amount.",
            sentence(&panel.to_string())
        ),
        Note::MinimumWaits(minimum) => format!(
            "What is priced does not reach the minimum of {}. The minimum is not charged while something is open.",
            amount(*minimum)
        ),
    }
}

/// What estimates leave open in money: the gross amount with all of them at their lower and at their upper ends.
pub fn range(range: &Range) -> String {
    format!(
        "Dents were counted in a part of a panel and scaled to all of it. With every such count at the lower end of its 95 % \
         interval (Poisson) the gross amount is {}, with every one at the upper end {}. How evenly the dents are spread \
         is not in that.",
        gross_at(range.low.as_ref(), Words::english()),
        gross_at(range.high.as_ref(), Words::english())
    )
}

/// That a claim's excess is its own, and where the lot's cap is applied.
pub fn of_a_lot(claim: &Claim) -> Option<String> {
    let (Some(lot), Some(_), Some(cap)) = (&claim.parties.lot, &claim.parties.insurer, claim.parties.lot_cap)
    else {
        return None;
    };
    Some(format!(
        "The excess here is this vehicle's own. Lot {} bears at most {} for one event: its statement, in the folder lots, \
         applies that once over all its vehicles.",
        said(&lot.value),
        number(cap.value.amount)
    ))
}

/// The same in few words, beside the gross amount.
pub fn gross_range(range: &Range, words: &Words) -> String {
    let (low, high) = (gross_at(range.low.as_ref(), words), gross_at(range.high.as_ref(), words));
    words.say("gross-range", &[("low", low.into()), ("high", high.into())])
}

/// The gross amount at one end; without one a panel is open there that is not so in the claim itself.
fn gross_at(end: Option<&AtEnd>, words: &Words) -> String {
    match end {
        None => words.text("gross-not-priced"),
        Some(end) => end.gross.map_or_else(|| words.text("gross-open"), |gross| words.amount(gross)),
    }
}

/// An estimated panel at both ends: "hood, 210.00 to 388.00", what is done with it where that changes.
pub fn panel_range(panel: PanelId, method: Method, range: &Range) -> Option<String> {
    let end = |end: &Option<AtEnd>| {
        let (_, then, money) = end.as_ref()?.panels.iter().find(|(of, _, _)| *of == panel)?;
        let money = money.map_or_else(|| "open".to_owned(), amount);
        Some(if *then == method { money } else { format!("{money} ({then})") })
    };
    Some(format!("an estimate: {} to {}", end(&range.low)?, end(&range.high)?))
}

/// An estimated count, and from what: "Hood, 0-9 mm: an estimate from 12 in 0.1 m² of 1.4 m² (s1 D5)."
pub fn estimated(panel: PanelId, size: &str, how: &str, cells: &str) -> String {
    format!("{}, {}: an estimate from {} ({cells}).", sentence(&panel.to_string()), said(size), said(how))
}

/// An inspection by who, when and where: "by B. Example, 20 June 2026, Oberlinde, second pass".
pub fn inspection(inspection: &Inspection) -> String {
    let mut parts = vec![match &inspection.assessor {
        Some(assessor) => format!("by {}", said(&assessor.value)),
        None => "by a person not named".to_owned(),
    }];
    parts.extend(inspection.date.map(|day| date(day.value)));
    parts.extend(inspection.location.as_ref().map(|location| said(&location.value)));
    parts.extend(inspection.pass.map(|pass| format!("pass {}", pass.value)));
    parts.join(", ")
}

/// Whose count a panel has, where it is not the inspection's own: "agreed 1 July 2026".
pub fn overlay(inspection: &Inspection) -> String {
    let day = inspection.date.map(|day| format!(" {}", date(day.value)));
    format!("{}{}", inspection.role(), day.unwrap_or_default())
}

/// Marks for which a figure has no room.
pub fn more_marks(more: usize) -> String {
    format!("{more} more: see the list of marks")
}

/// Why a mark is not paid.
pub fn excluded(reason: ExclusionReason, words: &Words) -> String {
    words.text(match reason {
        ExclusionReason::NotDamage => "excluded-not-damage",
        ExclusionReason::OtherEvent => "excluded-other-event",
        ExclusionReason::Earlier => "excluded-earlier",
    })
}

/// What became of a mark.
pub fn mark_outcome(mark: &MarkAssessment, subject: &Subject<'_>) -> String {
    match mark {
        MarkAssessment::Counted(size) => {
            format!("counted with {}", said(&subject.schedule.sizes[*size].name))
        }
        MarkAssessment::Rated => "rated by itself".to_owned(),
        MarkAssessment::Noted => "no amount; bears on a limit".to_owned(),
        MarkAssessment::Excluded => "not paid".to_owned(),
        MarkAssessment::NotPriced => "no rate in the schedule".to_owned(),
    }
}

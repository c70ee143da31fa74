//! The words of documents: every kind of line, finding, note and caution in one plain sentence or phrase, in one place,
//! so that all formats say the same. Nothing here knows a format: the results are plain text.

mod band;
/// Words of the bordereau.
pub mod bordereau;
mod caution;
mod figure;
mod formula;
/// Headings and labels.
pub mod label;
mod note;
mod outcome;
/// Sentences of the owner's sheet.
pub mod owner;
mod quotation;
mod rule;
mod settlement;
/// Words of supplements.
pub mod supplement;
mod title;
/// Sentences of the work order.
pub mod work;

pub use band::{count_band, size_bands};
pub use caution::{caution, standing_caution};
pub use figure::{
    amount, count, date, dents, length, list, number, percent, rate, said, sentence, so_many, time,
    time_unit, time_with_unit,
};
pub use formula::{Piece, formula, operands, shown};
pub use note::{
    estimated, excluded, gross_range, inspection, mark_outcome, more_marks, note, of_a_lot, overlay,
    panel_range, range,
};
pub use outcome::{
    dated, headline, item_unpriced, method_of, methods, no_vehicle, not_inspected, open_items, open_panel,
    outcome, overruled, settled_unscreened, undecided_loss, without_open,
};
pub(crate) use quotation::{NO_PROMISE, NOT_SEEN_YET};
pub use quotation::{
    acceptance, excluded_mark, included_method, included_panel, included_work, no_paint_work, valid_until,
};
pub use rule::{
    amount_of_method, as_far_as_priced, dents_of_size, line_numbers, mixed, rule, tax_line, working_intro,
};
pub use settlement::{borne, net_and_tax, screen, settlement_amount, tax_of, unscreened, validity};
pub use title::{title_answer, titles, titles_in_short};

use super::Subject;
use crate::assess::{Crossing, Finding, Line, LineKind, Measured, OpenReason, PanelAssessment, Unpriced};
use crate::claim::{Mark, PanelId, Place, Side};
use crate::quantity::{Money, Percent};
use crate::schedule::{DiscountOn, Limit, Measure, MixedRule};

/// What a line is for, without its panel: "34 dents 12-22 mm, count 31-52", "aluminium", "new part".
pub fn line(line: &Line, panel: Option<PanelId>, subject: &Subject<'_>) -> String {
    let schedule = subject.schedule;
    let operation = |index: usize| said(&schedule.operations[index].name);
    match &line.kind {
        LineKind::Dents { size, count, dents: number } => {
            let rated = match schedule.terms.mixed.value {
                MixedRule::EachBand => "",
                MixedRule::MostFrequent | MixedRule::LargestShare(_) | MixedRule::Equivalents(_) => {
                    ", rated at"
                }
            };
            let size = said(&schedule.sizes[*size].name);
            format!("{}{rated} {size}, count {}", dents(*number), count_band(&schedule.counts[*count]))
        }
        LineKind::Equivalents { size, count, equivalents } => format!(
            "{} equivalents of {}, count {}",
            number(*equivalents),
            said(&schedule.sizes[*size].name),
            count_band(&schedule.counts[*count])
        ),
        LineKind::Mark(index) => mark_of(panel, *index, subject),
        LineKind::FurtherMark { mark, share } if share.micro() == 0 => {
            format!("{}: not charged beside a dearer mark", mark_of(panel, *mark, subject))
        }
        LineKind::FurtherMark { mark, share } => {
            format!("{}: {} beside a dearer mark", mark_of(panel, *mark, subject), percent(*share))
        }
        LineKind::Factor(index) => said(&schedule.factors[*index].name),
        LineKind::FactorCeiling => "down to the most that factors add together".to_owned(),
        LineKind::Floor => "up to the least amount of this panel".to_owned(),
        LineKind::Cap => "down to the most of this panel".to_owned(),
        LineKind::UpToNothing => "no amount below zero: up to nothing".to_owned(),
        LineKind::Readying(share) => {
            format!("readying for paint: {} of paintless", percent(*share))
        }
        LineKind::ConventionalLabour => "conventional repair".to_owned(),
        LineKind::FittingLabour => "fitting".to_owned(),
        LineKind::RefinishLabour => "refinish".to_owned(),
        LineKind::BlendLabour => "blending neighbouring panels".to_owned(),
        LineKind::Part => "new part".to_owned(),
        LineKind::PaintMaterial => "paint material".to_owned(),
        LineKind::OperationLabour { operation: index, panel, side } => {
            with_where(&operation(*index), *panel, side.map(Side::name))
        }
        LineKind::OperationParts { operation: index, panel, side } => {
            let name = format!("{}: parts", operation(*index));
            with_where(&name, *panel, side.map(Side::name))
        }
        LineKind::ItemPrice(index) => said(&subject.claim.items[*index].name.value),
        LineKind::ItemLabour(index) => format!("{}: labour", said(&subject.claim.items[*index].name.value)),
        LineKind::Minimum => "up to the least amount of a vehicle".to_owned(),
        LineKind::Discount(rate) => match &schedule.terms.discount {
            Some(share) => {
                let lines = match schedule.terms.discount_on.map(|on| on.value) {
                    Some(DiscountOn::Labour) => "labour",
                    Some(DiscountOn::All) | None => "lines",
                };
                format!("discount {} on {lines} with {} tax", percent(share.value), percent(*rate))
            }
            None => format!("discount on lines with {} tax", percent(*rate)),
        },
    }
}

fn mark_of(panel: Option<PanelId>, index: usize, subject: &Subject<'_>) -> String {
    panel
        .and_then(|panel| subject.assessment.panels.iter().find(|assessed| assessed.panel == panel))
        .and_then(|panel| mark(panel, index, subject))
        .unwrap_or_else(|| "mark".to_owned())
}

fn with_where(name: &str, panel: Option<PanelId>, side: Option<&str>) -> String {
    match (panel, side) {
        (Some(panel), _) => format!("{name} ({panel})"),
        (None, Some(side)) => format!("{name} ({side})"),
        (None, None) => name.to_owned(),
    }
}

/// A mark in words: "crease 85 mm x 6 mm", "oversize dent 62 mm".
pub fn mark(panel: &PanelAssessment, index: usize, subject: &Subject<'_>) -> Option<String> {
    written_mark(panel, index, subject).map(|mark| {
        let size = mark_size(mark);
        if size.is_empty() {
            mark.kind.value.name().to_owned()
        } else {
            format!("{} {size}", mark.kind.value)
        }
    })
}

/// The mark as it was written, by its number on a panel.
pub fn written_mark<'a>(panel: &PanelAssessment, index: usize, subject: &Subject<'a>) -> Option<&'a Mark> {
    subject.claim.inspections.get(panel.inspection)?.panels.get(panel.index)?.marks.get(index)
}

/// What was measured of a mark: `62 mm`, `85 mm x 6 mm`, or nothing.
pub fn mark_size(mark: &Mark) -> String {
    match (mark.length, mark.width) {
        (Some(long), Some(wide)) => format!("{} x {}", length(long.value), length(wide.value)),
        (Some(only), None) | (None, Some(only)) => length(only.value),
        (None, None) => String::new(),
    }
}

/// What a limit allows: "more than 140 dents", "paint: broken".
pub fn limit(limit: &Limit, subject: &Subject<'_>) -> String {
    match limit.measure {
        Measure::Material(material) => format!("material: {material}"),
        Measure::Paint(paint) => format!("paint: {paint}"),
        Measure::Access(access) => format!("access: {access}"),
        Measure::Depth(depth) => format!("depth: {depth}"),
        Measure::MarkLength(kind, over) => format!("{kind} longer than {}", length(over)),
        Measure::DentsOver(over) => format!("more than {}", dents(over)),
        Measure::DentsOfSizeOver(size, over) => {
            format!("more than {} of {} or larger", dents(over), said(&subject.schedule.sizes[size].name))
        }
        Measure::ShareOfReplacing(share) => format!("above {} of replacing", percent(share)),
        Measure::ShareOfConventional(share) => format!("above {} of conventional repair", percent(share)),
    }
}

/// What was measured: "168 dents", "aluminium", "paintless 612.40, the limit is 590.00".
pub fn measured(finding: &Finding) -> String {
    match finding.measured {
        Measured::Material(material) => material.name().to_owned(),
        Measured::Paint(paint) => format!("paint {paint}"),
        Measured::Access(access) => format!("access {access}"),
        Measured::Depth(depth) => depth.name().to_owned(),
        Measured::Length(measured) => length(measured),
        Measured::Dents(count) => dents(count),
        Measured::Amounts { paintless, threshold, .. } => {
            format!("paintless {}, the limit is {}", amount(paintless), amount(threshold))
        }
        Measured::Nothing => "nothing written".to_owned(),
    }
}

/// What was measured beside the limit it is measured against: "168 dents; the limit is 140", "paintless 612.40; 75 % of
/// replacing (786.67) is 590.00", "mild steel, not plastic".
pub fn finding(finding: &Finding, subject: &Subject<'_>) -> String {
    let limit = &subject.schedule.limits[finding.limit];
    let crossed = finding.crossing == Crossing::Yes;
    let is_word = |word: &str, value: &str| match finding.measured {
        Measured::Nothing => format!("{word} not written; the limit is {value}"),
        _ if crossed => measured(finding),
        _ => format!("{}, not {value}", measured(finding)),
    };
    match (limit.measure, finding.measured) {
        (measure, _) if finding.crossing == Crossing::CannotTell => {
            let against = match measure {
                Measure::ShareOfConventional(_) => "paintless or conventional repair",
                _ => "paintless or replacing",
            };
            format!("cannot be told: {against} is not priced")
        }
        (Measure::Material(value), _) => is_word("material", value.name()),
        (Measure::Paint(value), _) => is_word("paint", value.name()),
        (Measure::Access(value), _) => is_word("access", value.name()),
        (Measure::Depth(value), _) => is_word("depth", value.name()),
        (Measure::MarkLength(kind, over), Measured::Length(long)) => {
            format!("{kind} of {}; the limit is {}", length(long), length(over))
        }
        (Measure::MarkLength(kind, over), _) => format!("no {kind}; the limit is {}", length(over)),
        (Measure::DentsOfSizeOver(size, over), _) => {
            let size = said(&subject.schedule.sizes[size].name);
            format!("{} of {size} or larger; the limit is {}", measured(finding), number(over.into()))
        }
        (Measure::DentsOver(over), _) => {
            format!("{}; the limit is {}", measured(finding), number(over.into()))
        }
        (Measure::ShareOfReplacing(share), Measured::Amounts { paintless, other, threshold }) => {
            shares(paintless, "replacing", other, share, threshold)
        }
        (Measure::ShareOfConventional(share), Measured::Amounts { paintless, other, threshold }) => {
            shares(paintless, "conventional repair", other, share, threshold)
        }
        (Measure::ShareOfReplacing(_) | Measure::ShareOfConventional(_), _) => measured(finding),
    }
}

/// A finding with the limit's name: "Too many dents: 168 dents; the limit is 140".
pub fn named_finding(of: &Finding, subject: &Subject<'_>) -> String {
    let limit = &subject.schedule.limits[of.limit];
    format!("{}: {}", sentence(&said(&limit.name)), finding(of, subject))
}

/// A finding with the limit's name and place, which `cell` names: "Too many dents: 168 dents; the limit is 140 (s5 C4)".
pub fn cited_finding(of: &Finding, subject: &Subject<'_>, cell: impl Fn(Place) -> String) -> String {
    let limit = &subject.schedule.limits[of.limit];
    format!("{} ({})", named_finding(of, subject), cell(limit.place))
}

/// A finding that is crossed and did not decide, with what it would have led to.
pub fn also_crossed(of: &Finding, subject: &Subject<'_>, cell: impl Fn(Place) -> String) -> String {
    let then = subject.schedule.limits[of.limit].then;
    format!("Also crossed, for {then}: {}.", cited_finding(of, subject, cell))
}

fn shares(paintless: Money, method: &str, other: Money, share: Percent, threshold: Money) -> String {
    format!(
        "paintless {}; {} of {method} ({}) is {}",
        amount(paintless),
        percent(share),
        amount(other),
        amount(threshold)
    )
}

/// Why an alternative has no amount.
pub fn unpriced(why: Unpriced, subject: &Subject<'_>) -> String {
    let schedule = subject.schedule;
    match why {
        Unpriced::NoPanelTerms => "the schedule does not list this panel".to_owned(),
        Unpriced::BeyondCounts => match schedule.counts.last().and_then(|band| band.to) {
            Some(most) => format!("the schedule stops at {}", dents(most)),
            None => "the schedule has no such count".to_owned(),
        },
        Unpriced::NoGridCell { size, count } => format!(
            "the schedule has no rate for {}, count band {}",
            said(&schedule.sizes[size].name),
            count_band(&schedule.counts[count])
        ),
        Unpriced::NoMarkRate(_) => "the schedule has no rate for one of its marks".to_owned(),
        Unpriced::NoPart => "no price of the part is known".to_owned(),
        Unpriced::NoFitting => "no fitting time is known".to_owned(),
        Unpriced::NoConventional => "no conventional repair time is known".to_owned(),
        Unpriced::NoRefinish => "no refinish time is known".to_owned(),
        Unpriced::NoLabourRate => "the schedule has no rate for that labour".to_owned(),
    }
}

/// Why an alternative has no amount, in place of the amount in a table.
pub fn unpriced_in_short(why: Unpriced) -> &'static str {
    match why {
        Unpriced::NoPanelTerms => "not in the schedule",
        Unpriced::BeyondCounts => "beyond the count bands",
        Unpriced::NoGridCell { .. } => "no rate",
        Unpriced::NoMarkRate(_) => "no rate for a mark",
        Unpriced::NoPart => "no part price",
        Unpriced::NoFitting => "no fitting time",
        Unpriced::NoConventional => "no repair time",
        Unpriced::NoRefinish => "no refinish time",
        Unpriced::NoLabourRate => "no labour rate",
    }
}

/// Why a panel enters no total.
pub fn open(reason: OpenReason, subject: &Subject<'_>) -> String {
    match reason {
        OpenReason::Referred => "a person has to look at it".to_owned(),
        OpenReason::NotPriced(why) => format!("not priced: {}", unpriced(why, subject)),
    }
}

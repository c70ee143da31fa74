//! The words of documents: every kind of line, finding, note and caution in one plain sentence or phrase, in one place,
//! so that all formats say the same.

use super::Subject;
use crate::assess::{Finding, Line, LineKind, Measured, OpenReason, PanelAssessment, Unpriced};
use crate::claim::{MarkKind, PanelId};
use crate::quantity::Length;
use crate::schedule::{Limit, Measure};

/// A length as documents print it: millimetres, at most two decimals are ever needed for mm and common fractions.
pub fn length(length: Length) -> String {
    length.to_string()
}

/// `1 dent`, `168 dents`.
pub fn dents(count: u32) -> String {
    if count == 1 { "1 dent".to_owned() } else { format!("{count} dents") }
}

/// What a line is for, without its panel: "34 dents, 12-22 mm, counted 31-52", "aluminium", "new part".
pub fn line(line: &Line, panel: Option<PanelId>, subject: &Subject<'_>) -> String {
    let schedule = subject.schedule;
    match &line.kind {
        LineKind::Dents { size, count, dents: number } => {
            format!("{}, {}, {}", dents(*number), schedule.sizes[*size].name, schedule.counts[*count].name)
        }
        LineKind::Equivalents { size, count, equivalents } => format!(
            "{equivalents} equivalents of {}, {}",
            schedule.sizes[*size].name, schedule.counts[*count].name
        ),
        LineKind::Mark(index) => panel
            .and_then(|panel| subject.assessment.panels.iter().find(|p| p.panel == panel))
            .and_then(|panel| mark(panel, *index, subject))
            .unwrap_or_else(|| "mark".to_owned()),
        LineKind::Factor(index) => schedule.factors[*index].name.clone(),
        LineKind::Floor => "up to the least amount of this panel".to_owned(),
        LineKind::Cap => "down to the most of this panel".to_owned(),
        LineKind::Readying(share) => format!("readying for paint, {share} % of the paintless amount"),
        LineKind::ConventionalLabour => "conventional repair".to_owned(),
        LineKind::FittingLabour => "fitting".to_owned(),
        LineKind::RefinishLabour => "refinish".to_owned(),
        LineKind::BlendLabour => "blending into the neighbouring panels".to_owned(),
        LineKind::Part => "new part".to_owned(),
        LineKind::PaintMaterial => "paint material".to_owned(),
        LineKind::OperationLabour { operation, panel, side } => {
            with_where(&schedule.operations[*operation].name, *panel, side.map(|side| side.name()))
        }
        LineKind::OperationParts { operation, panel, side } => {
            let name = format!("{}: parts that break", schedule.operations[*operation].name);
            with_where(&name, *panel, side.map(|side| side.name()))
        }
        LineKind::ItemPrice(index) => subject.claim.items[*index].name.value.clone(),
        LineKind::ItemLabour(index) => format!("{}: labour", subject.claim.items[*index].name.value),
        LineKind::Minimum => "up to the least amount of a vehicle".to_owned(),
        LineKind::Discount(rate) => format!("discount on lines with {rate} % tax"),
    }
}

fn with_where(name: &str, panel: Option<PanelId>, side: Option<&str>) -> String {
    match (panel, side) {
        (Some(panel), _) => format!("{name} ({panel})"),
        (None, Some(side)) => format!("{name} ({side})"),
        (None, None) => name.to_owned(),
    }
}

/// A mark in words: "crease 85 mm", "oversize dent 62 mm".
pub fn mark(panel: &PanelAssessment, index: usize, subject: &Subject<'_>) -> Option<String> {
    let counted = subject.claim.inspections.get(panel.inspection)?.panels.get(panel.index)?;
    let mark = counted.marks.get(index)?;
    let mut out = mark.kind.value.name().to_owned();
    if let Some(measured) = mark.length {
        out.push(' ');
        out.push_str(&length(measured.value));
    }
    if let (MarkKind::Crease, Some(width)) = (mark.kind.value, mark.width) {
        out.push_str(" x ");
        out.push_str(&length(width.value));
    }
    Some(out)
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
            format!("more than {} of {} or larger", dents(over), subject.schedule.sizes[size].name)
        }
        Measure::ShareOfReplacing(share) => format!("above {share} % of replacing"),
        Measure::ShareOfConventional(share) => format!("above {share} % of conventional repair"),
    }
}

/// What was measured: "168 dents", "aluminium", "612.40 against 590.00 (75 % of 786.67)".
pub fn measured(finding: &Finding) -> String {
    match finding.measured {
        Measured::Material(material) => material.name().to_owned(),
        Measured::Paint(paint) => format!("paint {paint}"),
        Measured::Access(access) => format!("access {access}"),
        Measured::Depth(depth) => depth.name().to_owned(),
        Measured::Length(measured) => length(measured),
        Measured::Dents(count) => dents(count),
        Measured::Amounts { paintless, other, threshold } => {
            format!("{paintless} against {threshold} (a share of {other})")
        }
        Measured::Nothing => "nothing written".to_owned(),
    }
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
        Unpriced::NoGridCell { size, count } => {
            format!(
                "the schedule has no rate for {}, {}",
                schedule.sizes[size].name, schedule.counts[count].name
            )
        }
        Unpriced::NoMarkRate(_) => "the schedule has no rate for one of its marks".to_owned(),
        Unpriced::NoPart => "no price of the part is known".to_owned(),
        Unpriced::NoFitting => "no fitting time is known".to_owned(),
        Unpriced::NoConventional => "no conventional repair time is known".to_owned(),
        Unpriced::NoRefinish => "no refinish time is known".to_owned(),
        Unpriced::NoLabourRate => "the schedule has no rate for that labour".to_owned(),
        Unpriced::NoReadying => "the schedule has no share for readying a panel for paint".to_owned(),
    }
}

/// Why a panel enters no total.
pub fn open(reason: OpenReason, subject: &Subject<'_>) -> String {
    match reason {
        OpenReason::Referred => "a person has to look at it".to_owned(),
        OpenReason::NotPriced(why) => format!("not priced: {}", unpriced(why, subject)),
    }
}

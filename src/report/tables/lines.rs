//! One row per line of every priced claim: every amount that enters a total.

use super::{Column, Field, Kind};
use crate::assess::{LineKind, NumberedLine, PanelAssessment};
use crate::report::{Subject, wording};

/// The columns.
pub const COLUMNS: &[Column] = &[
    Column::new("claim", Kind::Text, "the job's key"),
    Column::new("line", Kind::Count, "its number on the claim's document, from 1"),
    Column::new("panel", Kind::Text, "blank for lines of the vehicle"),
    Column::new("method", Kind::Text, "what is done with the panel"),
    Column::new("kind", Kind::Text, "what kind of line it is"),
    Column::new("what for", Kind::Text, "in words, as on the document"),
    Column::new("labour", Kind::Text, "which labour, where it is by time"),
    Column::new("hours", Kind::Hours, "how much of it"),
    Column::new("currency", Kind::Text, "ISO 4217 code"),
    Column::new("amount", Kind::Money, "without tax; a claim's lines sum to its net"),
    Column::new("estimate", Kind::Text, "`yes` where dents of the panel are estimated"),
    Column::new("tax rate", Kind::Percent, "rate of the tax on it"),
    Column::new("rate stands in", Kind::Text, "the cell of its rate or price"),
];

/// The rows of a claim, in the order of its document.
pub fn rows(subject: &Subject<'_>) -> Vec<Vec<Field>> {
    subject.assessment.lines().map(|line| row(line, subject)).collect()
}

fn row(numbered: NumberedLine<'_>, subject: &Subject<'_>) -> Vec<Field> {
    let NumberedLine { number, panel, line } = numbered;
    let of = panel.and_then(|id| subject.assessment.panels.iter().find(|assessed| assessed.panel == id));
    let method = of.map(|assessed| assessed.method);
    vec![
        Field::text(subject.claim.key.text.clone()),
        Field::count(number),
        panel.map_or(Field::Blank, |panel| Field::text(panel.to_string())),
        method.map_or(Field::Blank, |method| Field::text(method.name())),
        Field::text(kind(&line.kind)),
        Field::text(wording::line(line, panel, subject)),
        line.hours.map_or(Field::Blank, |(class, _)| Field::text(class.name())),
        line.hours.map_or(Field::Blank, |(_, hours)| Field::Hours(hours)),
        Field::text(line.amount.currency().code()),
        Field::Money(line.amount),
        Field::yes(of.is_some_and(PanelAssessment::is_estimated)),
        Field::Percent(line.tax),
        line.cite.map_or(Field::Blank, |place| Field::text(subject.sources.short(place))),
    ]
}

/// The kind of a line in a fixed word or two.
pub(crate) const fn kind(kind: &LineKind) -> &'static str {
    match kind {
        LineKind::Dents { .. } => "dents",
        LineKind::Equivalents { .. } => "equivalents",
        LineKind::Mark(_) | LineKind::FurtherMark { .. } => "mark",
        LineKind::Factor(_) => "factor",
        LineKind::FactorCeiling => "factors at most",
        LineKind::Floor => "floor",
        LineKind::Cap => "cap",
        LineKind::UpToNothing => "up to nothing",
        LineKind::Readying(_) => "readying for paint",
        LineKind::ConventionalLabour => "conventional repair",
        LineKind::FittingLabour => "fitting",
        LineKind::RefinishLabour => "refinish",
        LineKind::BlendLabour => "blending",
        LineKind::Part => "part",
        LineKind::PaintMaterial => "paint material",
        LineKind::OperationLabour { .. } => "operation",
        LineKind::OperationParts { .. } => "parts of an operation",
        LineKind::ItemPrice(_) => "item",
        LineKind::ItemLabour(_) => "labour of an item",
        LineKind::Minimum => "minimum",
        LineKind::Discount(_) => "discount",
    }
}

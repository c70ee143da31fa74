//! The table in which people agree: only disputed panels, a row for each, its size columns empty. Filled in, it is an
//! ordinary table of counts whose rows have the role `agreed`, and is read as one.
//!
//! A row that is left empty replaces nothing. A filled one replaces the whole panel: what both looks noted of it alike is
//! filled in; marks that were measured one by one are counted in, or written in a table of marks with the same role.

use super::Compared;
use super::tables::Rows;
use crate::claim::{KeyKind, PanelId, PanelKind};
use crate::compare::agree::Proposal;
use crate::compare::comparison::{CarComparison, Disputed, Notes, Recount};
use crate::report::tables::Field;
use crate::schedule::{Schedule, SizeBand};
use std::ops::Range;

/// The table of one schedule and one kind of key: its headings and rows.
#[derive(Debug, Clone, PartialEq)]
pub struct AdjudicationTable {
    /// The schedule, by its number in the run.
    pub schedule: usize,
    /// Headings: what is read back first, the size columns among it, then what helps to agree.
    pub headings: Vec<String>,
    /// Numbers of the size columns, which are to be filled in.
    pub sizes: Range<usize>,
    /// Its cars, by their number in the comparison.
    pub cars: Vec<usize>,
    /// Rows that it has.
    pub panels: usize,
}

impl AdjudicationTable {
    /// Its rows, made as they are asked for.
    pub fn rows<'a>(&'a self, compared: &'a Compared<'a>) -> Rows<'a> {
        let schedule = &compared.run.schedules[self.schedule];
        let cars = self.cars.iter().map(|number| &compared.comparison.cars[*number]);
        let disputed = cars.flat_map(|car| car.disputed().map(move |disputed| (car, disputed)));
        Box::new(disputed.map(move |(car, disputed)| row(compared, car, schedule, &disputed)))
    }
}

/// What is read back, before the sizes.
const READ: [&str; 8] = ["role", "panel", "side", "material", "access", "paint", "depth", "position"];
/// What helps to agree, behind the sizes; none of it is read.
const BESIDE: [&str; 4] =
    ["counts as they are", "amounts as they are", "look again at", "proposed by the median"];

/// Tables of every schedule that rates a car with a disputed panel, in their order.
pub fn tables(compared: &Compared<'_>) -> Vec<AdjudicationTable> {
    let mut tables = Vec::new();
    for (number, schedule) in compared.run.schedules.iter().enumerate() {
        for kind in [KeyKind::ClaimNumber, KeyKind::JobNumber, KeyKind::Registration, KeyKind::Vin] {
            let is_of_table = |car: &CarComparison| {
                car.schedule == number && !car.to_agree.is_empty() && car.key_kind == kind
            };
            let all = &compared.comparison.cars;
            let cars: Vec<usize> = (0..all.len()).filter(|number| is_of_table(&all[*number])).collect();
            if !cars.is_empty() {
                let panels = cars.iter().map(|number| all[*number].to_agree.len()).sum();
                let key = heading(kind).to_owned();
                let read = READ.into_iter().map(str::to_owned);
                let sizes = schedule.sizes.iter().map(size_heading);
                let beside = BESIDE.into_iter().map(str::to_owned);
                let headings = [key].into_iter().chain(read).chain(sizes).chain(beside).collect();
                let first = 1 + READ.len();
                let sizes = first..first + schedule.sizes.len();
                tables.push(AdjudicationTable { schedule: number, headings, sizes, cars, panels });
            }
        }
    }
    tables
}

/// The heading of a column of keys.
const fn heading(kind: KeyKind) -> &'static str {
    match kind {
        KeyKind::ClaimNumber | KeyKind::Sheet => "claim",
        KeyKind::JobNumber => "job",
        KeyKind::Registration => "registration",
        KeyKind::Vin => "vin",
    }
}

/// A size band as a range, which every reader of the table understands: `14-23 mm`.
pub fn size_heading(band: &SizeBand) -> String {
    format!("{}-{} mm", band.low.millimetres().normalize(), band.high.millimetres().normalize())
}

fn row(
    compared: &Compared<'_>,
    car: &CarComparison,
    schedule: &Schedule,
    disputed: &Disputed<'_>,
) -> Vec<Field> {
    let PanelId { kind, side } = disputed.panel;
    let mut row = vec![
        Field::text(car.key.clone()),
        Field::text("agreed"),
        Field::text(word(kind)),
        side.map_or(Field::Blank, |side| Field::text(side.name())),
    ];
    row.extend(alike(&car.notes(disputed.panel)));
    row.extend(vec![Field::Blank; schedule.sizes.len()]);
    let looks = |of: &dyn Fn(usize) -> String| {
        let each = disputed.looks.iter().enumerate();
        let each = each.map(|(number, look)| format!("{}: {}", compared.name(look.assessor), of(number)));
        each.collect::<Vec<_>>().join("; ")
    };
    row.push(Field::text(looks(&|number| {
        let counts = disputed.looks[number].counts;
        counts.map_or_else(|| "not inspected".to_owned(), |counts| joined(counts.iter().map(u32::to_string)))
    })));
    row.push(Field::text(looks(&|number| {
        let look = &disputed.looks[number];
        let amount = look
            .amount
            .map_or_else(|| "no amount".to_owned(), |amount| format!("{amount} {}", car.currency.code()));
        look.method.map_or_else(|| "not inspected".to_owned(), |method| format!("{amount}, {method}"))
    })));
    row.push(Field::text(again(disputed.recount, schedule)));
    row.push(Field::text(joined(disputed.proposed.iter().map(|proposal| match proposal {
        Proposal::Dents(dents) => dents.to_string(),
        Proposal::CountAgain(_) => "count again".to_owned(),
    }))));
    row
}

/// A panel in a word that is read back as that panel: on some cars a roof rail could be the luggage bar.
const fn word(kind: PanelKind) -> &'static str {
    match kind {
        PanelKind::RoofRail => "cant rail",
        other => other.name(),
    }
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(" / ")
}

/// What the looks that noted anything noted alike: material, access, paint, depth, position.
fn alike(notes: &[Notes]) -> [Field; 5] {
    std::array::from_fn(|number| {
        let mut words = notes.iter().filter_map(|look| look.words()[number]);
        let first = words.next();
        first.filter(|first| words.all(|other| other == *first)).map_or(Field::Blank, Field::text)
    })
}

/// What is cheapest to look at again, in words.
pub fn again(recount: Recount, schedule: &Schedule) -> String {
    match recount {
        Recount::Band { size, apart, only } => {
            let name = schedule.sizes.get(usize::from(size)).map_or("", |band| band.name.as_str());
            let where_else =
                if only { "the counts differ there alone" } else { "the counts differ most there" };
            format!("dents of {name}: {where_else}, by {apart}")
        }
        Recount::Noted(noted) => match noted.names()[..] {
            [] => "what was noted of the panel: it moves most".to_owned(),
            ref names => format!("{} as noted: it differs, and moves most", names.join(", ")),
        },
        Recount::Marks => "the marks measured one by one: they move most".to_owned(),
        Recount::Overrule => "what a person decided: it moves most".to_owned(),
        Recount::Notes => "what was noted of the panel, and marks: the counts are equal".to_owned(),
        Recount::Inspect => "the whole panel: not everybody inspected it".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_means_its_panel_and_no_bar() {
        for kind in PanelKind::ALL.iter().copied() {
            assert_eq!(crate::claim::words::find::<PanelKind>(word(kind)), Some(kind));
        }
        assert_ne!(word(PanelKind::RoofRail), PanelKind::RoofRail.name());
    }
}

use super::names::Once;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::{Decimal, Length};
use crate::schedule::SizeBand;
use crate::schedule::bands::{COARSEST_DIGIT, label};
use crate::schedule::raw::{Edge, RawSizeBand};

/// More bands than any schedule has; a wrong table must not fill the memory.
const MOST: usize = 60;

/// Size bands from small to large, without gap or overlap. Where an edge could not be read the bands stay in the order
/// of their rows, so that their names are still known.
pub(super) fn check(raw: &[RawSizeBand], problems: &mut Vec<Problem>) -> Vec<SizeBand> {
    if let Some(beyond) = raw.get(MOST) {
        problems.push(words::too_many_bands("size bands", MOST).at(beyond.place));
    }
    let raw = &raw[..raw.len().min(MOST)];
    names_are_unique(raw, problems);
    let mut rows: Vec<(&RawSizeBand, Option<(Edge, Edge)>)> =
        raw.iter().map(|row| (row, row.from.zip(row.to))).collect();
    let readable = rows.iter().all(|(_, edges)| edges.is_some());
    rows.sort_by_key(|(_, edges)| edges.filter(|_| readable).map(|(from, to)| (from.length, to.length)));
    let mut bands: Vec<SizeBand> = Vec::with_capacity(rows.len());
    let mut previous: Option<Edge> = None;
    for (row, edges) in rows {
        let (low, high) = match edges {
            Some((from, to)) if readable => {
                let low = joined(previous, from, problems);
                if to.length <= low {
                    problems.push(words::band_empty("size band", &row.name.value).at(row.place));
                }
                previous = Some(to);
                (low, to.length)
            }
            _ => (Length::ZERO, Length::ZERO),
        };
        bands.push(SizeBand {
            name: row.name.value.clone(),
            low,
            high,
            goes_by: others(row).map(str::to_owned).collect(),
            weight: row.weight.and_then(|weight| check_weight(weight, problems)),
            place: row.place,
        });
    }
    bands
}

/// The other headings a band goes by, as written.
fn others(row: &RawSizeBand) -> impl Iterator<Item = &str> {
    let written = row.goes_by.as_ref().map_or("", |written| written.value.as_str());
    written.split(';').map(str::trim).filter(|text| !text.is_empty())
}

fn names_are_unique(raw: &[RawSizeBand], problems: &mut Vec<Problem>) {
    let mut once = Once::new();
    for row in raw {
        once.note(label(&row.name.value), "size band", &row.name.value, row.name.place, problems);
        for other in others(row).filter(|other| label(other) != label(&row.name.value)) {
            let place = row.goes_by.as_ref().map_or(row.place, |written| written.place);
            once.note(label(other), "heading that a size band goes by", other, place, problems);
        }
    }
}

/// The lower edge of a band: the upper edge of the one before (or nothing), if the two are one edge.
fn joined(previous: Option<Edge>, from: Edge, problems: &mut Vec<Problem>) -> Length {
    let (edge, digit) =
        previous.map_or((Length::ZERO, from.digit), |to| (to.length, to.digit.min(from.digit)));
    let difference = (from.length.nanometres() - edge.nanometres()).abs();
    let place_of_edge = previous.map(|to| to.place);
    let tell = |problem: Problem| {
        let problem = problem.at(from.place);
        match place_of_edge {
            Some(place) => problem.and(place),
            None => problem,
        }
    };
    if difference == 0 {
        return edge;
    }
    if digit <= COARSEST_DIGIT && difference <= digit.nanometres() {
        problems.push(tell(words::edges_joined(edge, from.length)));
        return edge;
    }
    if from.length > edge {
        problems.push(tell(words::size_gap(edge, from.length)));
    } else {
        problems.push(tell(words::size_overlap(from.length, edge)));
    }
    from.length
}

/// A weight: above nothing, at most a thousand, at most six decimals.
fn check_weight(weight: Located<Decimal>, problems: &mut Vec<Problem>) -> Option<Decimal> {
    let value = weight.value.normalize();
    let problem = if value <= Decimal::ZERO {
        words::out_of_range("weight", "it has to be above zero")
    } else if value > Decimal::from(1000) {
        words::out_of_range("weight", "it is above 1000")
    } else if value.scale() > 6 {
        words::too_precise("weight", "six decimals")
    } else {
        return Some(value);
    };
    problems.push(problem.at(weight.place).written(value.to_string()));
    None
}

use super::super::by_counts::{FILE, band};
use super::table::{Table, count, number, words as text};
use super::{Filling, figure};
use crate::compare::comparison::{CountedCar, CountedPair, CountedPanel};
use crate::report::wording::said;

/// Rows on the page.
const ROWS: usize = 40;
/// Rows in a letter.
const LETTER: usize = 10;

/// A panel with its car and pair.
type Held<'a> = (&'a CountedCar, &'a CountedPair, &'a CountedPanel);

/// Panels of looks that are not priced, those farthest apart first; equal ones stay in the order of the batch.
fn farthest<'a>(filling: &Filling<'a>) -> Vec<Held<'a>> {
    let cars = filling.comparison.by_counts.iter().flat_map(|by_counts| &by_counts.cars);
    let pairs = cars.flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
    let panels = pairs.flat_map(|(car, pair)| pair.panels.iter().map(move |panel| (car, pair, panel)));
    let mut panels: Vec<Held<'a>> = panels.collect();
    panels.sort_by_key(|(.., panel)| std::cmp::Reverse(panel.first.abs_diff(panel.second)));
    panels
}

/// The panels on which counts alone lie farthest apart.
pub(super) fn panels(filling: &Filling<'_>) -> Option<Table> {
    let rows = farthest(filling)
        .into_iter()
        .map(|(car, pair, panel)| {
            let difference = i64::from(panel.first) - i64::from(panel.second);
            vec![
                text(said(&car.key)),
                text(panel.panel.to_string()),
                text(filling.name(pair.first)),
                text(filling.name(pair.second)),
                number(panel.first.to_string()),
                number(panel.second.to_string()),
                number(figure::signed_whole(difference)),
            ]
        })
        .collect();
    let headings =
        ["Car", "Panel", "First", "Second", "First, dents#", "Second, dents#", "First minus second#"];
    let says = "Panels of counts that no schedule prices on both sides, those farthest apart first. Dents in all are exact \
                whatever bands they were counted in.";
    Table::new("Compared by counts alone", says, &headings, rows)
        .map(|table| table.at_most(ROWS, &format!("in {FILE}")))
}

/// What the bands that two looks share add up to.
pub(super) fn bands(filling: &Filling<'_>) -> Option<Table> {
    let bands = filling.comparison.by_counts.iter().flat_map(|by_counts| &by_counts.bands);
    let rows = bands
        .map(|of| {
            let (lowest, highest) = (figure::signed_whole(of.lowest), figure::signed_whole(of.highest));
            let (first, second) = of.between;
            vec![
                text(format!("{} minus {}", filling.name(first), filling.name(second))),
                text(said(&band(&of.band))),
                count(of.panels),
                count(of.as_intervals),
                count(of.could_agree),
                number(if lowest == highest { lowest } else { format!("{lowest} to {highest}") }),
            ]
        })
        .collect();
    let headings = [
        "Who",
        "Common band",
        "Panels#",
        "Of these as intervals#",
        "Could be equal on#",
        "First minus second, dents in all#",
    ];
    let says = "Both counts are brought into bands that both have, which is exact. A column that lies over an edge of a band \
                counts wholly below it or wholly above: the lowest and the highest difference stand here, and no guess \
                between them.";
    Table::new("Common bands of counts alone", says, &headings, rows)
        .map(|table| table.at_most(ROWS, &format!("in {FILE}")))
}

/// `A-1: hood (+12)`, for the panels farthest apart that differ.
pub(super) fn named(filling: &Filling<'_>, most: usize) -> Vec<String> {
    let differing = farthest(filling).into_iter().filter(|(.., panel)| panel.first != panel.second);
    let named = differing.take(most).map(|(car, _, panel)| {
        let difference = i64::from(panel.first) - i64::from(panel.second);
        format!("{}: {} ({} dents)", said(&car.key), panel.panel, figure::signed_whole(difference))
    });
    named.collect()
}

/// The panels of one pair of people on which counts alone lie farthest apart.
pub(super) fn of_letter(filling: &Filling<'_>, between: (usize, usize)) -> Option<Table> {
    let of_pair = farthest(filling).into_iter().filter(|(_, pair, _)| (pair.first, pair.second) == between);
    let rows = of_pair
        .filter(|(.., panel)| panel.first != panel.second)
        .take(LETTER)
        .map(|(car, _, panel)| {
            let difference = i64::from(panel.first) - i64::from(panel.second);
            vec![
                text(said(&car.key)),
                text(panel.panel.to_string()),
                number(panel.first.to_string()),
                number(panel.second.to_string()),
                number(figure::signed_whole(difference)),
            ]
        })
        .collect();
    let (first, second) = (filling.name(between.0), filling.name(between.1));
    let headings = ["Car", "Panel", &format!("{first}, dents#"), &format!("{second}, dents#"), "Difference#"];
    Table::new("Panels to look at together", "Those farthest apart.", &headings, rows)
}

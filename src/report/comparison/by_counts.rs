//! What no schedule prices: rows of its counts, and words for the bands that two looks share.

use super::Compared;
use super::tables::Rows;
use crate::compare::comparison::{ByCounts, CountedPanel};
use crate::compare::pairing::{Bounds, CommonBand};
use crate::quantity::Decimal;
use crate::report::tables::Field;

/// The text file, where there is anything for it.
pub const FILE: &str = "counts_alone.csv";

/// One row per panel of a pair of looks, with a blank band, then one for each of its common bands. Fewest and most differ
/// only where a column lies over an edge of the band; the lowest and the highest difference are first minus second.
pub const HEADINGS: [&str; 11] = [
    "claim",
    "panel",
    "first",
    "second",
    "band",
    "first at least",
    "first at most",
    "second at least",
    "second at most",
    "lowest difference",
    "highest difference",
];

/// A band in words: `10-20 mm`, `over 40 mm`, or a name.
pub fn band(band: &CommonBand) -> String {
    let mm = |length: crate::quantity::Length| length.millimetres().normalize();
    match band {
        CommonBand::Between(low, Some(high)) => format!("{}-{} mm", mm(*low), mm(*high)),
        CommonBand::Between(low, None) => format!("over {} mm", mm(*low)),
        CommonBand::Named(name) => name.clone(),
    }
}

/// Why there is no money, in a sentence.
pub fn says(by_counts: &ByCounts, is_all: bool) -> String {
    let cars = by_counts.cars.len();
    let cars = if cars == 1 { "1 car".to_owned() } else { format!("{cars} cars") };
    if is_all {
        format!(
            "Counts alone are compared, on {cars}: no schedule prices them. Bands of rates, decisions and money are left out."
        )
    } else {
        format!(
            "Beside these, counts alone are compared on {cars} that no schedule prices on both sides; they enter no figure \
             above and stand in a list of their own."
        )
    }
}

/// Rows below [`HEADINGS`].
pub fn rows<'a>(compared: &'a Compared<'a>, by_counts: &'a ByCounts) -> Rows<'a> {
    Box::new(by_counts.cars.iter().flat_map(move |car| {
        car.pairs.iter().flat_map(move |pair| {
            let head = move |panel: &CountedPanel, band: Field| {
                vec![
                    Field::text(car.key.clone()),
                    Field::text(panel.panel.to_string()),
                    Field::text(compared.name(pair.first)),
                    Field::text(compared.name(pair.second)),
                    band,
                ]
            };
            pair.panels.iter().flat_map(move |panel| {
                let exact = |dents| Bounds { fewest: dents, most: dents };
                let mut rows = vec![head(panel, Field::Blank)];
                rows[0].extend(fields(exact(panel.first), exact(panel.second)));
                for (common, (first, second)) in pair.bands.iter().zip(&panel.bands) {
                    let mut row = head(panel, Field::text(band(common)));
                    row.extend(fields(*first, *second));
                    rows.push(row);
                }
                rows
            })
        })
    }))
}

fn fields(first: Bounds, second: Bounds) -> [Field; 6] {
    let number = |a: u32, b: u32| Field::Number(Decimal::from(i64::from(a) - i64::from(b)));
    [
        Field::Count(first.fewest.into()),
        Field::Count(first.most.into()),
        Field::Count(second.fewest.into()),
        Field::Count(second.most.into()),
        number(first.fewest, second.most),
        number(first.most, second.fewest),
    ]
}

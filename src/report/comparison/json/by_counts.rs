use super::super::Compared;
use super::super::by_counts::band;
use super::{Each, name};
use crate::compare::comparison::{ByCounts, CountedCar, CountedPair, CountedPanel};
use crate::compare::pairing::Bounds;
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};

/// What no schedule prices.
pub(super) struct ByCountsView<'a>(pub &'a ByCounts, pub &'a Compared<'a>);

#[derive(Serialize)]
struct BandView<'a> {
    first: &'a str,
    second: &'a str,
    band: String,
    panels: usize,
    as_intervals: usize,
    could_be_equal: usize,
    lowest_difference: i64,
    highest_difference: i64,
}

#[derive(Serialize)]
struct PanelView<'a> {
    claim: &'a str,
    panel: String,
    first: &'a str,
    second: &'a str,
    dents_first: u32,
    dents_second: u32,
    bands: Vec<BoundsView>,
}

#[derive(Serialize)]
struct BoundsView {
    band: String,
    first: [u32; 2],
    second: [u32; 2],
}

impl Serialize for ByCountsView<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(by_counts, compared) = self;
        let mut all_of_it = serializer.serialize_struct("ByCounts", 3)?;
        all_of_it.serialize_field("cars", &by_counts.cars.len())?;
        let bands = || {
            by_counts.bands.iter().map(|of| BandView {
                first: name(compared, of.between.0),
                second: name(compared, of.between.1),
                band: band(&of.band),
                panels: of.panels,
                as_intervals: of.as_intervals,
                could_be_equal: of.could_agree,
                lowest_difference: of.lowest,
                highest_difference: of.highest,
            })
        };
        all_of_it.serialize_field("bands", &Each(bands))?;
        let pairs = || by_counts.cars.iter().flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
        let panels = || {
            pairs().flat_map(|(car, pair)| {
                pair.panels.iter().map(|of| panel(car, pair, of, compared)).collect::<Vec<_>>()
            })
        };
        all_of_it.serialize_field("panels", &Each(panels))?;
        all_of_it.end()
    }
}

fn panel<'a>(
    car: &'a CountedCar,
    pair: &'a CountedPair,
    of: &'a CountedPanel,
    compared: &'a Compared<'a>,
) -> PanelView<'a> {
    let two = |bounds: &Bounds| [bounds.fewest, bounds.most];
    PanelView {
        claim: &car.key,
        panel: of.panel.to_string(),
        first: name(compared, pair.first),
        second: name(compared, pair.second),
        dents_first: of.first,
        dents_second: of.second,
        bands: pair
            .bands
            .iter()
            .zip(&of.bands)
            .map(|(of, (first, second))| BoundsView {
                band: band(of),
                first: two(first),
                second: two(second),
            })
            .collect(),
    }
}

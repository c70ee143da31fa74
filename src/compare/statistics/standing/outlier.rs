use crate::compare::statistics::number::{mean, median};
use crate::compare::statistics::{Choice, Definition, Reason};

/// A score beyond this is worth a look (Iglewicz and Hoaglin).
pub const OUTLYING: f64 = 3.5;
/// Their constant, as printed: the upper quartile of the standard normal distribution to four places.
const QUARTILE: f64 = 0.6745;
/// Root of half of pi: what the mean absolute deviation is multiplied by.
const OF_MEAN_DEVIATION: f64 = 1.253_314;

/// What the spread was measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpreadBy {
    /// The median of the distances from the median.
    MedianDeviation,
    /// The mean of the distances from the median, because more than half of all values are equal.
    MeanDeviation,
}

/// Robust scores of some values.
#[derive(Debug, Clone, PartialEq)]
pub struct ModifiedZ {
    /// A score per value, in the order given; or why there are none.
    pub scores: Result<Vec<f64>, Reason>,
    /// The median they are taken from.
    pub centre: Option<f64>,
    /// What stands for the standard deviation.
    pub by: SpreadBy,
    /// What the scores are.
    pub definition: Definition,
}

/// Modified z scores: 0.6745 x (value − median) over the median absolute deviation. Where that is zero, (value −
/// median) over 1.253314 x the mean absolute deviation; where that is zero too, all values are equal.
pub fn modified_z(values: &[f64]) -> ModifiedZ {
    let centre = median(values);
    let apart: Vec<f64> =
        centre.map(|c| values.iter().map(|value| (value - c).abs()).collect()).unwrap_or_default();
    let median_deviation = median(&apart).unwrap_or_default();
    let mean_deviation = mean(&apart).unwrap_or_default();
    let (by, unit) = if median_deviation > 0.0 {
        (SpreadBy::MedianDeviation, median_deviation / QUARTILE)
    } else {
        (SpreadBy::MeanDeviation, mean_deviation * OF_MEAN_DEVIATION)
    };
    let scores = centre.ok_or(Reason::NoData).and_then(|centre| {
        if unit <= 0.0 {
            return Err(Reason::NoSpread);
        }
        let scores: Vec<f64> = values.iter().map(|value| (value - centre) / unit).collect();
        if scores.iter().all(|score| score.is_finite()) { Ok(scores) } else { Err(Reason::OutOfRange) }
    });
    let spread = match by {
        SpreadBy::MedianDeviation => Choice::Variant("spread", "median absolute deviation over 0.6745"),
        SpreadBy::MeanDeviation => Choice::Variant(
            "spread",
            "mean absolute deviation x 1.253314, as more than half of the values are equal",
        ),
    };
    let definition = Definition::new(
        "value less median, over a spread that a few odd values do not move",
        "Iglewicz and Hoaglin 1993, How to Detect and Handle Outliers",
        [Choice::Constant("worth a look beyond", OUTLYING), spread],
    );
    ModifiedZ { scores, centre, by, definition }
}

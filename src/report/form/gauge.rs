use crate::schedule::SizeBand;
use serde::Serialize;

/// Widest drawing that A4 and Letter both hold, in micrometres.
const WIDTH: i64 = 178_000;
/// Largest edge that is drawn as a circle; larger ones are bars.
const LARGEST_CIRCLE: i64 = 60_000;
/// Between two drawings, and room for a line of text.
const GAP: i64 = 5_000;
const TEXT: i64 = 6_000;
/// Height of a bar.
const BAR: i64 = 4_000;
/// Length of the line that shows whether the printer kept the scale.
const CHECK: i64 = 100_000;

/// The bands' edges in true millimetres. All figures are millimetres as SVG writes them.
#[derive(Debug, Clone, Serialize)]
pub struct Gauge {
    /// Its width and height.
    pub width: String,
    /// Its height.
    pub height: String,
    /// The line of stated length.
    pub check: String,
    /// Marks every ten millimetres on it.
    pub ticks: Vec<String>,
    /// An edge each, as the circle that a dent at it just fills.
    pub circles: Vec<Circle>,
    /// Larger edges, as bars of that length.
    pub bars: Vec<Bar>,
    /// Edges that no paper holds, in words.
    pub too_large: Vec<String>,
}

/// An edge as a circle.
#[derive(Debug, Clone, Serialize)]
pub struct Circle {
    /// Its middle.
    pub x: String,
    /// Its middle.
    pub y: String,
    /// Half its diameter.
    pub radius: String,
    /// Where its text stands.
    pub below: String,
    /// Its diameter in words.
    pub text: String,
}

/// An edge as a bar.
#[derive(Debug, Clone, Serialize)]
pub struct Bar {
    /// Its upper edge.
    pub y: String,
    /// Its length.
    pub length: String,
    /// Where its text stands.
    pub below: String,
    /// Its length in words.
    pub text: String,
}

impl Gauge {
    /// Of the upper edges of a schedule's bands.
    pub(super) fn new(sizes: &[SizeBand]) -> Self {
        let mut gauge = Self {
            width: millimetres(WIDTH),
            height: String::new(),
            check: millimetres(CHECK),
            ticks: (0..=10).map(|step| millimetres(step * CHECK / 10)).collect(),
            circles: Vec::new(),
            bars: Vec::new(),
            too_large: Vec::new(),
        };
        // Below the line of stated length and its text.
        let mut top = 14_000;
        let mut left = 0;
        let mut tallest = 0;
        for band in sizes {
            let edge = band.high.nanometres() / 1_000;
            let text = format!("{} mm", band.high.millimetres());
            if edge > WIDTH {
                gauge.too_large.push(text);
                continue;
            }
            if edge > LARGEST_CIRCLE {
                top += tallest + if tallest > 0 { TEXT + GAP } else { 0 };
                (left, tallest) = (0, 0);
                gauge.bars.push(Bar {
                    y: millimetres(top),
                    length: millimetres(edge),
                    below: millimetres(top + BAR + TEXT - 2_000),
                    text,
                });
                top += BAR + TEXT + GAP;
                continue;
            }
            // A small circle needs the room of its text.
            let room = edge.max(14_000);
            if left + room > WIDTH {
                top += tallest + TEXT + GAP;
                (left, tallest) = (0, 0);
            }
            gauge.circles.push(Circle {
                x: millimetres(left + room / 2),
                y: millimetres(top + edge / 2),
                radius: millimetres(edge / 2),
                below: millimetres(top + edge + TEXT - 2_000),
                text,
            });
            left += room + GAP;
            tallest = tallest.max(edge);
        }
        let last = if tallest > 0 { tallest + TEXT } else { 0 };
        gauge.height = millimetres(top + last);
        gauge
    }
}

/// Micrometres as millimetres in plain decimals.
fn millimetres(micrometres: i64) -> String {
    let text = format!("{}.{:03}", micrometres / 1_000, micrometres % 1_000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Place, SourceId};
    use crate::quantity::Length;

    fn gauge(edges: &[i64]) -> Gauge {
        let mut low = Length::ZERO;
        let mut bands = Vec::new();
        for edge in edges {
            let high = Length::from_nanometres(edge * 1_000);
            let (name, place) = (edge.to_string(), Place::whole(SourceId(0)));
            bands.push(SizeBand { name, low, high, goes_by: Vec::new(), weight: None, place });
            low = high;
        }
        Gauge::new(&bands)
    }

    #[test]
    fn edges_are_drawn_in_true_size_and_wrap_where_the_paper_ends() {
        let drawn = gauge(&[12_700, 50_000, 60_000, 59_000, 90_000, 300_000]);
        let radii: Vec<&str> = drawn.circles.iter().map(|circle| circle.radius.as_str()).collect();
        assert_eq!(radii, ["6.35", "25", "30", "29.5"]);
        // 14 + 5 + 50 + 5 + 60 + 5 leave no room for another 59 beside them.
        assert_eq!(drawn.circles[3].x, "29.5");
        assert_ne!(drawn.circles[3].y, drawn.circles[0].y);
        assert_eq!((drawn.bars[0].length.as_str(), drawn.bars[0].text.as_str()), ("90", "90 mm"));
        assert_eq!(drawn.too_large, ["300 mm"]);
    }
}

use super::axis::{Axis, Tick, place};
use serde::Serialize;
use std::collections::BTreeMap;

/// Width and height of a drawing of points, in its own units.
const SIZE: (f64, f64) = (480.0, 300.0);
/// Where the axes stand: left, right, top, bottom.
const FIELD: (f64, f64, f64, f64) = (52.0, 384.0, 14.0, 252.0);
/// Points nearer than this are one dot: what lies on one another cannot be told apart anyway.
const GRID: f64 = 4.0;

/// How a line is drawn; each can be told from the others without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Stroke {
    /// What the eye should go to.
    Solid,
    /// A limit.
    Dash,
    /// For comparison.
    Dot,
}

/// A line through the drawing with its name at its end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlotLine {
    /// Its corners, as SVG writes them.
    pub points: String,
    /// How it is drawn.
    pub stroke: Stroke,
    /// Its name.
    pub label: String,
    /// Where the name stands, from the top.
    pub label_at: String,
}

/// A dot; its area says how many stand there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Dot {
    /// From the left.
    pub x: String,
    /// From the top.
    pub y: String,
    /// Radius.
    pub r: String,
    /// Drawn filled; a hollow one is only shown.
    pub full: bool,
    /// A name beside it.
    pub label: Option<String>,
}

/// Points in a field of two axes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Points {
    /// Name of what runs to the right.
    pub x_label: String,
    /// Name of what runs up.
    pub y_label: String,
    /// Marks below.
    pub x_ticks: Vec<Tick>,
    /// Marks to the left.
    pub y_ticks: Vec<Tick>,
    /// Lines.
    pub lines: Vec<PlotLine>,
    /// Dots.
    pub dots: Vec<Dot>,
}

/// A point to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
    /// Whether it is drawn filled.
    pub full: bool,
    /// A name beside it. Named points are never merged.
    pub label: Option<String>,
}

/// A line to be drawn, in the values of the axes.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it says.
    pub label: String,
    /// How it is drawn.
    pub stroke: Stroke,
    /// Where it runs.
    pub run: Run,
}

/// Where a line runs.
#[derive(Debug, Clone, PartialEq)]
pub enum Run {
    /// At one height.
    Level(f64),
    /// Where both axes have the same value.
    Equal,
    /// Through corners.
    Through(Vec<(f64, f64)>),
}

impl Points {
    /// Lays points and lines out. Where `alike` is set both axes have the same range.
    pub fn new(labels: (&str, &str), points: &[Point], lines: &[Line], alike: bool) -> Self {
        let (left, right, top, bottom) = FIELD;
        let corners = || {
            lines.iter().flat_map(|line| match &line.run {
                Run::Through(corners) => corners.clone(),
                Run::Level(_) | Run::Equal => Vec::new(),
            })
        };
        let mut xs: Vec<f64> =
            points.iter().map(|point| point.x).chain(corners().map(|corner| corner.0)).collect();
        let mut ys: Vec<f64> =
            points.iter().map(|point| point.y).chain(corners().map(|corner| corner.1)).collect();
        ys.extend(
            lines.iter().filter_map(|line| if let Run::Level(at) = line.run { Some(at) } else { None }),
        );
        if alike {
            xs.extend(ys.clone());
            ys.clone_from(&xs);
        }
        let (x, y) = (Axis::new(xs, left, right), Axis::new(ys, bottom, top));
        let mut drawn: Vec<PlotLine> = lines.iter().filter_map(|line| lay(line, &x, &y)).collect();
        part_labels(&mut drawn);
        Self {
            x_label: labels.0.to_owned(),
            y_label: labels.1.to_owned(),
            x_ticks: x.ticks(),
            y_ticks: y.ticks(),
            lines: drawn,
            dots: dots(points, &x, &y),
        }
    }

    /// How many dots are drawn.
    pub fn dots(&self) -> usize {
        self.dots.len()
    }
}

fn lay(line: &Line, x: &Axis, y: &Axis) -> Option<PlotLine> {
    let ((x_low, x_high), (y_low, y_high)) = (x.range(), y.range());
    let corners = match &line.run {
        Run::Level(at) => vec![(x_low, *at), (x_high, *at)],
        Run::Equal => {
            let (low, high) = (x_low.max(y_low), x_high.min(y_high));
            vec![(low, low), (high, high)]
        }
        Run::Through(corners) => corners.clone(),
    };
    let last = corners.last()?.1;
    let points: Vec<String> =
        corners.iter().map(|(at_x, at_y)| format!("{},{}", place(x.at(*at_x)), place(y.at(*at_y)))).collect();
    Some(PlotLine {
        points: points.join(" "),
        stroke: line.stroke,
        label: line.label.clone(),
        label_at: place(y.at(last)),
    })
}

/// Moves names that would lie on one another apart, from the top down.
fn part_labels(lines: &mut [PlotLine]) {
    const APART: f64 = 14.0;
    let at = |line: &PlotLine| line.label_at.parse::<f64>().unwrap_or(0.0);
    let mut order: Vec<usize> = (0..lines.len()).filter(|index| !lines[*index].label.is_empty()).collect();
    order.sort_by(|a, b| at(&lines[*a]).total_cmp(&at(&lines[*b])));
    let mut free = FIELD.2;
    for index in order {
        let wanted = at(&lines[index]).max(free);
        lines[index].label_at = place(wanted);
        free = wanted + APART;
    }
}

fn dots(points: &[Point], x: &Axis, y: &Axis) -> Vec<Dot> {
    let mut heaps: BTreeMap<(u32, u32, bool, usize), Heap> = BTreeMap::new();
    for (number, point) in points.iter().enumerate() {
        if !(point.x.is_finite() && point.y.is_finite()) {
            continue;
        }
        let (at_x, at_y) = (x.at(point.x), y.at(point.y));
        let own = if point.label.is_some() { number + 1 } else { 0 };
        let key = (cell(at_x), cell(at_y), point.full, own);
        let heap =
            heaps.entry(key).or_insert_with(|| Heap { many: 0, label: point.label.clone(), at_x, at_y });
        heap.many += 1;
    }
    let dot = |(key, heap): ((u32, u32, bool, usize), Heap)| {
        let radius = (2.2 * f64::from(heap.many).powf(0.25)).min(5.0);
        Dot { x: place(heap.at_x), y: place(heap.at_y), r: place(radius), full: key.2, label: heap.label }
    };
    heaps.into_iter().map(dot).collect()
}

/// Points on one another.
struct Heap {
    many: u32,
    label: Option<String>,
    at_x: f64,
    at_y: f64,
}

/// The square of the grid that a place lies in.
fn cell(at: f64) -> u32 {
    let cell = (at.clamp(0.0, SIZE.0) / GRID).round();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between nothing and the drawing's size"
    )]
    let cell = cell as u32;
    cell
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(x: f64, y: f64) -> Point {
        Point { x, y, full: true, label: None }
    }

    #[test]
    fn points_on_one_another_are_one_larger_dot() {
        let plot = Points::new(("x", "y"), &[point(1.0, 1.0), point(1.0, 1.0), point(9.0, 3.0)], &[], false);
        assert_eq!(plot.dots(), 2);
        assert_ne!(plot.dots[0].r, plot.dots[1].r);
    }

    #[test]
    fn no_point_and_no_number_leave_an_empty_field_and_no_nan() {
        let line = Line { label: "bias".to_owned(), stroke: Stroke::Solid, run: Run::Level(0.0) };
        let plot = Points::new(("x", "y"), &[point(f64::NAN, 1.0)], &[line], true);
        assert_eq!(plot.dots(), 0);
        assert!(!format!("{plot:?}").contains("NaN"));
    }

    #[test]
    fn names_of_lines_that_lie_on_one_another_stand_apart() {
        let line = |at| Line { label: "limit".to_owned(), stroke: Stroke::Dash, run: Run::Level(at) };
        let plot =
            Points::new(("x", "y"), &[point(0.0, -50.0), point(1.0, 50.0)], &[line(0.0), line(0.1)], false);
        let at: Vec<f64> = plot.lines.iter().map(|line| line.label_at.parse().unwrap()).collect();
        assert!((at[0] - at[1]).abs() >= 14.0, "{at:?}");
    }
}

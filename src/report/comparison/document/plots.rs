use super::super::tables;
use super::names::Sides;
use super::plot::{Line, Point, Points, Run, Steps, Stroke};
use super::table::{Table, count, number, words as text};
use super::{Filling, figure, words};
use crate::compare::comparison::MoneyByCause;
use crate::compare::statistics::standing::normal_limits;
use crate::compare::statistics::{Level, median};
use crate::report::wording::so_many;
use serde::Serialize;
use std::fmt::Write as _;

/// Rows of the tables behind the plots: pairs are gathered by their level.
const CLASSES: usize = 8;
/// A person so many standard deviations out has a name in the funnel.
const FAR: f64 = 1.9;
/// Corners of a limit that is no straight line.
const CORNERS: u32 = 40;

/// A plot with its sentence, and the table behind it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Plot {
    /// Its name in the page, for links.
    pub id: &'static str,
    /// What it shows.
    pub title: String,
    /// What to see: also its text alternative.
    pub says: String,
    /// The drawing, if points.
    pub points: Option<Points>,
    /// The drawing, if steps.
    pub steps: Option<Steps>,
    /// The numbers.
    pub table: Option<Table>,
}

pub(super) fn plots(filling: &Filling<'_>) -> Vec<Plot> {
    let overall = &filling.comparison.overall;
    let sides = filling.sides(overall);
    let pairs: Vec<(u32, u32)> = filling
        .comparison
        .cars
        .iter()
        .flat_map(|car| car.pairs.iter().flat_map(|pair| car.panels(pair)))
        .map(|panel| (panel.first.dents, panel.second.dents))
        .collect();
    let mut plots = Vec::new();
    if !pairs.is_empty() {
        plots.push(against_mean(filling, &pairs, &sides));
        plots.push(equality(filling, &pairs, &sides));
    }
    if filling.is_directed() {
        plots.extend(overall.money.iter().filter_map(|money| waterfall(money, &sides)));
    }
    plots.extend(funnel(filling));
    plots
}

fn mean(pair: (u32, u32)) -> f64 {
    f64::midpoint(f64::from(pair.0), f64::from(pair.1))
}

fn difference(pair: (u32, u32)) -> f64 {
    f64::from(pair.0) - f64::from(pair.1)
}

fn dot(x: f64, y: f64) -> Point {
    Point { x, y, full: true, label: None }
}

fn level_line(label: &str, at: f64, stroke: Stroke) -> Line {
    Line { label: format!("{label} {}", figure::signed(at, 1)), stroke, run: Run::Level(at) }
}

/// Difference against mean, with bias and limits.
fn against_mean(filling: &Filling<'_>, pairs: &[(u32, u32)], sides: &Sides) -> Plot {
    let annex = filling.comparison.overall.annex.first();
    let mut lines = vec![Line { label: String::new(), stroke: Stroke::Dot, run: Run::Level(0.0) }];
    let mut says = format!(
        "Each dot is a panel, or several: how many more dents {} has, against the mean of both. ",
        sides.first
    );
    if let Some(limits) = annex.map(|annex| &annex.counts.limits) {
        if let Ok(bias) = limits.bias.value {
            lines.push(level_line("bias", bias, Stroke::Solid));
            let _ = write!(says, "The middle line is the bias, {}. ", figure::signed(bias, 1));
        }
        if let (Ok(lower), Ok(upper)) = (limits.lower.value, limits.upper.value) {
            lines.push(level_line("upper", upper, Stroke::Dash));
            lines.push(level_line("lower", lower, Stroke::Dash));
            let _ = write!(
                says,
                "Some 95 % of the differences lie between the limits, {} and {}, if they are spread normally. ",
                figure::signed(lower, 1),
                figure::signed(upper, 1)
            );
        }
    }
    if let Some(Ok(reading)) = annex.map(|annex| annex.counts.scale.reading) {
        says.push_str(words::reading(reading));
    }
    let dots: Vec<Point> = pairs.iter().map(|pair| dot(mean(*pair), difference(*pair))).collect();
    Plot {
        id: "difference-against-mean",
        title: "Difference against mean".to_owned(),
        says: says.trim_end().to_owned(),
        points: Some(Points::new(
            ("mean of both, dents", &format!("{}, dents", sides.minus())),
            &dots,
            &lines,
            false,
        )),
        steps: None,
        table: by_level(pairs),
    }
}

/// Pairs gathered by their level, with their differences.
fn by_level(pairs: &[(u32, u32)]) -> Option<Table> {
    let mut sorted = pairs.to_vec();
    sorted.sort_by_key(|(a, b)| (u64::from(*a) + u64::from(*b), *a));
    let size = sorted.len().div_ceil(CLASSES).max(1);
    let rows = sorted
        .chunks(size)
        .map(|class| {
            let differences = class.iter().map(|(a, b)| i64::from(*a) - i64::from(*b));
            let least = differences.clone().min().unwrap_or(0);
            let most = differences.clone().max().unwrap_or(0);
            let all: Vec<f64> = class.iter().map(|pair| difference(*pair)).collect();
            let middle = median(&all).unwrap_or(0.0);
            let end =
                |pair: Option<&(u32, u32)>| pair.map_or_else(String::new, |pair| figure::dents(mean(*pair)));
            vec![
                number(format!("{} to {}", end(class.first()), end(class.last()))),
                count(class.len()),
                number(figure::signed_whole(least)),
                number(figure::signed(middle, 1)),
                number(figure::signed_whole(most)),
            ]
        })
        .collect();
    Table::new(
        "Differences by level",
        "Panels in order of the mean of both counts, in groups of about equal number.",
        &["Mean of both, dents#", "Panels#", "Least difference#", "Middle#", "Most#"],
        rows,
    )
}

/// Paired counts with the line of equality.
fn equality(filling: &Filling<'_>, pairs: &[(u32, u32)], sides: &Sides) -> Plot {
    let (mut above, mut equal, mut below) = (0, 0, 0);
    for (a, b) in pairs {
        match a.cmp(b) {
            std::cmp::Ordering::Greater => above += 1,
            std::cmp::Ordering::Equal => equal += 1,
            std::cmp::Ordering::Less => below += 1,
        }
    }
    let mut says = format!(
        "Each dot is a panel, or several. On the line both counts are equal: {equal} of {}. Below it {} has more: {above}; \
         above it {} has more: {below}.",
        so_many(pairs.len(), "panel", "panels"),
        sides.first,
        sides.second
    );
    let concordance =
        filling.comparison.overall.annex.first().map(|annex| &annex.counts.concordance.concordance);
    if let Some(Ok(value)) = concordance.map(|statistic| statistic.value) {
        let _ = write!(says, " Concordance correlation {}; 1 is full agreement.", figure::decimal(value, 3));
    }
    let dots: Vec<Point> = pairs.iter().map(|(a, b)| dot(f64::from(*a), f64::from(*b))).collect();
    let line = Line { label: "equal".to_owned(), stroke: Stroke::Dash, run: Run::Equal };
    let labels = (format!("{}, dents", sides.first), format!("{}, dents", sides.second));
    Plot {
        id: "paired-counts",
        title: "Paired counts".to_owned(),
        says,
        points: Some(Points::new((&labels.0, &labels.1), &dots, &[line], true)),
        steps: None,
        table: Table::new(
            "Which count is higher",
            "",
            &["Which", "Panels#"],
            vec![
                vec![text(format!("{} has more", sides.first)), count(above)],
                vec![text("equal"), count(equal)],
                vec![text(format!("{} has more", sides.second)), count(below)],
            ],
        ),
    }
}

/// Money by cause, each bar beginning where the one before ended.
fn waterfall(money: &MoneyByCause, sides: &Sides) -> Option<Plot> {
    if money.causes.is_empty() {
        return None;
    }
    let code = money.currency.code();
    let parts: Vec<_> = money.causes.iter().map(|of| (words::cause(of.cause).to_owned(), of.net)).collect();
    let named: Vec<String> =
        parts.iter().map(|(cause, net)| format!("{cause} {}", figure::difference(*net))).collect();
    let says = format!(
        "How the difference of {} {code} ({}) adds up: {}.",
        figure::difference(money.difference),
        sides.minus(),
        named.join("; ")
    );
    let rows = money
        .turns
        .iter()
        .filter(|of| of.panels > 0)
        .map(|of| {
            vec![
                text(tables::turned(of.turned)),
                count(of.panels),
                number(figure::difference(of.net)),
                number(crate::report::wording::amount(of.gross)),
            ]
        })
        .collect();
    Some(Plot {
        id: "money-by-cause",
        title: format!("Money by cause, {code}"),
        says,
        points: None,
        steps: Some(Steps::new(&parts, ("difference", money.difference))),
        table: Table::new(
            "The same difference by the way it came about",
            "",
            &["How", "Panels#", &format!("{}, {code}#", sides.minus()), &format!("Without signs, {code}#")],
            rows,
        ),
    })
}

/// Assessors among the others, where there are at least three.
fn funnel(filling: &Filling<'_>) -> Option<Plot> {
    let everyone = &filling.comparison.everyone;
    let funnel = &everyone.funnel;
    if filling.comparison.assessors.len() < 3 || funnel.people.is_empty() {
        return None;
    }
    let verdict = words::verdict(funnel.verdict);
    let dispersion = funnel.dispersion.value.map_or(1.0, |phi| phi.max(1.0));
    let mut dots = Vec::new();
    let mut rows = Vec::new();
    for (number_of, place) in funnel.people.iter().enumerate() {
        let assessor = everyone.people.get(number_of).map_or(number_of, |person| person.assessor);
        let name = filling.name(assessor);
        if let Some(ratio) = place.load.ratio() {
            // Names only where they do not lie on one another: of those far out, and where there are few.
            let is_far = place.z.value.is_ok_and(|z| z.abs() >= FAR);
            let label = (is_far || funnel.people.len() <= 4).then(|| short(&name));
            dots.push(Point { x: place.load.expected, y: ratio, full: place.stands_out(), label });
        }
        rows.push(vec![
            text(name),
            count(place.load.units),
            number(place.load.observed.to_string()),
            number(figure::decimal(place.load.expected, 1)),
            place.load.ratio().and_then(|ratio| number(figure::decimal(ratio, 3))),
            place.z.value.ok().and_then(|z| number(figure::decimal(z, 2))),
            text(everyone.people.get(number_of).map_or_else(String::new, |person| person.says.clone())),
        ]);
    }
    // Nobody has cars that two others counted, too: there is nothing to draw, and the table of people says so.
    if dots.is_empty() {
        return None;
    }
    let most = dots.iter().map(|dot| dot.x).fold(0.0, f64::max);
    let least = dots.iter().map(|dot| dot.x).fold(most, f64::min);
    let mut lines =
        vec![Line { label: "as the others".to_owned(), stroke: Stroke::Dot, run: Run::Level(1.0) }];
    let levels = [
        (Level::NINETY_FIVE, "95 %", Stroke::Dash),
        (Level::NINETY_NINE_POINT_EIGHT, "99.8 %", Stroke::Solid),
    ];
    for (level, name, stroke) in levels {
        for upper in [true, false] {
            let corners = limit(level, upper, (least, most), dispersion);
            if corners.len() > 1 {
                lines.push(Line { label: name.to_owned(), stroke, run: Run::Through(corners) });
            }
        }
    }
    Some(Plot {
        id: "funnel",
        title: "Assessors among the others".to_owned(),
        says: format!(
            "Each dot is a person: dents counted over what the middle of the others has on the same cars. Limits allow for \
             over-dispersion. {verdict} Cars differ more than people do, so for the same cars the test car by car in the \
             table finds what this drawing misses."
        ),
        points: Some(Points::new(
            ("dents expected from the others", "counted over expected"),
            &dots,
            &lines,
            false,
        )),
        steps: None,
        table: Table::new(
            "Each assessor beside the others",
            "",
            &["Who", "Cars#", "Counted#", "Expected#", "Ratio#", "z#", "What can be said"],
            rows,
        ),
    })
}

/// The limit of the ratio of counted over expected, along what is expected.
fn limit(level: Level, upper: bool, (least, most): (f64, f64), dispersion: f64) -> Vec<(f64, f64)> {
    let start = (least * 0.8).max(1.0);
    (0..=CORNERS)
        .filter_map(|corner| {
            let expected = start + (most - start) * f64::from(corner) / f64::from(CORNERS);
            let limits = normal_limits(expected, dispersion, level).ok()?;
            let at = if upper { limits.high } else { limits.low.max(0.0) };
            (expected > 0.0).then_some((expected, at / expected))
        })
        .collect()
}

/// A name that fits beside a dot.
fn short(name: &str) -> String {
    let mut chars = name.chars();
    let cut: String = chars.by_ref().take(16).collect();
    if chars.next().is_some() { format!("{cut}\u{2026}") } else { cut }
}

use super::line::Moments;
use crate::compare::statistics::number::{count, mean, squares};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic};

/// The line through pairs that both carry errors: second = intercept + slope x first.
#[derive(Debug, Clone, PartialEq)]
pub struct Deming {
    /// 1 where the two count alike at every level.
    pub slope: Statistic,
    /// 0 where neither counts more from the start.
    pub intercept: Statistic,
}

const SOURCE: &str = "Deming 1943, Statistical Adjustment of Data; jackknife: Linnet 1990, Statistics in Medicine 9, \
                      1463-1473";

/// Deming's regression of the second values on the first. `ratio` is the variance of the errors of the second over
/// that of the first, and above zero; 1 where neither is known to be the more careful.
pub fn deming(pairs: &[(f64, f64)], ratio: f64, level: Level) -> Deming {
    let fit = Moments::of(pairs).ok_or(Reason::NoData).and_then(|moments| {
        if pairs.len() < 2 {
            Err(Reason::TooFew { needed: 2 })
        } else {
            Ok((moments, line(&moments, ratio)?))
        }
    });
    let jackknifed = fit.and_then(|(moments, line)| jackknife(pairs, &moments, line, ratio));
    let statistic = |name: &'static str, says: &'static str, value: fn(Line) -> f64| {
        let choices = [
            Choice::Direction("second on first"),
            Choice::Constant("error variance of the second over that of the first", ratio),
        ];
        let interval = jackknifed.and_then(|(centre, error)| {
            let reach = level.t(count(pairs.len()) - 2.0) * value(error);
            let centre = value(centre);
            Interval::new(centre - reach, centre + reach, level, "jackknife, Student's t with n - 2")
        });
        let definition = Definition::new(says, SOURCE, choices);
        Statistic::new(name, fit.map(|(_, line)| value(line)), pairs.len(), definition)
            .with_interval(interval)
    };
    Deming {
        slope: statistic("slope", "slope of the line with errors in both", |line| line.slope),
        intercept: statistic("intercept", "where the line with errors in both meets zero", |line| {
            line.intercept
        }),
    }
}

#[derive(Debug, Clone, Copy)]
struct Line {
    slope: f64,
    intercept: f64,
}

fn line(m: &Moments, ratio: f64) -> Result<Line, Reason> {
    if m.products.abs() <= 0.0 {
        return Err(if m.first > 0.0 || m.second > 0.0 { Reason::Unrelated } else { Reason::NoSpread });
    }
    let excess = m.second - ratio * m.first;
    let root = excess.hypot(2.0 * ratio.sqrt() * m.products);
    // Of two equal forms the one that does not subtract nearly equal numbers.
    let slope = if excess > 0.0 {
        (excess + root) / (2.0 * m.products)
    } else {
        2.0 * ratio * m.products / (root - excess)
    };
    Ok(Line { slope, intercept: m.mean_second - slope * m.mean_first })
}

/// The mean of the pseudovalues and its standard error. A line that no longer exists when one pair is left out has
/// no interval.
fn jackknife(
    pairs: &[(f64, f64)],
    moments: &Moments,
    whole: Line,
    ratio: f64,
) -> Result<(Line, Line), Reason> {
    if pairs.len() < 3 {
        return Err(Reason::TooFew { needed: 3 });
    }
    let n = moments.n;
    let pseudovalues: Result<Vec<Line>, Reason> = pairs
        .iter()
        .map(|pair| {
            let left = line(&moments.without(*pair), ratio)?;
            Ok(Line {
                slope: n * whole.slope - (n - 1.0) * left.slope,
                intercept: n * whole.intercept - (n - 1.0) * left.intercept,
            })
        })
        .collect();
    let pseudovalues = pseudovalues.map_err(|_| Reason::Unstable)?;
    let summed = |value: fn(&Line) -> f64| {
        let values: Vec<f64> = pseudovalues.iter().map(value).collect();
        let centre = mean(&values).unwrap_or_default();
        (centre, (squares(&values, centre) / (n - 1.0) / n).sqrt())
    };
    let (slope, slope_error) = summed(|line| line.slope);
    let (intercept, intercept_error) = summed(|line| line.intercept);
    if slope_error <= whole.slope.abs() * 1e-12 {
        return Err(Reason::FullAgreement);
    }
    Ok((Line { slope, intercept }, Line { slope: slope_error, intercept: intercept_error }))
}

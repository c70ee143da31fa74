use super::{Scale, line::Moments};
use crate::compare::statistics::distribution::t_two_sided;
use crate::compare::statistics::number::{mean, midranks};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic, Why};

/// Fewer pairs than this tell nothing about how the spread goes with the level (our rule, no source).
const FEWEST: usize = 10;
/// A chance below this is taken for a sign that the spread changes with the level.
const SIGNIFICANT: f64 = 0.05;

/// Which scale the limits of agreement should be read on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// Differences: their spread shows no change with the level.
    Difference,
    /// Ratios: the spread of the differences grows with the level, that of the ratios shows no change.
    Ratio,
    /// Neither is even; the one named is the less uneven. Limits are too wide at one end and too narrow at the other.
    Neither(Scale),
}

/// Whether differences or ratios have the more even spread.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleCheck {
    /// Rank correlation of the size of the differences, taken from their mean, with the mean of the pair.
    pub difference: Statistic,
    /// The same of the logarithms of the ratios.
    pub ratio: Statistic,
    /// Slope of the difference on the mean of the pair: whether the bias changes with the level.
    pub slope: Statistic,
    /// What follows.
    pub reading: Result<Reading, Reason>,
}

/// Checks which scale to read: the spread of the differences, or that of the ratios, against the level.
pub fn scale_check(pairs: &[(f64, f64)], level: Level) -> ScaleCheck {
    let difference = spread_against_level(pairs, |a, b| a - b, "first minus second");
    let positive: Vec<(f64, f64)> = pairs.iter().copied().filter(|(a, b)| *a > 0.0 && *b > 0.0).collect();
    let ratio = spread_against_level(&positive, |a, b| a.ln() - b.ln(), "first over second")
        .without(Why::NoRatio, pairs.len() - positive.len());
    let reading = reading(pairs.len(), &difference, &ratio);
    ScaleCheck { slope: slope(pairs, level), difference, ratio, reading }
}

fn reading(pairs: usize, difference: &Statistic, ratio: &Statistic) -> Result<Reading, Reason> {
    if pairs < FEWEST {
        return Err(Reason::TooFew { needed: FEWEST });
    }
    let uneven = |statistic: &Statistic| statistic.test.is_some_and(|test| test.p < SIGNIFICANT);
    let rho = difference.value?;
    if !uneven(difference) {
        return Ok(Reading::Difference);
    }
    let Ok(rho_of_ratio) = ratio.value else { return Ok(Reading::Neither(Scale::Difference)) };
    Ok(if rho > 0.0 && !uneven(ratio) && ratio.used >= FEWEST {
        Reading::Ratio
    } else if rho_of_ratio.abs() < rho.abs() {
        Reading::Neither(Scale::Ratio)
    } else {
        Reading::Neither(Scale::Difference)
    })
}

/// Spearman's rank correlation of |difference − mean difference| with the mean of the pair.
fn spread_against_level(
    pairs: &[(f64, f64)],
    compared: impl Fn(f64, f64) -> f64,
    direction: &'static str,
) -> Statistic {
    let differences: Vec<f64> = pairs.iter().map(|(a, b)| compared(*a, *b)).collect();
    let centre = mean(&differences).unwrap_or(0.0);
    // Differences that are equal but for rounding must stay equal in rank.
    let sizes: Vec<f64> = differences.iter().map(|d| snapped((d - centre).abs(), centre)).collect();
    let levels: Vec<f64> = pairs.iter().map(|(a, b)| f64::midpoint(*a, *b)).collect();
    let ranks: Vec<(f64, f64)> = midranks(&sizes).into_iter().zip(midranks(&levels)).collect();
    let rho = correlation(&ranks);
    let definition = Definition::new(
        "rank correlation of the size of the differences, taken from their mean, with the mean of the pair",
        "Spearman 1904; check after Bland and Altman 1999",
        [Choice::Direction(direction), Choice::Variant("ties", "mean rank")],
    );
    let p = rho.map_or(f64::NAN, |rho| correlation_p(rho, pairs.len()));
    Statistic::new("spread against level", rho, pairs.len(), definition)
        .with_test("no rank correlation, Student's t with n - 2", p)
}

/// Rounds away the last few digits, which a difference of numbers of the size of `beside` does not have.
fn snapped(value: f64, beside: f64) -> f64 {
    let grain = (value.abs() + beside.abs()) * 1e-12;
    if grain > 0.0 {
        let step = grain.log2().ceil().exp2();
        (value / step).round() * step
    } else {
        value
    }
}

fn correlation(pairs: &[(f64, f64)]) -> Result<f64, Reason> {
    if pairs.is_empty() {
        return Err(Reason::NoData);
    }
    if pairs.len() < 3 {
        return Err(Reason::TooFew { needed: 3 });
    }
    Moments::of(pairs).and_then(|moments| moments.correlation()).ok_or(Reason::NoSpread)
}

fn correlation_p(rho: f64, pairs: usize) -> f64 {
    let freedom = crate::compare::statistics::number::count(pairs) - 2.0;
    let rest = 1.0 - rho * rho;
    if rest <= 0.0 { 0.0 } else { t_two_sided(rho * (freedom / rest).sqrt(), freedom) }
}

/// Least-squares slope of the difference on the mean of the pair.
fn slope(pairs: &[(f64, f64)], level: Level) -> Statistic {
    let plotted: Vec<(f64, f64)> = pairs.iter().map(|(a, b)| (f64::midpoint(*a, *b), a - b)).collect();
    let fit = Moments::of(&plotted).ok_or(Reason::NoData).and_then(|moments| {
        if plotted.len() < 3 {
            Err(Reason::TooFew { needed: 3 })
        } else if moments.first > 0.0 {
            Ok(moments)
        } else {
            Err(Reason::NoSpread)
        }
    });
    let definition = Definition::new(
        "least-squares slope of the difference on the mean of the pair",
        "Bland and Altman 1999; away from zero also where the two only differ in spread (Pitman 1939)",
        [Choice::Direction("first minus second")],
    );
    let value = fit.map(|moments| moments.products / moments.first);
    let statistic = Statistic::new("slope of the difference on the mean", value, pairs.len(), definition);
    let (Ok(moments), Ok(slope)) = (fit, value) else { return statistic };
    let freedom = moments.n - 2.0;
    let residual = moments.second - slope * moments.products;
    if residual <= moments.second * 1e-14 {
        return statistic.with_interval(Err(Reason::FullAgreement));
    }
    let error = (residual / freedom / moments.first).sqrt();
    let reach = level.t(freedom) * error;
    statistic
        .with_interval(Interval::new(slope - reach, slope + reach, level, "Student's t"))
        .with_test("no slope, Student's t with n - 2", t_two_sided(slope / error, freedom))
}

use crate::compare::statistics::bootstrap::Bootstrap;
use crate::compare::statistics::distribution::chi_squared_quantile;
use crate::compare::statistics::number::{count, is_rounding, mean, squares};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic, Why};
use std::f64::consts::SQRT_2;

/// Repeatability (the same person counts again) and reproducibility (somebody else counts).
#[derive(Debug, Clone, PartialEq)]
pub struct Precision {
    /// Standard deviation of one person's repeat counts.
    pub repeatability: Statistic,
    /// Two counts by one person differ by no more than this in so many of all cases.
    pub repeatability_limit: Statistic,
    /// Standard deviation of counts by different persons.
    pub reproducibility: Statistic,
    /// Two counts by different persons differ by no more than this in so many of all cases.
    pub reproducibility_limit: Statistic,
}

const SOURCE: &str =
    "ISO 5725-2 (repeatability and reproducibility, here pooled over units); Bland and Altman 1986";

/// Precision from repeat counts: `units`, in each the assessors who counted it, with each one's counts.
///
/// Sums of squares are pooled over units, which may be of any level, with degrees of freedom as they come; the number
/// of counts may differ. The variance between persons includes that they differ more on one unit than on another; an
/// estimate below zero is taken as zero. `factor` is that of the limits: factor x root of 2 x standard deviation.
pub fn precision(units: &[Vec<Vec<f64>>], factor: f64, bootstrap: Bootstrap, level: Level) -> Precision {
    let sums: Vec<Sums> = units.iter().map(|unit| Sums::of(unit)).collect();
    let pooled = Sums::pool(&sums);
    let within = pooled.within();
    let between = pooled.reproducibility();
    let repeated = sums.iter().filter(|sums| sums.within_freedom > 0.0).count();
    let shared = sums.iter().filter(|sums| sums.between_freedom > 0.0).count();
    let within_interval = within.and_then(|sd| {
        if sd <= 0.0 {
            return Err(Reason::FullAgreement);
        }
        let limit =
            |p: f64| sd * (pooled.within_freedom / chi_squared_quantile(p, pooled.within_freedom)).sqrt();
        Interval::new(limit(1.0 - level.tail()), limit(level.tail()), level, "chi-squared")
    });
    let between_interval = bootstrap.interval(sums.len(), sums.len(), level, |drawn| {
        Sums::pool(drawn.iter().map(|index| &sums[*index])).reproducibility().ok()
    });
    let widened = factor * SQRT_2;
    let statistic = |name,
                     says,
                     value: Result<f64, Reason>,
                     interval: Result<Interval, Reason>,
                     used,
                     times: f64| {
        let mut choices = vec![Choice::Divisor("degrees of freedom within units and persons")];
        if times > 1.0 {
            choices.push(Choice::Constant("factor", factor));
        }
        Statistic::new(name, value.map(|value| value * times), used, Definition::new(says, SOURCE, choices))
            .with_interval(interval.and_then(|interval| interval.map(|limit| limit * times)))
            .without(Why::NotRepeated, units.len() - used)
    };
    let repeat = |name, says, times| statistic(name, says, within, within_interval, repeated, times);
    let other = |name, says, times| statistic(name, says, between, between_interval, shared, times);
    Precision {
        repeatability: repeat("repeatability", "standard deviation of one person's repeat counts", 1.0),
        repeatability_limit: repeat(
            "repeatability limit",
            "factor x root of 2 x repeatability: how far two counts by one person lie apart",
            widened,
        ),
        reproducibility: other(
            "reproducibility",
            "root of the variances within and between persons; one estimated below zero is taken as zero",
            1.0,
        ),
        reproducibility_limit: other(
            "reproducibility limit",
            "factor x root of 2 x reproducibility: how far two counts by different persons lie apart",
            widened,
        ),
    }
}

/// Sums of squares with their degrees of freedom, of one unit or pooled over units.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    within: f64,
    within_freedom: f64,
    between: f64,
    between_freedom: f64,
    /// Sum over units of N − (sum of n squared) / N; over the degrees of freedom it is the typical number of repeats.
    repeats: f64,
}

impl Sums {
    fn of(persons: &[Vec<f64>]) -> Self {
        let persons: Vec<(&[f64], f64)> =
            persons.iter().filter_map(|counts| mean(counts).map(|mean| (counts.as_slice(), mean))).collect();
        let all: Vec<f64> = persons.iter().flat_map(|(counts, _)| counts.iter().copied()).collect();
        let Some(centre) = mean(&all) else { return Self::default() };
        let exact = |sum: f64| if is_rounding(sum, all.iter().copied()) { 0.0 } else { sum };
        let of_squares: f64 = persons.iter().map(|(counts, _)| count(counts.len()).powi(2)).sum();
        Self {
            within: exact(persons.iter().map(|(counts, mean)| squares(counts, *mean)).sum()),
            within_freedom: count(all.len() - persons.len()),
            between: exact(
                persons.iter().map(|(counts, mean)| count(counts.len()) * (mean - centre).powi(2)).sum(),
            ),
            between_freedom: count(persons.len() - 1),
            repeats: count(all.len()) - of_squares / count(all.len()),
        }
    }

    fn pool<'a>(sums: impl IntoIterator<Item = &'a Self>) -> Self {
        sums.into_iter().fold(Self::default(), |a, b| Self {
            within: a.within + b.within,
            within_freedom: a.within_freedom + b.within_freedom,
            between: a.between + b.between,
            between_freedom: a.between_freedom + b.between_freedom,
            repeats: a.repeats + b.repeats,
        })
    }

    fn within(&self) -> Result<f64, Reason> {
        if self.within_freedom > 0.0 {
            Ok((self.within / self.within_freedom).sqrt())
        } else {
            Err(Reason::TooFew { needed: 2 })
        }
    }

    fn reproducibility(&self) -> Result<f64, Reason> {
        let within = self.within()?.powi(2);
        if self.between_freedom <= 0.0 || self.repeats <= 0.0 {
            return Err(Reason::TooFew { needed: 2 });
        }
        let between = self.between / self.between_freedom;
        let persons = ((between - within) * self.between_freedom / self.repeats).max(0.0);
        Ok((within + persons).sqrt())
    }
}

use crate::compare::statistics::distribution::{binomial_lower, poisson_lower};
use crate::compare::statistics::{Interval, Level, Reason, real};

/// Limits between which a count lies if only chance is at work, by the Poisson distribution interpolated between
/// whole counts (Spiegelhalter 2005, Statistics in Medicine 24, 1185-1202).
pub fn poisson_limits(expected: f64, level: Level) -> Result<Interval, Reason> {
    if !expected.is_finite() || expected < 0.0 {
        return Err(Reason::OutOfRange);
    }
    let limit = |p: f64| interpolated(p, u64::MAX >> 12, |x| poisson_lower(x, expected));
    Interval::new(limit(level.tail()), limit(1.0 - level.tail()), level, "Poisson, interpolated")
}

/// Limits between which a share of `units` lies if only chance is at work, by the binomial distribution interpolated
/// likewise.
pub fn binomial_limits(target: f64, units: u64, level: Level) -> Result<Interval, Reason> {
    if units == 0 {
        return Err(Reason::NoData);
    }
    if !(0.0..=1.0).contains(&target) {
        return Err(Reason::OutOfRange);
    }
    let limit = |p: f64| interpolated(p, units, |x| binomial_lower(x, units, target)) / real(units);
    Interval::new(limit(level.tail()), limit(1.0 - level.tail()), level, "binomial, interpolated")
}

/// Limits between which a count lies by the normal distribution, its variance taken `dispersion` times as large as
/// that of a Poisson count. The lower limit can lie below zero.
pub fn normal_limits(expected: f64, dispersion: f64, level: Level) -> Result<Interval, Reason> {
    let reach = level.z() * (dispersion * expected).sqrt();
    Interval::new(expected - reach, expected + reach, level, "normal")
}

/// The smallest count whose cumulative chance reaches p, less the part of its own chance that goes beyond p; not
/// below zero.
fn interpolated(p: f64, most: u64, cumulative: impl Fn(u64) -> f64) -> f64 {
    // Double, then halve.
    let mut high = 1;
    while high < most && cumulative(high) < p {
        high = (high * 2).min(most);
    }
    let mut low = 0;
    while low < high {
        let middle = low + (high - low) / 2;
        if cumulative(middle) < p {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    let reached = cumulative(low);
    let before = if low == 0 { 0.0 } else { cumulative(low - 1) };
    let own = reached - before;
    if own > 0.0 { (real(low) - (reached - p) / own).max(0.0) } else { real(low) }
}

use crate::compare::statistics::distribution::binomial_lower;
use crate::compare::statistics::number::median;
use crate::compare::statistics::{Definition, Interval, Level, Reason, Statistic};

/// Typical spread: the median of the sizes of the differences, whichever way they go. Half of all units differ by
/// no more. The interval lies between two order statistics; it holds at least at its level whatever the distribution.
pub fn typical_spread(pairs: &[(f64, f64)], level: Level) -> Statistic {
    let mut sizes: Vec<f64> = pairs.iter().map(|(a, b)| (a - b).abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let definition = Definition::new(
        "median of the sizes of the differences",
        "own name for a median absolute difference",
        [],
    );
    Statistic::new("typical spread", median(&sizes).ok_or(Reason::NoData), sizes.len(), definition)
        .with_interval(median_interval(&sizes, level))
}

/// The exact interval of a median, from sorted values: the r-th smallest to the r-th largest, with the largest r for
/// which P(X < r) of a binomial half is within one tail (Thompson 1936).
pub fn median_interval(sorted: &[f64], level: Level) -> Result<Interval, Reason> {
    let n = u64::try_from(sorted.len()).map_err(|_| Reason::OutOfRange)?;
    let fits = |rank: u64| level.holds_in_tail(binomial_lower(rank - 1, n, 0.5));
    let (mut low, mut high) = (0, n / 2);
    while low < high {
        let middle = low + (high - low).div_ceil(2);
        if fits(middle) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    let rank = usize::try_from(low).map_err(|_| Reason::OutOfRange)?;
    if rank == 0 {
        return Err(Reason::TooFew { needed: fewest(level) });
    }
    Interval::new(sorted[rank - 1], sorted[sorted.len() - rank], level, "exact, order statistics")
}

/// So many values at least have an interval of their median: 2 to the power −n must be within one tail.
fn fewest(level: Level) -> usize {
    (1..64)
        .find(|n| level.holds_in_tail(0.5_f64.powi(*n)))
        .and_then(|n| usize::try_from(n).ok())
        .unwrap_or(64)
}

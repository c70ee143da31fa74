use crate::compare::statistics::number::{count, is_rounding};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic};

/// Panels of one car, or units of another cluster: the sum of a value over them and how many there are.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Cluster {
    /// Sum of the value: of differences, or the number of panels that have something.
    pub sum: f64,
    /// Number of units.
    pub units: usize,
}

/// The mean of a value over all units, with an interval that takes the cluster for what was drawn: units of one
/// cluster may be as alike as they please. The standard error is that of a ratio of two sums, linearised, with n - 1
/// clusters; Student's t with as many degrees of freedom. For a share the value is 1 or 0.
pub fn clustered_mean(
    name: &'static str,
    says: &'static str,
    clusters: &[Cluster],
    level: Level,
) -> Statistic {
    let held: Vec<Cluster> = clusters.iter().copied().filter(|cluster| cluster.units > 0).collect();
    let units: usize = held.iter().map(|cluster| cluster.units).sum();
    let total: f64 = held.iter().map(|cluster| cluster.sum).sum();
    let value = if units == 0 { Err(Reason::NoData) } else { Ok(total / count(units)) };
    let (n, of_clusters) = (count(units), count(held.len()));
    let interval = value.and_then(|mean| {
        if held.len() < 2 {
            return Err(Reason::TooFew { needed: 2 });
        }
        let apart: f64 = held.iter().map(|cluster| (cluster.sum - mean * count(cluster.units)).powi(2)).sum();
        if is_rounding(apart, held.iter().map(|cluster| cluster.sum)) {
            return Err(Reason::NoSpread);
        }
        let error = (of_clusters / (of_clusters - 1.0) * apart).sqrt() / n;
        let reach = level.t(of_clusters - 1.0) * error;
        Interval::new(mean - reach, mean + reach, level, "Student's t over clusters, linearised")
    });
    let definition = Definition::new(
        says,
        "ratio of two sums over clusters: Cochran 1977, Sampling Techniques, chapters 6 and 9A",
        [
            Choice::Number("clusters", u64::try_from(held.len()).unwrap_or(u64::MAX)),
            Choice::Divisor("clusters less 1"),
        ],
    );
    Statistic::new(name, value, units, definition).with_interval(interval)
}

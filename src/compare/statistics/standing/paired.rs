use super::loads::beside_the_others;
use super::{DISCOVERY_RATE, adjusted_for_discovery};
use crate::compare::statistics::agreement::median_interval;
use crate::compare::statistics::distribution::{binomial_lower, normal_cdf};
use crate::compare::statistics::number::{count, doubled_midranks, median};
use crate::compare::statistics::{Choice, Definition, Level, Reason, Statistic, Why};

/// Up to so many differences the signed-rank test is exact; beyond, normal.
const MOST_EXACT: usize = 200;

/// One assessor beside the median of the others, over the units that all of them counted.
#[derive(Debug, Clone, PartialEq)]
pub struct PairedPlace {
    /// Median difference from the median of the others, with the signed-rank test.
    pub difference: Statistic,
    /// The chance of that test, with the share of false ones held over all assessors.
    pub adjusted: Option<f64>,
    /// Whether there are enough differences that this person alone could be told at all: all of them to one side have
    /// a chance of 2 to the power (1 − n).
    pub enough: bool,
}

impl PairedPlace {
    /// Whether the person stands out: the adjusted chance is within the rate.
    pub fn stands_out(&self) -> bool {
        self.adjusted.is_some_and(|adjusted| adjusted <= DISCOVERY_RATE)
    }
}

/// Each assessor against the median of the others, unit by unit. Where all counted the same cars this finds what a
/// funnel, far too wide there, does not: the same cars make everybody's counts high or low together.
pub fn against_the_others(units: &[Vec<Option<u32>>], assessors: usize, level: Level) -> Vec<PairedPlace> {
    let statistics: Vec<(Statistic, bool)> = (0..assessors)
        .map(|person| {
            let differences: Vec<f64> = units
                .iter()
                .filter_map(|unit| beside_the_others(unit, person))
                .map(|(own, others)| f64::from(own) - others)
                .collect();
            let nonzero = differences.iter().filter(|difference| difference.abs() > 0.0).count();
            let least = (1.0 - count(nonzero)).exp2();
            let statistic = signed_rank_test(&differences, level)
                .without(Why::Incomplete, units.len() - differences.len());
            (statistic, least <= DISCOVERY_RATE / count(assessors))
        })
        .collect();
    let chances: Vec<f64> =
        statistics.iter().filter_map(|(statistic, _)| statistic.test.map(|test| test.p)).collect();
    let mut adjusted = adjusted_for_discovery(&chances).into_iter();
    statistics
        .into_iter()
        .map(|(difference, enough)| {
            let adjusted = difference.test.and_then(|_| adjusted.next());
            PairedPlace { difference, adjusted, enough }
        })
        .collect()
}

/// The median of paired differences with the signed-rank test of Wilcoxon: whether they lie evenly about zero.
///
/// Differences of zero are left out of the test, as Wilcoxon does; equal sizes share their mean rank. Exact up to 200
/// differences, from the distribution that these very ranks have; beyond, normal with the correction for ties.
pub fn signed_rank_test(differences: &[f64], level: Level) -> Statistic {
    let (method, p) = match signed_rank_chance(differences) {
        Some((true, p)) => ("even about zero, signed ranks, exact", p),
        Some((false, p)) => ("even about zero, signed ranks, normal with ties allowed for", p),
        None => ("even about zero, signed ranks", f64::NAN),
    };
    median_difference(differences, level, "Wilcoxon 1945, Biometrics Bulletin 1, 80-83").with_test(method, p)
}

/// The median of paired differences with the sign test: whether as many lie above zero as below. Exact.
pub fn sign_test(differences: &[f64], level: Level) -> Statistic {
    let above = differences.iter().filter(|difference| **difference > 0.0).count();
    let below = differences.iter().filter(|difference| **difference < 0.0).count();
    let unsigned = |n: usize| u64::try_from(n).unwrap_or(u64::MAX);
    let p = if above + below == 0 {
        f64::NAN
    } else {
        (2.0 * binomial_lower(unsigned(above.min(below)), unsigned(above + below), 0.5)).min(1.0)
    };
    median_difference(differences, level, "Dixon and Mood 1946")
        .with_test("as many above zero as below, exact", p)
}

fn median_difference(differences: &[f64], level: Level, source: &'static str) -> Statistic {
    let mut sorted = differences.to_vec();
    sorted.sort_by(f64::total_cmp);
    let equal = differences.iter().filter(|difference| difference.abs() <= 0.0).count();
    let definition = Definition::new(
        "median of the paired differences",
        source,
        [
            Choice::Variant("zero differences", "in the median, not in the test"),
            Choice::Number("differences of zero", u64::try_from(equal).unwrap_or(u64::MAX)),
        ],
    );
    Statistic::new("median difference", median(&sorted).ok_or(Reason::NoData), sorted.len(), definition)
        .with_interval(median_interval(&sorted, level))
}

/// The two-sided chance and whether it is exact; none without a difference.
fn signed_rank_chance(differences: &[f64]) -> Option<(bool, f64)> {
    let nonzero: Vec<f64> = differences.iter().copied().filter(|difference| difference.abs() > 0.0).collect();
    if nonzero.is_empty() {
        return None;
    }
    let ranks = doubled_midranks(&nonzero.iter().map(|difference| difference.abs()).collect::<Vec<f64>>());
    let positive: usize =
        nonzero.iter().zip(&ranks).filter(|(difference, _)| **difference > 0.0).map(|(_, rank)| rank).sum();
    let all: usize = ranks.iter().sum();
    let smaller = positive.min(all - positive);
    if nonzero.len() <= MOST_EXACT {
        return Some((true, (2.0 * exact_lower(&ranks, smaller)).min(1.0)));
    }
    let variance: f64 = ranks.iter().map(|rank| count(*rank).powi(2)).sum::<f64>() / 4.0;
    Some((false, 2.0 * normal_cdf((count(smaller) - count(all) / 2.0) / variance.sqrt())))
}

/// P(sum of the ranks that get a plus sign <= limit), when each gets one with chance one half.
fn exact_lower(ranks: &[usize], limit: usize) -> f64 {
    let mut chances = vec![0.0; limit + 1];
    chances[0] = 1.0;
    for &rank in ranks {
        for sum in (0..=limit).rev() {
            let with = if sum >= rank { chances[sum - rank] } else { 0.0 };
            chances[sum] = f64::midpoint(chances[sum], with);
        }
    }
    chances.iter().sum()
}

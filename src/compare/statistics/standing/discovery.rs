use crate::compare::statistics::number::count;

/// Share of false ones among those that are named.
pub const DISCOVERY_RATE: f64 = 0.05;

/// Chances adjusted so that naming all those at or below a rate holds the share of false ones at that rate, in the
/// order given (Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57, 289-300): p times their
/// number over its rank, made to rise with rank.
pub fn adjusted_for_discovery(chances: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..chances.len()).collect();
    order.sort_by(|a, b| chances[*a].total_cmp(&chances[*b]));
    let mut adjusted = vec![1.0; chances.len()];
    let mut least = 1.0_f64;
    for (below, &index) in order.iter().enumerate().rev() {
        least = least.min(chances[index] * count(chances.len()) / count(below + 1));
        adjusted[index] = least;
    }
    adjusted
}

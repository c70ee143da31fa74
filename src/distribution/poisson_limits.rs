use super::gamma_quantile;

/// Millionths: a number to six decimals, as a whole number.
pub type Millionths = i64;

/// The exact 95 % limits of a Poisson mean of which so many were observed (Garwood 1936): half the chi-squared
/// quantiles at 2.5 % with 2n and at 97.5 % with 2n + 2 degrees of freedom; the lower limit of none is zero. To the nearest
/// millionth, so that whatever is computed with them is exact.
pub fn poisson_limits(observed: u32) -> (Millionths, Millionths) {
    let n = f64::from(observed);
    let low = if observed == 0 { 0.0 } else { gamma_quantile(0.025, n) };
    (millionths(low), millionths(gamma_quantile(0.975, n + 1.0)))
}

#[expect(clippy::cast_possible_truncation, reason = "limits of a u32 count are far below 2^63 millionths")]
fn millionths(limit: f64) -> Millionths {
    (limit * 1e6).round() as Millionths
}

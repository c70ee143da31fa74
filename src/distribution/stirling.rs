use std::f64::consts::PI;

/// Coefficients of Stirling's series for the logarithm of the gamma function (NIST DLMF 5.11.1), highest first.
const SERIES: [f64; 8] = [
    -3617.0 / 122_400.0,
    1.0 / 156.0,
    -691.0 / 360_360.0,
    1.0 / 1188.0,
    -1.0 / 1680.0,
    1.0 / 1260.0,
    -1.0 / 360.0,
    1.0 / 12.0,
];

/// Above this the series is exact to the last digit.
const LARGE: f64 = 16.0;

/// What Stirling's formula lacks: ln Γ(x + 1) − ((x + ½) ln x − x + ½ ln 2π), for x above zero.
pub(super) fn stirling_error(x: f64) -> f64 {
    if x >= LARGE {
        let square = x * x;
        return SERIES.iter().fold(0.0, |sum, coefficient| sum / square + coefficient) / x;
    }
    // Γ(x + 1) = Γ(x + 1 + m) / ((x + 1) ... (x + m)), with m large enough for the series.
    let mut shifted = x;
    let mut product = 1.0;
    while shifted < LARGE {
        shifted += 1.0;
        product *= shifted;
    }
    let half_log = 0.5 * (2.0 * PI).ln();
    let ln_gamma =
        (shifted + 0.5) * shifted.ln() - shifted + half_log + stirling_error(shifted) - product.ln();
    ln_gamma - ((x + 0.5) * x.ln() - x + half_log)
}

/// x ln(x / mean) + mean − x, without the cancellation that the plain formula has where the two are close
/// (Loader 2000, "Fast and Accurate Computation of Binomial Probabilities", bd0).
pub(super) fn deviance(x: f64, mean: f64) -> f64 {
    if (x - mean).abs() >= 0.1 * (x + mean) {
        return x * (x / mean).ln() + mean - x;
    }
    let v = (x - mean) / (x + mean);
    let mut sum = (x - mean) * v;
    let mut power = 2.0 * x * v;
    let mut odd = 3.0;
    loop {
        power *= v * v;
        let next = sum + power / odd;
        if next.to_bits() == sum.to_bits() {
            return next;
        }
        sum = next;
        odd += 2.0;
    }
}

/// e^−mean mean^x / Γ(x + 1): the Poisson density, for real x of zero or more and a mean of zero or more.
pub(super) fn poisson_term(x: f64, mean: f64) -> f64 {
    if mean <= 0.0 {
        return if x > 0.0 { 0.0 } else { 1.0 };
    }
    if x <= 0.0 {
        return (-mean).exp();
    }
    (-stirling_error(x) - deviance(x, mean)).exp() / (2.0 * PI * x).sqrt()
}

/// Γ(n + 1) / (Γ(x + 1) Γ(n − x + 1)) p^x q^(n − x): the binomial density, for real x between zero and n, and q
/// given beside p so that neither loses digits.
pub(super) fn binomial_term(x: f64, rest: f64, p: f64, q: f64) -> f64 {
    let n = x + rest;
    if p <= 0.0 {
        return if x > 0.0 { 0.0 } else { 1.0 };
    }
    if q <= 0.0 {
        return if rest > 0.0 { 0.0 } else { 1.0 };
    }
    if x <= 0.0 {
        return (n * ln_of_complement(p, q)).exp();
    }
    if rest <= 0.0 {
        return (n * ln_of_complement(q, p)).exp();
    }
    let exponent = stirling_error(n)
        - stirling_error(x)
        - stirling_error(rest)
        - deviance(x, n * p)
        - deviance(rest, n * q);
    exponent.exp() * (n / (2.0 * PI * x * rest)).sqrt()
}

/// ln q, where p + q = 1 and the smaller of them is the exact one.
fn ln_of_complement(p: f64, q: f64) -> f64 {
    if p < 0.5 { (-p).ln_1p() } else { q.ln() }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: NIST DLMF 5.4 (exact values of the gamma function); Γ(1/2) = √π.
    #[test]
    fn the_error_of_stirlings_formula_gives_back_known_factorials() {
        let factorial = |x: f64| (stirling_error(x) + (x + 0.5) * x.ln() - x).exp() * (2.0 * PI).sqrt();
        assert!((factorial(1.0) - 1.0).abs() < 1e-14);
        assert!((factorial(5.0) / 120.0 - 1.0).abs() < 1e-14);
        assert!((factorial(20.0) / 2_432_902_008_176_640_000.0 - 1.0).abs() < 1e-13);
        assert!((factorial(0.5) / (0.5 * PI.sqrt()) - 1.0).abs() < 1e-14);
    }

    #[test]
    fn the_deviance_does_not_jump_where_the_series_takes_over() {
        let plain = |x: f64, m: f64| x * (x / m).ln() + m - x;
        for x in [1.05, 1.15, 1.21, 1.23] {
            assert!((deviance(x, 1.0) - plain(x, 1.0)).abs() < 1e-15, "{x}");
        }
    }
}

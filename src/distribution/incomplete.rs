use super::stirling::{binomial_term, poisson_term};

/// A continued fraction or series that has not settled after so many terms never will.
const MOST_TERMS: u32 = 1_000_000;
/// Stands in for a zero denominator (modified Lentz).
const TINY: f64 = 1e-300;

/// The regularised incomplete beta function of x, for a and b above zero; `y` is 1 − x, given beside it so that
/// neither loses digits. NIST DLMF 8.17.
pub fn beta_regularised(a: f64, b: f64, x: f64, y: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if y <= 0.0 {
        return 1.0;
    }
    if x * (a + b + 2.0) < a + 1.0 { lower_beta(a, b, x, y) } else { 1.0 - lower_beta(b, a, y, x) }
}

/// The same below the mode, by the continued fraction DLMF 8.17.22. Before it stands x^a y^b / (a B(a, b)), which is
/// b / (a + b) times a binomial density.
fn lower_beta(a: f64, b: f64, x: f64, y: f64) -> f64 {
    let front = binomial_term(a, b, x, y) * b / (a + b);
    let coefficient = |m: u32| {
        let half = f64::from(m / 2);
        let numerator = if m.is_multiple_of(2) { half * (b - half) } else { -(a + half) * (a + b + half) };
        let place = a + f64::from(m);
        numerator * x / ((place - 1.0) * place)
    };
    front / lentz(1.0, |m| (coefficient(m), 1.0))
}

/// The regularised lower incomplete gamma function P(a, x), for a above zero. NIST DLMF 8.2.
pub fn gamma_lower(a: f64, x: f64) -> f64 {
    if x <= 0.0 {
        0.0
    } else if x < a + 1.0 {
        gamma_series(a, x)
    } else {
        1.0 - gamma_fraction(a, x)
    }
}

/// The regularised upper incomplete gamma function Q(a, x) = 1 − P(a, x).
pub fn gamma_upper(a: f64, x: f64) -> f64 {
    if x <= 0.0 {
        1.0
    } else if x < a + 1.0 {
        1.0 - gamma_series(a, x)
    } else {
        gamma_fraction(a, x)
    }
}

/// P(a, x) by the power series DLMF 8.7.1.
fn gamma_series(a: f64, x: f64) -> f64 {
    let mut term = 1.0;
    let mut sum = 1.0;
    for k in 1..MOST_TERMS {
        term *= x / (a + f64::from(k));
        sum += term;
        if term < sum * f64::EPSILON * 0.25 {
            break;
        }
    }
    poisson_term(a, x) * sum
}

/// Q(a, x) by the continued fraction DLMF 8.9.2 in its contracted form.
fn gamma_fraction(a: f64, x: f64) -> f64 {
    let fraction = lentz(x + 1.0 - a, |m| {
        let m = f64::from(m);
        (m * (a - m), x + 2.0 * m + 1.0 - a)
    });
    poisson_term(a, x) * a / fraction
}

/// b0 + a1 / (b1 + a2 / (b2 + ...)) by the modified Lentz method (Thompson and Barnett 1986); `step(m)` gives
/// the m-th a and b.
fn lentz(first: f64, step: impl Fn(u32) -> (f64, f64)) -> f64 {
    let away_from_zero = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut value = away_from_zero(first);
    let mut c = value;
    let mut d = 0.0;
    for m in 1..MOST_TERMS {
        let (numerator, denominator) = step(m);
        d = 1.0 / away_from_zero(denominator + numerator * d);
        c = away_from_zero(denominator + numerator / c);
        let change = c * d;
        value *= change;
        if (change - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    value
}

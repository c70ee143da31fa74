use super::incomplete::{beta_regularised, gamma_lower, gamma_upper};
use super::real;
use super::stirling::{binomial_term, poisson_term};

/// P(X = x) of a Poisson count.
pub fn poisson_density(x: u64, mean: f64) -> f64 {
    poisson_term(real(x), mean)
}

/// P(X <= x) of a Poisson count.
pub fn poisson_lower(x: u64, mean: f64) -> f64 {
    gamma_upper(real(x) + 1.0, mean)
}

/// P(X >= x) of a Poisson count.
pub fn poisson_upper(x: u64, mean: f64) -> f64 {
    if x == 0 { 1.0 } else { gamma_lower(real(x), mean) }
}

/// P(X = x) of a binomial count out of n with chance p.
pub fn binomial_density(x: u64, n: u64, p: f64) -> f64 {
    if x > n { 0.0 } else { binomial_term(real(x), real(n - x), p, 1.0 - p) }
}

/// P(X <= x) of a binomial count.
pub fn binomial_lower(x: u64, n: u64, p: f64) -> f64 {
    if x >= n { 1.0 } else { beta_regularised(real(n - x), real(x) + 1.0, 1.0 - p, p) }
}

/// P(X >= x) of a binomial count.
pub fn binomial_upper(x: u64, n: u64, p: f64) -> f64 {
    if x == 0 {
        1.0
    } else if x > n {
        0.0
    } else {
        beta_regularised(real(x), real(n - x) + 1.0, p, 1.0 - p)
    }
}

/// P(X = x): so many marked ones in a sample drawn without putting back from a lot that holds `marked` of them.
/// A ratio of three binomial densities (Loader 2000).
pub fn hypergeometric_density(x: u64, lot: u64, marked: u64, sample: u64) -> f64 {
    if sample > lot || marked > lot || x > marked || x > sample || sample - x > lot - marked {
        return 0.0;
    }
    if sample == 0 || sample == lot {
        return 1.0;
    }
    let share = real(sample) / real(lot);
    let rest = real(lot - sample) / real(lot);
    let term = |x: u64, n: u64| binomial_term(real(x), real(n - x), share, rest);
    term(x, marked) * term(sample - x, lot - marked) / term(sample, lot)
}

/// P(X <= x) of the same.
pub fn hypergeometric_lower(x: u64, lot: u64, marked: u64, sample: u64) -> f64 {
    hypergeometric_tails(x, lot, marked, sample).0
}

/// P(X >= x) of the same.
pub fn hypergeometric_upper(x: u64, lot: u64, marked: u64, sample: u64) -> f64 {
    if x == 0 { 1.0 } else { hypergeometric_tails(x - 1, lot, marked, sample).1 }
}

/// P(X <= x) and P(X > x): the tail on the far side of the mean is summed term by term, so that a small chance keeps
/// its digits.
fn hypergeometric_tails(x: u64, lot: u64, marked: u64, sample: u64) -> (f64, f64) {
    if marked > lot || sample > lot {
        return (0.0, 0.0);
    }
    if x >= marked.min(sample) {
        return (1.0, 0.0);
    }
    // Below the least that the sample must hold.
    if marked.saturating_add(sample) > lot && x < marked - (lot - sample) {
        return (0.0, 1.0);
    }
    // Numbers of units by marked or not, in the sample or not, when the sample holds x.
    let cells = |x: u64| {
        let both = real(x);
        (both, real(marked) - both, real(sample) - both, real(lot) - real(marked) - real(sample) + both)
    };
    let summed = |from: u64, down: bool| {
        let (mut both, mut left, mut plain, mut rest) = cells(from);
        let mut term = hypergeometric_density(from, lot, marked, sample);
        let mut sum = 0.0;
        while term > sum * f64::EPSILON * 0.1 {
            sum += term;
            let step = if down { -1.0 } else { 1.0 };
            term *= if down {
                both * rest / ((left + 1.0) * (plain + 1.0))
            } else {
                left * plain / ((both + 1.0) * (rest + 1.0))
            };
            (both, left, plain, rest) = (both + step, left - step, plain - step, rest + step);
        }
        sum
    };
    if real(x) * real(lot) <= real(marked) * real(sample) {
        let lower = summed(x, true);
        (lower, 1.0 - lower)
    } else {
        let upper = summed(x + 1, false);
        (1.0 - upper, upper)
    }
}

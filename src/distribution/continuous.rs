use super::incomplete::{beta_regularised, gamma_lower, gamma_upper};
use super::root::crossing;
use std::f64::consts::SQRT_2;

/// Natural logarithms of the smallest and largest numbers that quantiles are looked for among.
const LOG_RANGE: f64 = 700.0;

/// P(Z <= x) of the standard normal distribution.
pub fn normal_cdf(x: f64) -> f64 {
    let half = 0.5 * gamma_upper(0.5, 0.5 * x * x);
    if x < 0.0 { half } else { 1.0 - half }
}

/// The standard normal quantile, for p strictly between 0 and 1.
pub fn normal_quantile(p: f64) -> f64 {
    // The tail in which p lies, so that a p close to 0 keeps its digits.
    let tail = p.min(1.0 - p);
    let magnitude = crossing(|x| 0.5 * gamma_upper(0.5, 0.5 * x * x) - tail, 0.0, 28.0 * SQRT_2);
    if p < 0.5 { -magnitude } else { magnitude }
}

/// P(|T| >= |t|) of Student's distribution.
pub fn t_two_sided(t: f64, freedom: f64) -> f64 {
    let square = t * t;
    beta_regularised(0.5 * freedom, 0.5, freedom / (freedom + square), square / (freedom + square))
}

/// Student's quantile, for p of at least one half and below 1.
pub fn t_quantile(p: f64, freedom: f64) -> f64 {
    let tails = 2.0 * (1.0 - p);
    if tails >= 1.0 {
        return 0.0;
    }
    crossing(|log| t_two_sided(log.exp(), freedom) - tails, -LOG_RANGE / 2.0, LOG_RANGE / 2.0).exp()
}

/// P(F >= f) of the F distribution.
pub fn f_upper(f: f64, above: f64, below: f64) -> f64 {
    if f <= 0.0 {
        return 1.0;
    }
    let scaled = above * f;
    beta_regularised(0.5 * below, 0.5 * above, below / (below + scaled), scaled / (below + scaled))
}

/// The F quantile with so many degrees of freedom above and below, for p strictly between 0 and 1.
pub fn f_quantile(p: f64, above: f64, below: f64) -> f64 {
    let value = |log: f64| {
        let scaled = above * log.exp();
        beta_regularised(0.5 * above, 0.5 * below, scaled / (below + scaled), below / (below + scaled)) - p
    };
    crossing(value, -LOG_RANGE, LOG_RANGE).exp()
}

/// P(X >= x) of the chi-squared distribution.
pub fn chi_squared_upper(x: f64, freedom: f64) -> f64 {
    gamma_upper(0.5 * freedom, 0.5 * x)
}

/// The chi-squared quantile, for p strictly between 0 and 1.
pub fn chi_squared_quantile(p: f64, freedom: f64) -> f64 {
    2.0 * gamma_quantile(p, 0.5 * freedom)
}

/// The quantile of the gamma distribution with a shape above zero and scale 1.
pub fn gamma_quantile(p: f64, shape: f64) -> f64 {
    // Whichever tail is the smaller keeps its digits.
    let value = |log: f64| {
        let x = log.exp();
        if p < 0.5 { gamma_lower(shape, x) - p } else { (1.0 - p) - gamma_upper(shape, x) }
    };
    crossing(value, -LOG_RANGE, LOG_RANGE).exp()
}

/// The quantile of the beta distribution, for p strictly between 0 and 1 and parameters above zero.
pub fn beta_quantile(p: f64, a: f64, b: f64) -> f64 {
    // On the scale of log odds, so that values close to 0 and to 1 keep their digits.
    let odds = crossing(
        |log| beta_regularised(a, b, 1.0 / (1.0 + (-log).exp()), 1.0 / (1.0 + log.exp())) - p,
        -LOG_RANGE,
        LOG_RANGE,
    );
    1.0 / (1.0 + (-odds).exp())
}

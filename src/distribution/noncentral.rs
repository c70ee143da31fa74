use super::continuous::normal_cdf;
use super::root::crossing;
use super::stirling::poisson_term;

/// Steps of the trapezoid rule; its error falls exponentially here, because the integrand vanishes with all its
/// derivatives at both ends.
const STEPS: u32 = 600;
/// e^−37 is below the last digit of one.
const NEGLIGIBLE: f64 = 37.0;

/// The quantile of (Z + shift) / S, where S is the root of a chi-squared variable over its degrees of freedom.
pub fn noncentral_t_quantile(p: f64, freedom: f64, shift: f64) -> f64 {
    let below = |t: f64| noncentral_t_lower(t, freedom, shift) - p;
    // The bracket opens by doubling around the shift, on the scale of the spread that the quantile has there.
    let mut width = 1.0 + shift.abs() / freedom.sqrt();
    while below(shift - width) > 0.0 || below(shift + width) < 0.0 {
        width *= 2.0;
        if width > 1e12 {
            return f64::NAN;
        }
    }
    crossing(below, shift - width, shift + width)
}

/// P((Z + shift) / S <= t), the mean of Φ(t S − shift) over S. With S = e^u the density of u is a Poisson term.
fn noncentral_t_lower(t: f64, freedom: f64, shift: f64) -> f64 {
    let shape = 0.5 * freedom;
    let reach = (NEGLIGIBLE / freedom).sqrt();
    let from = -(NEGLIGIBLE / freedom + reach);
    let to = reach.min(2.5);
    let step = (to - from) / f64::from(STEPS);
    let mut sum = 0.0;
    for i in 0..=STEPS {
        let s = (from + step * f64::from(i)).exp();
        let weight = 2.0 * shape * poisson_term(shape, shape * s * s);
        if weight > 0.0 {
            sum += weight * normal_cdf(t * s - shift);
        }
    }
    sum * step
}

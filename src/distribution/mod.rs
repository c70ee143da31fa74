//! Probability distributions: for the intervals of estimates, and for the intervals and tests of a comparison.
//!
//! Own code, because the kept library that was tried gave 0.4886 for an incomplete beta function that is 0.4902 (both
//! parameters in the hundred thousands, as batches have them). All of it rests on two published ideas: densities
//! from the saddle-point form of Loader (2000), which lose no digits however large the parameters are, and the
//! continued fractions of the NIST Digital Library of Mathematical Functions (8.9, 8.17). Checked against general
//! libraries, with 40 digits where those lose some.
//!
//! Binary floating point is allowed here: no amount of money passes through. What leaves for an amount does so as a whole
//! number ([`poisson_limits`]).
#![expect(clippy::float_arithmetic, reason = "chances; no amount of money passes through here")]

mod continuous;
mod density;
mod incomplete;
mod noncentral;
mod poisson_limits;
mod root;
mod stirling;

pub use continuous::{
    beta_quantile, chi_squared_quantile, chi_squared_upper, f_quantile, f_upper, gamma_quantile, normal_cdf,
    normal_quantile, t_quantile, t_two_sided,
};
pub use density::{
    binomial_density, binomial_lower, binomial_upper, hypergeometric_density, hypergeometric_lower,
    hypergeometric_upper, poisson_density, poisson_lower, poisson_upper,
};
pub use incomplete::{beta_regularised, gamma_lower, gamma_upper};
pub use noncentral::noncentral_t_quantile;
pub use poisson_limits::{Millionths, poisson_limits};

/// A whole number as a float; exact up to 2^53.
pub(crate) fn real(n: u64) -> f64 {
    let part = |bits: u64| f64::from(u32::try_from(bits).unwrap_or(u32::MAX));
    part(n >> 32) * 4_294_967_296.0 + part(n & 0xffff_ffff)
}

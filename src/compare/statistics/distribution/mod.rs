//! Probability distributions for the intervals and tests of this stage.
//!
//! Own code, because the kept library that was tried gave 0.4886 for an incomplete beta function that is 0.4902 (both
//! parameters in the hundred thousands, as batches have them). All of it rests on two published ideas: densities
//! from the saddle-point form of Loader (2000), which lose no digits however large the parameters are, and the
//! continued fractions of the NIST Digital Library of Mathematical Functions (8.9, 8.17). Checked against general
//! libraries, with 40 digits where those lose some.

mod continuous;
mod density;
mod incomplete;
mod noncentral;
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

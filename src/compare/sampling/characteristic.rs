use crate::compare::statistics::distribution::{
    beta_quantile, binomial_lower, hypergeometric_lower, poisson_lower,
};
use crate::compare::statistics::real;

/// Which chance of acceptance is meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Chance {
    /// For a source that turns out so large a share off in the long run (binomial).
    LongRun {
        /// The share, from 0 to 1.
        off: f64,
    },
    /// For so many off per hundred units, where a unit can be off more than once (Poisson).
    PerHundred {
        /// The number.
        off: f64,
    },
    /// For one lot with so many off in it (hypergeometric).
    Lot {
        /// Units in the lot.
        units: u64,
        /// Units off.
        off: u64,
    },
}

/// The chance that a sample with at most so many off is found: one point of the operating characteristic. `None`
/// where the share is none, or the lot is smaller than the sample or than what is off in it.
pub fn accepted(sample: u64, accept: u64, chance: Chance) -> Option<f64> {
    match chance {
        Chance::LongRun { off } => (0.0..=1.0).contains(&off).then(|| binomial_lower(accept, sample, off)),
        Chance::PerHundred { off } => {
            (off >= 0.0 && off.is_finite()).then(|| poisson_lower(accept, real(sample) * off / 100.0))
        }
        Chance::Lot { units, off } => {
            (sample <= units && off <= units).then(|| hypergeometric_lower(accept, units, off, sample))
        }
    }
}

/// The share off that a plan accepts with a given chance, for a long run: a point of the operating characteristic
/// read the other way. `None` for a chance not between 0 and 1, and for a plan that accepts whatever comes.
pub fn share_accepted_with(chance: f64, sample: u64, accept: u64) -> Option<f64> {
    (chance > 0.0 && chance < 1.0 && accept < sample)
        .then(|| beta_quantile(1.0 - chance, real(accept) + 1.0, real(sample - accept)))
}

/// The chance that a lot is accepted in the long run when normal and tightened inspection alternate by the switching
/// rules, from the chances of either (Stephens and Larson 1967, Journal of the American Statistical Association 62,
/// "An evaluation of the MIL-STD 105D system of sampling plans"). Reduced inspection and the end of sampling are left
/// out of account.
pub fn scheme_accepted(normal: f64, tightened: f64) -> f64 {
    if normal >= 1.0 || tightened <= 0.0 {
        // Never tightened; or once tightened, always so.
        return if normal >= 1.0 { 1.0 } else { tightened.max(0.0) };
    }
    // Mean number of lots in a row under normal inspection, and under tightened.
    let four = normal.powi(4);
    let under_normal = (2.0 - four) / ((1.0 - normal) * (1.0 - four));
    let five = tightened.powi(5);
    let under_tightened = if tightened >= 1.0 { 5.0 } else { (1.0 - five) / ((1.0 - tightened) * five) };
    (under_normal * normal + under_tightened * tightened) / (under_normal + under_tightened)
}

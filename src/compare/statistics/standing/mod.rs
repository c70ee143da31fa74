//! Who stands out among several assessors, and which units do.

mod discovery;
mod funnel;
mod limits;
mod loads;
mod outlier;
mod paired;

pub use discovery::{DISCOVERY_RATE, adjusted_for_discovery};
pub use funnel::{Funnel, Place, Verdict, funnel};
pub use limits::{binomial_limits, normal_limits, poisson_limits};
pub use loads::{Load, loads_from_median};
pub use outlier::{ModifiedZ, OUTLYING, SpreadBy, modified_z};
pub use paired::{PairedPlace, against_the_others, sign_test, signed_rank_test};

//! How well two assessors agree in their counts. Pairs are `(first, second)`.

mod clustered;
mod concordance;
mod deming;
mod limits;
mod line;
mod scale;
mod spread;

pub use clustered::{Cluster, clustered_mean};
pub use concordance::{Concordance, concordance};
pub use deming::{Deming, deming};
pub use limits::{LimitsOfAgreement, Scale, USUAL_FACTOR, limits_of_agreement};
pub use scale::{Reading, ScaleCheck, scale_check};
pub(super) use spread::median_interval;
pub use spread::typical_spread;

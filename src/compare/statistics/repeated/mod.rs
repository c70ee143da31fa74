//! Repeat counts of the same units: how much one assessor differs from himself, and from the others.

mod precision;

pub use precision::{Precision, precision};

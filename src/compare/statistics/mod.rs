//! Statistics of agreement, as small pure functions over plain slices.
//!
//! Every result is a [`Statistic`]: the number or the reason why there is none, its interval by a named method, how
//! many values were used and dropped, and the definition it follows. No result is ever NaN or infinite.
//!
//! `first` and `second` are two assessors' values of the same thing; which unit that is (a panel, a claim) and who
//! they are is the caller's knowledge. Binary floating point is allowed here: no amount of money is computed.
#![expect(clippy::float_arithmetic, reason = "statistics; no amount of money passes through here")]

pub mod agreement;
mod bootstrap;
pub mod category;
pub mod many;
mod number;
mod random;
pub mod repeated;
mod result;
pub mod standing;

pub use crate::distribution;
pub(in crate::compare) use crate::distribution::real;
pub use bootstrap::Bootstrap;
pub use number::{Level, median};
pub use random::Random;
pub use result::{Choice, Definition, Dropped, Interval, Reason, Statistic, Test, Why};

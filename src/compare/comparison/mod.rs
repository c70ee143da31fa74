//! The whole comparison of a batch: every car that at least two people looked at, every pair of them, and what all of it
//! says of how well they agree.
//!
//! Direction throughout, dents and money alike: first minus second. The reference assessor, where one is named, is
//! always first; else assessors stand in the order of their names. Everything refers to assessors by number, so that
//! names stand in one place and can be letters.

mod agreement;
mod car;
mod disputed;
mod money;
mod roll;
mod standing;
mod summary;

pub use agreement::{Annex, Categories, Counts, PageOne, PairAgreement, Stories, Story};
pub use car::{CarComparison, CarPair, LookResult, Paired, Side, Unpaired, WhyUnpaired};
pub use disputed::{Disputed, DisputedLook, Recount};
pub use money::{MoneyByCause, OfCause, OfShare, OfTurn, PanelRef};
pub use roll::{Assessor, NoComparison, SetAside, WhyAside};
pub use standing::{Digits, Everyone, Outlier, PersonStanding};
pub use summary::{Comparison, Options, compare};

//! The whole comparison of a batch: every car that at least two people looked at, every pair of them, and what all of it
//! says of how well they agree.
//!
//! Direction throughout, dents and money alike: first minus second. The reference assessor, where one is named, is
//! always first; else assessors stand in the order of their names. Everything refers to assessors by number, so that
//! names stand in one place and can be letters.

#![expect(clippy::float_arithmetic, reason = "statistics; no amount of money passes through here")]

mod agreement;
mod annex;
mod car;
mod counted;
mod disputed;
mod everyone;
mod gathered;
mod money;
mod period;
mod roll;
mod sample;
mod sheet;
mod standing;
mod stories;
mod summary;
mod work;

pub use agreement::{Annex, Categories, Counts, PageOne, PairAgreement, Stories, Story};
pub use car::{CarComparison, CarPair, LookResult, Unpaired, WhyUnpaired};
pub use counted::{ByCounts, CountedCar, CountedPair, CountedPanel, OfBand};
pub use disputed::{Disputed, DisputedLook, Noted, Recount, ToAgree};
pub use gathered::Source;
pub use money::{MoneyByCause, OfCause, OfShare, OfTurn, PanelRef};
pub use period::Period;
pub use roll::{Assessor, NoComparison, SetAside, WhyAside};
pub use sample::{Beside, Drawn, Sample, SampleOrder, sample};
pub use sheet::{Common, Notes, Paired, Parts, Sheet, Side};
pub use standing::{Everyone, Outlier, PersonStanding};
pub use summary::{Comparison, Options, compare};
pub use work::MOST_ALL;

//! Re-inspection by sample: which cars a second person should look at, and what that says about all of them.
//!
//! A unit is a claim; it is *off* when its recount differs by more than the parties agreed to let pass. The plans are
//! those of MIL-STD-105E (1989, public domain; the same tables stand in ISO 2859-1), normal and tightened single
//! sampling, for quality levels from 0.65 to 10 percent. Reduced inspection is not offered: it asks for a record of
//! steady production that a storm does not have.
#![expect(clippy::float_arithmetic, reason = "chances; no amount of money passes through here")]

mod batch;
mod characteristic;
mod draw;
mod letter;
mod plan;
mod switching;

pub use batch::{BatchSays, says, size_to_find};
pub use characteristic::{Chance, accepted, scheme_accepted, share_accepted_with};
pub use draw::draw;
pub use letter::{CodeLetter, InspectionLevel, code_letter};
pub use plan::{QualityLevel, SamplingPlan, Severity, Size, plan, plan_for_lot};
pub use switching::{History, Standing};

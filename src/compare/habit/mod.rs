//! Patterns that look like a slip of one look or a habit of one assessor.
//!
//! Nothing here is certain and nothing is undone: a pattern is named as a suggestion, with the difference in dents that
//! undoing it would remove. The thresholds are ours, common practice has none: a slip has to remove at least ten dents
//! of difference and most of what lies on the panels it concerns, so that chance rarely looks like one.

mod blanks;
mod rounding;
mod slip;

pub use blanks::{Blanks, Sheets, blanks};
pub use rounding::{Digits, Rounded};
pub use slip::{Facing, Slip, Suggestion, slips};

//! What a difference in counting does to the money, and why.
//!
//! Both looks go through the same engine and schedule. On each panel that both inspected and both priced, the difference
//! is split over the inputs that differ there; the split does not depend on the order in which they are exchanged.

mod cause;
mod hybrid;
mod recount;
mod shapley;
mod split;
mod vehicle;

pub use cause::Cause;
pub use recount::{ONE_IN, could_move};
pub use shapley::shapley;
pub use split::{Bench, Judged, NotSplit, PanelDifference, PanelSplit, Turned};
pub use vehicle::{Share, VehicleDifference, vehicle_difference};

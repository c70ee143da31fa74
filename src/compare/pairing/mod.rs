//! Which looks belong to one car, and which panels of two looks face each other.
//!
//! Cars are joined by claim key; claims with different keys that carry the same VIN, or else the same registration, are
//! one car too, and the comparison says by what they were joined. Agreed and supplementary counts are no looks of
//! their own: they were made knowing the others.

mod bands;
mod car;
mod panels;

pub use bands::{Bounds, CommonBand, CommonBands};
pub use car::{Aside, Car, Card, JoinedBy, Look, cars, without_vehicle};
pub use panels::{PanelPair, Seen, facing};

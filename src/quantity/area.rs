use super::{QuantityFault, exact};
use rust_decimal::Decimal;
use std::fmt;

/// An area in whole square millimetres, as panels and counting frames are measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Area {
    square_millimetres: i64,
}

impl Area {
    /// From square metres; finer than a square millimetre is a fault.
    pub fn from_square_metres(area: Decimal) -> Result<Self, QuantityFault> {
        Ok(Self { square_millimetres: exact(area, 6)? })
    }

    /// Whole square millimetres.
    pub const fn square_millimetres(self) -> i64 {
        self.square_millimetres
    }
}

/// Square metres without trailing zeros, with the unit.
impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} m\u{b2}", Decimal::new(self.square_millimetres, 6).normalize())
    }
}

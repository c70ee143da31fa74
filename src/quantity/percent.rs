use super::{QuantityFault, exact};
use rust_decimal::Decimal;
use std::fmt;

/// A percentage, exact to a millionth of a percent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent {
    micro: i64,
}

impl Percent {
    /// Parts of one percent.
    pub const MICRO: i64 = 1_000_000;
    /// The whole.
    pub const HUNDRED: Self = Self { micro: 100 * Self::MICRO };

    /// A percentage as people write it: 12.5 is twelve and a half percent.
    pub fn from_decimal(percent: Decimal) -> Result<Self, QuantityFault> {
        Ok(Self { micro: exact(percent, 6)? })
    }

    /// Millionths of a percent.
    pub const fn micro(self) -> i64 {
        self.micro
    }

    /// The percentage as people write it, without trailing zeros.
    pub fn to_decimal(self) -> Decimal {
        Decimal::new(self.micro, 6).normalize()
    }
}

/// The number alone, without the sign: documents add `%` in their language's way.
impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.to_decimal(), f)
    }
}

use super::{Money, Percent, QuantityFault, Rounding, UnitRate, exact};
use rust_decimal::Decimal;
use std::fmt;

/// The smallest time a schedule speaks of: computed times are rounded to it and printed before they are priced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeUnit {
    /// Hours and tenths of an hour.
    Tenths,
    /// Whole minutes.
    Minutes,
    /// Work units, so many to the hour. The number divides 3600.
    WorkUnits(u32),
}

impl TimeUnit {
    /// Seconds in one unit.
    pub const fn seconds(self) -> i64 {
        match self {
            Self::Tenths => 360,
            Self::Minutes => 60,
            Self::WorkUnits(per_hour) => 3600 / per_hour as i64,
        }
    }
}

/// A duration of labour in whole seconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Hours {
    seconds: i64,
}

impl Hours {
    /// No time.
    pub const ZERO: Self = Self { seconds: 0 };

    /// From whole seconds.
    pub const fn from_seconds(seconds: i64) -> Self {
        Self { seconds }
    }

    /// From hours as a decimal; a value that is no whole number of seconds (0.333 h) is a fault.
    pub fn from_decimal(hours: Decimal) -> Result<Self, QuantityFault> {
        let seconds = hours.checked_mul(Decimal::from(3600)).ok_or(QuantityFault::Overflow)?;
        Ok(Self { seconds: exact(seconds, 0)? })
    }

    /// From a number in the schedule's unit: tenths are written as hours (1.2), minutes and work units as whole
    /// numbers of their own.
    pub fn in_unit(value: Decimal, unit: TimeUnit) -> Result<Self, QuantityFault> {
        match unit {
            TimeUnit::Tenths => Self::from_decimal(value),
            TimeUnit::Minutes | TimeUnit::WorkUnits(_) => {
                let seconds =
                    value.checked_mul(Decimal::from(unit.seconds())).ok_or(QuantityFault::Overflow)?;
                Ok(Self { seconds: exact(seconds, 0)? })
            }
        }
    }

    /// Whole seconds.
    pub const fn seconds(self) -> i64 {
        self.seconds
    }

    /// Hours as a decimal, without trailing zeros; exact to a second where that has a finite decimal, else to
    /// four places for display only.
    pub fn to_decimal(self) -> Decimal {
        (Decimal::from(self.seconds) / Decimal::from(3600)).round_dp(4).normalize()
    }

    /// Whether it is no time at all.
    pub const fn is_zero(self) -> bool {
        self.seconds == 0
    }

    /// Sum of two durations.
    pub fn plus(self, other: Self) -> Result<Self, QuantityFault> {
        self.seconds.checked_add(other.seconds).map(Self::from_seconds).ok_or(QuantityFault::Overflow)
    }

    /// So many times the duration.
    pub fn times(self, count: u32) -> Result<Self, QuantityFault> {
        self.seconds.checked_mul(i64::from(count)).map(Self::from_seconds).ok_or(QuantityFault::Overflow)
    }

    /// A percentage of the duration, rounded to the schedule's unit.
    pub fn percent(
        self,
        percent: Percent,
        unit: TimeUnit,
        rounding: Rounding,
    ) -> Result<Self, QuantityFault> {
        let product = i128::from(self.seconds) * i128::from(percent.micro());
        let divisor = 100 * i128::from(Percent::MICRO) * i128::from(unit.seconds());
        let units = rounding.divide(product, divisor);
        i64::try_from(units * i128::from(unit.seconds()))
            .map(Self::from_seconds)
            .map_err(|_| QuantityFault::Overflow)
    }

    /// Time x rate per hour, rounded once.
    pub fn at(self, per_hour: UnitRate, rounding: Rounding) -> Result<Money, QuantityFault> {
        per_hour.times_ratio(self.seconds, 3600, rounding)
    }
}

/// Hours as a decimal number without the unit.
impl fmt::Display for Hours {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.to_decimal(), f)
    }
}

use super::{
    Money, QuantityFault, Rounding, UnitRate,
    number::{between, exact_times},
};
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
    /// Seconds in one unit. Work units that do not divide an hour are refused when a schedule is read; here they are
    /// cut to whole seconds, at least one.
    pub const fn seconds(self) -> i64 {
        match self {
            Self::Tenths => 360,
            Self::Minutes => 60,
            Self::WorkUnits(0) => 3600,
            Self::WorkUnits(per_hour @ 1..=3600) => 3600 / per_hour as i64,
            Self::WorkUnits(_) => 1,
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
        Ok(Self { seconds: exact_times(hours, 3600)? })
    }

    /// From a number in the schedule's unit: tenths are written as hours (1.2), minutes and work units as whole
    /// numbers of their own.
    pub fn in_unit(value: Decimal, unit: TimeUnit) -> Result<Self, QuantityFault> {
        match unit {
            TimeUnit::Tenths => Self::from_decimal(value),
            TimeUnit::Minutes | TimeUnit::WorkUnits(_) => {
                Ok(Self { seconds: exact_times(value, unit.seconds())? })
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
        let parts = Rounding::HalfAway.divide(i128::from(self.seconds) * 10_000, 3600);
        Decimal::from_i128_with_scale(parts, 4).normalize()
    }

    /// From this time towards another as far as a number lies between two counts; rounded to a unit. The counts are `(from,
    /// to)` with from below to.
    pub fn towards(
        self,
        other: Self,
        at: Decimal,
        ends: (u32, u32),
        (unit, rounding): (TimeUnit, Rounding),
    ) -> Result<Self, QuantityFault> {
        let steps = between((self.seconds, other.seconds), at, ends, (unit.seconds(), rounding))?;
        steps.checked_mul(unit.seconds()).map(Self::from_seconds).ok_or(QuantityFault::Overflow)
    }

    /// Whether it is no time at all.
    pub const fn is_zero(self) -> bool {
        self.seconds == 0
    }

    /// Sum of two durations.
    pub fn plus(self, other: Self) -> Result<Self, QuantityFault> {
        self.seconds.checked_add(other.seconds).map(Self::from_seconds).ok_or(QuantityFault::Overflow)
    }

    /// So many times the duration (a number of dents, or dents weighted into equivalents), rounded to the schedule's
    /// unit.
    pub fn times(self, by: Decimal, unit: TimeUnit, rounding: Rounding) -> Result<Self, QuantityFault> {
        let product = i128::from(self.seconds).checked_mul(by.mantissa()).ok_or(QuantityFault::Overflow)?;
        let divisor = 10_i128
            .checked_pow(by.scale())
            .and_then(|one| one.checked_mul(i128::from(unit.seconds())))
            .ok_or(QuantityFault::Overflow)?;
        let units = rounding.divide(product, divisor);
        units
            .checked_mul(i128::from(unit.seconds()))
            .and_then(|seconds| i64::try_from(seconds).ok())
            .map(Self::from_seconds)
            .ok_or(QuantityFault::Overflow)
    }

    /// The time in which work at a rate per hour comes to an amount, up to the next tenth of an hour; no time for an amount
    /// that is not above zero. None without a rate above zero, or in another currency.
    pub fn that_earn(amount: Money, per_hour: UnitRate) -> Option<Self> {
        if amount.currency() != per_hour.currency() {
            return None;
        }
        let tenths = per_hour.divides(i128::from(amount.minor().max(0)).checked_mul(10)?)?;
        tenths.checked_mul(360).and_then(|seconds| i64::try_from(seconds).ok()).map(Self::from_seconds)
    }

    /// Time x rate per hour, rounded once.
    pub fn at(self, per_hour: UnitRate, rounding: Rounding) -> Result<Money, QuantityFault> {
        per_hour.product(i128::from(self.seconds), 3600, rounding)
    }
}

/// Hours as a decimal number without the unit.
impl fmt::Display for Hours {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.to_decimal(), f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Currency;

    #[test]
    fn an_amount_is_earned_in_tenths_of_an_hour_rounded_up() {
        let euro = Currency::from_code("EUR").unwrap();
        let rate = UnitRate::from_decimal(Decimal::from(88), euro).unwrap();
        let earned = |minor: i64| Hours::that_earn(Money::from_minor(minor, euro), rate);
        // 8.80 a tenth.
        assert_eq!(earned(880).unwrap().to_string(), "0.1");
        assert_eq!(earned(881).unwrap().to_string(), "0.2");
        assert_eq!(earned(88_000).unwrap().to_string(), "10");
        assert_eq!(earned(-5).unwrap(), Hours::ZERO);
        let nothing = UnitRate::from_decimal(Decimal::ZERO, euro).unwrap();
        assert_eq!(Hours::that_earn(Money::from_minor(880, euro), nothing), None);
        let dollar = Currency::from_code("USD").unwrap();
        assert_eq!(Hours::that_earn(Money::from_minor(880, dollar), rate), None);
        let tiny = UnitRate::from_decimal(Decimal::new(1, 6), euro).unwrap();
        assert_eq!(Hours::that_earn(Money::from_minor(i64::MAX, euro), tiny), None);
    }
}

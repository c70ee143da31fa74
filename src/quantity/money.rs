use super::{Currency, Percent, QuantityFault, Rounding, exact, number::between};
use rust_decimal::Decimal;
use std::fmt;

/// An amount in whole minor units of one currency (cents for EUR).
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Money {
    minor: i64,
    currency: Currency,
}

impl Money {
    /// Nothing, in a currency.
    pub const fn zero(currency: Currency) -> Self {
        Self { minor: 0, currency }
    }

    /// An amount from its whole minor units.
    pub const fn from_minor(minor: i64, currency: Currency) -> Self {
        Self { minor, currency }
    }

    /// An amount from a decimal in major units; more decimals than the currency has is a fault, not a rounding.
    pub fn from_decimal(amount: Decimal, currency: Currency) -> Result<Self, QuantityFault> {
        Ok(Self { minor: exact(amount, currency.decimals())?, currency })
    }

    /// Whole minor units.
    pub const fn minor(self) -> i64 {
        self.minor
    }

    /// The currency it is in.
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// The amount in major units, exactly.
    pub fn to_decimal(self) -> Decimal {
        Decimal::new(self.minor, self.currency.decimals())
    }

    /// Whether it is exactly nothing.
    pub const fn is_zero(self) -> bool {
        self.minor == 0
    }

    /// Sum; two currencies or an overflow have none.
    pub fn plus(self, other: Self) -> Result<Self, QuantityFault> {
        self.same(other)?;
        self.with(self.minor.checked_add(other.minor))
    }

    /// Difference; two currencies or an overflow have none.
    pub fn minus(self, other: Self) -> Result<Self, QuantityFault> {
        self.same(other)?;
        self.with(self.minor.checked_sub(other.minor))
    }

    /// The sum of many amounts of one currency.
    pub fn sum(currency: Currency, amounts: impl IntoIterator<Item = Self>) -> Result<Self, QuantityFault> {
        amounts.into_iter().try_fold(Self::zero(currency), Self::plus)
    }

    /// A percentage of the amount, rounded to the minor unit.
    pub fn percent(self, percent: Percent, rounding: Rounding) -> Result<Self, QuantityFault> {
        let product = i128::from(self.minor) * i128::from(percent.micro());
        let minor = rounding.divide(product, 100 * i128::from(Percent::MICRO));
        self.with(i64::try_from(minor).ok())
    }

    /// The amount at the nearest multiple of a step (5 cents, one unit), by the stated mode.
    pub fn to_step(self, step: Self, rounding: Rounding) -> Result<Self, QuantityFault> {
        self.same(step)?;
        let steps = rounding.divide(i128::from(self.minor), i128::from(step.minor.max(1)));
        self.with(i64::try_from(steps * i128::from(step.minor.max(1))).ok())
    }

    /// From this amount towards another as far as a number lies between two counts; rounded once. The counts are `(from, to)`
    /// with from below to.
    pub fn towards(
        self,
        other: Self,
        at: Decimal,
        ends: (u32, u32),
        rounding: Rounding,
    ) -> Result<Self, QuantityFault> {
        self.same(other)?;
        let minor = between((self.minor, other.minor), at, ends, (1, rounding))?;
        Ok(Self { minor, ..self })
    }

    /// The sign turned.
    pub fn negated(self) -> Result<Self, QuantityFault> {
        self.with(self.minor.checked_neg())
    }

    /// The larger of two amounts of one currency.
    pub fn at_least(self, floor: Self) -> Result<Self, QuantityFault> {
        self.same(floor)?;
        Ok(if self.minor < floor.minor { floor } else { self })
    }

    /// The smaller of two amounts of one currency.
    pub fn at_most(self, cap: Self) -> Result<Self, QuantityFault> {
        self.same(cap)?;
        Ok(if self.minor > cap.minor { cap } else { self })
    }

    fn same(self, other: Self) -> Result<(), QuantityFault> {
        if self.currency == other.currency {
            Ok(())
        } else {
            Err(QuantityFault::Currencies(self.currency, other.currency))
        }
    }

    fn with(self, minor: Option<i64>) -> Result<Self, QuantityFault> {
        minor.map(|minor| Self { minor, ..self }).ok_or(QuantityFault::Overflow)
    }
}

/// The machine form: a point, no grouping, always the currency's decimals, no currency code.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The digits of the minor units with the point among them: tables hold millions of amounts.
        let mut text = [b'0'; 32];
        let decimals = usize::try_from(self.currency.decimals()).unwrap_or(0);
        let (mut left, mut at) = (self.minor.unsigned_abs(), text.len());
        let mut written = 0;
        while left > 0 || written <= decimals {
            if written == decimals && decimals > 0 {
                at -= 1;
                text[at] = b'.';
            }
            at -= 1;
            text[at] = b'0' + u8::try_from(left % 10).unwrap_or(0);
            left /= 10;
            written += 1;
        }
        f.pad_integral(self.minor >= 0, "", std::str::from_utf8(&text[at..]).unwrap_or_default())
    }
}

impl fmt::Debug for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.currency, self)
    }
}

/// An amount per unit (an hour, a dent), exact to a ten-thousandth of the minor unit: rates are often finer than
/// the coins they are paid in.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct UnitRate {
    scaled: i64,
    currency: Currency,
}

impl UnitRate {
    const DIGITS: u32 = 4;
    const SCALE: i128 = 10_000;

    /// A rate from a decimal in major units per unit.
    pub fn from_decimal(amount: Decimal, currency: Currency) -> Result<Self, QuantityFault> {
        Ok(Self { scaled: exact(amount, currency.decimals() + Self::DIGITS)?, currency })
    }

    /// The currency it is in.
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// The rate in major units per unit, without trailing zeros beyond the currency's decimals.
    pub fn to_decimal(self) -> Decimal {
        let decimal = Decimal::new(self.scaled, self.currency.decimals() + Self::DIGITS).normalize();
        let mut shown = decimal;
        if decimal.scale() < self.currency.decimals() {
            shown.rescale(self.currency.decimals());
        }
        shown
    }

    /// Rate x count, rounded once to the minor unit.
    pub fn times(self, count: u32, rounding: Rounding) -> Result<Money, QuantityFault> {
        self.product(i128::from(count), 1, rounding)
    }

    /// Rate x an exact decimal number (dents weighted into equivalents), rounded once to the minor unit.
    pub fn times_decimal(self, number: Decimal, rounding: Rounding) -> Result<Money, QuantityFault> {
        let one = 10_i128.checked_pow(number.scale()).ok_or(QuantityFault::Overflow)?;
        self.product(number.mantissa(), one, rounding)
    }

    /// How often the rate goes into so many minor units, up to the next whole number; never for a rate not above zero.
    pub(super) fn divides(self, minor: i128) -> Option<i128> {
        if self.scaled <= 0 {
            return None;
        }
        Some(Rounding::Up.divide(minor.checked_mul(Self::SCALE)?, i128::from(self.scaled)))
    }

    /// Rate x factor / divisor, rounded once. The divisor is positive.
    pub(super) fn product(
        self,
        factor: i128,
        divisor: i128,
        rounding: Rounding,
    ) -> Result<Money, QuantityFault> {
        let exact = i128::from(self.scaled).checked_mul(factor).ok_or(QuantityFault::Overflow)?;
        let divisor = divisor.checked_mul(Self::SCALE).ok_or(QuantityFault::Overflow)?;
        i64::try_from(rounding.divide(exact, divisor))
            .map(|minor| Money::from_minor(minor, self.currency))
            .map_err(|_| QuantityFault::Overflow)
    }
}

impl fmt::Display for UnitRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.to_decimal(), f)
    }
}

impl fmt::Debug for UnitRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {self} per unit", self.currency)
    }
}

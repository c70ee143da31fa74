use super::Level;
use std::fmt;

/// Why there is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Nothing to compare.
    NoData,
    /// Fewer units than the definition needs.
    TooFew {
        /// It needs so many.
        needed: usize,
    },
    /// All values are equal, so nothing can be related to their spread.
    NoSpread,
    /// The values agree exactly: the formula gives an interval without width, which would claim too much.
    FullAgreement,
    /// The formula gives an interval without width although the values do not agree, which would claim too much.
    NoWidth,
    /// Everything lies in one category, so that agreement by chance is certain.
    OneCategory,
    /// A variance that the formula divides by is estimated at zero or below.
    NoVariance,
    /// The two do not vary together, so no line has a direction.
    Unrelated,
    /// Repeating the computation so often on so many values would take too long.
    TooManyToRepeat,
    /// Too many of the repeated samples had no value of their own.
    Unstable,
    /// No interval is defined for this number.
    NoInterval,
    /// Several pairs of people and no reference: a difference has no one direction.
    NoDirection,
    /// Different schedules rate the units, so that their categories are not the same.
    SeveralSchedules,
    /// No schedule rates them: counts alone are compared.
    NotPriced,
    /// The numbers are too large to compute with.
    OutOfRange,
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoData => f.write_str("there is nothing to compare"),
            Self::TooFew { needed } => write!(f, "it needs at least {needed} of them"),
            Self::NoSpread => f.write_str("all values are equal"),
            Self::FullAgreement => f.write_str("the values agree exactly, so the formula gives no width"),
            Self::NoWidth => f.write_str("the formula gives no width for such values"),
            Self::OneCategory => {
                f.write_str("everything lies in one category, so that agreement by chance is certain")
            }
            Self::NoVariance => f.write_str("a variance that it divides by is not above zero"),
            Self::Unrelated => f.write_str("the two do not vary together"),
            Self::TooManyToRepeat => {
                f.write_str("there are too many values to repeat the computation a few thousand times")
            }
            Self::Unstable => f.write_str("too many of the repeated samples had no value"),
            Self::NoInterval => f.write_str("no interval is defined for it"),
            Self::NoDirection => f.write_str("several pairs and no reference, so it stands by pair"),
            Self::SeveralSchedules => f.write_str("different schedules rate them, with different bands"),
            Self::NotPriced => f.write_str("no schedule rates them, and counts alone are compared"),
            Self::OutOfRange => f.write_str("the numbers are too large to compute with"),
        }
    }
}

/// Why a unit was not used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// An assessor's value is missing.
    Incomplete,
    /// A value is zero or below, so that there is no ratio.
    NoRatio,
    /// Only one value, which pairs with none.
    Alone,
    /// The two values are equal: a test of signs has nothing to say on it.
    NoDifference,
    /// Nothing was counted more than once.
    NotRepeated,
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Incomplete => "an assessor's value is missing",
            Self::NoRatio => "a value is zero, so there is no ratio",
            Self::Alone => "only one value, which pairs with none",
            Self::NoDifference => "the values are equal",
            Self::NotRepeated => "not counted more than once",
        })
    }
}

/// Units that were not used, for one reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dropped {
    /// Why.
    pub why: Why,
    /// How many.
    pub units: usize,
}

/// A confidence interval. Its limits are not clipped to the range of the number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
    /// How often such intervals hold the true value in the long run.
    pub level: Level,
    /// How it was made.
    pub method: &'static str,
}

impl Interval {
    /// An interval, or that its limits are no finite numbers.
    pub fn new(low: f64, high: f64, level: Level, method: &'static str) -> Result<Self, Reason> {
        if low.is_finite() && high.is_finite() {
            Ok(Self { low, high, level, method })
        } else {
            Err(Reason::OutOfRange)
        }
    }

    /// The same interval of a rising function of the number.
    pub(super) fn map(self, function: impl Fn(f64) -> f64) -> Result<Self, Reason> {
        Self::new(function(self.low), function(self.high), self.level, self.method)
    }
}

/// A test of the number against what it would be if nothing were the matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Test {
    /// What is tested and how.
    pub method: &'static str,
    /// Chance of a value at least as far out if nothing is the matter; two-sided.
    pub p: f64,
}

/// One decision that a definition leaves open, as it was taken for this number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Choice {
    /// What stands on which side: `first minus second`.
    Direction(&'static str),
    /// What sums of squares are divided by: `n` or `n - 1`.
    Divisor(&'static str),
    /// A constant by its name.
    Constant(&'static str, f64),
    /// A count by its name: assessors, categories, pairable values, degrees of freedom.
    Number(&'static str, u64),
    /// A variant by its name: form, weights, metric, zero rule.
    Variant(&'static str, &'static str),
}

impl Choice {
    /// What is decided.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Direction(_) => "direction",
            Self::Divisor(_) => "divisor",
            Self::Constant(name, _) | Self::Number(name, _) | Self::Variant(name, _) => name,
        }
    }
}

/// What was decided.
impl fmt::Display for Choice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Direction(text) | Self::Divisor(text) | Self::Variant(_, text) => f.write_str(text),
            Self::Constant(_, value) => write!(f, "{value}"),
            Self::Number(_, number) => write!(f, "{number}"),
        }
    }
}

/// What a number is.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    /// One sentence.
    pub says: &'static str,
    /// Where the definition was published; own ones say so.
    pub source: &'static str,
    /// The decisions that it leaves open.
    pub choices: Vec<Choice>,
}

/// One number of the comparison with everything that is needed to read it.
#[derive(Debug, Clone, PartialEq)]
pub struct Statistic {
    /// Its name.
    pub name: &'static str,
    /// The number, or why there is none. Always finite.
    pub value: Result<f64, Reason>,
    /// Its interval, or why there is none.
    pub interval: Result<Interval, Reason>,
    /// Intervals by other methods, for readers who compare with them.
    pub also: Vec<Interval>,
    /// A test of it, where there is one.
    pub test: Option<Test>,
    /// Units that were used.
    pub used: usize,
    /// Units that were not, by reason. Callers add what they dropped before.
    pub dropped: Vec<Dropped>,
    /// What it is.
    pub definition: Definition,
}

impl Statistic {
    /// A number by its name and definition, still without an interval.
    pub(super) fn new(
        name: &'static str,
        value: Result<f64, Reason>,
        used: usize,
        definition: Definition,
    ) -> Self {
        let value =
            value.and_then(|value| if value.is_finite() { Ok(value) } else { Err(Reason::OutOfRange) });
        let interval = Err(value.err().unwrap_or(Reason::NoInterval));
        Self { name, value, interval, also: Vec::new(), test: None, used, dropped: Vec::new(), definition }
    }

    /// With an interval. A number that does not exist has none.
    #[must_use]
    pub(super) fn with_interval(mut self, interval: Result<Interval, Reason>) -> Self {
        if self.value.is_ok() {
            self.interval = interval;
        }
        self
    }

    /// With a further interval by another method.
    #[must_use]
    pub(super) fn with_also(mut self, interval: Result<Interval, Reason>) -> Self {
        if self.value.is_ok() {
            self.also.extend(interval);
        }
        self
    }

    /// With a test, where it has a chance that is a number.
    #[must_use]
    pub(super) fn with_test(mut self, method: &'static str, p: f64) -> Self {
        if self.value.is_ok() && p.is_finite() {
            self.test = Some(Test { method, p: p.clamp(0.0, 1.0) });
        }
        self
    }

    /// With units that were not used.
    #[must_use]
    pub fn without(mut self, why: Why, units: usize) -> Self {
        if units > 0 {
            self.dropped.push(Dropped { why, units });
        }
        self
    }
}

impl Definition {
    /// A definition by its sentence, source and decisions.
    pub(super) fn new(says: &'static str, source: &'static str, choices: impl Into<Vec<Choice>>) -> Self {
        Self { says, source, choices: choices.into() }
    }
}

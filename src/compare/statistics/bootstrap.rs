use super::number::quantile;
use super::random::Random;
use super::{Interval, Level, Reason};

/// Fewer units than this tell too little about how they vary (our rule, no source).
const FEWEST_UNITS: usize = 10;
/// More steps than this take longer than a second or so.
const MOST_STEPS: usize = 100_000_000;
/// At least this share of the resamples must have a value.
const SHARE_WITH_VALUE: usize = 95;

/// How often units are drawn again, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bootstrap {
    /// Seed of the drawing.
    pub seed: u64,
    /// Number of resamples.
    pub resamples: usize,
}

/// What runs use: a fixed seed, so that the same input gives the same interval.
impl Default for Bootstrap {
    fn default() -> Self {
        Self { seed: 20_240_601, resamples: 2000 }
    }
}

impl Bootstrap {
    /// The percentile interval (Efron 1979) of a number that `value` computes from a list of unit indices: so many
    /// times as many units are drawn with putting back, one after the other, as there are. `steps` is how many steps
    /// one computation takes; if all of them are too many, nothing is drawn.
    pub(super) fn interval(
        self,
        units: usize,
        steps: usize,
        level: Level,
        value: impl Fn(&[usize]) -> Option<f64>,
    ) -> Result<Interval, Reason> {
        if units < FEWEST_UNITS {
            return Err(Reason::TooFew { needed: FEWEST_UNITS });
        }
        if steps.max(units).saturating_mul(self.resamples) > MOST_STEPS {
            return Err(Reason::TooManyToRepeat);
        }
        let mut random = Random::new(self.seed);
        let below = u64::try_from(units).map_err(|_| Reason::OutOfRange)?;
        let mut drawn = vec![0; units];
        let mut values = Vec::with_capacity(self.resamples);
        for _ in 0..self.resamples {
            for index in &mut drawn {
                *index = usize::try_from(random.below(below)).map_err(|_| Reason::OutOfRange)?;
            }
            values.extend(value(&drawn).filter(|value| value.is_finite()));
        }
        if values.is_empty() || values.len() * 100 < self.resamples * SHARE_WITH_VALUE {
            return Err(Reason::Unstable);
        }
        values.sort_by(f64::total_cmp);
        let (low, high) = (quantile(&values, level.tail()), quantile(&values, 1.0 - level.tail()));
        if high <= low {
            return Err(Reason::FullAgreement);
        }
        Interval::new(low, high, level, "bootstrap percentiles over units, fixed seed")
    }
}

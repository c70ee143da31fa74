use super::distribution::{normal_quantile, real, t_quantile};

/// How often an interval is to hold the true value: strictly between 0 and 1.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Level(f64);

impl Level {
    /// 95 %.
    pub const NINETY_FIVE: Self = Self(0.95);
    /// 99.8 %, the outer limits of a funnel.
    pub const NINETY_NINE_POINT_EIGHT: Self = Self(0.998);

    /// A level strictly between 0 and 1.
    pub fn new(level: f64) -> Option<Self> {
        (level > 0.0 && level < 1.0).then_some(Self(level))
    }

    /// As a number.
    pub const fn get(self) -> f64 {
        self.0
    }

    /// What each tail holds.
    pub(super) fn tail(self) -> f64 {
        (1.0 - self.0) / 2.0
    }

    /// Whether a chance is within one tail. Chances that equal it but for rounding are.
    pub(in crate::compare) fn holds_in_tail(self, chance: f64) -> bool {
        chance <= self.tail() * (1.0 + 1e-12)
    }

    /// The standard normal quantile that leaves one tail above.
    pub(super) fn z(self) -> f64 {
        -normal_quantile(self.tail())
    }

    /// Student's quantile that leaves one tail above.
    pub(super) fn t(self, freedom: f64) -> f64 {
        t_quantile(1.0 - self.tail(), freedom)
    }
}

/// A number of units as a float.
pub(super) fn count(n: usize) -> f64 {
    real(u64::try_from(n).unwrap_or(u64::MAX))
}

/// The arithmetic mean; nothing has none.
pub(super) fn mean(values: &[f64]) -> Option<f64> {
    if values.is_empty() {
        return None;
    }
    let first = values.iter().sum::<f64>() / count(values.len());
    // A second pass takes away what rounding left of the first.
    Some(first + values.iter().map(|value| value - first).sum::<f64>() / count(values.len()))
}

/// The sum of squared distances from a centre.
pub(super) fn squares(values: &[f64], centre: f64) -> f64 {
    values.iter().map(|value| (value - centre) * (value - centre)).sum()
}

/// Whether a sum of squares is nothing but rounding, beside values of such a size.
pub(super) fn is_rounding(sum_of_squares: f64, values: impl IntoIterator<Item = f64>) -> bool {
    let size: f64 = values.into_iter().map(|value| value * value).sum();
    sum_of_squares <= size * 1e-26
}

/// The middle value in order, or the mean of the middle two; nothing has none.
pub fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    let middle = sorted.len() / 2;
    if sorted.is_empty() {
        return None;
    }
    let (below, upper, _) = sorted.select_nth_unstable_by(middle, f64::total_cmp);
    let upper = *upper;
    if values.len() % 2 == 1 {
        return Some(upper);
    }
    below.iter().copied().max_by(f64::total_cmp).map(|lower| f64::midpoint(lower, upper))
}

/// Twice the ranks from 1, equal values sharing the mean of their ranks: so all of them are whole numbers.
pub(super) fn doubled_midranks(values: &[f64]) -> Vec<usize> {
    // Adding zero makes one zero of the two that floats have.
    let compare = |a: &usize, b: &usize| (values[*a] + 0.0).total_cmp(&(values[*b] + 0.0));
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(compare);
    let mut ranks = vec![0; values.len()];
    let mut done = 0;
    for run in order.chunk_by(|a, b| compare(a, b).is_eq()) {
        for &index in run {
            ranks[index] = 2 * done + run.len() + 1;
        }
        done += run.len();
    }
    ranks
}

/// Ranks from 1, equal values sharing the mean of their ranks.
pub(super) fn midranks(values: &[f64]) -> Vec<f64> {
    doubled_midranks(values).into_iter().map(|rank| count(rank) / 2.0).collect()
}

/// The value below which a share of sorted values lies, interpolated between order statistics (Hyndman and Fan 1996,
/// type 7, as most programs do). `sorted` must not be empty.
pub(super) fn quantile(sorted: &[f64], share: f64) -> f64 {
    let last = sorted.len().saturating_sub(1);
    let position = share.clamp(0.0, 1.0) * count(last);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the last index")]
    let below = position.floor() as usize;
    let above = (below + 1).min(last);
    sorted[below] + (position - count(below)) * (sorted[above] - sorted[below])
}

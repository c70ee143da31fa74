use crate::compare::statistics::distribution::{hypergeometric_lower, hypergeometric_upper};
use crate::compare::statistics::{Level, real};

/// What a sample says about the batch it was drawn from, without any assumption but that it was drawn at random.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatchSays {
    /// Units in the batch.
    pub batch: u64,
    /// Units looked at.
    pub sample: u64,
    /// Off among them.
    pub off: u64,
    /// At least so many are off in the batch.
    pub at_least: u64,
    /// At most so many.
    pub at_most: u64,
    /// How often such bounds hold.
    pub level: Level,
}

impl BatchSays {
    /// Share off in the sample; the best single guess for the batch. `None` if nothing was looked at.
    pub fn share(&self) -> Option<f64> {
        (self.sample > 0).then(|| real(self.off) / real(self.sample))
    }
}

/// Exact bounds on the number off in a batch: those numbers that would not make a sample like this, or one farther
/// out, rarer than one tail (Clopper and Pearson's way, with the hypergeometric distribution). `None` if the sample is
/// larger than the batch, or more are off than were looked at.
pub fn says(batch: u64, sample: u64, off: u64, level: Level) -> Option<BatchSays> {
    if sample > batch || off > sample {
        return None;
    }
    // What was seen is certain: at least `off`, and at most all but those seen to be right.
    let (fewest, most) = (off, batch - (sample - off));
    let at_least =
        first(fewest, most, |marked| !level.holds_in_tail(hypergeometric_upper(off, batch, marked, sample)));
    // The first number that is too large, less one.
    let too_many = first(fewest, most + 1, |marked| {
        marked > most || level.holds_in_tail(hypergeometric_lower(off, batch, marked, sample))
    });
    Some(BatchSays { batch, sample, off, at_least, at_most: too_many.saturating_sub(1).max(fewest), level })
}

/// How many to look at so that at least one that is off is found with a given chance, if so many are off in the
/// batch. `None` if none is off or the chance is not between 0 and 1.
pub fn size_to_find(batch: u64, off: u64, chance: f64) -> Option<u64> {
    if off == 0 || off > batch || chance.is_nan() || chance <= 0.0 || chance >= 1.0 {
        return None;
    }
    // A chance that is equal but for rounding is enough.
    let missed = (1.0 - chance) * (1.0 + 1e-12);
    Some(first(1, batch, |sample| hypergeometric_lower(0, batch, off, sample) <= missed))
}

/// The first number from `low` to `high` for which a condition holds that goes on to hold; `high` if none before.
fn first(mut low: u64, mut high: u64, holds: impl Fn(u64) -> bool) -> u64 {
    while low < high {
        let middle = low + (high - low) / 2;
        if holds(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    low
}

use super::super::figure::decimal;
use serde::Serialize;

/// A mark on an axis.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Tick {
    /// Where, in the drawing's units.
    pub at: String,
    /// What stands there.
    pub label: String,
}

/// A range of values laid along a stretch of the drawing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axis {
    low: f64,
    step: f64,
    steps: u32,
    start: f64,
    end: f64,
}

impl Axis {
    /// An axis that holds all values, from round number to round number; drawn from `start` (its low end) to `end`.
    /// Without values, or with one, it still has a length.
    pub fn new(values: impl IntoIterator<Item = f64>, start: f64, end: f64) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for value in values.into_iter().filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if low > high {
            (low, high) = (0.0, 1.0);
        }
        if high - low < 1e-9 * high.abs().max(1.0) {
            (low, high) = (low - 1.0, high + 1.0);
        }
        let step = round_step((high - low) / 5.0);
        let first = (low / step).floor();
        let mut steps = 1_u32;
        while (first + f64::from(steps)) * step < high && steps < 12 {
            steps += 1;
        }
        Self { low: first * step, step, steps, start, end }
    }

    /// Where a value lies.
    pub fn at(&self, value: f64) -> f64 {
        let length = self.step * f64::from(self.steps);
        self.start + (value - self.low) / length * (self.end - self.start)
    }

    /// Lowest and highest value.
    pub fn range(&self) -> (f64, f64) {
        (self.low, self.low + self.step * f64::from(self.steps))
    }

    /// Its marks.
    pub fn ticks(&self) -> Vec<Tick> {
        let places = [1.0, 0.1, 0.01].iter().position(|unit| self.step >= *unit).unwrap_or(3);
        (0..=self.steps)
            .map(|number| {
                let value = self.low + self.step * f64::from(number);
                Tick { at: place(self.at(value)), label: decimal(value, places) }
            })
            .collect()
    }
}

/// 1, 2 or 5 times a power of ten, not below the value.
fn round_step(least: f64) -> f64 {
    let power = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|digit| digit * power).find(|step| *step >= least).unwrap_or(10.0 * power)
}

/// A place in the drawing, to a tenth of its unit.
pub(super) fn place(at: f64) -> String {
    let text = format!("{at:.1}");
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels(values: &[f64]) -> Vec<String> {
        Axis::new(values.iter().copied(), 0.0, 100.0).ticks().into_iter().map(|tick| tick.label).collect()
    }

    #[test]
    fn an_axis_runs_from_round_number_to_round_number() {
        assert_eq!(labels(&[3.0, 97.0]), ["0", "20", "40", "60", "80", "100"]);
        assert_eq!(labels(&[-0.3, 0.4]), ["\u{2212}0.4", "\u{2212}0.2", "0.0", "0.2", "0.4"]);
    }

    #[test]
    fn one_value_and_none_still_give_an_axis() {
        assert_eq!(labels(&[7.0]), ["6.0", "6.5", "7.0", "7.5", "8.0"]);
        assert_eq!(labels(&[]), ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(labels(&[f64::NAN, f64::INFINITY]), labels(&[]));
    }
}

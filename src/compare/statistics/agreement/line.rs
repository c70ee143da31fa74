use crate::compare::statistics::number::{count, is_rounding, mean, squares};

/// Means and sums of squares of pairs, about their means.
#[derive(Debug, Clone, Copy)]
pub(super) struct Moments {
    /// Number of pairs.
    pub n: f64,
    /// Mean of the first values.
    pub mean_first: f64,
    /// Mean of the second values.
    pub mean_second: f64,
    /// Sum of squares of the first values.
    pub first: f64,
    /// Sum of squares of the second values.
    pub second: f64,
    /// Sum of products.
    pub products: f64,
}

impl Moments {
    /// Of at least one pair. Sums of squares that are nothing but rounding are made zero.
    pub fn of(pairs: &[(f64, f64)]) -> Option<Self> {
        let first: Vec<f64> = pairs.iter().map(|pair| pair.0).collect();
        let second: Vec<f64> = pairs.iter().map(|pair| pair.1).collect();
        let (mean_first, mean_second) = (mean(&first)?, mean(&second)?);
        let exact = |values: &[f64], centre: f64| {
            let sum = squares(values, centre);
            if is_rounding(sum, values.iter().copied()) { 0.0 } else { sum }
        };
        let products = pairs.iter().map(|(a, b)| (a - mean_first) * (b - mean_second)).sum();
        let (first, second) = (exact(&first, mean_first), exact(&second, mean_second));
        let n = count(pairs.len());
        Some(Self {
            n,
            mean_first,
            mean_second,
            first,
            second,
            products: cleared(products, (first * second).sqrt()),
        })
    }

    /// Pearson's correlation, where both vary.
    pub fn correlation(&self) -> Option<f64> {
        (self.first > 0.0 && self.second > 0.0)
            .then(|| (self.products / (self.first * self.second).sqrt()).clamp(-1.0, 1.0))
    }

    /// The same without one pair.
    pub fn without(&self, pair: (f64, f64)) -> Self {
        let n = self.n - 1.0;
        let (a, b) = (pair.0 - self.mean_first, pair.1 - self.mean_second);
        let weight = self.n / n;
        Self {
            n,
            mean_first: self.mean_first - a / n,
            mean_second: self.mean_second - b / n,
            first: cleared(self.first - a * a * weight, self.first),
            second: cleared(self.second - b * b * weight, self.second),
            products: cleared(self.products - a * b * weight, (self.first * self.second).sqrt()),
        }
    }
}

/// Zero where a sum is nothing but rounding beside what it was summed from.
fn cleared(sum: f64, beside: f64) -> f64 {
    if sum.abs() <= beside * 1e-13 { 0.0 } else { sum }
}

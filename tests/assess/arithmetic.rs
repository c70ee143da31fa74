//! The arithmetic of the recomputation, its own: exact fractions rounded by flooring, chances added up one by one.

#![expect(clippy::float_arithmetic, reason = "chances; what leaves is a whole number of millionths")]

use stipple::quantity::{Decimal, Rounding};

/// An exact fraction rounded to a whole number: the floor, and one more where the mode says so.
pub fn whole(numerator: i128, denominator: i128, mode: Rounding) -> i128 {
    let floor = numerator.div_euclid(denominator);
    let rest = numerator.rem_euclid(denominator);
    let is_negative = numerator < 0;
    let up = match mode {
        _ if rest == 0 => false,
        Rounding::Up => !is_negative,
        Rounding::Down => is_negative,
        Rounding::HalfAway => 2 * rest > denominator || (2 * rest == denominator && !is_negative),
        Rounding::HalfEven => 2 * rest > denominator || (2 * rest == denominator && floor % 2 != 0),
    };
    floor + i128::from(up)
}

/// A decimal as a fraction.
pub fn fraction(value: Decimal) -> (i128, i128) {
    (value.mantissa(), 10_i128.pow(value.scale()))
}

/// A 95 % limit of a Poisson mean in millionths, from its definition: the mean at which so many or fewer (so many or more)
/// have a chance of 2.5 %, found by halving, with the chances added up one by one.
pub fn poisson_limit(observed: u32, upper: bool) -> i128 {
    let at_most = |n: u32, mean: f64| {
        let (mut term, mut sum) = ((-mean).exp(), 0.0);
        for k in 0..=n {
            if k > 0 {
                term *= mean / f64::from(k);
            }
            sum += term;
        }
        sum
    };
    if observed == 0 && !upper {
        return 0;
    }
    let is_below = |mean: f64| {
        if upper { at_most(observed, mean) > 0.025 } else { 1.0 - at_most(observed - 1, mean) < 0.025 }
    };
    let (mut low, mut high) = (0.0, 2.0 * f64::from(observed) + 10.0);
    for _ in 0..100 {
        let middle = f64::midpoint(low, high);
        if is_below(middle) { low = middle } else { high = middle }
    }
    format!("{low:.6}").replace('.', "").parse().unwrap()
}

/// Largest remainder by repeated search, for a total of either sign.
pub fn part(total: i128, weights: &[i128], index: usize) -> i128 {
    let weights: Vec<i128> = weights.iter().map(|weight| (*weight).max(0)).collect();
    let sum: i128 = weights.iter().sum();
    let mut parts: Vec<i128> = weights.iter().map(|weight| total.abs() * weight / sum).collect();
    let mut has_got = vec![false; parts.len()];
    while parts.iter().sum::<i128>() < total.abs() {
        let rest = |at: usize| total.abs() * weights[at] % sum;
        let next = (0..parts.len())
            .filter(|at| !has_got[*at])
            .max_by_key(|at| (rest(*at), parts.len() - at))
            .unwrap();
        has_got[next] = true;
        parts[next] += 1;
    }
    parts[index] * total.signum()
}

#[test]
fn the_recomputation_itself_rounds_by_the_book() {
    for (numerator, mode, expected) in [
        (5, Rounding::HalfAway, 3),
        (-5, Rounding::HalfAway, -3),
        (5, Rounding::HalfEven, 2),
        (-7, Rounding::HalfEven, -4),
        (-5, Rounding::Up, -3),
        (-5, Rounding::Down, -2),
        (1, Rounding::Up, 1),
    ] {
        assert_eq!(whole(numerator, 2, mode), expected, "{numerator} / 2 {mode:?}");
    }
    assert_eq!(part(-11, &[6, 6, 2], 2), -1);
}

/// What lies between two values as far as a number lies between two counts, as a fraction.
pub fn along((low, high): (i64, i64), at: Decimal, [from, to]: [u32; 2]) -> (i128, i128) {
    let (at, one) = fraction(at);
    let (low, high, from, to) = (i128::from(low), i128::from(high), i128::from(from), i128::from(to));
    (low * (to - from) * one + (high - low) * (at - from * one), (to - from) * one)
}

/// Splits `value(all) - value(none)` over `causes` inputs, by Shapley's rule: each cause's share is the mean of what
/// exchanging it adds, over all orders in which the causes can be exchanged. `value` is asked for every subset, as a
/// bit mask of the causes that are exchanged.
///
/// Exact: shares are fractions over `causes!`, made whole minor units by largest remainder on their absolute parts, the
/// sign kept, ties to the earlier cause; the parts sum to the difference. Turning the sides round flips every sign.
///
/// Source: L. S. Shapley, "A value for n-person games", Contributions to the Theory of Games II, 1953.
///
/// `None` when a subset has no value, or when there are more than eight causes.
pub fn shapley(causes: usize, mut value: impl FnMut(u32) -> Option<i64>) -> Option<Vec<i64>> {
    if causes == 0 || causes > 8 {
        return (causes == 0).then(Vec::new);
    }
    let subsets = 1_u32 << causes;
    let values: Vec<i128> = (0..subsets).map(|set| value(set).map(i128::from)).collect::<Option<_>>()?;
    let factorial = |n: u32| (1..=i128::from(n)).product::<i128>();
    let size = u32::try_from(causes).ok()?;
    let whole = factorial(size);
    let mut shares = vec![0_i128; causes];
    for set in 0..subsets {
        let members = set.count_ones();
        for (cause, share) in shares.iter_mut().enumerate() {
            let bit = 1_u32 << cause;
            if set & bit == 0 {
                let weight = factorial(members) * factorial(size - members - 1);
                *share += weight * (values[(set | bit) as usize] - values[set as usize]);
            }
        }
    }
    let total = values[(subsets - 1) as usize] - values[0];
    whole_units(&shares, whole, total)
}

/// Fractions over `denominator` as whole numbers that sum to `total`.
///
/// Parts towards zero leave a rest of either sign; it is given one unit at a time to the parts with the largest
/// remainders of that sign, so that the rule is its own mirror image.
fn whole_units(shares: &[i128], denominator: i128, total: i128) -> Option<Vec<i64>> {
    let mut parts: Vec<i128> = shares.iter().map(|share| share / denominator).collect();
    let rest = total - parts.iter().sum::<i128>();
    let towards = rest.signum();
    let mut order: Vec<usize> = (0..shares.len()).collect();
    order.sort_by_key(|index| (-(shares[*index] % denominator) * towards, *index));
    for index in order.into_iter().cycle().take(usize::try_from(rest.unsigned_abs()).ok()?) {
        parts[index] += towards;
    }
    parts.into_iter().map(|part| i64::try_from(part).ok()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_glove_game_gives_the_published_shares() {
        // Source: the three-player glove market (one left glove, two right gloves), a textbook example of Shapley's
        // value: 4/6, 1/6, 1/6. A pair is worth 600 here, so that the shares are whole.
        let worth = |set: u32| Some(if set & 1 != 0 && set & 6 != 0 { 600 } else { 0 });
        assert_eq!(shapley(3, worth), Some(vec![400, 100, 100]));
    }

    #[test]
    fn parts_sum_to_the_difference_and_flip_with_the_sides() {
        let values = [100_i64, 137, 260, 301, 90, 155, 271, 333];
        let forth = shapley(3, |set| Some(values[set as usize])).unwrap();
        let back = shapley(3, |set| Some(values[(7 - set) as usize])).unwrap();
        assert_eq!(forth.iter().sum::<i64>(), 233);
        assert_eq!(back, forth.iter().map(|part| -part).collect::<Vec<_>>());
    }

    #[test]
    fn causes_that_cancel_still_sum_to_nothing() {
        let values = [0_i64, 1, -1, 0];
        let parts = shapley(2, |set| Some(values[set as usize])).unwrap();
        assert_eq!(parts.iter().sum::<i64>(), 0);
    }

    #[test]
    fn a_subset_without_a_value_has_no_split() {
        assert_eq!(shapley(2, |set| (set != 2).then_some(5)), None);
    }
}

/// Splits a total over weights so that the parts sum to it exactly: each part gets the whole of its quota, and the
/// units left over go to the largest remainders, ties to the earlier weight (Hamilton's method).
///
/// A negative total gives the mirror image of the positive one. Without any weight above zero every part is zero;
/// callers make sure there is something to split over.
pub fn largest_remainder(total: i64, weights: &[u64]) -> Vec<i64> {
    let sum: u128 = weights.iter().map(|w| u128::from(*w)).sum();
    if sum == 0 {
        return vec![0; weights.len()];
    }
    let magnitude = u128::from(total.unsigned_abs());
    let mut parts: Vec<(u128, u128)> = weights
        .iter()
        .map(|w| {
            let product = magnitude * u128::from(*w);
            (product / sum, product % sum)
        })
        .collect();
    let given: u128 = parts.iter().map(|(part, _)| part).sum();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by(|a, b| parts[*b].1.cmp(&parts[*a].1).then(a.cmp(b)));
    // Fewer units are left over than there are weights with a remainder, so one pass gives them all away.
    let left = usize::try_from(magnitude - given).unwrap_or(0);
    for index in order.into_iter().take(left) {
        parts[index].0 += 1;
    }
    parts
        .into_iter()
        .map(|(part, _)| {
            // No part is larger than the total, so each fits with the total's sign.
            let part = i128::try_from(part).unwrap_or(i128::MAX) * i128::from(total.signum());
            i64::try_from(part).unwrap_or(total)
        })
        .collect()
}

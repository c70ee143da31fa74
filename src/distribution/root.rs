/// Where a rising or falling function crosses zero between two ends at which its signs differ, by Ridders' method
/// (1979): each round halves the bracket at least, and doubles the good digits once it is near.
pub(super) fn crossing(function: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let mut at_low = function(low);
    let mut at_high = function(high);
    let mut best = f64::midpoint(low, high);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        let at_middle = function(middle);
        let root = (at_middle * at_middle - at_low * at_high).sqrt();
        let step = if root > 0.0 { (middle - low) * at_middle / root } else { 0.0 };
        let next = if at_low < at_high { middle - step } else { middle + step };
        let at_next = function(next);
        let settled = (next - best).abs() <= 4.0 * f64::EPSILON * next.abs();
        best = next;
        if at_next.abs() <= 0.0 || settled {
            break;
        }
        // The narrowest of the brackets that the two new points make.
        for (point, value) in [(middle, at_middle), (next, at_next)] {
            if point > low && point < high {
                if (value < 0.0) == (at_low < 0.0) {
                    (low, at_low) = (point, value);
                } else {
                    (high, at_high) = (point, value);
                }
            }
        }
        if high - low <= 2.0 * f64::EPSILON * low.abs().max(high.abs()) {
            break;
        }
    }
    best
}

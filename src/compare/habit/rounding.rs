/// Fewest counts from which anything is said of somebody's digits.
const FEWEST: usize = 30;

/// An assessor's counts that end in round digits more often than chance gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rounded {
    /// To multiples of this: 10 or 5.
    pub to: u32,
    /// Counts that are multiples of it.
    pub round: usize,
    /// Counts looked at: those of at least twice `to`.
    pub of: usize,
}

/// Whether counts were rounded to tens or to fives. Counts below twice the step say nothing, since small numbers
/// crowd on few digits. Rounding to tens also looks like rounding to fives and is told as tens alone.
///
/// A step is named when half of the counts or more are multiples of it: chance gives a tenth or a fifth, and with thirty
/// counts it gives a half with a probability below one in ten million for tens and below one in four thousand for fives
/// (binomial tail, computed for this comment).
pub fn rounded(counts: &[u32]) -> Option<Rounded> {
    [10_u32, 5].into_iter().find_map(|to| {
        let large: Vec<u32> = counts.iter().copied().filter(|count| *count >= 2 * to).collect();
        let round = large.iter().filter(|count| *count % to == 0).count();
        let is = large.len() >= FEWEST && 2 * round >= large.len();
        is.then_some(Rounded { to, round, of: large.len() })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_in_tens_are_tens_and_not_fives() {
        let counts: Vec<u32> = (0..40).map(|i| 20 + 10 * (i % 7)).collect();
        assert_eq!(rounded(&counts), Some(Rounded { to: 10, round: 40, of: 40 }));
    }

    #[test]
    fn counts_in_fives_are_fives() {
        let counts: Vec<u32> = (0..60).map(|i| 25 + 10 * (i % 7) + 5 * (i % 3)).collect();
        assert_eq!(rounded(&counts).map(|rounded| rounded.to), Some(5));
    }

    #[test]
    fn plain_counts_and_few_counts_say_nothing() {
        let counts: Vec<u32> = (0..60).map(|i| 20 + i).collect();
        assert_eq!(rounded(&counts), None);
        assert_eq!(rounded(&[20, 30, 40]), None);
    }
}

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

/// How the numbers end that somebody wrote: for tens and for fives, counts of at least twice the step, and multiples of it
/// among them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Digits {
    large: [usize; STEPS.len()],
    round: [usize; STEPS.len()],
}

/// Steps of rounding, in the order in which they are tried.
const STEPS: [u32; 2] = [10, 5];

impl Digits {
    /// Takes a count.
    pub fn add(&mut self, count: u32) {
        for (number, to) in STEPS.iter().enumerate().filter(|(_, to)| count >= 2 * **to) {
            self.large[number] += 1;
            self.round[number] += usize::from(count.is_multiple_of(*to));
        }
    }

    /// Takes what another sheet holds.
    pub fn add_all(&mut self, other: &Self) {
        for number in 0..STEPS.len() {
            self.large[number] += other.large[number];
            self.round[number] += other.round[number];
        }
    }

    /// Whether counts were rounded to tens or to fives. Counts below twice the step say nothing, since small numbers
    /// crowd on few digits. Rounding to tens also looks like rounding to fives and is told as tens alone.
    ///
    /// A step is named when half of the counts or more are multiples of it: chance gives a tenth or a fifth, and with
    /// thirty counts it gives a half with a probability below one in ten million for tens and below one in four thousand
    /// for fives (binomial tail, computed for this comment).
    pub fn rounded(&self) -> Option<Rounded> {
        (0..STEPS.len()).find_map(|number| {
            let (round, of) = (self.round[number], self.large[number]);
            (of >= FEWEST && 2 * round >= of).then_some(Rounded { to: STEPS[number], round, of })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rounded(counts: &[u32]) -> Option<Rounded> {
        let mut digits = Digits::default();
        for count in counts {
            digits.add(*count);
        }
        digits.rounded()
    }

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

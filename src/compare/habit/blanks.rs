/// Fewest looks on either side from which anything is said of somebody's blanks.
const FEWEST: usize = 10;

/// How a person's sheets write a size without dents, where the others write it the other way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Blanks {
    /// Zeros, where the others leave blanks.
    WritesZeros,
    /// Blanks, where the others write zeros.
    LeavesBlanks,
}

/// Sheets by how they write a size without dents, on panels that hold dents of another size.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Sheets {
    /// Sheets.
    pub all: usize,
    /// With a blank there.
    pub with_blanks: usize,
    /// With a zero there.
    pub with_zeros: usize,
}

impl Sheets {
    /// Takes further sheets.
    pub fn add(&mut self, other: Self) {
        self.all += other.all;
        self.with_blanks += other.with_blanks;
        self.with_zeros += other.with_zeros;
    }

    /// These sheets without some of them.
    #[must_use]
    pub const fn without(self, some: Self) -> Self {
        Self {
            all: self.all - some.all,
            with_blanks: self.with_blanks - some.with_blanks,
            with_zeros: self.with_zeros - some.with_zeros,
        }
    }

    /// The sheets have no blank at all, and a zero on half of them or more.
    const fn are_of_zeros(self) -> bool {
        self.with_blanks == 0 && 2 * self.with_zeros >= self.all
    }

    /// The sheets have no zero at all, and a blank on half of them or more.
    const fn are_of_blanks(self) -> bool {
        self.with_zeros == 0 && 2 * self.with_blanks >= self.all
    }
}

/// Whether somebody writes what the others leave blank, or the other way: ten sheets or more on either side, one side all
/// of one kind, and half or more of the other side with the other kind. The rule is ours; there is no chance in it, since
/// a person writes one way or the other.
pub fn blanks(own: Sheets, others: Sheets) -> Option<Blanks> {
    if own.all < FEWEST || others.all < FEWEST {
        return None;
    }
    if own.are_of_zeros() && 2 * others.with_blanks >= others.all {
        Some(Blanks::WritesZeros)
    } else if own.are_of_blanks() && 2 * others.with_zeros >= others.all {
        Some(Blanks::LeavesBlanks)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheets(all: usize, with_blanks: usize, with_zeros: usize) -> Sheets {
        Sheets { all, with_blanks, with_zeros }
    }

    #[test]
    fn zeros_where_others_leave_blanks_are_named_and_the_other_way_round() {
        assert_eq!(blanks(sheets(12, 0, 9), sheets(12, 8, 0)), Some(Blanks::WritesZeros));
        assert_eq!(blanks(sheets(12, 8, 0), sheets(12, 0, 9)), Some(Blanks::LeavesBlanks));
    }

    #[test]
    fn everybody_alike_both_ways_mixed_and_few_sheets_say_nothing() {
        assert_eq!(blanks(sheets(12, 0, 12), sheets(12, 0, 12)), None);
        assert_eq!(blanks(sheets(12, 3, 9), sheets(12, 12, 0)), None);
        assert_eq!(blanks(sheets(9, 0, 9), sheets(12, 12, 0)), None);
    }
}

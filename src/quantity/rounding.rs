/// How an exact amount becomes a whole number of steps. Names and behaviour follow ISO 80000-1 annex B
/// (rules A and B) for the two nearest modes; up and down are away from and towards zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rounding {
    /// To the nearest; a tie goes away from zero.
    #[default]
    HalfAway,
    /// To the nearest; a tie goes to the even neighbour.
    HalfEven,
    /// Away from zero.
    Up,
    /// Towards zero.
    Down,
}

impl Rounding {
    /// `numerator / denominator` as a whole number. The denominator must be positive.
    ///
    /// # Panics
    /// When the denominator is not positive: every caller divides by a constant or a checked value.
    pub fn divide(self, numerator: i128, denominator: i128) -> i128 {
        assert!(denominator > 0, "rounding needs a positive denominator");
        let quotient = numerator / denominator;
        let remainder = numerator % denominator;
        if remainder == 0 {
            return quotient;
        }
        let away = quotient + numerator.signum();
        let twice = remainder.unsigned_abs() * 2;
        let tie = twice.cmp(&denominator.unsigned_abs());
        match (self, tie) {
            (Self::Up, _)
            | (Self::HalfAway, std::cmp::Ordering::Equal | std::cmp::Ordering::Greater)
            | (Self::HalfEven, std::cmp::Ordering::Greater) => away,
            (Self::HalfEven, std::cmp::Ordering::Equal) if quotient % 2 != 0 => away,
            _ => quotient,
        }
    }

    /// Plain words, as a schedule writes them and a document prints them.
    pub fn words(self) -> &'static str {
        match self {
            Self::HalfAway => "half away from zero",
            Self::HalfEven => "half to even",
            Self::Up => "up",
            Self::Down => "down",
        }
    }
}

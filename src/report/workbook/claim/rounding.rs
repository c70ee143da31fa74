//! Rounding as spreadsheets can do it exactly.
//!
//! A spreadsheet calculates with binary floats: 1.005 is stored a little below, 28.000000000000004 a little above what
//! is meant. So a value is taken in whole minor units (cents), first rounded to more decimals than it can really have,
//! which gives the float next to the exact value (every tie and every whole number is then itself), and only then by the
//! schedule's mode to a whole number. All of that stays within the 15 digits that spreadsheets keep.

use crate::quantity::Rounding;

/// Digits that spreadsheets keep.
const DIGITS: u32 = 15;
/// Decimals that are kept before rounding where there is room: more than most values have.
const USUAL: u32 = 6;

/// Decimals to keep before rounding: at least as many as the exact value can have, and room for an amount that grows
/// tenfold. `None` where a spreadsheet does not hold so many digits.
pub(super) fn guard(needed: u32, result: i64) -> Option<u32> {
    let whole = result.unsigned_abs().checked_ilog10().unwrap_or(0) + 2;
    let room = DIGITS.checked_sub(whole)?;
    (needed <= room).then(|| needed.max(USUAL).min(room))
}

/// A value with so many decimals and no more.
pub(super) fn guarded(value: &str, decimals: u32) -> String {
    format!("ROUND({value},{decimals})")
}

/// A guarded value as a whole number, by the mode.
pub(super) fn whole(rounding: Rounding, value: &str) -> String {
    match rounding {
        Rounding::HalfAway => format!("ROUND({value},0)"),
        // A tie goes to twice the whole number that is nearest to its half: 2.5 to 2, 3.5 to 4.
        Rounding::HalfEven => {
            format!("IF(ABS({value})-INT(ABS({value}))=0.5,2*ROUND({value}/2,0),ROUND({value},0))")
        }
        Rounding::Up => format!("ROUNDUP({value},0)"),
        Rounding::Down => format!("ROUNDDOWN({value},0)"),
    }
}

/// Divided by how many parts one unit has.
pub(super) fn in_units(whole: &str, parts: i64) -> String {
    if parts == 1 { whole.to_owned() } else { format!("{whole}/{parts}") }
}

/// A quotient in digits, to twelve decimals: what a spreadsheet stores of a number that has no short decimal.
pub(super) fn quotient(numerator: i128, denominator: i128) -> String {
    const ONE: i128 = 1_000_000_000_000;
    let parts = Rounding::HalfAway.divide(numerator.saturating_mul(ONE), denominator.max(1));
    let sign = if parts < 0 { "-" } else { "" };
    let (whole, rest) =
        (parts.unsigned_abs() / ONE.unsigned_abs(), parts.unsigned_abs() % ONE.unsigned_abs());
    format!("{sign}{whole}.{rest:012}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_mode_has_its_formula() {
        let value = guarded("A1*100", 6);
        let formula = |mode| in_units(&whole(mode, &value), 100);
        assert_eq!(formula(Rounding::HalfAway), "ROUND(ROUND(A1*100,6),0)/100");
        assert_eq!(formula(Rounding::Up), "ROUNDUP(ROUND(A1*100,6),0)/100");
        assert_eq!(formula(Rounding::Down), "ROUNDDOWN(ROUND(A1*100,6),0)/100");
        assert_eq!(
            formula(Rounding::HalfEven),
            "IF(ABS(ROUND(A1*100,6))-INT(ABS(ROUND(A1*100,6)))=0.5,2*ROUND(ROUND(A1*100,6)/2,0),\
             ROUND(ROUND(A1*100,6),0))/100"
        );
        assert_eq!(in_units("A1", 1), "A1");
    }

    #[test]
    fn a_value_with_more_digits_than_a_spreadsheet_keeps_has_no_formula() {
        assert_eq!(guard(2, 12_345), Some(6));
        assert_eq!(guard(8, 12_345), Some(8));
        assert_eq!(guard(3, 12_345_678_901), Some(3));
        assert_eq!(guard(4, 12_345_678_901), None);
        assert_eq!(guard(0, i64::MIN), None);
        assert_eq!(guard(2, 0), Some(6));
    }

    #[test]
    fn a_quotient_keeps_twelve_decimals_and_its_sign() {
        assert_eq!(quotient(1_200, 3_600), "0.333333333333");
        assert_eq!(quotient(-7_200, 3_600), "-2.000000000000");
    }
}

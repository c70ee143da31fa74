use crate::{decimal, eur, records};
use stipple::quantity::{Decimal, Rounding};

/// A decimal rounded to a power of ten (`scale` decimals, negative for tens and hundreds), as a decimal.
fn rounded(value: Decimal, scale: i32, mode: Rounding) -> Decimal {
    let places = i32::try_from(value.scale()).unwrap();
    let step = 10_i128.pow(u32::try_from((places - scale).max(0)).unwrap());
    let widened = 10_i128.pow(u32::try_from((scale - places).max(0)).unwrap());
    let units = mode.divide(value.mantissa() * widened, step);
    match u32::try_from(scale) {
        Ok(scale) => Decimal::from_i128_with_scale(units, scale),
        Err(_) => Decimal::from_i128_with_scale(units * 10_i128.pow(scale.unsigned_abs()), 0),
    }
}

#[test]
fn the_four_modes_round_as_published_also_below_zero() {
    let rows = records(include_str!("../published/rounding_modes.csv"));
    for row in &rows {
        let scale = row[1].parse().unwrap();
        for (mode, column) in
            [(Rounding::Up, 2), (Rounding::Down, 3), (Rounding::HalfAway, 6), (Rounding::HalfEven, 8)]
        {
            assert_eq!(rounded(decimal(&row[0]), scale, mode), decimal(&row[column]), "{row:?} {mode:?}");
        }
    }
    assert_eq!(rows.len(), 27);
}

#[test]
fn nearest_with_ties_to_even_and_away_are_rules_a_and_b_of_iso_80000_1() {
    let rows = records(include_str!("../published/iso80000_rounding.csv"));
    for row in &rows {
        let scale = if &row[1] == "10" { -1 } else { 1 };
        let number = decimal(&row[0]);
        assert_eq!(rounded(number, scale, Rounding::HalfEven), decimal(&row[2]), "{row:?}");
        assert_eq!(rounded(number, scale, Rounding::HalfAway), decimal(&row[3]), "{row:?}");
    }
    assert_eq!(rows.len(), 12);
}

/// A number of the decimal testcases, which may have an exponent: digits and their power of ten.
fn with_exponent(text: &str) -> (i128, i32) {
    let (number, exponent) = text.split_once(['e', 'E']).unwrap_or((text, "0"));
    let fraction = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    let digits = number.replace('.', "").parse().unwrap();
    (digits, exponent.parse::<i32>().unwrap() - i32::try_from(fraction).unwrap())
}

#[test]
fn quantizing_agrees_with_the_general_decimal_arithmetic_testcases() {
    let mut checked = 0;
    for row in records(include_str!("../published/dectest_quantize_subset.csv")) {
        let mode = match &row[4] {
            "half_up" => Rounding::HalfAway,
            "half_even" => Rounding::HalfEven,
            "up" => Rounding::Up,
            "down" => Rounding::Down,
            _ => continue,
        };
        let ((digits, power), (_, quantum)) = (with_exponent(&row[2]), with_exponent(&row[3]));
        let power_of_ten = |power: i32| 10_i128.checked_pow(u32::try_from(power).unwrap());
        let units = if power >= quantum {
            digits * power_of_ten(power - quantum).unwrap()
        } else {
            // Beyond what an integer holds, the divisor is past any half: the largest one stands for it.
            mode.divide(digits, power_of_ten(quantum - power).unwrap_or(i128::MAX))
        };
        let (expected, expected_power) = with_exponent(&row[5]);
        let expected = expected * power_of_ten(expected_power - quantum).unwrap();
        assert_eq!(units, expected, "{row:?}");
        checked += 1;
    }
    assert_eq!(checked, 509);
}

#[test]
fn totals_are_brought_to_their_cash_step_as_published() {
    let rows = records(include_str!("../published/cash_rounding.csv"));
    let mut checked = 0;
    for row in &rows {
        // Amounts finer than a cent are never rounded twice: they are no amounts here.
        if decimal(&row[0]).normalize().scale() > 2 {
            continue;
        }
        for (column, step, mode) in [
            (1, "0.05", Rounding::HalfAway),
            (2, "0.05", Rounding::HalfEven),
            (3, "1.00", Rounding::HalfAway),
            (4, "0.50", Rounding::HalfAway),
            (5, "0.05", Rounding::HalfAway),
            (6, "0.10", Rounding::HalfAway),
        ] {
            let rounded = eur(&row[0]).to_step(eur(step), mode).unwrap();
            assert_eq!(rounded.to_decimal(), decimal(&row[column]), "{row:?} to {step}");
            checked += 1;
        }
    }
    assert_eq!(checked, 20 * 6);
}

#[test]
fn every_mode_mirrors_at_zero_and_lies_within_one_unit() {
    for numerator in -60..=60 {
        for denominator in 1..=12 {
            for mode in [Rounding::HalfAway, Rounding::HalfEven, Rounding::Up, Rounding::Down] {
                let rounded = mode.divide(numerator, denominator);
                assert_eq!(rounded, -mode.divide(-numerator, denominator));
                assert!((rounded * denominator - numerator).abs() < denominator);
            }
        }
    }
}

use crate::decimal;
use proptest::prelude::*;
use stipple::quantity::{
    DateFault, DecimalMark, Length, LengthUnit, NumberFault, QuantityFault, could_be_both, parse_count,
    parse_date, parse_decimal,
};

#[test]
fn numbers_are_read_as_people_write_them() {
    let point = |text| parse_decimal(text, DecimalMark::Point).map(|value| value.to_string());
    let comma = |text| parse_decimal(text, DecimalMark::Comma).map(|value| value.to_string());
    for (text, value) in [
        ("1234.5", "1234.5"),
        (" 1,234.50 ", "1234.50"),
        ("1 234", "1234"),
        ("1\u{202f}234\u{a0}567", "1234567"),
        ("1'234.5", "1234.5"),
        ("-7", "-7"),
        ("\u{2212}7.5", "-7.5"),
        ("+7", "7"),
        (".5", "0.5"),
        ("5.", "5.0"),
    ] {
        assert_eq!(point(text).as_deref(), Ok(value), "{text}");
    }
    assert_eq!(comma("1.234,5").as_deref(), Ok("1234.5"));
}

#[test]
fn what_is_no_number_is_not_taken_for_one() {
    let odd = [
        "",
        ".",
        "-",
        "1e3",
        "1_000",
        "0x10",
        "1,23",
        "1234,567.8",
        "1,2345",
        ",123",
        "1.2.3",
        "--1",
        "1 234,567",
        "NaN",
        "inf",
        "\u{661}",
    ];
    for text in odd {
        assert_eq!(parse_decimal(text, DecimalMark::Point), Err(NumberFault::NotANumber), "{text}");
    }
    let long = "0.12345678901234567890123456789";
    assert_eq!(parse_decimal(long, DecimalMark::Point), Err(NumberFault::TooPrecise));
}

#[test]
fn a_number_that_reads_two_ways_is_known_as_such() {
    assert!(could_be_both("1.234") && could_be_both("1,234"));
    assert!(!could_be_both("1.23") && !could_be_both("1,234.5") && !could_be_both("12"));
}

#[test]
fn counts_are_whole_and_neither_negative_nor_absurd() {
    let count = |text| parse_count(decimal(text));
    assert_eq!(count("12.00"), Ok(12));
    assert_eq!(count("-0"), Ok(0));
    assert_eq!(count("99999"), Ok(99_999));
    assert_eq!(count("100000"), Err(NumberFault::TooLarge));
    assert_eq!(count("1.5"), Err(NumberFault::Fractional));
    assert_eq!(count("-1"), Err(NumberFault::Negative));
}

#[test]
fn inches_and_their_fractions_are_exact() {
    let inch = |text| Length::parse(text, LengthUnit::Inch, DecimalMark::Point);
    // The inch is 25.4 mm exactly (international yard and pound, 1959).
    for (text, nanometres) in [
        ("1", 25_400_000),
        ("1/64", 396_875),
        ("3/4", 19_050_000),
        ("1 1/4", 31_750_000),
        ("1-1/4", 31_750_000),
        ("1.25", 31_750_000),
        ("\u{be}", 19_050_000),
        ("1\u{bd}", 38_100_000),
        ("2-\u{215b}", 53_975_000),
    ] {
        assert_eq!(inch(text).map(Length::nanometres), Ok(nanometres), "{text}");
    }
    assert_eq!(inch("1/3"), Err(NumberFault::TooPrecise));
    assert_eq!(inch("1/0"), Err(NumberFault::NotANumber));
    assert_eq!(inch("1/"), Err(NumberFault::NotANumber));
    assert_eq!(inch("-1"), Err(NumberFault::Negative));
    assert_eq!(inch("999999 999999/1").map(Length::nanometres), Ok(50_799_949_200_000));
    assert_eq!(inch("9999999999999999"), Err(NumberFault::TooLarge));
    assert_eq!(
        Length::from_decimal(decimal("0.0000001"), LengthUnit::Millimetre),
        Err(QuantityFault::TooPrecise)
    );
    assert_eq!(inch("0.5").unwrap().to_string(), "12.7 mm");
}

#[test]
fn days_are_read_and_those_that_read_two_ways_are_known() {
    let day = |text| parse_date(text).map(|date| date.to_string());
    for text in ["2026-06-14", "14.06.2026", "14/06/2026", "06/14/2026", "14-06-2026", " 2026-06-14T09:30 "] {
        assert_eq!(day(text).as_deref(), Ok("2026-06-14"), "{text}");
    }
    assert_eq!(day("05/06/2026"), Err(DateFault::Ambiguous));
    assert_eq!(day("05/05/2026").as_deref(), Ok("2026-05-05"));
    assert_eq!(day("2026-02-29"), Err(DateFault::Impossible));
    assert_eq!(day("31.04.2026"), Err(DateFault::Impossible));
    assert_eq!(day("14.06.26"), Err(DateFault::ShortYear));
    assert_eq!(day("14 June 2026").as_deref(), Ok("2026-06-14"));
    for text in ["", "June", "June 2026", "14 Jury 2026", "2026-6", "1-2-3-4", "2026/06/14/1"] {
        assert_eq!(day(text), Err(DateFault::NotADate), "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_text_makes_a_parser_panic(text in "[-+0-9.,'/ eE\u{a0}\u{bd}mT:]{0,14}|\\PC{0,10}") {
        for mark in [DecimalMark::Point, DecimalMark::Comma] {
            if let Ok(value) = parse_decimal(&text, mark) {
                let _ = parse_count(value);
                let _ = Length::from_decimal(value, LengthUnit::Inch);
            }
            let _ = Length::parse(&text, LengthUnit::Inch, mark);
        }
        let _ = (parse_date(&text), could_be_both(&text));
    }

    #[test]
    fn a_number_that_is_printed_is_read_back(units in any::<i64>(), scale in 0_u32..9) {
        let value = stipple::quantity::Decimal::new(units, scale);
        prop_assert_eq!(parse_decimal(&value.to_string(), DecimalMark::Point), Ok(value));
    }
}

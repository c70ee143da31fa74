//! Numbers, lengths, coins, hailstones, strokes and dates as people might write them: parsed without a panic, and what was understood is
//! understood again from its own text.
#![no_main]

use libfuzzer_sys::fuzz_target;
use stipple::quantity::{
    DecimalMark, Length, LengthUnit, Strokes, could_be_both, named_size, parse_count, parse_date,
    parse_decimal, parse_strokes,
};

fuzz_target!(|text: &str| {
    could_be_both(text);
    for mark in [DecimalMark::Point, DecimalMark::Comma] {
        if let Ok(number) = parse_decimal(text, mark) {
            assert_eq!(parse_decimal(&number.to_string(), DecimalMark::Point), Ok(number));
            if let Ok(count) = parse_count(number) {
                assert_eq!(number, count.into());
            }
        }
        for unit in [LengthUnit::Millimetre, LengthUnit::Centimetre, LengthUnit::Inch] {
            if let Ok(length) = Length::parse(text, unit, mark) {
                let again = Length::from_decimal(length.millimetres(), LengthUnit::Millimetre);
                assert_eq!(again, Ok(length));
            }
        }
    }
    // Coins and hailstones have widths that are no zero; strokes are never more than letters.
    assert!(named_size(text).is_none_or(|width| width > Length::ZERO));
    let most = match parse_strokes(text) {
        Some(Strokes::Exactly(count)) => count,
        Some(Strokes::Open { written, crossed }) => {
            assert!(written < crossed);
            written
        }
        None => 0,
    };
    assert!(usize::try_from(most).is_ok_and(|most| most <= text.len()));
    if let Ok(date) = parse_date(text) {
        assert_eq!(parse_date(&date.to_string()), Ok(date));
    }
});

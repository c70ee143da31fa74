//! Numbers, lengths and dates as people might write them: parsed without a panic, and what was understood is
//! understood again from its own text.
#![no_main]

use libfuzzer_sys::fuzz_target;
use stipple::quantity::{
    DecimalMark, Length, LengthUnit, could_be_both, parse_count, parse_date, parse_decimal,
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
    if let Ok(date) = parse_date(text) {
        assert_eq!(parse_date(&date.to_string()), Ok(date));
    }
});

use crate::{currency, decimal, eur, records};
use stipple::quantity::{Area, Currency, Hours, Money, Percent, QuantityFault, Rounding, TimeUnit, UnitRate};

/// Currencies that have left ISO 4217's list one and are still taken: claims of their days are in them.
const HISTORIC: [&str; 5] = ["BGN", "CUC", "HRK", "SLL", "ZWL"];

#[test]
fn minor_units_are_those_of_iso_4217() {
    let rows = records(include_str!("../published/iso4217_minor_units.csv"));
    for row in &rows {
        let known = Currency::from_code(&row[0]);
        match row[2].parse::<u32>() {
            Ok(digits) => assert_eq!(known.map(Currency::decimals), Some(digits), "{}", &row[0]),
            Err(_) => assert_eq!(known, None, "{} has no minor unit", &row[0]),
        }
    }
    assert_eq!(rows.len(), 178);
}

#[test]
fn the_only_further_currencies_are_historic_ones() {
    let rows = records(include_str!("../published/iso4217_minor_units.csv"));
    let letters = || (b'A'..=b'Z').map(char::from);
    let mut further = Vec::new();
    for a in letters() {
        for b in letters() {
            for c in letters() {
                let code = format!("{a}{b}{c}");
                if Currency::from_code(&code).is_some() && !rows.iter().any(|row| row[0] == code) {
                    further.push(code);
                }
            }
        }
    }
    assert_eq!(further, HISTORIC);
}

#[test]
fn a_currency_is_found_in_any_case_and_nothing_else_is_one() {
    assert_eq!(Currency::from_code(" eur "), Currency::from_code("EUR"));
    for none in ["", "EU", "EURO", "E\u{dc}R", "XAU", "XXX"] {
        assert_eq!(Currency::from_code(none), None, "{none}");
    }
}

#[test]
fn two_currencies_never_meet() {
    let dollars = Money::from_minor(1, currency("USD"));
    let mixed = Err(QuantityFault::Currencies(currency("EUR"), currency("USD")));
    for result in [
        eur("1").plus(dollars),
        eur("1").minus(dollars),
        eur("1").at_least(dollars),
        eur("1").at_most(dollars),
        eur("1").to_step(dollars, Rounding::Up),
        Money::sum(currency("EUR"), [eur("1"), dollars]),
    ] {
        assert_eq!(result, mixed);
    }
}

#[test]
fn amounts_keep_their_currencys_decimals_and_take_no_finer_ones() {
    let yen = currency("JPY");
    assert_eq!(Money::from_decimal(decimal("12"), yen).unwrap().to_string(), "12");
    assert_eq!(Money::from_decimal(decimal("12.5"), yen), Err(QuantityFault::TooPrecise));
    assert_eq!(Money::from_decimal(decimal("1.5"), currency("KWD")).unwrap().to_string(), "1.500");
    assert_eq!(eur("12.30000"), eur("12.3"));
    assert_eq!(eur("-0.05").to_string(), "-0.05");
}

#[test]
fn what_does_not_fit_is_a_fault_and_no_panic() {
    let most = Money::from_minor(i64::MAX, currency("EUR"));
    let least = Money::from_minor(i64::MIN, currency("EUR"));
    let overflow = Err(QuantityFault::Overflow);
    assert_eq!(most.plus(eur("0.01")), overflow);
    assert_eq!(least.minus(eur("0.01")), overflow);
    assert_eq!(least.negated(), overflow);
    assert_eq!(most.percent(Percent::from_decimal(decimal("100.000001")).unwrap(), Rounding::Up), overflow);
    assert_eq!(most.to_step(eur("1"), Rounding::Up), overflow);
    assert_eq!(Money::from_decimal(decimal("92233720368547758.08"), currency("EUR")), overflow);
    let rate = UnitRate::from_decimal(decimal("9000000000000"), currency("EUR")).unwrap();
    assert_eq!(rate.times(u32::MAX, Rounding::Up), overflow);
    assert_eq!(rate.times_decimal(decimal("7922816251426433759354395033.5"), Rounding::Up), overflow);
    assert_eq!(Hours::from_seconds(i64::MAX).plus(Hours::from_seconds(1)), Err(QuantityFault::Overflow));
    assert_eq!(Hours::from_decimal(decimal("9223372036854775807")), Err(QuantityFault::Overflow));
    let long = Hours::from_seconds(i64::MAX);
    assert_eq!(long.times(decimal("2"), TimeUnit::Tenths, Rounding::Up), Err(QuantityFault::Overflow));
    assert_eq!(long.at(rate, Rounding::Up), overflow);
    assert_eq!(Percent::from_decimal(decimal("0.0000001")), Err(QuantityFault::TooPrecise));
    assert_eq!(Area::from_square_metres(decimal("0.0000001")), Err(QuantityFault::TooPrecise));
}

#[test]
fn a_step_of_nothing_changes_nothing() {
    assert_eq!(eur("1.23").to_step(eur("0"), Rounding::HalfEven), Ok(eur("1.23")));
}

#[test]
fn a_rate_keeps_four_more_digits_than_its_currency() {
    let rate = UnitRate::from_decimal(decimal("0.123456"), currency("EUR")).unwrap();
    assert_eq!(rate.to_string(), "0.123456");
    assert_eq!(UnitRate::from_decimal(decimal("5"), currency("EUR")).unwrap().to_string(), "5.00");
    assert_eq!(UnitRate::from_decimal(decimal("0.1234567"), currency("EUR")), Err(QuantityFault::TooPrecise));
    assert_eq!(rate.times(100, Rounding::HalfAway), Ok(eur("12.35"))); // 12.3456
    assert_eq!(rate.times_decimal(decimal("2.5"), Rounding::Down), Ok(eur("0.30"))); // 0.30864
}

#[test]
fn times_are_whole_seconds_in_every_unit() {
    let rate = UnitRate::from_decimal(decimal("59"), currency("EUR")).unwrap();
    let time = Hours::in_unit(decimal("7"), TimeUnit::WorkUnits(12)).unwrap();
    assert_eq!(time, Hours::in_unit(decimal("35"), TimeUnit::Minutes).unwrap());
    assert_eq!(time.at(rate, Rounding::HalfAway), Ok(eur("34.42"))); // 59 x 35 / 60 = 34.41666...
    assert_eq!(Hours::from_decimal(decimal("0.333")), Err(QuantityFault::TooPrecise));
    assert_eq!(Hours::from_decimal(decimal("1.2")).unwrap().seconds(), 4320);
    assert_eq!(time.to_string(), "0.5833");
    assert_eq!(Hours::from_seconds(-5400).to_string(), "-1.5");
}

#[test]
fn computed_times_are_rounded_to_the_unit() {
    let each = Hours::from_decimal(decimal("0.05")).unwrap();
    let by = |count, unit| each.times(decimal(count), unit, Rounding::HalfAway).unwrap().to_string();
    assert_eq!(by("3", TimeUnit::Tenths), "0.2");
    assert_eq!(by("3", TimeUnit::Minutes), "0.15");
    assert_eq!(by("2.25", TimeUnit::WorkUnits(12)), "0.0833"); // 6.75 minutes are 1.35 units
}

#[test]
fn a_unit_that_makes_no_sense_still_has_a_length() {
    assert_eq!(TimeUnit::WorkUnits(0).seconds(), 3600);
    assert_eq!(TimeUnit::WorkUnits(u32::MAX).seconds(), 1);
}

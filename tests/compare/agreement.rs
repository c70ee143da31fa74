use crate::published::{assert_printed, number, rows, value};
use stipple::compare::statistics::agreement::{
    Reading, Scale, concordance, deming, limits_of_agreement, scale_check, typical_spread,
};
use stipple::compare::statistics::many::{Form, Metric, alpha, intraclass};
use stipple::compare::statistics::repeated::precision;
use stipple::compare::statistics::{Bootstrap, Level};

const LEVEL: Level = Level::NINETY_FIVE;

/// Bland and Altman 1986: peak flow of 17 subjects, first measurements.
fn peak_flow() -> Vec<(f64, f64)> {
    rows("pefr").iter().map(|row| (number(row, "wright_1"), number(row, "mini_1"))).collect()
}

// Source: Bland and Altman 1986; unrounded values, not those printed there from rounded ones.
#[test]
fn bias_and_limits_of_agreement_are_those_of_bland_and_altman() {
    let expected = rows("pefr_expected");
    let expected = |quantity| value(&expected, "", quantity);
    let found = limits_of_agreement(&peak_flow(), Scale::Difference, 2.0, LEVEL);
    assert_printed(found.bias.value.unwrap(), expected("mean_diff_wright1_minus_mini1"), "bias");
    let interval = found.bias.interval.unwrap();
    assert_printed(interval.low, expected("ci_mean_lo"), "bias, low");
    assert_printed(interval.high, expected("ci_mean_hi"), "bias, high");
    assert_printed(found.spread.value.unwrap(), expected("sd_diff"), "standard deviation");
    assert_printed(found.lower.value.unwrap(), expected("lower_2sd"), "lower");
    assert_printed(found.upper.value.unwrap(), expected("upper_2sd"), "upper");
    for (limit, low, high) in [
        (&found.lower, "ci_lower_limit_lo", "ci_lower_limit_hi"),
        (&found.upper, "ci_upper_limit_lo", "ci_upper_limit_hi"),
    ] {
        let as_in_1986 = limit.also[1];
        assert_printed(as_in_1986.low, expected(low), low);
        assert_printed(as_in_1986.high, expected(high), high);
    }
    assert_eq!(found.bias.used, 17);
    let usual = limits_of_agreement(&peak_flow(), Scale::Difference, 1.96, LEVEL);
    assert_printed(usual.lower.value.unwrap(), expected("lower_1.96sd"), "lower, 1.96");
    assert_printed(usual.upper.value.unwrap(), expected("upper_1.96sd"), "upper, 1.96");
}

// Source: Lin 1989 and 2000 on the same data, recomputed.
#[test]
fn concordance_of_the_peak_flow_data_divides_by_n() {
    let expected = rows("pefr_expected");
    let expected = |quantity| value(&expected, "", quantity);
    let found = concordance(&peak_flow(), LEVEL);
    assert_printed(
        found.concordance.value.unwrap(),
        expected("ccc_first_measure_biased_n(Lin1989)"),
        "concordance",
    );
    assert_printed(found.correlation.value.unwrap(), expected("pearson_r_first"), "correlation");
    assert_printed(found.bias_factor.value.unwrap(), expected("Cb_bias_correction"), "bias factor");
    let interval = found.concordance.interval.unwrap();
    assert_printed(interval.low, expected("ccc_ci_lo"), "low");
    assert_printed(interval.high, expected("ccc_ci_hi"), "high");
}

#[test]
fn a_line_with_errors_in_both_fits_the_peak_flow_and_arsenate_data() {
    let expected = rows("pefr_expected");
    let found = deming(&peak_flow(), 1.0, LEVEL);
    assert_printed(found.slope.value.unwrap(), value(&expected, "", "deming_slope"), "slope");
    assert_printed(
        found.intercept.value.unwrap(),
        value(&expected, "", "deming_intercept_mini_on_wright"),
        "intercept",
    );
    // Source: Ripley and Thompson 1987, equal error variances.
    let expected = rows("agreement_expected");
    let pairs: Vec<(f64, f64)> =
        rows("arsenate_deming").iter().map(|row| (number(row, "aas"), number(row, "aes"))).collect();
    let found = deming(&pairs, 1.0, LEVEL);
    let slope = value(&expected, "arsenate", "deming_equal_variance_slope");
    let intercept = value(&expected, "arsenate", "deming_equal_variance_intercept");
    assert_printed(found.slope.value.unwrap(), slope, "slope");
    assert_printed(found.intercept.value.unwrap(), intercept, "intercept");
}

// Source: Bland and Altman 1986, repeatability with factor 2.
#[test]
fn repeatability_of_each_meter_is_that_of_bland_and_altman() {
    let expected = rows("pefr_expected");
    for (meter, deviation, limit) in [
        ("wright", "wright_within_subject_sd", "wright_repeatability_coef_2sqrt2sw"),
        ("mini", "mini_within_subject_sd", "mini_repeatability_coef_2sqrt2sw"),
    ] {
        let units: Vec<Vec<Vec<f64>>> = rows("pefr")
            .iter()
            .map(|row| vec![[1, 2].map(|pass| number(row, &format!("{meter}_{pass}"))).to_vec()])
            .collect();
        let found = precision(&units, 2.0, Bootstrap::default(), LEVEL);
        assert_printed(found.repeatability.value.unwrap(), value(&expected, "", deviation), deviation);
        assert_printed(found.repeatability_limit.value.unwrap(), value(&expected, "", limit), limit);
        // Only one person counted each unit.
        assert!(found.reproducibility.value.is_err());
    }
}

// Source: Shrout and Fleiss 1979, Table 2.
#[test]
fn all_six_intraclass_correlations_are_those_of_shrout_and_fleiss() {
    let expected = rows("agreement_expected");
    let expected = |quantity: &str| value(&expected, "shrout_fleiss1979", quantity);
    let units: Vec<Vec<Option<f64>>> = rows("shrout_fleiss")
        .iter()
        .map(|row| (1..=4).map(|judge| Some(number(row, &format!("judge{judge}")))).collect())
        .collect();
    let found = intraclass(&units, 4, LEVEL);
    let squares = found.mean_squares.unwrap();
    assert_printed(squares.between, expected("BMS"), "BMS");
    assert_printed(squares.within, expected("WMS"), "WMS");
    assert_printed(squares.assessor, expected("JMS"), "JMS");
    assert_printed(squares.residual, expected("EMS"), "EMS");
    assert_printed(squares.between / squares.within, expected("F_one_way(5,18)"), "F, one way");
    assert_printed(squares.between / squares.residual, expected("F_two_way(5,15)"), "F, two way");
    for form in Form::ALL {
        let name = form.name().replace('k', "4");
        let statistic = found.form(form);
        assert_printed(statistic.value.unwrap(), expected(&name), &name);
        let interval = statistic.interval.unwrap();
        assert_printed(interval.low, expected(&format!("{name}_CI95_lo")), &name);
        assert_printed(interval.high, expected(&format!("{name}_CI95_hi")), &name);
    }
}

// Source: Krippendorff 2011; the second set from the documentation of the PyPI package krippendorff.
#[test]
fn alpha_takes_missing_values_in_all_four_metrics() {
    let data = rows("krippendorff");
    for expected in rows("krippendorff_expected") {
        let mut units: Vec<Vec<Option<f64>>> = Vec::new();
        for row in data.iter().filter(|row| row["dataset"] == expected["dataset"]) {
            let unit = usize::try_from(crate::published::whole(row, "unit")).unwrap();
            units.resize(units.len().max(unit), Vec::new());
            units[unit - 1].push(row["value"].parse().ok());
        }
        let metric = *Metric::ALL.iter().find(|metric| metric.name() == expected["level"]).unwrap();
        let found = alpha(&units, metric, Bootstrap::default(), LEVEL);
        let (above, below) = expected["exact_fraction"].split_once('/').unwrap();
        let exact = above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap();
        assert!((found.value.unwrap() - exact).abs() < 1e-14, "{expected:?} {found:?}");
        let pairable = if expected["dataset"] == "krippendorff2011_C" { 40 } else { 26 };
        let choices = found.definition.choices;
        assert!(
            choices.iter().any(
                |choice| choice.name() == "pairable values" && choice.to_string() == pairable.to_string()
            ),
            "{choices:?}"
        );
    }
}

#[test]
fn half_of_the_peak_flow_differences_are_no_more_than_the_typical_spread() {
    let found = typical_spread(&peak_flow(), LEVEL);
    let spread = found.value.unwrap();
    let within = peak_flow().iter().filter(|(a, b)| (a - b).abs() <= spread).count();
    assert!(within >= 9, "{within} of 17");
    // Source: table of order statistics for the median, n = 17, 95 %: fifth smallest to fifth largest (Hollander and
    // Wolfe, Nonparametric Statistical Methods; from memory).
    let mut sizes: Vec<f64> = peak_flow().iter().map(|(a, b)| (a - b).abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let interval = found.interval.unwrap();
    assert_eq!((interval.low, interval.high), (sizes[4], sizes[12]));
}

#[test]
fn adding_a_constant_to_one_assessor_moves_the_bias_by_it_and_nothing_else() {
    let pairs = peak_flow();
    let moved: Vec<(f64, f64)> = pairs.iter().map(|(a, b)| (a + 12.0, *b)).collect();
    let (before, after) = (
        limits_of_agreement(&pairs, Scale::Difference, 2.0, LEVEL),
        limits_of_agreement(&moved, Scale::Difference, 2.0, LEVEL),
    );
    assert!((after.bias.value.unwrap() - before.bias.value.unwrap() - 12.0).abs() < 1e-9);
    assert!((after.spread.value.unwrap() - before.spread.value.unwrap()).abs() < 1e-9);
}

#[test]
fn swapping_the_assessors_turns_the_bias_and_the_limits_round() {
    let pairs = peak_flow();
    let swapped: Vec<(f64, f64)> = pairs.iter().map(|(a, b)| (*b, *a)).collect();
    let (one, other) = (
        limits_of_agreement(&pairs, Scale::Difference, 2.0, LEVEL),
        limits_of_agreement(&swapped, Scale::Difference, 2.0, LEVEL),
    );
    assert!((one.bias.value.unwrap() + other.bias.value.unwrap()).abs() < 1e-9);
    assert!((one.lower.value.unwrap() + other.upper.value.unwrap()).abs() < 1e-9);
    let (here, there) = (one.lower.interval.unwrap(), other.upper.interval.unwrap());
    assert!((here.low + there.high).abs() < 1e-6 && (here.high + there.low).abs() < 1e-6);
}

#[test]
fn a_spread_that_grows_with_the_level_is_read_as_ratios_and_an_even_one_as_differences() {
    // A fifth more or less, in an order that has nothing to do with the level.
    let signs = [1.2, 1.0 / 1.2, 1.1, 1.0 / 1.1, 1.0, 1.05, 1.0 / 1.05];
    let growing: Vec<(f64, f64)> =
        (0..60_u32).map(|i| (f64::from(10 + 5 * i) * signs[i as usize % 7], f64::from(10 + 5 * i))).collect();
    assert_eq!(scale_check(&growing, LEVEL).reading, Ok(Reading::Ratio));
    let even: Vec<(f64, f64)> = (0..60_u32)
        .map(|i| (f64::from(10 + 5 * i) + 10.0 * (signs[i as usize % 7] - 1.0), f64::from(10 + 5 * i)))
        .collect();
    assert_eq!(scale_check(&even, LEVEL).reading, Ok(Reading::Difference));
}

#[test]
fn pairs_with_a_zero_have_no_ratio_and_are_counted() {
    let mut pairs = peak_flow();
    pairs.push((0.0, 4.0));
    pairs.push((0.0, 0.0));
    let found = limits_of_agreement(&pairs, Scale::Ratio, 2.0, LEVEL);
    assert_eq!(found.bias.used, 17);
    assert_eq!(found.bias.dropped[0].units, 2);
    assert!(found.bias.definition.choices.iter().any(|choice| choice.name() == "zero rule"));
}

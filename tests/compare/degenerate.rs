//! Data that a formula cannot bear give a reason in words, never a number that is none.

use proptest::prelude::*;
use stipple::compare::statistics::agreement::{
    Cluster, Scale, clustered_mean, concordance, deming, limits_of_agreement, scale_check, typical_spread,
};
use stipple::compare::statistics::category::{
    CrossTable, Weights, fleiss_kappa, kappa, prevalence, same_category,
};
use stipple::compare::statistics::many::{Form, Metric, alpha, intraclass};
use stipple::compare::statistics::repeated::precision;
use stipple::compare::statistics::standing::{
    Load, against_the_others, binomial_limits, funnel, loads_from_median, modified_z, poisson_limits,
    sign_test, signed_rank_test,
};
use stipple::compare::statistics::{Bootstrap, Level, Reason, Statistic};

const LEVEL: Level = Level::NINETY_FIVE;
const QUICK: Bootstrap = Bootstrap { seed: 1, resamples: 40 };

fn of_pairs(pairs: &[(f64, f64)]) -> Vec<Statistic> {
    let mut all = vec![typical_spread(pairs, LEVEL)];
    for scale in [Scale::Difference, Scale::Ratio] {
        let found = limits_of_agreement(pairs, scale, 1.96, LEVEL);
        all.extend([found.bias, found.spread, found.lower, found.upper]);
    }
    let check = scale_check(pairs, LEVEL);
    all.extend([check.difference, check.ratio, check.slope]);
    let found = concordance(pairs, LEVEL);
    all.extend([found.concordance, found.correlation, found.bias_factor]);
    let found = deming(pairs, 1.0, LEVEL);
    all.extend([found.slope, found.intercept]);
    let differences: Vec<f64> = pairs.iter().map(|(a, b)| a - b).collect();
    let cars: Vec<Cluster> =
        differences.chunks(3).map(|car| Cluster { sum: car.iter().sum(), units: car.len() }).collect();
    all.push(clustered_mean("bias", "mean of the differences", &cars, LEVEL));
    all.extend([signed_rank_test(&differences, LEVEL), sign_test(&differences, LEVEL)]);
    all
}

fn of_units(units: &[Vec<Option<u32>>], assessors: usize) -> Vec<Statistic> {
    let values: Vec<Vec<Option<f64>>> =
        units.iter().map(|unit| unit.iter().map(|value| value.map(f64::from)).collect()).collect();
    let mut all = intraclass(&values, assessors, LEVEL).forms.to_vec();
    all.extend(Metric::ALL.map(|metric| alpha(&values, metric, QUICK, LEVEL)));
    let found = funnel(&loads_from_median(units, assessors));
    all.extend([found.dispersion, found.between]);
    all.extend(found.people.into_iter().map(|place| place.z));
    all.extend(against_the_others(units, assessors, LEVEL).into_iter().map(|place| place.difference));
    let repeats: Vec<Vec<Vec<f64>>> =
        values.iter().map(|unit| vec![unit.iter().flatten().copied().collect(), Vec::new()]).collect();
    let found = precision(&repeats, 1.96, QUICK, LEVEL);
    all.extend([
        found.repeatability,
        found.repeatability_limit,
        found.reproducibility,
        found.reproducibility_limit,
    ]);
    all
}

fn of_table(table: &CrossTable) -> Vec<Statistic> {
    let mut all =
        [Weights::Plain, Weights::Linear, Weights::Quadratic].map(|w| kappa(table, w, LEVEL)).to_vec();
    let found = prevalence(table, LEVEL);
    all.extend([found.share, found.bias_index, found.adjusted, same_category(table, LEVEL)]);
    all.extend(found.prevalence_index);
    all
}

/// Numbers are finite, intervals in order, chances between 0 and 1, and a missing number has a sentence.
fn assert_readable(statistics: Vec<Statistic>) {
    for statistic in statistics {
        if let Err(reason) = statistic.value {
            assert!(!reason.to_string().is_empty());
            assert!(statistic.interval.is_err() && statistic.test.is_none(), "{statistic:?}");
        }
        for interval in statistic.interval.iter().chain(&statistic.also) {
            assert!(interval.low.is_finite() && interval.high.is_finite(), "{statistic:?}");
            assert!(interval.low <= interval.high, "{statistic:?}");
        }
        assert!(statistic.value.is_err() || statistic.value.is_ok_and(f64::is_finite), "{statistic:?}");
        assert!(statistic.test.is_none_or(|test| (0.0..=1.0).contains(&test.p)), "{statistic:?}");
    }
}

#[test]
fn nothing_one_pair_and_no_spread_give_reasons() {
    let cases: [&[(f64, f64)]; 9] = [
        &[],
        &[(3.0, 4.0)],
        &[(0.0, 0.0)],
        &[(3.0, 4.0), (5.0, 6.0)],
        &[(7.0, 7.0); 12],
        &[(7.0, 9.0); 12],
        &[(0.0, 5.0), (0.0, 6.0), (0.0, 9.0)],
        &[(1e300, -1e300), (1e308, 1e308), (-1e308, 1.0)],
        &[(0.1, 0.3), (0.2, 0.4), (0.3, 0.5), (0.7, 0.9)],
    ];
    for pairs in cases {
        assert_readable(of_pairs(pairs));
    }
    let bias = |pairs: &[(f64, f64)]| limits_of_agreement(pairs, Scale::Difference, 1.96, LEVEL).bias;
    assert_eq!(bias(&[]).value, Err(Reason::NoData));
    assert_eq!(bias(&[(3.0, 4.0)]).value, Ok(-1.0));
    assert_eq!(bias(&[(7.0, 9.0); 12]).interval, Err(Reason::NoSpread));
    assert_eq!(concordance(&[(7.0, 7.0); 12], LEVEL).concordance.value, Err(Reason::NoSpread));
    let equal: Vec<(f64, f64)> = (0..12_u32).map(|i| (f64::from(i), f64::from(i))).collect();
    assert_eq!(concordance(&equal, LEVEL).concordance.value, Ok(1.0));
    assert_eq!(concordance(&equal, LEVEL).concordance.interval, Err(Reason::FullAgreement));
    assert_eq!(deming(&equal, 1.0, LEVEL).slope.value, Ok(1.0));
}

#[test]
fn a_sheet_beside_itself_agrees_in_full_and_shows_no_width() {
    let units: Vec<Vec<Option<u32>>> = (0..12).map(|i| vec![Some(i), Some(i), Some(i)]).collect();
    let values: Vec<Vec<Option<f64>>> =
        units.iter().map(|unit| unit.iter().map(|value| value.map(f64::from)).collect()).collect();
    for form in Form::ALL {
        let found = intraclass(&values, 3, LEVEL);
        assert_eq!(found.form(form).value, Ok(1.0));
        assert_eq!(found.form(form).interval, Err(Reason::FullAgreement));
    }
    for metric in Metric::ALL {
        let found = alpha(&values, metric, QUICK, LEVEL);
        assert_eq!((found.value, found.interval), (Ok(1.0), Err(Reason::FullAgreement)));
    }
    let mut table = CrossTable::new(3);
    (0..3).for_each(|i| table.add(i, i, 5));
    let found = kappa(&table, Weights::Linear, LEVEL);
    assert_eq!((found.value, found.interval), (Ok(1.0), Err(Reason::FullAgreement)));
    assert_readable(of_units(&units, 3));
}

#[test]
fn a_third_identical_assessor_changes_no_pair_and_missing_ones_are_counted() {
    let two: Vec<Vec<Option<f64>>> =
        [3.0, 8.0, 1.0, 9.0].iter().zip([4.0, 6.0, 2.0, 9.0]).map(|(a, b)| vec![Some(*a), Some(b)]).collect();
    let three: Vec<Vec<Option<f64>>> = two.iter().map(|unit| vec![unit[0], unit[1], None]).collect();
    let value = |units: &[Vec<Option<f64>>]| alpha(units, Metric::Interval, QUICK, LEVEL).value;
    assert_eq!(value(&two), value(&three));
    assert_eq!(intraclass(&three, 3, LEVEL).forms[0].value, Err(Reason::NoData));
    assert_eq!(intraclass(&three, 3, LEVEL).forms[0].dropped[0].units, 4);
}

#[test]
fn tables_that_are_empty_or_hold_one_category_give_reasons() {
    for categories in 0..4 {
        let mut table = CrossTable::new(categories);
        assert_readable(of_table(&table));
        assert_eq!(kappa(&table, Weights::Plain, LEVEL).value, Err(Reason::NoData));
        table.add(0, 0, 9);
        table.add(9, 9, 9);
        assert_readable(of_table(&table));
    }
    let mut table = CrossTable::new(2);
    table.add(1, 1, 30);
    assert_eq!(kappa(&table, Weights::Plain, LEVEL).value, Err(Reason::OneCategory));
    assert!(prevalence(&table, LEVEL).warns);
    let found = fleiss_kappa(&[vec![3, 0], vec![3, 0]], 2, 3, QUICK, LEVEL);
    assert_eq!(found.overall.value, Err(Reason::OneCategory));
    assert_readable(found.categories);
    assert_readable(fleiss_kappa(&[vec![1, 0]], 2, 1, QUICK, LEVEL).categories);
    assert_eq!(fleiss_kappa(&[] as &[Vec<u32>], 2, 3, QUICK, LEVEL).overall.value, Err(Reason::NoData));
}

#[test]
fn limits_for_impossible_expectations_give_reasons() {
    assert!(poisson_limits(f64::NAN, LEVEL).is_err() && poisson_limits(-1.0, LEVEL).is_err());
    assert!(binomial_limits(0.5, 0, LEVEL).is_err() && binomial_limits(1.5, 9, LEVEL).is_err());
    assert_eq!(poisson_limits(0.0, LEVEL).map(|limits| (limits.low, limits.high)).unwrap().0, 0.0);
    assert!(Level::new(0.0).is_none() && Level::new(1.0).is_none() && Level::new(f64::NAN).is_none());
    assert_eq!(modified_z(&[]).scores, Err(Reason::NoData));
    assert_eq!(modified_z(&[4.0; 5]).scores, Err(Reason::NoSpread));
    assert_eq!(modified_z(&[f64::NAN, 1.0, 2.0, 4.0, f64::INFINITY]).scores, Err(Reason::OutOfRange));
    let nothing_expected = vec![Load { observed: 3, expected: 0.0, units: 20 }; 9];
    assert_readable(funnel(&nothing_expected).people.into_iter().map(|place| place.z).collect());
}

#[test]
fn too_many_or_too_few_units_are_not_drawn_again() {
    let units = |n: u32| -> Vec<Vec<Option<f64>>> {
        (0..n).map(|i| vec![Some(f64::from(i % 7)), Some(f64::from(i % 5))]).collect()
    };
    let interval = |n| alpha(&units(n), Metric::Interval, Bootstrap::default(), LEVEL).interval;
    assert_eq!(interval(9), Err(Reason::TooFew { needed: 10 }));
    assert!(interval(10).is_ok());
    assert_eq!(interval(50_001), Err(Reason::TooManyToRepeat));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn whatever_is_counted_every_number_is_readable(
        pairs in prop::collection::vec((0_u32..6, 0_u32..6), 0..14),
        units in prop::collection::vec(prop::collection::vec(prop::option::of(0_u32..5), 3), 0..14),
    ) {
        let pairs: Vec<(f64, f64)> = pairs.into_iter().map(|(a, b)| (f64::from(a), f64::from(b))).collect();
        assert_readable(of_pairs(&pairs));
        let mut table = CrossTable::new(3);
        for unit in &units {
            if let [Some(a), Some(b), _] = unit.as_slice() {
                table.add(*a as usize, *b as usize, 1);
            }
        }
        assert_readable(of_table(&table));
        assert_readable(of_units(&units, 3));
    }

    #[test]
    fn whatever_is_written_as_a_number_every_number_is_readable(
        pairs in prop::collection::vec((any::<f64>(), any::<f64>()), 0..8),
    ) {
        assert_readable(of_pairs(&pairs));
    }
}

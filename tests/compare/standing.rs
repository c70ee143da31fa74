use crate::published::{assert_printed, number, rows, value, whole};
use stipple::compare::statistics::Level;
use stipple::compare::statistics::standing::{
    Load, OUTLYING, SpreadBy, Verdict, adjusted_for_discovery, against_the_others, binomial_limits, funnel,
    loads_from_median, modified_z, normal_limits, poisson_limits, sign_test, signed_rank_test,
};

const LEVEL: Level = Level::NINETY_FIVE;
const OUTER: Level = Level::NINETY_NINE_POINT_EIGHT;

fn loads(observed: &[u64], expected: f64) -> Vec<Load> {
    observed.iter().map(|observed| Load { observed: *observed, expected, units: 20 }).collect()
}

// Source: von Bortkiewicz 1898 (14 corps over 20 years), limits after Spiegelhalter 2005, recomputed.
#[test]
fn the_funnel_of_fourteen_corps_is_as_recomputed() {
    let corps = rows("funnel_prussian_corps");
    let expected = rows("outlier_expected");
    let expected = |quantity| value(&expected, "prussian_14_corps_20_years", quantity);
    let observed: Vec<u64> = corps.iter().map(|row| whole(row, "observed")).collect();
    let found = funnel(&loads(&observed, 14.0));
    assert_printed(found.dispersion.value.unwrap(), expected("phi_unwinsorised"), "phi");
    assert_printed(
        found.between.value.unwrap().powi(2),
        expected("tau2_DerSimonian_Laird_ratio_scale"),
        "variance between",
    );
    let inner = poisson_limits(14.0, LEVEL).unwrap();
    let outer = poisson_limits(14.0, OUTER).unwrap();
    assert_printed(inner.low, expected("funnel_lower_95_count"), "lower 95");
    assert_printed(inner.high, expected("funnel_upper_95_count"), "upper 95");
    assert_printed(outer.low, expected("funnel_lower_99.8_count"), "lower 99.8");
    assert_printed(outer.high, expected("funnel_upper_99.8_count"), "upper 99.8");
    for (row, place) in corps.iter().zip(&found.people) {
        let unadjusted = place.z.value.unwrap() * found.dispersion.value.unwrap().sqrt();
        assert_printed(unadjusted, number(row, "z_pearson"), &row["corps"]);
        let chance = number(row, "exact_two_sided_poisson_p_min(1,2*min_tail)");
        assert_printed(place.poisson_chance.unwrap(), chance, &row["corps"]);
        let counted = number(row, "observed");
        assert_eq!(counted < inner.low || counted > inner.high, row["outside_95"] == "1", "{}", row["corps"]);
        assert_eq!(
            counted < outer.low || counted > outer.high,
            row["outside_99.8"] == "1",
            "{}",
            row["corps"]
        );
    }
    assert_eq!(found.verdict, Verdict::Told);
    assert!(found.people.iter().all(|place| !place.stands_out()));
}

// Source: limits after Spiegelhalter 2005 for shares and for ratios, recomputed with SciPy.
#[test]
fn funnel_limits_for_shares_and_counts_are_as_recomputed() {
    for row in rows("funnel_limits") {
        let (target, units) = (number(&row, "target"), number(&row, "denominator"));
        let (inner, outer, normal) = if row["kind"] == "proportion" {
            let of = |level| binomial_limits(target, whole(&row, "denominator"), level).unwrap();
            // A share of n units has the variance of a Poisson count of p (1 − p) / n.
            let reach = normal_limits(target * (1.0 - target) / units, 1.0, LEVEL).unwrap();
            let centre = target - target * (1.0 - target) / units;
            (of(LEVEL), of(OUTER), (reach.low + centre, reach.high + centre))
        } else {
            let of = |level| {
                let mut limits = poisson_limits(units, level).unwrap();
                (limits.low, limits.high) = (limits.low / units, limits.high / units);
                limits
            };
            let normal = normal_limits(units, 1.0, LEVEL).unwrap();
            (of(LEVEL), of(OUTER), (normal.low / units, normal.high / units))
        };
        assert_printed(inner.low, number(&row, "lower_95"), "lower 95");
        assert_printed(inner.high, number(&row, "upper_95"), "upper 95");
        assert_printed(outer.low, number(&row, "lower_99.8"), "lower 99.8");
        assert_printed(outer.high, number(&row, "upper_99.8"), "upper 99.8");
        assert_printed(normal.0, number(&row, "normal_lower_95"), "normal lower");
        assert_printed(normal.1, number(&row, "normal_upper_95"), "normal upper");
    }
}

#[test]
fn with_three_people_no_difference_is_large_enough_to_be_told() {
    // One counts a hundred times as many as the other two.
    let found = funnel(&loads(&[10_000, 100, 100], 100.0));
    let z = found.people[0].z.value.unwrap();
    assert!(z <= 3.0_f64.sqrt() + 1e-12 && z > 1.7, "{z}");
    assert!(matches!(found.verdict, Verdict::OutOfReach { people: 3, .. }), "{:?}", found.verdict);
    assert!(found.people.iter().all(|place| !place.stands_out() && place.adjusted.is_none()));
}

#[test]
fn below_eight_people_nobody_can_be_told_and_below_nine_at_equal_loads() {
    for people in 3..=12 {
        // Expectations that do not add up to what was counted: the bound is the root of the number of people.
        let mut observed = vec![100; people];
        observed[0] = 100_000;
        let found = funnel(&loads(&observed, 100.0));
        assert_eq!(found.verdict == Verdict::Told, people >= 8, "{people}");
        assert_eq!(found.people[0].stands_out(), people >= 8, "{people}");
        // Equal shares of what was counted: the bound is the root of one less.
        let total: u64 = observed.iter().sum();
        let equal = total as f64 / people as f64;
        let found = funnel(&loads(&observed, equal));
        assert_eq!(found.verdict == Verdict::Told, people >= 9, "{people}");
        assert_eq!(found.people[0].stands_out(), people >= 9, "{people}");
    }
}

#[test]
fn with_two_people_only_the_pair_is_named_and_with_few_units_nobody() {
    assert_eq!(funnel(&loads(&[10, 1000], 100.0)).verdict, Verdict::OnlyThePair);
    let few: Vec<Load> = (0..12).map(|i| Load { observed: 10 + i, expected: 10.0, units: 9 }).collect();
    let found = funnel(&few);
    assert_eq!(found.verdict, Verdict::TooFewUnits);
    assert!(found.people.iter().all(|place| place.z.value.is_err()));
    assert_eq!(funnel(&[]).verdict, Verdict::OnlyThePair);
}

#[test]
fn an_expectation_from_the_median_of_the_others_leaves_all_but_the_odd_one_in_place() {
    // Five people count twelve cars alike but for the last, who counts half as many again.
    let units: Vec<Vec<Option<u32>>> = (0..12)
        .map(|car| vec![40 + 10 * car, 40 + 10 * car, 40 + 10 * car, 40 + 10 * car, 60 + 15 * car])
        .map(|unit| unit.into_iter().map(Some).collect())
        .collect();
    let loads = loads_from_median(&units, 5);
    for load in &loads[..4] {
        assert!((load.ratio().unwrap() - 1.0).abs() < 1e-12);
    }
    assert!((loads[4].ratio().unwrap() - 1.5).abs() < 1e-12);
}

#[test]
fn a_paired_test_finds_the_one_whom_the_funnel_over_the_same_cars_misses() {
    // Twenty cars, four people; the last counts two or three more on each, far less than cars differ.
    let units: Vec<Vec<Option<u32>>> = (0..20_u32)
        .map(|car| {
            let dents = 30 + (car * 37) % 160;
            [dents, dents + car % 3, dents + (car + 1) % 3, dents + 4 + car % 2].map(Some).to_vec()
        })
        .collect();
    let found = against_the_others(&units, 4, LEVEL);
    assert!(found[3].stands_out() && found[3].adjusted.unwrap() < 0.001, "{:?}", found[3]);
    assert!(found[3].enough);
    let missed = funnel(&loads_from_median(&units, 4));
    assert!(missed.people.iter().all(|place| !place.stands_out()));
    assert!(missed.people[3].poisson_chance.unwrap() > 0.05);
}

#[test]
fn a_few_cars_cannot_tell_a_person_however_one_sided_they_are() {
    let units = |cars: u32| -> Vec<Vec<Option<u32>>> {
        (0..cars).map(|car| [20 + car, 20 + car, 20 + car, 90 + car].map(Some).to_vec()).collect()
    };
    // Four people: 2 to the power (1 - n) must be within 0.05 / 4, so eight cars are needed.
    assert!(!against_the_others(&units(7), 4, LEVEL)[3].enough);
    let eight = against_the_others(&units(8), 4, LEVEL);
    assert!(eight[3].enough && eight[3].stands_out());
    assert!(!eight[0].enough && !eight[0].stands_out());
}

// Source: Wilcoxon's exact distribution: all of n differences above zero has chance 2 / 2^n.
#[test]
fn the_signed_rank_and_sign_tests_are_exact_for_few_differences() {
    let chance = |differences: &[f64]| signed_rank_test(differences, LEVEL).test.unwrap().p;
    assert!((chance(&[1.0, 2.0, 3.0, 4.0, 5.0, 6.0]) - 2.0 / 64.0).abs() < 1e-15);
    // Ties: ranks 2 2 2 4 5 with the first below zero; sums 2 or less: {} and three times {2}: 2 x 4 / 32.
    assert!((chance(&[-1.0, 1.0, 1.0, 2.0, 3.0]) - 8.0 / 32.0).abs() < 1e-15);
    let signs = sign_test(&[1.0, 2.0, 3.0, -1.0, 0.0], LEVEL).test.unwrap().p;
    assert!((signs - 2.0 * 5.0 / 16.0).abs() < 1e-14);
}

// Source: Benjamini and Hochberg 1995, fifteen chances.
#[test]
fn chances_are_adjusted_as_benjamini_and_hochberg_do() {
    let table = rows("benjamini_hochberg");
    // Not in rising order: the result follows the order given.
    let order: Vec<usize> = (0..table.len()).map(|i| i * 7 % table.len()).collect();
    let chances: Vec<f64> = order.iter().map(|i| number(&table[*i], "p")).collect();
    let adjusted = adjusted_for_discovery(&chances);
    for (i, found) in order.iter().zip(&adjusted) {
        assert_printed(*found, number(&table[*i], "bh_adjusted"), &table[*i]["i"]);
        assert_eq!(*found <= 0.05, table[*i]["bh_reject_0.05"] == "1");
    }
    assert!(adjusted_for_discovery(&[]).is_empty());
}

// Sources: NIST/SEMATECH e-Handbook 1.3.5.17; Rosner 1983; Iglewicz and Hoaglin 1993.
#[test]
fn modified_z_scores_of_published_sets_are_as_published() {
    for (name, outlying) in [("modified_z_nist_uranium8", 1), ("modified_z_rosner54", 3)] {
        let table = rows(name);
        let values: Vec<f64> = table.iter().map(|row| number(row, "value")).collect();
        let found = modified_z(&values);
        assert_eq!(found.by, SpreadBy::MedianDeviation);
        let scores = found.scores.unwrap();
        for (row, score) in table.iter().zip(&scores) {
            assert_printed(*score, number(row, "modified_z"), name);
        }
        assert_eq!(scores.iter().filter(|score| score.abs() > OUTLYING).count(), outlying, "{name}");
    }
}

// Source: Iglewicz and Hoaglin 1993: the mean absolute deviation where the median one is zero; worked by hand.
#[test]
fn when_most_values_are_equal_the_mean_deviation_takes_over() {
    let found = modified_z(&[5.0, 5.0, 5.0, 5.0, 15.0]);
    assert_eq!(found.by, SpreadBy::MeanDeviation);
    assert!((found.scores.unwrap()[4] - 10.0 / (1.253_314 * 2.0)).abs() < 1e-12);
}

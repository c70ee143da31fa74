use crate::published::{assert_printed, number, rows, value, whole};
use stipple::compare::statistics::category::{CrossTable, Weights, fleiss_kappa, kappa, prevalence};
use stipple::compare::statistics::{Bootstrap, Level};

const LEVEL: Level = Level::NINETY_FIVE;

fn table(case: &str, categories: usize) -> CrossTable {
    let mut table = CrossTable::new(categories);
    for row in rows("kappa_tables").iter().filter(|row| row["case"] == case) {
        let place = |column| usize::try_from(whole(row, column)).unwrap() - 1;
        table.add(place("row"), place("col"), whole(row, "count"));
    }
    table
}

// Sources: Cohen 1960; Fleiss, Cohen and Everitt 1969; Stuart 1953; standard errors as statsmodels gives them.
#[test]
fn kappa_of_published_tables_has_the_published_value_and_error() {
    for expected in rows("kappa") {
        let (case, weights) = expected["case"].rsplit_once('_').unwrap();
        let weights = match weights {
            "linear" => Weights::Linear,
            "quadratic" => Weights::Quadratic,
            _ => Weights::Plain,
        };
        let found = kappa(&table(case, if case.starts_with("stuart") { 4 } else { 3 }), weights, LEVEL);
        assert_printed(found.value.unwrap(), number(&expected, "kappa"), case);
        assert_eq!(found.used as u64, whole(&expected, "N"));
        let interval = found.interval.unwrap();
        let error = (interval.high - interval.low) / 2.0 / 1.959_963_984_540_054;
        assert_printed(error, number(&expected, "se_asymptotic"), case);
    }
}

// Source: Fleiss 1971, and a textbook table of 14 raters.
#[test]
fn fleiss_kappa_is_as_published_over_all_and_by_category() {
    let expected = rows("agreement_expected");
    let names = ["depression", "personality_disorder", "schizophrenia", "neurosis", "other"];
    let units: Vec<Vec<u32>> = rows("fleiss1971_counts")
        .iter()
        .map(|row| names.iter().map(|name| u32::try_from(whole(row, name)).unwrap()).collect())
        .collect();
    let found = fleiss_kappa(&units, 5, 6, Bootstrap::default(), LEVEL);
    let overall = found.overall.value.unwrap();
    assert_printed(overall, value(&expected, "fleiss1971", "kappa"), "overall");
    for (name, statistic) in names.iter().zip(&found.categories) {
        let published = value(&expected, "fleiss1971", &format!("kappa_{name}"));
        assert_printed(statistic.value.unwrap(), published, name);
    }
    let interval = found.overall.interval.unwrap();
    assert!(interval.low < overall && overall < interval.high);
    // z is 17.65 there.
    assert!(found.overall.test.unwrap().p < 1e-60);

    let textbook = [
        [0, 0, 0, 0, 14],
        [0, 2, 6, 4, 2],
        [0, 0, 3, 5, 6],
        [0, 3, 9, 2, 0],
        [2, 2, 8, 1, 1],
        [7, 7, 0, 0, 0],
        [3, 2, 6, 3, 0],
        [2, 5, 3, 2, 2],
        [6, 5, 2, 1, 0],
        [0, 2, 2, 3, 7],
    ];
    let units: Vec<Vec<u32>> = textbook.iter().map(|row| row.to_vec()).collect();
    let found = fleiss_kappa(&units, 5, 14, Bootstrap::default(), LEVEL);
    let published = value(&expected, "fleiss_14_raters_10_subjects", "kappa");
    assert_printed(found.overall.value.unwrap(), published, "textbook");
}

// Source: Byrt, Bishop and Carlin 1993, definitions; worked by hand.
#[test]
fn nearly_everything_in_one_category_brings_the_warning() {
    let mut lopsided = CrossTable::new(2);
    for (first, second, units) in [(0, 0, 92), (0, 1, 3), (1, 0, 4), (1, 1, 1)] {
        lopsided.add(first, second, units);
    }
    let found = prevalence(&lopsided, LEVEL);
    assert!(found.warns);
    assert_eq!(found.commonest, Some(0));
    assert!((found.share.value.unwrap() - 0.955).abs() < 1e-12);
    assert!((found.prevalence_index.unwrap().value.unwrap() - 0.91).abs() < 1e-12);
    assert!((found.bias_index.value.unwrap() - 0.01).abs() < 1e-12);
    assert!((found.adjusted.value.unwrap() - 0.86).abs() < 1e-12);
    assert!(kappa(&lopsided, Weights::Plain, LEVEL).value.unwrap() < 0.3);
    assert!(!prevalence(&table("stuart1953_vision", 4), LEVEL).warns);
}

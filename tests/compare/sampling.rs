use crate::published::{assert_printed, number, rows, whole};
use stipple::compare::sampling::{
    Chance, CodeLetter, History, InspectionLevel, QualityLevel, Severity, Size, Standing, accepted,
    code_letter, draw, plan, plan_for_lot, says, scheme_accepted, share_accepted_with, size_to_find,
};
use stipple::compare::statistics::Level;

// Source: MIL-STD-105E (1989, public domain), Table I.
#[test]
fn every_code_letter_of_table_i_is_found_at_both_ends_of_its_row() {
    for row in rows("mil_std_105e_letters") {
        for level in InspectionLevel::ALL {
            let letter = row[level.name()].chars().next().unwrap();
            let last = row["lot_to"].parse().unwrap_or(u64::MAX);
            for lot in [whole(&row, "lot_from"), last] {
                assert_eq!(code_letter(lot, level).unwrap().letter(), letter, "{lot} {level:?}");
            }
        }
    }
    assert_eq!(code_letter(1, InspectionLevel::Two), None);
    assert_eq!(code_letter(0, InspectionLevel::Two), None);
}

// Source: MIL-STD-105E, Tables II-A and II-B, checked against R package AQLSchemes.
#[test]
fn every_cell_of_the_normal_and_tightened_tables_leads_to_its_plan() {
    for (table, severity) in [
        ("mil_std_105e_normal_single", Severity::Normal),
        ("mil_std_105e_tightened_single", Severity::Tightened),
    ] {
        let table = rows(table);
        assert_eq!(table.len(), 112);
        for row in &table {
            let letter = CodeLetter::find(row["code_letter"].chars().next().unwrap()).unwrap();
            let quality = *QualityLevel::ALL.iter().find(|quality| quality.name() == row["aql"]).unwrap();
            let found = plan(letter, quality, severity).unwrap();
            assert_eq!(letter.size(), whole(row, "table_n"));
            assert_eq!(found.letter.letter().to_string(), row["effective_letter"], "{row:?}");
            assert_eq!(
                (found.sample, found.accept, found.reject),
                (whole(row, "effective_n"), whole(row, "Ac"), whole(row, "Re")),
                "{row:?}"
            );
        }
    }
}

// Source: worked look-ups after MIL-STD-105E; the last also in the vignette of R package AQLSchemes.
#[test]
fn lots_get_the_plans_of_the_worked_look_ups() {
    let two = InspectionLevel::Two;
    let plan = |lot, quality, severity| match plan_for_lot(lot, two, quality, severity) {
        Some(Size::Sample(plan)) => (plan.sample, plan.accept),
        other => panic!("{other:?}"),
    };
    assert_eq!(plan(1000, QualityLevel::P2_5, Severity::Normal), (80, 5));
    assert_eq!(plan(40, QualityLevel::P1_0, Severity::Normal), (13, 0));
    assert_eq!(plan(120, QualityLevel::P1_0, Severity::Normal), (13, 0));
    assert_eq!(plan(200, QualityLevel::P1_0, Severity::Normal), (50, 1));
    assert_eq!(plan(5000, QualityLevel::P1_5, Severity::Normal), (200, 7));
    assert_eq!(plan(5000, QualityLevel::P1_5, Severity::Tightened), (200, 5));
    for lot in [1, 2, 13] {
        let found = plan_for_lot(lot, two, QualityLevel::P1_0, Severity::Normal);
        assert_eq!(found, Some(Size::Everything), "{lot}");
    }
    assert_eq!(plan_for_lot(0, two, QualityLevel::P1_0, Severity::Normal), None);
}

/// `A` accepted, `R` not; how the lot after each is inspected: n, t or s for stopped.
fn standings(outcomes: &str) -> String {
    let mut history = History::default();
    outcomes
        .chars()
        .map(|outcome| {
            history.take(outcome == 'A');
            match history.standing() {
                Standing::Sampled(Severity::Normal) => 'n',
                Standing::Sampled(Severity::Tightened) => 't',
                Standing::Stopped => 's',
            }
        })
        .collect()
}

// Source: MIL-STD-105E switching rules, sequences worked by hand.
#[test]
fn inspection_is_tightened_relaxed_and_stopped_by_the_rules() {
    assert_eq!(standings("AARAR" /* tightened from lot 6 */), "nnnnt");
    assert_eq!(standings("AARARAAAAA" /* normal from lot 11 */), "nnnnttttt".to_owned() + "n");
    // Lots 1 and 6 are not within five in a row.
    assert_eq!(standings("RAAAAR"), "nnnnnn");
    assert_eq!(standings("RAAAR"), "nnnnt");
    // Lots before a change are not looked back on.
    assert_eq!(standings("RRAAAAAR"), "nttttt".to_owned() + "nn");
    assert_eq!(standings("RRRARARARRA"), "ntttttttts".to_owned() + "s");
}

// Source: binomial and Poisson points recomputed with SciPy.
#[test]
fn operating_characteristics_are_as_recomputed() {
    for row in rows("oc_points") {
        let (sample, accept, off) = (whole(&row, "n"), whole(&row, "Ac"), number(&row, "p_fraction"));
        let binomial = accepted(sample, accept, Chance::LongRun { off }).unwrap();
        let poisson = accepted(sample, accept, Chance::PerHundred { off: off * 100.0 }).unwrap();
        assert_printed(binomial, number(&row, "Pa_binomial"), "binomial");
        assert_printed(poisson, number(&row, "Pa_poisson"), "Poisson");
    }
    for row in rows("oc_percentiles_J") {
        let chance = number(&row, "Pa_percent") / 100.0;
        let found = share_accepted_with(chance, whole(&row, "n"), whole(&row, "Ac")).unwrap();
        assert_printed(found * 100.0, number(&row, "p_percent_binomial"), "percentile");
    }
}

// Source: Stephens and Larson 1967, recomputed; R package AQLSchemes reads 0.0193 and 0.0459 off a grid.
#[test]
fn the_scheme_with_switching_accepts_as_recomputed() {
    let both = |off| {
        (
            accepted(200, 7, Chance::LongRun { off }).unwrap(),
            accepted(200, 5, Chance::LongRun { off }).unwrap(),
        )
    };
    for row in rows("oc_scheme_L_aql1.5") {
        if row["quantity"] == "Pa" {
            let (normal, tightened) = both(number(&row, "p"));
            let found = match row["plan"].as_str() {
                "L n=200 normal c=7" => normal,
                "L n=200 tightened c=5" => tightened,
                _ => scheme_accepted(normal, tightened),
            };
            assert_printed(found, number(&row, "value"), &row["plan"]);
        } else {
            let (normal, tightened) = both(number(&row, "value"));
            let chance: f64 = row["quantity"].trim_start_matches("p at Pa=").parse().unwrap();
            assert!((scheme_accepted(normal, tightened) - chance).abs() < 2e-5, "{row:?}");
        }
    }
    assert!((scheme_accepted(1.0, 1.0) - 1.0).abs() < 1e-15);
    assert!(scheme_accepted(0.0, 0.0).abs() < 1e-15);
}

// Source: recomputed with SciPy; the last row by hand, 8568 / 15504.
#[test]
fn finite_lots_are_accepted_by_the_hypergeometric_distribution() {
    for row in rows("hypergeometric") {
        let (units, off) = (whole(&row, "N"), whole(&row, "D"));
        let (sample, accept) = (whole(&row, "n"), whole(&row, "c"));
        let found = accepted(sample, accept, Chance::Lot { units, off }).unwrap();
        assert_printed(found, number(&row, "P_accept_hypergeometric"), "hypergeometric");
    }
    assert_eq!(accepted(10, 0, Chance::Lot { units: 9, off: 1 }), None);
    assert_eq!(accepted(10, 0, Chance::LongRun { off: 1.5 }), None);
}

#[test]
fn the_size_that_finds_one_off_is_as_recomputed() {
    for row in rows("zero_accept_sample_size") {
        let found = size_to_find(whole(&row, "N"), whole(&row, "D"), number(&row, "confidence"));
        assert_eq!(found, Some(whole(&row, "min_n")), "{row:?}");
    }
    assert_eq!(size_to_find(100, 0, 0.95), None);
}

#[test]
fn a_sample_bounds_the_batch_and_a_full_count_settles_it() {
    let found = says(20, 5, 0, Level::NINETY_FIVE).unwrap();
    // By hand: with 9 off of 20, none in 5 has chance C(11,5) / C(20,5) = 462 / 15504 = 0.0298; with 10, 252 / 15504.
    assert_eq!((found.at_least, found.at_most), (0, 9));
    let all = says(20, 20, 3, Level::NINETY_FIVE).unwrap();
    assert_eq!((all.at_least, all.at_most), (3, 3));
    let nothing = says(20, 0, 0, Level::NINETY_FIVE).unwrap();
    assert_eq!((nothing.at_least, nothing.at_most, nothing.share()), (0, 20, None));
    assert_eq!(says(20, 21, 0, Level::NINETY_FIVE), None);
    assert_eq!(says(20, 5, 6, Level::NINETY_FIVE), None);
}

// Digests as any SHA-256 program prints them: of "storm 7", a line feed, and the key.
#[test]
fn a_drawing_depends_on_seed_and_keys_alone() {
    let keys = ["C-1", "C-2", "C-3", "C-4", "C-5"];
    let drawn: Vec<&str> = draw("storm 7", &keys, 3).into_iter().map(|index| keys[index]).collect();
    let turned = ["C-5", "C-4", "C-3", "C-2", "C-1", "C-3"];
    let again: Vec<&str> = draw("storm 7", &turned, 3).into_iter().map(|index| turned[index]).collect();
    assert_eq!(drawn, again);
    assert_eq!(drawn, ["C-2", "C-1", "C-4"]);
    assert_ne!(draw("storm 8", &keys, 5), draw("storm 7", &keys, 5));
    assert_eq!(draw("storm 7", &turned, 9).len(), 5);
    assert!(draw("storm 7", &[], 9).is_empty());
}

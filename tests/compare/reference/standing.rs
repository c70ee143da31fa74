use super::{Values, list, number, whole};
use serde_json::Value;
use stipple::compare::sampling::{Chance, accepted, says, share_accepted_with, size_to_find};
use stipple::compare::statistics::Level;
use stipple::compare::statistics::standing::{
    Load, adjusted_for_discovery, funnel, modified_z, sign_test, signed_rank_test,
};

const LEVEL: Level = Level::NINETY_FIVE;

pub fn paired(input: &Value) -> Values {
    let differences: Vec<f64> = list(input, "differences");
    Values::from([
        ("signed_rank_p".to_owned(), signed_rank_test(&differences, LEVEL).test.map(|test| test.p)),
        ("sign_p".to_owned(), sign_test(&differences, LEVEL).test.map(|test| test.p)),
    ])
}

pub fn discovery(input: &Value) -> Values {
    let chances: Vec<f64> = list(input, "chances");
    let adjusted = adjusted_for_discovery(&chances);
    adjusted.into_iter().enumerate().map(|(index, value)| (index.to_string(), Some(value))).collect()
}

pub fn outlier(input: &Value) -> Values {
    let given: Vec<f64> = list(input, "values");
    let scores = modified_z(&given).scores.ok();
    (0..given.len()).map(|i| (i.to_string(), scores.as_ref().map(|scores| scores[i]))).collect()
}

pub fn funnel_(input: &Value) -> Values {
    let observed: Vec<u64> = list(input, "observed");
    let expected: Vec<f64> = list(input, "expected");
    let loads: Vec<Load> = observed
        .into_iter()
        .zip(expected)
        .map(|(observed, expected)| Load { observed, expected, units: 10 })
        .collect();
    let found = funnel(&loads);
    let mut values = Values::from([
        ("phi".to_owned(), found.dispersion.value.ok()),
        ("between".to_owned(), found.between.value.ok()),
    ]);
    for (i, place) in found.people.iter().enumerate() {
        values.insert(format!("z_{i}"), place.z.value.ok());
        values.insert(format!("p_{i}"), place.z.test.map(|test| test.p));
        values.insert(format!("poisson_{i}"), place.poisson_chance);
        values.insert(format!("low_{i}"), place.limits.ok().map(|limits| limits.low));
        values.insert(format!("high_{i}"), place.limits.ok().map(|limits| limits.high));
    }
    values
}

pub fn batch(input: &Value) -> Values {
    let lot = whole(input, "lot");
    let found = says(lot, whole(input, "sample"), whole(input, "off"), LEVEL).unwrap();
    let find = size_to_find(lot, whole(input, "off_in_lot"), 0.95);
    Values::from([
        ("least".to_owned(), Some(found.at_least as f64)),
        ("most".to_owned(), Some(found.at_most as f64)),
        ("find".to_owned(), find.map(|size| size as f64)),
    ])
}

pub fn characteristic(input: &Value) -> Values {
    let (sample, accept, off) = (whole(input, "n"), whole(input, "c"), number(input, "p"));
    let lot = Chance::Lot { units: whole(input, "lot"), off: whole(input, "off") };
    Values::from([
        ("long_run".to_owned(), accepted(sample, accept, Chance::LongRun { off })),
        ("per_hundred".to_owned(), accepted(sample, accept, Chance::PerHundred { off: off * 100.0 })),
        ("lot".to_owned(), accepted(sample, accept, lot)),
        ("share".to_owned(), share_accepted_with(number(input, "chance"), sample, accept)),
    ])
}

//! Random data sets beside the values that general statistics libraries give for them; `reference.py` makes them.

mod agreement;
mod distribution;
mod standing;

use serde_json::Value;
use std::collections::BTreeMap;

/// Values by name; `None` where there is no number.
type Values = BTreeMap<String, Option<f64>>;

/// What this crate gives for a set of some kind.
fn compute(kind: &str, input: &Value) -> Values {
    match kind {
        "distribution" => distribution::distribution(input),
        "limits" => agreement::limits(input),
        "scale" => agreement::scale(input),
        "concordance" => agreement::concordance_(input),
        "deming" => agreement::deming_(input),
        "spread" => agreement::spread(input),
        "clustered" => agreement::clustered(input),
        "icc" => agreement::icc(input),
        "alpha" => agreement::alpha_(input),
        "bootstrap" => agreement::bootstrap(input),
        "precision" => agreement::precision_(input),
        "kappa" => agreement::kappa_(input),
        "fleiss" => agreement::fleiss(input),
        "paired" => standing::paired(input),
        "discovery" => standing::discovery(input),
        "outlier" => standing::outlier(input),
        "funnel" => standing::funnel_(input),
        "batch" => standing::batch(input),
        "characteristic" => standing::characteristic(input),
        other => panic!("no kind {other}"),
    }
}

/// Relative to the expected value for distributions, whose small chances must keep their digits; else relative to the
/// larger of it and one, so that values near zero are held to that many decimals.
fn differ(kind: &str, found: Option<f64>, expected: Option<f64>) -> bool {
    match (found, expected) {
        (Some(found), Some(expected)) if kind == "distribution" => {
            (found - expected).abs() > 1e-10 * expected.abs()
        }
        (Some(found), Some(expected)) => (found - expected).abs() > 2e-8 * expected.abs().max(1.0),
        (found, expected) => found.is_some() != expected.is_some(),
    }
}

/// Runs the committed sets, or those of the file that `STIPPLE_REFERENCE` names.
#[test]
fn random_data_sets_give_what_general_libraries_give() {
    let path = std::env::var("STIPPLE_REFERENCE")
        .unwrap_or_else(|_| format!("{}/tests/compare/reference.jsonl", env!("CARGO_MANIFEST_DIR")));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{path}: {fault}"));
    let mut sets: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let mut wrong = Vec::new();
    for line in text.lines() {
        let set: Value = serde_json::from_str(line).unwrap();
        let kind = set["kind"].as_str().unwrap();
        let found = compute(kind, &set["input"]);
        let (done, numbers) = sets.entry(kind.to_owned()).or_default();
        *done += 1;
        for (name, expected) in set["expected"].as_object().unwrap() {
            *numbers += 1;
            let got = *found.get(name).unwrap_or_else(|| panic!("{kind} lacks {name}"));
            if differ(kind, got, expected.as_f64()) {
                wrong.push(format!("{kind} {name}: {got:?}, expected {expected} of {}", set["input"]));
            }
        }
    }
    for (kind, (done, numbers)) in &sets {
        println!("{kind}: {done} sets, {numbers} numbers");
        assert!(*done >= 20, "too few sets of {kind}");
    }
    assert_eq!(sets.len(), 19, "a kind is missing");
    let listed: Vec<&str> = wrong.iter().take(30).map(String::as_str).collect();
    assert!(wrong.is_empty(), "{} of them differ:\n{}", wrong.len(), listed.join("\n"));
}

fn number(input: &Value, name: &str) -> f64 {
    input[name].as_f64().unwrap_or_else(|| panic!("{name} of {input}"))
}

fn whole(input: &Value, name: &str) -> u64 {
    input[name].as_u64().unwrap_or_else(|| panic!("{name} of {input}"))
}

fn list<T: serde::de::DeserializeOwned>(input: &Value, name: &str) -> T {
    serde_json::from_value(input[name].clone()).unwrap()
}

use super::{Values, list, number, whole};
use serde_json::Value;
use stipple::compare::statistics::agreement::{
    Cluster, Scale, clustered_mean, concordance, deming, limits_of_agreement, scale_check, typical_spread,
};
use stipple::compare::statistics::category::{CrossTable, Weights, fleiss_kappa, kappa, same_category};
use stipple::compare::statistics::many::{Form, Metric, alpha, intraclass};
use stipple::compare::statistics::repeated::precision;
use stipple::compare::statistics::{Bootstrap, Level, Statistic};

const LEVEL: Level = Level::NINETY_FIVE;
/// Intervals by bootstrap are compared in a kind of their own.
const QUICK: Bootstrap = Bootstrap { seed: 1, resamples: 2 };

fn pairs(input: &Value) -> Vec<(f64, f64)> {
    list(input, "pairs")
}

/// A number under a name, its interval under `name_low` and `name_high`.
fn put(values: &mut Values, name: &str, statistic: &Statistic) {
    values.insert(name.to_owned(), statistic.value.ok());
    put_limits(values, name, statistic);
}

fn put_limits(values: &mut Values, name: &str, statistic: &Statistic) {
    let interval = statistic.interval.ok();
    let prefix = if name.is_empty() { String::new() } else { format!("{name}_") };
    values.insert(format!("{prefix}low"), interval.map(|interval| interval.low));
    values.insert(format!("{prefix}high"), interval.map(|interval| interval.high));
}

fn put_chance(values: &mut Values, name: &str, statistic: &Statistic) {
    values.insert(name.to_owned(), statistic.test.map(|test| test.p));
}

pub fn limits(input: &Value) -> Values {
    let scale = if input["ratio"].as_bool().unwrap() { Scale::Ratio } else { Scale::Difference };
    let found = limits_of_agreement(&pairs(input), scale, number(input, "factor"), LEVEL);
    let mut values = Values::new();
    for (name, statistic) in
        [("bias", &found.bias), ("sd", &found.spread), ("lower", &found.lower), ("upper", &found.upper)]
    {
        put(&mut values, name, statistic);
        let usual = statistic.also.first();
        values.insert(format!("{name}_also_low"), usual.map(|interval| interval.low));
        values.insert(format!("{name}_also_high"), usual.map(|interval| interval.high));
    }
    values
}

pub fn scale(input: &Value) -> Values {
    let found = scale_check(&pairs(input), LEVEL);
    let mut values = Values::new();
    for (name, statistic) in [("difference", &found.difference), ("ratio", &found.ratio)] {
        values.insert(format!("{name}_rho"), statistic.value.ok());
        put_chance(&mut values, &format!("{name}_p"), statistic);
    }
    put(&mut values, "slope", &found.slope);
    put_chance(&mut values, "slope_p", &found.slope);
    values
}

pub fn concordance_(input: &Value) -> Values {
    let found = concordance(&pairs(input), LEVEL);
    let mut values = Values::new();
    put(&mut values, "concordance", &found.concordance);
    put_limits(&mut values, "", &found.concordance);
    put(&mut values, "correlation", &found.correlation);
    put(&mut values, "factor", &found.bias_factor);
    values
}

pub fn deming_(input: &Value) -> Values {
    let found = deming(&pairs(input), number(input, "ratio"), LEVEL);
    let mut values = Values::new();
    put(&mut values, "slope", &found.slope);
    put(&mut values, "intercept", &found.intercept);
    values
}

pub fn spread(input: &Value) -> Values {
    let found = typical_spread(&pairs(input), LEVEL);
    let mut values = Values::new();
    put(&mut values, "median", &found);
    put_limits(&mut values, "", &found);
    values
}

pub fn clustered(input: &Value) -> Values {
    let cars: Vec<Vec<f64>> = list(input, "clusters");
    let cars: Vec<Cluster> =
        cars.iter().map(|car| Cluster { sum: car.iter().sum(), units: car.len() }).collect();
    let mut values = Values::new();
    put(&mut values, "mean", &clustered_mean("bias", "mean of the differences", &cars, LEVEL));
    values
}

pub fn icc(input: &Value) -> Values {
    let units: Vec<Vec<Option<f64>>> = list(input, "units");
    let found = intraclass(&units, usize::try_from(whole(input, "assessors")).unwrap(), LEVEL);
    let mut values = Values::new();
    for form in Form::ALL {
        put(&mut values, form.name(), found.form(form));
    }
    values
}

pub fn alpha_(input: &Value) -> Values {
    let units: Vec<Vec<Option<f64>>> = list(input, "units");
    Metric::ALL
        .iter()
        .map(|metric| (metric.name().to_owned(), alpha(&units, *metric, QUICK, LEVEL).value.ok()))
        .collect()
}

pub fn bootstrap(input: &Value) -> Values {
    let units: Vec<Vec<Option<f64>>> = list(input, "units");
    let metric = *Metric::ALL.iter().find(|metric| metric.name() == input["level"]).unwrap();
    let resamples = usize::try_from(whole(input, "resamples")).unwrap();
    let found = alpha(&units, metric, Bootstrap { seed: whole(input, "seed"), resamples }, LEVEL);
    let mut values = Values::new();
    put_limits(&mut values, "", &found);
    values
}

pub fn precision_(input: &Value) -> Values {
    let units: Vec<Vec<Vec<f64>>> = list(input, "units");
    let found = precision(&units, number(input, "factor"), QUICK, LEVEL);
    let mut values = Values::new();
    put(&mut values, "repeatability", &found.repeatability);
    put(&mut values, "repeatability_limit", &found.repeatability_limit);
    put(&mut values, "reproducibility", &found.reproducibility);
    put(&mut values, "reproducibility_limit", &found.reproducibility_limit);
    values
}

pub fn kappa_(input: &Value) -> Values {
    let rows: Vec<Vec<u64>> = list(input, "table");
    let mut table = CrossTable::new(rows.len());
    for (i, row) in rows.iter().enumerate() {
        row.iter().enumerate().for_each(|(j, units)| table.add(i, j, *units));
    }
    let mut values = Values::new();
    for (name, weights) in
        [("plain", Weights::Plain), ("linear", Weights::Linear), ("quadratic", Weights::Quadratic)]
    {
        let found = kappa(&table, weights, LEVEL);
        put(&mut values, name, &found);
        put_chance(&mut values, &format!("{name}_p"), &found);
    }
    let same = same_category(&table, LEVEL);
    put(&mut values, "same", &same);
    put_limits(&mut values, "wilson", &same);
    let exact = same.also.first();
    values.insert("exact_low".to_owned(), exact.map(|interval| interval.low));
    values.insert("exact_high".to_owned(), exact.map(|interval| interval.high));
    values
}

pub fn fleiss(input: &Value) -> Values {
    let units: Vec<Vec<u32>> = list(input, "units");
    let categories = usize::try_from(whole(input, "categories")).unwrap();
    let assessors = u32::try_from(whole(input, "assessors")).unwrap();
    let found = fleiss_kappa(&units, categories, assessors, QUICK, LEVEL);
    let mut values = Values::from([("kappa".to_owned(), found.overall.value.ok())]);
    for (index, statistic) in found.categories.iter().enumerate() {
        values.insert(format!("category_{index}"), statistic.value.ok());
    }
    values
}

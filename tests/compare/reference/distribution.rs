use super::{Values, list};
use serde_json::Value;
use stipple::compare::statistics::distribution as d;

pub fn distribution(input: &Value) -> Values {
    let given: Vec<f64> = list(input, "arguments");
    let x = |i: usize| given[i];
    let n = |i: usize| given[i] as u64;
    let value = match input["name"].as_str().unwrap() {
        "normal_cdf" => d::normal_cdf(x(0)),
        "normal_quantile" => d::normal_quantile(x(0)),
        "t_two_sided" => d::t_two_sided(x(0), x(1)),
        "t_quantile" => d::t_quantile(x(0), x(1)),
        "f_upper" => d::f_upper(x(0), x(1), x(2)),
        "f_quantile" => d::f_quantile(x(0), x(1), x(2)),
        "chi_squared_upper" => d::chi_squared_upper(x(0), x(1)),
        "chi_squared_quantile" => d::chi_squared_quantile(x(0), x(1)),
        "gamma_lower" => d::gamma_lower(x(0), x(1)),
        "gamma_upper" => d::gamma_upper(x(0), x(1)),
        "gamma_quantile" => d::gamma_quantile(x(0), x(1)),
        "beta_regularised" => d::beta_regularised(x(0), x(1), x(2), 1.0 - x(2)),
        "beta_quantile" => d::beta_quantile(x(0), x(1), x(2)),
        "noncentral_t_quantile" => d::noncentral_t_quantile(x(0), x(1), x(2)),
        "binomial_density" => d::binomial_density(n(0), n(1), x(2)),
        "binomial_lower" => d::binomial_lower(n(0), n(1), x(2)),
        "binomial_upper" => d::binomial_upper(n(0), n(1), x(2)),
        "poisson_density" => d::poisson_density(n(0), x(1)),
        "poisson_lower" => d::poisson_lower(n(0), x(1)),
        "poisson_upper" => d::poisson_upper(n(0), x(1)),
        "hypergeometric_density" => d::hypergeometric_density(n(0), n(1), n(2), n(3)),
        "hypergeometric_lower" => d::hypergeometric_lower(n(0), n(1), n(2), n(3)),
        "hypergeometric_upper" => d::hypergeometric_upper(n(0), n(1), n(2), n(3)),
        other => panic!("no distribution {other}"),
    };
    Values::from([("value".to_owned(), Some(value))])
}

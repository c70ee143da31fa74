use super::line::Moments;
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic};

/// Lin's concordance correlation and the two numbers that it is the product of.
#[derive(Debug, Clone, PartialEq)]
pub struct Concordance {
    /// How close the pairs lie to the line of equality.
    pub concordance: Statistic,
    /// How close they lie to some line.
    pub correlation: Statistic,
    /// How close that line is to the line of equality; 1 is on it.
    pub bias_factor: Statistic,
}

const LIN: &str = "Lin 1989, Biometrics 45, 255-268; variance as corrected in Biometrics 56 (2000), 324-325";

/// Concordance correlation of pairs, with variances over n as Lin defines it.
pub fn concordance(pairs: &[(f64, f64)], level: Level) -> Concordance {
    let fit = Moments::of(pairs)
        .ok_or(Reason::NoData)
        .and_then(|moments| if pairs.len() < 2 { Err(Reason::TooFew { needed: 2 }) } else { Ok(moments) });
    let shift = |m: &Moments| (m.mean_first - m.mean_second) * (m.mean_first - m.mean_second) * m.n;
    let value = fit.and_then(|m| {
        let spread = m.first + m.second + shift(&m);
        if spread > 0.0 { Ok(2.0 * m.products / spread) } else { Err(Reason::NoSpread) }
    });
    let rho = fit.and_then(|m| m.correlation().ok_or(Reason::NoSpread));
    let factor = fit.and_then(|m| {
        let scale = (m.first * m.second).sqrt();
        if scale > 0.0 { Ok(2.0 * scale / (m.first + m.second + shift(&m))) } else { Err(Reason::NoSpread) }
    });
    let interval = fit.and_then(|m| {
        let (c, r) = (value?, rho?);
        if pairs.len() < 3 {
            return Err(Reason::TooFew { needed: 3 });
        }
        if r.abs() <= 0.0 {
            return Err(Reason::Unrelated);
        }
        if (1.0 - c * c) <= 1e-14 {
            return Err(Reason::FullAgreement);
        }
        // u squared: the squared shift of the means against the product of the standard deviations.
        let u2 = shift(&m) / (m.first * m.second).sqrt();
        let rest = 1.0 - c * c;
        let variance = ((1.0 - r * r) * c * c / (rest * r * r)
            + 2.0 * c.powi(3) * (1.0 - c) * u2 / (r * rest * rest)
            - c.powi(4) * u2 * u2 / (2.0 * r * r * rest * rest))
            / (m.n - 2.0);
        if variance <= 0.0 {
            return Err(Reason::NoVariance);
        }
        let reach = level.z() * variance.sqrt();
        Interval::new(c.atanh() - reach, c.atanh() + reach, level, "normal on Fisher's z scale")?
            .map(f64::tanh)
    });
    let rho_interval = rho.and_then(|r| {
        if pairs.len() < 4 {
            return Err(Reason::TooFew { needed: 4 });
        }
        if (1.0 - r * r) <= 1e-14 {
            return Err(Reason::FullAgreement);
        }
        let reach = level.z() / (crate::compare::statistics::number::count(pairs.len()) - 3.0).sqrt();
        Interval::new(r.atanh() - reach, r.atanh() + reach, level, "normal on Fisher's z scale")?
            .map(f64::tanh)
    });
    let says = "twice the covariance over the sum of the variances and the squared difference of the means";
    Concordance {
        concordance: Statistic::new(
            "concordance correlation",
            value,
            pairs.len(),
            Definition::new(says, LIN, [Choice::Divisor("n")]),
        )
        .with_interval(interval),
        correlation: Statistic::new(
            "correlation",
            rho,
            pairs.len(),
            Definition::new("covariance over the product of the standard deviations", "Pearson 1896", []),
        )
        .with_interval(rho_interval),
        bias_factor: Statistic::new(
            "bias factor",
            factor,
            pairs.len(),
            Definition::new("concordance correlation over correlation", LIN, [Choice::Divisor("n")]),
        ),
    }
}

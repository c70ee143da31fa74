use crate::compare::statistics::distribution::{chi_squared_quantile, noncentral_t_quantile};
use crate::compare::statistics::number::{count, is_rounding, mean, squares};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic, Why};

/// What is compared on each unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// First minus second.
    Difference,
    /// First over second, by way of logarithms. Pairs with a value of zero have no ratio and are left out.
    Ratio,
}

/// The standard normal quantile at 97.5 %: limits that hold 95 % of the differences if these are normal.
pub const USUAL_FACTOR: f64 = 1.959_963_984_540_054;

/// Bias and limits of agreement.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitsOfAgreement {
    /// The scale of everything here.
    pub scale: Scale,
    /// Mean difference, or the geometric mean of the ratios.
    pub bias: Statistic,
    /// Standard deviation of the differences, or e to that of the logarithms of the ratios.
    pub spread: Statistic,
    /// Lower limit.
    pub lower: Statistic,
    /// Upper limit.
    pub upper: Statistic,
}

const SOURCE: &str = "Bland and Altman 1986, Lancet 327, 307-310; ratios: Bland and Altman 1999, Statistical Methods \
                      in Medical Research 8, 135-160";

/// Bias and limits of agreement (mean difference and so many standard deviations to either side) with intervals.
///
/// The interval of the bias is Student's, that of the spread by chi-squared, those of the limits from the non-central
/// t distribution: all three are exact if the differences are normal. Beside the latter stands the usual
/// approximation with standard error √(s² (1/n + factor² / 2 (n − 1))), and that of 1986 with √(3 s² / n).
pub fn limits_of_agreement(
    pairs: &[(f64, f64)],
    scale: Scale,
    factor: f64,
    level: Level,
) -> LimitsOfAgreement {
    let compared = Compared::of(pairs, scale);
    LimitsOfAgreement {
        scale,
        bias: compared.bias(level),
        spread: compared.spread(level),
        lower: compared.limit(-1.0, factor, level),
        upper: compared.limit(1.0, factor, level),
    }
}

/// Differences, or logarithms of ratios, with what they are summed up by.
struct Compared {
    scale: Scale,
    used: usize,
    dropped: usize,
    mean: Result<f64, Reason>,
    /// Standard deviation; zero where they are all equal.
    deviation: Result<f64, Reason>,
}

impl Compared {
    fn of(pairs: &[(f64, f64)], scale: Scale) -> Self {
        let (differences, sizes): (Vec<f64>, Vec<f64>) = match scale {
            Scale::Difference => pairs.iter().map(|(a, b)| (a - b, a.abs().max(b.abs()))).unzip(),
            Scale::Ratio => pairs
                .iter()
                .filter(|(a, b)| *a > 0.0 && *b > 0.0)
                .map(|(a, b)| (a.ln() - b.ln(), a.ln().abs().max(b.ln().abs())))
                .unzip(),
        };
        let used = differences.len();
        let mean = mean(&differences).ok_or(Reason::NoData);
        let deviation = mean.and_then(|mean| {
            if used < 2 {
                return Err(Reason::TooFew { needed: 2 });
            }
            let sum = squares(&differences, mean);
            Ok(if is_rounding(sum, sizes) { 0.0 } else { (sum / (count(used) - 1.0)).sqrt() })
        });
        Self { scale, used, dropped: pairs.len() - used, mean, deviation }
    }

    /// A statistic on the scale that is shown.
    fn statistic(
        &self,
        name: &'static str,
        value: Result<f64, Reason>,
        says: &'static str,
        mut choices: Vec<Choice>,
    ) -> Statistic {
        choices.push(Choice::Direction(match self.scale {
            Scale::Difference => "first minus second",
            Scale::Ratio => "first over second",
        }));
        if self.scale == Scale::Ratio {
            choices.push(Choice::Variant("zero rule", "pairs with a zero are left out"));
        }
        let definition = Definition::new(says, SOURCE, choices);
        Statistic::new(name, value.map(|value| self.shown(value)), self.used, definition)
            .without(Why::NoRatio, self.dropped)
    }

    fn shown(&self, value: f64) -> f64 {
        match self.scale {
            Scale::Difference => value,
            Scale::Ratio => value.exp(),
        }
    }

    fn interval(&self, low: f64, high: f64, level: Level, method: &'static str) -> Result<Interval, Reason> {
        Interval::new(low, high, level, method)?.map(|limit| self.shown(limit))
    }

    /// The deviation, if there is any.
    fn varying(&self) -> Result<f64, Reason> {
        self.deviation.and_then(|s| if s > 0.0 { Ok(s) } else { Err(Reason::NoSpread) })
    }

    fn bias(&self, level: Level) -> Statistic {
        let n = count(self.used);
        let interval = self.mean.and_then(|mean| {
            let reach = level.t(n - 1.0) * self.varying()? / n.sqrt();
            self.interval(mean - reach, mean + reach, level, "Student's t")
        });
        let says = match self.scale {
            Scale::Difference => "mean of the differences",
            Scale::Ratio => "geometric mean of the ratios",
        };
        self.statistic("bias", self.mean, says, Vec::new()).with_interval(interval)
    }

    fn spread(&self, level: Level) -> Statistic {
        let freedom = count(self.used) - 1.0;
        let interval = self.varying().and_then(|s| {
            let limit = |p: f64| s * (freedom / chi_squared_quantile(p, freedom)).sqrt();
            self.interval(limit(1.0 - level.tail()), limit(level.tail()), level, "chi-squared")
        });
        let says = match self.scale {
            Scale::Difference => "standard deviation of the differences",
            Scale::Ratio => "e to the standard deviation of the logarithms of the ratios",
        };
        self.statistic(
            "standard deviation of the differences",
            self.deviation,
            says,
            vec![Choice::Divisor("n - 1")],
        )
        .with_interval(interval)
    }

    fn limit(&self, side: f64, factor: f64, level: Level) -> Statistic {
        let n = count(self.used);
        let value = self.mean.and_then(|mean| Ok(mean + side * factor * self.deviation?));
        let around = |error: f64, method: &'static str| {
            let reach = level.t(n - 1.0) * error;
            value.and_then(|value| self.interval(value - reach, value + reach, level, method))
        };
        let exact = self.varying().and_then(|s| {
            let shift = side * factor * n.sqrt();
            let limit = |p: f64| Ok(self.mean? + noncentral_t_quantile(p, n - 1.0, shift) * s / n.sqrt());
            self.interval(limit(level.tail())?, limit(1.0 - level.tail())?, level, "non-central t")
        });
        let usual = self.varying().and_then(|s| {
            let error = s * (1.0 / n + factor * factor / (2.0 * (n - 1.0))).sqrt();
            around(error, "Student's t, standard error by the delta method")
        });
        let of_1986 = self.varying().and_then(|s| {
            around(s * (3.0 / n).sqrt(), "Student's t, standard error root of 3 s squared over n")
        });
        let (name, says) = if side < 0.0 {
            ("lower limit of agreement", "bias less so many standard deviations of the differences")
        } else {
            ("upper limit of agreement", "bias plus so many standard deviations of the differences")
        };
        let choices = vec![Choice::Constant("factor", factor), Choice::Divisor("n - 1")];
        self.statistic(name, value, says, choices).with_interval(exact).with_also(usual).with_also(of_1986)
    }
}

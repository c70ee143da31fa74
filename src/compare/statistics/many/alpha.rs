use crate::compare::statistics::bootstrap::Bootstrap;
use crate::compare::statistics::{Choice, Definition, Level, Reason, Statistic, Why};

/// How far apart two values are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Metric {
    /// Equal or not.
    Nominal,
    /// By how many values lie between them.
    Ordinal,
    /// By their difference.
    Interval,
    /// By their difference over their sum; values must not be below zero.
    Ratio,
}

impl Metric {
    /// Every metric.
    pub const ALL: [Self; 4] = [Self::Nominal, Self::Ordinal, Self::Interval, Self::Ratio];

    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Nominal => "nominal",
            Self::Ordinal => "ordinal",
            Self::Interval => "interval",
            Self::Ratio => "ratio",
        }
    }
}

/// Krippendorff's alpha: one less the disagreement found over that expected of values dealt out at random. Units with
/// fewer than two values pair with nothing and are left out. The interval is a bootstrap over units.
pub fn alpha(
    units: &[impl AsRef<[Option<f64>]>],
    metric: Metric,
    bootstrap: Bootstrap,
    level: Level,
) -> Statistic {
    let coded = Coded::of(units);
    let all: Vec<usize> = (0..coded.ends.len()).collect();
    let definition = Definition::new(
        "one less the disagreement found over the disagreement expected by chance",
        "Krippendorff 2011, Computing Krippendorff's Alpha-Reliability; Content Analysis, chapter on reliability",
        [
            Choice::Variant("metric", metric.name()),
            Choice::Number("pairable values", u64::try_from(coded.pairable).unwrap_or(u64::MAX)),
        ],
    );
    let interval =
        bootstrap.interval(all.len(), coded.steps(metric), level, |drawn| coded.alpha(drawn, metric).ok());
    Statistic::new("Krippendorff's alpha", coded.alpha(&all, metric), all.len(), definition)
        .with_interval(interval)
        .without(Why::Alone, units.len() - all.len())
}

/// Values as numbers of distinct values.
struct Coded {
    /// Distinct pairable values, rising.
    values: Vec<f64>,
    /// Units with at least two values, one after another: which values, by number, and how often each was given.
    given: Vec<(u32, u32)>,
    /// Where each unit ends there.
    ends: Vec<usize>,
    /// All values in them.
    pairable: usize,
}

impl Coded {
    fn of(units: &[impl AsRef<[Option<f64>]>]) -> Self {
        let present = || units.iter().map(|unit| unit.as_ref().iter().flatten());
        let pairable = || present().filter(|unit| unit.clone().nth(1).is_some());
        // Adding zero makes one zero of the two that floats have.
        let mut values: Vec<f64> = pairable().flatten().map(|value| value + 0.0).collect();
        let all = values.len();
        values.sort_unstable_by(f64::total_cmp);
        values.dedup_by(|a, b| a.total_cmp(b).is_eq());
        values.shrink_to_fit();
        let (mut given, mut ends) = (Vec::with_capacity(all), Vec::new());
        let mut codes: Vec<usize> = Vec::new();
        for unit in pairable() {
            codes.clear();
            codes.extend(
                unit.map(|value| values.partition_point(|other| other.total_cmp(&(value + 0.0)).is_lt())),
            );
            codes.sort_unstable();
            given.extend(codes.chunk_by(|a, b| a == b).map(|run| (narrow(run[0]), narrow(run.len()))));
            ends.push(given.len());
        }
        Self { values, given, ends, pairable: all }
    }

    /// A unit's values, by number, and how often each was given.
    fn unit(&self, unit: usize) -> &[(u32, u32)] {
        let start = unit.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.given[start..self.ends[unit]]
    }

    /// Steps that one alpha takes: pairs of values within units, and among all values.
    fn steps(&self, metric: Metric) -> usize {
        let within: usize = (0..self.ends.len()).map(|unit| self.unit(unit).len().pow(2)).sum();
        within + if metric == Metric::Ratio { self.values.len().pow(2) } else { self.values.len() }
    }

    fn alpha(&self, drawn: &[usize], metric: Metric) -> Result<f64, Reason> {
        if drawn.is_empty() {
            return Err(Reason::NoData);
        }
        let mut totals = vec![0.0; self.values.len()];
        for &unit in drawn {
            for (code, given) in self.unit(unit) {
                totals[*code as usize] += f64::from(*given);
            }
        }
        let places = self.places(&totals, metric);
        let distance = |a: usize, b: usize| match metric {
            Metric::Nominal => 1.0,
            Metric::Ordinal | Metric::Interval => (places[a] - places[b]).powi(2),
            Metric::Ratio => ratio(places[a], places[b]),
        };
        let mut found = 0.0;
        for &unit in drawn {
            let counts = self.unit(unit);
            let given = f64::from(counts.iter().map(|(_, times)| times).sum::<u32>());
            let mut within = 0.0;
            for (i, (a, times)) in counts.iter().enumerate() {
                let apart = counts[..i].iter().map(|(b, others)| {
                    f64::from(*times) * f64::from(*others) * distance(*a as usize, *b as usize)
                });
                within += apart.sum::<f64>();
            }
            found += 2.0 * within / (given - 1.0);
        }
        let n: f64 = totals.iter().sum();
        let expected = expected(&totals, &places, metric) / (n - 1.0);
        if expected > 0.0 { Ok(1.0 - found / expected) } else { Err(Reason::NoSpread) }
    }

    /// Where each value stands: its mean rank among all pairable values for the ordinal metric, else itself.
    fn places(&self, totals: &[f64], metric: Metric) -> Vec<f64> {
        if metric != Metric::Ordinal {
            return self.values.clone();
        }
        let mut before = 0.0;
        totals
            .iter()
            .map(|given| {
                let place = before + given / 2.0;
                before += given;
                place
            })
            .collect()
    }
}

/// The sum of distances over all ordered pairs of values.
fn expected(totals: &[f64], places: &[f64], metric: Metric) -> f64 {
    let n: f64 = totals.iter().sum();
    match metric {
        Metric::Nominal => n * n - totals.iter().map(|given| given * given).sum::<f64>(),
        Metric::Ordinal | Metric::Interval => {
            let centre = totals.iter().zip(places).map(|(given, place)| given * place).sum::<f64>() / n;
            2.0 * n
                * totals
                    .iter()
                    .zip(places)
                    .map(|(given, place)| given * (place - centre).powi(2))
                    .sum::<f64>()
        }
        Metric::Ratio => {
            let mut sum = 0.0;
            for (i, given) in totals.iter().enumerate().filter(|(_, given)| **given > 0.0) {
                let apart =
                    totals[..i].iter().zip(places).map(|(others, place)| others * ratio(*place, places[i]));
                sum += 2.0 * given * apart.sum::<f64>();
            }
            sum
        }
    }
}

/// A number of a value or of times: there are never so many that it does not fit.
fn narrow(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

fn ratio(a: f64, b: f64) -> f64 {
    let sum = a + b;
    if sum > 0.0 { ((a - b) / sum).powi(2) } else { 0.0 }
}

use crate::compare::statistics::bootstrap::Bootstrap;
use crate::compare::statistics::number::count;
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
pub fn alpha(units: &[Vec<Option<f64>>], metric: Metric, bootstrap: Bootstrap, level: Level) -> Statistic {
    let coded = Coded::of(units);
    let all: Vec<usize> = (0..coded.units.len()).collect();
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
    /// Units with at least two values: how often each value was given, and how many values there are.
    units: Vec<(Vec<(usize, f64)>, f64)>,
    /// All values in them.
    pairable: usize,
}

impl Coded {
    fn of(units: &[Vec<Option<f64>>]) -> Self {
        // Adding zero makes one zero of the two that floats have.
        let pairable: Vec<Vec<f64>> = units
            .iter()
            .map(|unit| unit.iter().flatten().map(|value| value + 0.0).collect::<Vec<f64>>())
            .filter(|unit| unit.len() > 1)
            .collect();
        let mut values: Vec<f64> = pairable.iter().flatten().copied().collect();
        let given = values.len();
        values.sort_by(f64::total_cmp);
        values.dedup_by(|a, b| a.total_cmp(b).is_eq());
        let units = pairable
            .iter()
            .map(|unit| {
                let mut codes: Vec<usize> = unit
                    .iter()
                    .map(|value| values.partition_point(|other| other.total_cmp(value).is_lt()))
                    .collect();
                codes.sort_unstable();
                let counts = codes.chunk_by(|a, b| a == b).map(|run| (run[0], count(run.len()))).collect();
                (counts, count(unit.len()))
            })
            .collect();
        Self { values, units, pairable: given }
    }

    /// Steps that one alpha takes: pairs of values within units, and among all values.
    fn steps(&self, metric: Metric) -> usize {
        let within: usize = self.units.iter().map(|(counts, _)| counts.len() * counts.len()).sum();
        within + if metric == Metric::Ratio { self.values.len().pow(2) } else { self.values.len() }
    }

    fn alpha(&self, drawn: &[usize], metric: Metric) -> Result<f64, Reason> {
        if drawn.is_empty() {
            return Err(Reason::NoData);
        }
        let mut totals = vec![0.0; self.values.len()];
        for &unit in drawn {
            for (code, given) in &self.units[unit].0 {
                totals[*code] += given;
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
            let (counts, given) = &self.units[unit];
            let mut within = 0.0;
            for (i, (a, times)) in counts.iter().enumerate() {
                within +=
                    counts[..i].iter().map(|(b, others)| times * others * distance(*a, *b)).sum::<f64>();
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

fn ratio(a: f64, b: f64) -> f64 {
    let sum = a + b;
    if sum > 0.0 { ((a - b) / sum).powi(2) } else { 0.0 }
}

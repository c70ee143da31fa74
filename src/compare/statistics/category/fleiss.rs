use crate::compare::statistics::bootstrap::Bootstrap;
use crate::compare::statistics::distribution::normal_cdf;
use crate::compare::statistics::number::count;
use crate::compare::statistics::{Choice, Definition, Level, Reason, Statistic, Why, real};

/// Fleiss' kappa over all categories and for each by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct FleissKappa {
    /// Over all categories.
    pub overall: Statistic,
    /// Of each category against all others together, in their order.
    pub categories: Vec<Statistic>,
}

const SOURCE: &str = "Fleiss 1971, Psychological Bulletin 76, 378-382; error without agreement: Fleiss, Nee and \
                      Landis 1979, Psychological Bulletin 86, 974-977";

/// Fleiss' kappa of units that each hold how many of the assessors chose each category. A unit on which not all of
/// them chose one is left out. The interval is a bootstrap over units.
pub fn fleiss_kappa(
    units: &[impl AsRef<[u32]>],
    categories: usize,
    assessors: u32,
    bootstrap: Bootstrap,
    level: Level,
) -> FleissKappa {
    let complete: Vec<&[u32]> = units
        .iter()
        .map(AsRef::as_ref)
        .filter(|unit| {
            unit.len() == categories
                && unit.iter().map(|n| u64::from(*n)).sum::<u64>() == u64::from(assessors)
        })
        .collect();
    let all: Vec<usize> = (0..complete.len()).collect();
    let fit = Fit::of(&complete, &all, categories, assessors);
    let choices = [
        Choice::Number("assessors", u64::from(assessors)),
        Choice::Number("categories", u64::try_from(categories).unwrap_or(u64::MAX)),
    ];
    let statistic =
        |name: &'static str, says: &'static str, value: Result<f64, Reason>, error: Option<f64>| {
            let p = match (value, error) {
                (Ok(value), Some(error)) => 2.0 * normal_cdf(-(value / error).abs()),
                _ => f64::NAN,
            };
            Statistic::new(name, value, complete.len(), Definition::new(says, SOURCE, choices))
                .with_test("no agreement beyond chance, normal", p)
                .without(Why::Incomplete, units.len() - complete.len())
        };
    let interval = bootstrap.interval(complete.len(), complete.len() * categories, level, |drawn| {
        Fit::of(&complete, drawn, categories, assessors).ok().and_then(|fit| fit.overall().ok())
    });
    let overall = statistic(
        "Fleiss' kappa",
        "agreement of all assessors beyond chance over the most there could be beyond chance",
        fit.as_ref().map_err(|reason| *reason).and_then(Fit::overall),
        fit.as_ref().ok().and_then(Fit::error),
    )
    .with_interval(interval);
    let categories = (0..categories)
        .map(|category| {
            statistic(
                "Fleiss' kappa of one category",
                "agreement on one category against all others together",
                fit.as_ref().map_err(|reason| *reason).and_then(|fit| fit.category(category)),
                fit.as_ref().ok().map(Fit::category_error),
            )
        })
        .collect();
    FleissKappa { overall, categories }
}

/// What the kappas of some units are computed from.
struct Fit {
    units: f64,
    assessors: f64,
    /// Share of each category in all choices.
    shares: Vec<f64>,
    /// Sum over units of n (n − 1) of each category: pairs of assessors who agree on it.
    agreeing: Vec<f64>,
}

impl Fit {
    fn of(units: &[&[u32]], drawn: &[usize], categories: usize, assessors: u32) -> Result<Self, Reason> {
        if drawn.is_empty() {
            return Err(Reason::NoData);
        }
        if assessors < 2 {
            return Err(Reason::TooFew { needed: 2 });
        }
        let mut chosen = vec![0_u64; categories];
        let mut agreeing = vec![0_u64; categories];
        for &index in drawn {
            for (category, &n) in units[index].iter().enumerate() {
                let n = u64::from(n);
                chosen[category] += n;
                agreeing[category] += n * n.saturating_sub(1);
            }
        }
        let (n, m) = (count(drawn.len()), f64::from(assessors));
        Ok(Self {
            units: n,
            assessors: m,
            shares: chosen.iter().map(|chosen| real(*chosen) / (n * m)).collect(),
            agreeing: agreeing.iter().map(|agreeing| real(*agreeing)).collect(),
        })
    }

    fn pairs(&self) -> f64 {
        self.units * self.assessors * (self.assessors - 1.0)
    }

    fn overall(&self) -> Result<f64, Reason> {
        let observed = self.agreeing.iter().sum::<f64>() / self.pairs();
        let by_chance = self.shares.iter().map(|p| p * p).sum::<f64>();
        let beyond = 1.0 - by_chance;
        if beyond <= 1e-14 { Err(Reason::OneCategory) } else { Ok((observed - by_chance) / beyond) }
    }

    fn category(&self, category: usize) -> Result<f64, Reason> {
        let p = self.shares[category];
        let beyond = p * (1.0 - p);
        if p <= 0.0 {
            return Err(Reason::NoData);
        }
        if beyond <= 1e-14 {
            return Err(Reason::OneCategory);
        }
        let disagreeing = self.units * self.assessors * (self.assessors - 1.0) * p - self.agreeing[category];
        Ok(1.0 - disagreeing / (self.pairs() * beyond))
    }

    fn error(&self) -> Option<f64> {
        let sum: f64 = self.shares.iter().map(|p| p * (1.0 - p)).sum();
        let skew: f64 = self.shares.iter().map(|p| p * (1.0 - p) * (1.0 - 2.0 * p)).sum();
        let variance = 2.0 * (sum * sum - skew) / (sum * sum * self.pairs());
        (variance > 0.0).then(|| variance.sqrt())
    }

    fn category_error(&self) -> f64 {
        (2.0 / self.pairs()).sqrt()
    }
}

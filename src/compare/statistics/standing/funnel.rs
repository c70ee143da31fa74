use super::loads::{Load, are_centred, standardised};
use super::{DISCOVERY_RATE, adjusted_for_discovery, normal_limits, poisson_limits};
use crate::compare::statistics::distribution::{normal_cdf, normal_quantile, poisson_lower, poisson_upper};
use crate::compare::statistics::number::count;
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic};

/// Fewer units than this tell nothing about a person (our rule, no source).
const FEWEST_UNITS: usize = 10;
/// With fewer people only the pair can be named.
const FEWEST_PEOPLE: usize = 3;

const SOURCE: &str = "Spiegelhalter 2005, Statistics in Medicine 24, 1185-1202 and Quality and Safety in Health Care \
                      14, 347-351; between-assessor variance: DerSimonian and Laird 1986, Controlled Clinical Trials \
                      7, 177-188";

/// A funnel over assessors: who counts more or less than expected by more than chance.
#[derive(Debug, Clone, PartialEq)]
pub struct Funnel {
    /// How many times as much as by chance they vary (phi): mean of the squares of the standardised differences.
    pub dispersion: Statistic,
    /// Standard deviation of what they count over what is expected, beyond chance.
    pub between: Statistic,
    /// Each of them, in the order given.
    pub people: Vec<Place>,
    /// Whether anybody could stand out at all.
    pub verdict: Verdict,
}

/// One assessor in the funnel.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Counted and expected.
    pub load: Load,
    /// Difference from what is expected in standard deviations, with over-dispersion allowed for; its test is normal.
    pub z: Statistic,
    /// The chance of the test, with the share of false ones held; `None` without a z, or where nobody can be told.
    pub adjusted: Option<f64>,
    /// The chance under the Poisson distribution, over-dispersion not allowed for: twice the smaller tail.
    pub poisson_chance: Option<f64>,
    /// 95 % limits of the count.
    pub limits: Result<Interval, Reason>,
    /// 99.8 % limits of the count.
    pub outer_limits: Result<Interval, Reason>,
}

/// Whether a funnel can tell anything.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Verdict {
    /// It can: those whose adjusted chance is within the rate stand out.
    Told,
    /// Two cannot be told apart: whichever is odd, only the pair can be named.
    OnlyThePair,
    /// Nobody has enough units with others.
    TooFewUnits,
    /// The dispersion is estimated from the same people, so that none of them could be far enough out.
    OutOfReach {
        /// People in the estimate.
        people: usize,
        /// The farthest that any of them could be, in standard deviations.
        farthest: f64,
        /// How far one of them alone would have to be for the share of false ones to be held.
        needed: f64,
    },
}

impl Place {
    /// Whether the person stands out: the adjusted chance is within the rate.
    pub fn stands_out(&self) -> bool {
        self.adjusted.is_some_and(|adjusted| adjusted <= DISCOVERY_RATE)
    }
}

/// Builds the funnel. People with fewer than ten units, or with nothing expected, are shown and enter nothing.
///
/// The dispersion phi is the mean of z squared over the same people and taken as at least 1; z is divided by its
/// root. That keeps every |z| below the root of their number, and below that of their number times (1 − their share
/// of what is expected) where expectations add up to what was counted: where nobody could reach what is needed, the
/// verdict says so and nobody is named.
pub fn funnel(loads: &[Load]) -> Funnel {
    let raw: Vec<Option<f64>> =
        loads.iter().map(|load| if load.units < FEWEST_UNITS { None } else { standardised(load) }).collect();
    let included: Vec<(Load, f64)> =
        loads.iter().zip(&raw).filter_map(|(load, z)| z.map(|z| (*load, z))).collect();
    let phi = dispersion(&included);
    let inflation = phi.map_or(1.0, |phi| phi.max(1.0));
    let verdict = verdict(&included, loads.len());
    let scores: Vec<Option<f64>> = raw.iter().map(|z| z.map(|z| z / inflation.sqrt())).collect();
    let chances: Vec<f64> = scores.iter().flatten().map(|z| 2.0 * normal_cdf(-z.abs())).collect();
    let mut adjusted = adjusted_for_discovery(&chances).into_iter();
    let people = loads
        .iter()
        .zip(scores)
        .map(|(load, score)| {
            let adjusted = score.and_then(|_| adjusted.next());
            Place {
                load: *load,
                z: z_statistic(load, score, included.len()),
                adjusted: adjusted.filter(|_| verdict == Verdict::Told),
                poisson_chance: (load.expected > 0.0).then(|| poisson_chance(load)),
                limits: limits(load.expected, inflation, Level::NINETY_FIVE),
                outer_limits: limits(load.expected, inflation, Level::NINETY_NINE_POINT_EIGHT),
            }
        })
        .collect();
    let definition = |says| Definition::new(says, SOURCE, [Choice::Divisor("n")]);
    Funnel {
        dispersion: Statistic::new(
            "dispersion",
            phi,
            included.len(),
            definition("mean of the squared standardised differences; 1 if only chance is at work"),
        ),
        between: Statistic::new(
            "standard deviation between assessors",
            between(&included),
            included.len(),
            definition(
                "standard deviation of counted over expected beyond chance; below zero is taken as zero",
            ),
        ),
        people,
        verdict,
    }
}

fn z_statistic(load: &Load, score: Option<f64>, people: usize) -> Statistic {
    let value = score.ok_or(if load.units < FEWEST_UNITS {
        Reason::TooFew { needed: FEWEST_UNITS }
    } else {
        Reason::NoData
    });
    let definition = Definition::new(
        "counted less expected, over the root of dispersion x expected",
        SOURCE,
        [
            Choice::Direction("counted minus expected"),
            Choice::Variant("over-dispersion", "multiplicative, at least 1, from the same assessors"),
            Choice::Number("assessors in it", u64::try_from(people).unwrap_or(u64::MAX)),
        ],
    );
    let p = score.map_or(f64::NAN, |z| 2.0 * normal_cdf(-z.abs()));
    Statistic::new("distance from expected", value, load.units, definition)
        .with_test("as expected, normal", p)
}

/// Limits with over-dispersion: by the Poisson distribution where there is none.
fn limits(expected: f64, inflation: f64, level: Level) -> Result<Interval, Reason> {
    if inflation > 1.0 { normal_limits(expected, inflation, level) } else { poisson_limits(expected, level) }
}

fn poisson_chance(load: &Load) -> f64 {
    let tail = poisson_lower(load.observed, load.expected).min(poisson_upper(load.observed, load.expected));
    (2.0 * tail).min(1.0)
}

fn dispersion(included: &[(Load, f64)]) -> Result<f64, Reason> {
    if included.is_empty() {
        return Err(Reason::NoData);
    }
    Ok(included.iter().map(|(_, z)| z * z).sum::<f64>() / count(included.len()))
}

/// The moment estimate that stands last in [`SOURCE`], on the scale of counted over expected.
fn between(included: &[(Load, f64)]) -> Result<f64, Reason> {
    if included.len() < 2 {
        return Err(Reason::TooFew { needed: 2 });
    }
    let excess = included.iter().map(|(_, z)| z * z).sum::<f64>() - (count(included.len()) - 1.0);
    let sum: f64 = included.iter().map(|(load, _)| load.expected).sum();
    let of_squares: f64 = included.iter().map(|(load, _)| load.expected * load.expected).sum();
    Ok((excess / (sum - of_squares / sum)).max(0.0).sqrt())
}

fn verdict(included: &[(Load, f64)], people: usize) -> Verdict {
    if people < FEWEST_PEOPLE {
        return Verdict::OnlyThePair;
    }
    if included.len() < FEWEST_PEOPLE {
        return Verdict::TooFewUnits;
    }
    let k = count(included.len());
    let loads: Vec<Load> = included.iter().map(|(load, _)| *load).collect();
    let expected: f64 = loads.iter().map(|load| load.expected).sum();
    let smallest = loads.iter().map(|load| load.expected).fold(f64::INFINITY, f64::min);
    let farthest = if are_centred(&loads) { (k * (1.0 - smallest / expected)).sqrt() } else { k.sqrt() };
    // If j of them are to be named, each must pass the quantile of j, and their squares sum to no more than k.
    let needed = |j: usize| -normal_quantile(DISCOVERY_RATE * count(j) / (2.0 * k));
    let somebody = (1..=included.len()).any(|j| farthest.min((k / count(j)).sqrt()) >= needed(j));
    if somebody {
        Verdict::Told
    } else {
        Verdict::OutOfReach { people: included.len(), farthest, needed: needed(1) }
    }
}

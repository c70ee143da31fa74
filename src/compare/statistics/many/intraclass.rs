use crate::compare::statistics::distribution::{f_quantile, f_upper};
use crate::compare::statistics::number::{count, is_rounding, mean, squares};
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic, Why};

/// The six intraclass correlations, named as Shrout and Fleiss name them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// ICC(1,1): each unit has other assessors; one assessor's value.
    OneOne,
    /// ICC(2,1): the same assessors, drawn from many, count every unit; one assessor's value, systematic differences
    /// between assessors count as error.
    TwoOne,
    /// ICC(3,1): only these assessors matter; one assessor's value, systematic differences do not count.
    ThreeOne,
    /// ICC(1,k): as ICC(1,1), of the mean of all assessors.
    OneK,
    /// ICC(2,k): as ICC(2,1), of the mean of all assessors.
    TwoK,
    /// ICC(3,k): as ICC(3,1), of the mean of all assessors.
    ThreeK,
}

impl Form {
    /// Every form.
    pub const ALL: [Self; 6] =
        [Self::OneOne, Self::TwoOne, Self::ThreeOne, Self::OneK, Self::TwoK, Self::ThreeK];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::OneOne => "ICC(1,1)",
            Self::TwoOne => "ICC(2,1)",
            Self::ThreeOne => "ICC(3,1)",
            Self::OneK => "ICC(1,k)",
            Self::TwoK => "ICC(2,k)",
            Self::ThreeK => "ICC(3,k)",
        }
    }

    const fn says(self) -> &'static str {
        match self {
            Self::OneOne => "one value, assessors differ from unit to unit",
            Self::TwoOne => "one value, same assessors throughout, systematic differences count as error",
            Self::ThreeOne => "one value, same assessors throughout, systematic differences do not count",
            Self::OneK => "mean of all assessors, who differ from unit to unit",
            Self::TwoK => "mean of all assessors, systematic differences count as error",
            Self::ThreeK => "mean of all assessors, systematic differences do not count",
        }
    }
}

/// Mean squares of the analysis of variance of units by assessors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanSquares {
    /// Number of units.
    pub units: f64,
    /// Number of assessors.
    pub assessors: f64,
    /// Between units.
    pub between: f64,
    /// Within units.
    pub within: f64,
    /// Between assessors.
    pub assessor: f64,
    /// What is left.
    pub residual: f64,
}

/// All six forms, in the order of [`Form::ALL`], with the mean squares that they are made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Intraclass {
    /// The mean squares, where there are at least two complete units and two assessors.
    pub mean_squares: Result<MeanSquares, Reason>,
    /// The six.
    pub forms: [Statistic; 6],
}

impl Intraclass {
    /// One of the six.
    pub const fn form(&self, form: Form) -> &Statistic {
        &self.forms[form as usize]
    }
}

/// The six intraclass correlations with the intervals of Shrout and Fleiss, each tail holding half of what is outside.
/// A unit that not all assessors counted is left out. Values below zero stand as they are.
pub fn intraclass(units: &[impl AsRef<[Option<f64>]>], assessors: usize, level: Level) -> Intraclass {
    // One row of values after another: a batch has millions of units.
    let mut complete: Vec<f64> = Vec::new();
    for unit in units.iter().map(AsRef::as_ref).filter(|unit| unit.len() == assessors) {
        if unit.iter().all(Option::is_some) {
            complete.extend(unit.iter().flatten());
        }
    }
    let used = complete.len().checked_div(assessors).unwrap_or(0);
    let mean_squares = MeanSquares::of(&complete, assessors);
    let forms = Form::ALL.map(|form| {
        let definition = Definition::new(
            form.says(),
            "Shrout and Fleiss 1979, Psychological Bulletin 86, 420-428",
            [
                Choice::Variant("form", form.name()),
                Choice::Number("assessors (k)", u64::try_from(assessors).unwrap_or(u64::MAX)),
            ],
        );
        let value = mean_squares.and_then(|squares| squares.value(form));
        let interval = mean_squares.and_then(|squares| squares.interval(form, level));
        Statistic::new("intraclass correlation", value, used, definition)
            .with_interval(interval)
            .with_test(
                "no differences between units, F",
                mean_squares.map_or(f64::NAN, |squares| squares.chance(form)),
            )
            .without(Why::Incomplete, units.len() - used)
    });
    Intraclass { mean_squares, forms }
}

impl MeanSquares {
    /// Of values, a row of so many for each unit.
    fn of(values: &[f64], assessors: usize) -> Result<Self, Reason> {
        if values.is_empty() || assessors == 0 {
            return Err(Reason::NoData);
        }
        let units = values.chunks_exact(assessors);
        if units.len() < 2 || assessors < 2 {
            return Err(Reason::TooFew { needed: 2 });
        }
        let (n, k) = (count(units.len()), count(assessors));
        let of_units: Vec<f64> = units.clone().filter_map(mean).collect();
        let all = mean(&of_units).ok_or(Reason::NoData)?;
        let of_assessors: Vec<f64> =
            (0..assessors).map(|j| all + units.clone().map(|unit| unit[j] - all).sum::<f64>() / n).collect();
        let exact = |sum: f64| if is_rounding(sum, values.iter().copied()) { 0.0 } else { sum };
        let between = exact(k * squares(&of_units, all));
        let assessor = exact(n * squares(&of_assessors, all));
        let residual = exact(
            units
                .zip(&of_units)
                .flat_map(|(unit, row)| {
                    unit.iter().zip(&of_assessors).map(move |(x, column)| x - row - column + all)
                })
                .map(|rest| rest * rest)
                .sum(),
        );
        let degrees = (n - 1.0) * (k - 1.0);
        Ok(Self {
            units: n,
            assessors: k,
            between: between / (n - 1.0),
            within: (assessor + residual) / (n * (k - 1.0)),
            assessor: assessor / (k - 1.0),
            residual: residual / degrees,
        })
    }

    fn value(&self, form: Form) -> Result<f64, Reason> {
        let Self { units: n, assessors: k, between, within, assessor, residual } = *self;
        let (above, below) = match form {
            Form::OneOne => (between - within, between + (k - 1.0) * within),
            Form::TwoOne => {
                (between - residual, between + (k - 1.0) * residual + k * (assessor - residual) / n)
            }
            Form::ThreeOne => (between - residual, between + (k - 1.0) * residual),
            Form::OneK => (between - within, between),
            Form::TwoK => (between - residual, between + (assessor - residual) / n),
            Form::ThreeK => (between - residual, between),
        };
        let size = between + within + assessor + residual;
        if size <= 0.0 {
            Err(Reason::NoSpread)
        } else if below <= size * 1e-13 {
            Err(Reason::NoVariance)
        } else {
            Ok(above / below)
        }
    }

    /// Error mean square and its degrees of freedom for the forms whose F is simple.
    fn error(&self, form: Form) -> (f64, f64) {
        match form {
            Form::OneOne | Form::OneK => (self.within, self.units * (self.assessors - 1.0)),
            _ => (self.residual, (self.units - 1.0) * (self.assessors - 1.0)),
        }
    }

    fn chance(&self, form: Form) -> f64 {
        let (error, freedom) = self.error(form);
        if error > 0.0 { f_upper(self.between / error, self.units - 1.0, freedom) } else { f64::NAN }
    }

    fn interval(&self, form: Form, level: Level) -> Result<Interval, Reason> {
        let interval = |low: f64, high: f64| {
            // Without differences between units both limits are the same.
            if high <= low {
                return Err(Reason::NoWidth);
            }
            Interval::new(low, high, level, "F, after Shrout and Fleiss")
        };
        let k = self.assessors;
        if matches!(form, Form::TwoOne | Form::TwoK) {
            let (low, high) = self.two_way(level)?;
            if form == Form::TwoOne {
                return interval(low, high);
            }
            let stepped = |limit: f64| {
                let below = 1.0 + (k - 1.0) * limit;
                if below > 0.0 { Ok(k * limit / below) } else { Err(Reason::NoVariance) }
            };
            return interval(stepped(low)?, stepped(high)?);
        }
        let (error, freedom) = self.error(form);
        if error <= 0.0 {
            return Err(Reason::FullAgreement);
        }
        let f = self.between / error;
        let high = 1.0 - level.tail();
        let lower = f / f_quantile(high, self.units - 1.0, freedom);
        let upper = f * f_quantile(high, freedom, self.units - 1.0);
        if form == Form::OneOne || form == Form::ThreeOne {
            let single = |f: f64| (f - 1.0) / (f + k - 1.0);
            interval(single(lower), single(upper))
        } else if lower > 0.0 {
            interval(1.0 - 1.0 / lower, 1.0 - 1.0 / upper)
        } else {
            Err(Reason::NoVariance)
        }
    }

    /// Limits of ICC(2,1), with Satterthwaite's degrees of freedom.
    fn two_way(&self, level: Level) -> Result<(f64, f64), Reason> {
        let Self { units: n, assessors: k, between, assessor, residual, .. } = *self;
        if residual <= 0.0 {
            return Err(Reason::FullAgreement);
        }
        let rho = self.value(Form::TwoOne)?;
        let judges = assessor / residual;
        let rest = n * (1.0 + (k - 1.0) * rho) - k * rho;
        let below = (n - 1.0) * (k * rho * judges).powi(2) + rest * rest;
        let freedom = (k - 1.0) * (n - 1.0) * (k * rho * judges + rest).powi(2) / below;
        if freedom.is_nan() || freedom <= 0.0 {
            return Err(Reason::NoVariance);
        }
        let p = 1.0 - level.tail();
        let lower_f = f_quantile(p, n - 1.0, freedom);
        let upper_f = f_quantile(p, freedom, n - 1.0);
        let shared = k * assessor + (k * n - k - n) * residual;
        let low = n * (between - lower_f * residual) / (lower_f * shared + n * between);
        let high = n * (upper_f * between - residual) / (shared + n * upper_f * between);
        Ok((low, high))
    }
}

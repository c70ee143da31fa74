use super::CrossTable;
use crate::compare::statistics::distribution::normal_cdf;
use crate::compare::statistics::number::count;
use crate::compare::statistics::{Choice, Definition, Interval, Level, Reason, Statistic, real};

/// How much a disagreement counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weights {
    /// Every disagreement alike.
    Plain,
    /// By how many categories they are apart; categories must have an order.
    Linear,
    /// By the square of that.
    Quadratic,
}

impl Weights {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Plain => "none: every disagreement counts alike",
            Self::Linear => "linear: agreement falls by steps apart over the most steps there are",
            Self::Quadratic => "quadratic: agreement falls by the square of that",
        }
    }

    /// Agreement of two categories, from 0 to 1.
    fn agreement(self, first: usize, second: usize, categories: usize) -> f64 {
        let apart = count(first.abs_diff(second)) / count(categories.saturating_sub(1).max(1));
        match self {
            Self::Plain => f64::from(u8::from(first == second)),
            Self::Linear => 1.0 - apart,
            Self::Quadratic => 1.0 - apart * apart,
        }
    }
}

/// Cohen's kappa: agreement beyond that of two who give their categories as often but without looking.
///
/// The interval is normal with the standard error of Fleiss, Cohen and Everitt; the test uses theirs for no agreement
/// beyond chance. Undefined where chance agreement is certain.
pub fn kappa(table: &CrossTable, weights: Weights, level: Level) -> Statistic {
    let categories = table.categories();
    let fit = Fit::of(table, |i, j| weights.agreement(i, j, categories));
    let definition = Definition::new(
        "agreement beyond chance over the most there could be beyond chance",
        "Cohen 1960, Educational and Psychological Measurement 20, 37-46; 1968, Psychological Bulletin 70, 213-220; \
         errors: Fleiss, Cohen and Everitt 1969, Psychological Bulletin 72, 323-327",
        [
            Choice::Variant("weights", weights.words()),
            Choice::Number("categories", u64::try_from(categories).unwrap_or(u64::MAX)),
        ],
    );
    let used = usize::try_from(table.total()).unwrap_or(usize::MAX);
    let statistic = Statistic::new("kappa", fit.map(|fit| fit.kappa), used, definition);
    let Ok(fit) = fit else { return statistic };
    let interval = if fit.error > 0.0 {
        let reach = level.z() * fit.error;
        Interval::new(
            fit.kappa - reach,
            fit.kappa + reach,
            level,
            "normal, standard error by the delta method",
        )
    } else if fit.kappa > 0.5 {
        Err(Reason::FullAgreement)
    } else {
        // One of the two used a single category.
        Err(Reason::NoWidth)
    };
    let p = 2.0 * normal_cdf(-(fit.kappa / fit.error_by_chance).abs());
    statistic.with_interval(interval).with_test("no agreement beyond chance, normal", p)
}

#[derive(Debug, Clone, Copy)]
struct Fit {
    kappa: f64,
    error: f64,
    error_by_chance: f64,
}

impl Fit {
    fn of(table: &CrossTable, agreement: impl Fn(usize, usize) -> f64) -> Result<Self, Reason> {
        if table.total() == 0 {
            return Err(Reason::NoData);
        }
        let n = real(table.total());
        let (first, second) = table.margins();
        let mut observed = 0.0;
        let mut by_chance = 0.0;
        // Mean agreement of a category with the other assessor's categories.
        let mut mean_first = vec![0.0; first.len()];
        let mut mean_second = vec![0.0; first.len()];
        for ((i, j), share) in table.shares() {
            observed += share * agreement(i, j);
            by_chance += first[i] * second[j] * agreement(i, j);
            mean_first[i] += second[j] * agreement(i, j);
            mean_second[j] += first[i] * agreement(i, j);
        }
        let beyond = 1.0 - by_chance;
        if beyond <= 1e-14 {
            return Err(Reason::OneCategory);
        }
        let kappa = (observed - by_chance) / beyond;
        let mut spread = 0.0;
        let mut spread_by_chance = 0.0;
        for ((i, j), share) in table.shares() {
            let mean = mean_first[i] + mean_second[j];
            spread += share * (agreement(i, j) - mean * (1.0 - kappa)).powi(2);
            spread_by_chance += first[i] * second[j] * (agreement(i, j) - mean).powi(2);
        }
        let error = |sum: f64, less: f64| {
            let variance = sum - less * less;
            if variance <= sum * 1e-13 { 0.0 } else { (variance / n).sqrt() / beyond }
        };
        Ok(Self {
            kappa,
            error: error(spread, kappa - by_chance * (1.0 - kappa)),
            error_by_chance: error(spread_by_chance, by_chance),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: &[&[u64]]) -> CrossTable {
        let mut table = CrossTable::new(rows.len());
        for (i, row) in rows.iter().enumerate() {
            for (j, units) in row.iter().enumerate() {
                table.add(i, j, *units);
            }
        }
        table
    }

    fn close(value: f64, expected: f64) -> bool {
        (value - expected).abs() < 6e-7
    }

    /// Cohen 1960, as quoted in the help of R package psych.
    const COHEN: [&[u64]; 3] = [&[88, 14, 18], &[10, 40, 10], &[2, 6, 12]];

    // Source: Cohen 1968, published .348; standard errors recomputed with statsmodels.
    #[test]
    fn weighted_kappa_of_cohen_1968_is_as_published() {
        let disagreement = [[0.0, 1.0, 3.0], [1.0, 0.0, 6.0], [3.0, 6.0, 0.0]];
        let fit = Fit::of(&table(&COHEN), |i, j| 1.0 - disagreement[i][j] / 6.0).unwrap();
        assert!(close(fit.kappa, 0.347_826) && close(fit.error, 0.075_504), "{fit:?}");
        assert!(close(fit.error_by_chance, 0.059_720), "{fit:?}");
    }

    // Source: Cohen 1968, published .353 with weights that are not symmetric; the transposed table gives .420561.
    #[test]
    fn weights_that_are_not_symmetric_see_which_assessor_is_first() {
        let disagreement = [[0.0, 1.0, 4.0], [1.0, 0.0, 6.0], [2.0, 2.0, 0.0]];
        let fit = Fit::of(&table(&COHEN), |i, j| 1.0 - disagreement[i][j] / 6.0).unwrap();
        assert!(close(fit.kappa, 0.353_383) && close(fit.error, 0.062_657), "{fit:?}");
        let turned = table(&[&[88, 10, 2], &[14, 40, 6], &[18, 10, 12]]);
        let fit = Fit::of(&turned, |i, j| 1.0 - disagreement[i][j] / 6.0).unwrap();
        assert!(close(fit.kappa, 0.420_561) && close(fit.error, 0.071_758), "{fit:?}");
    }

    // Source: Fleiss, Cohen and Everitt 1969 (table as quoted in the help of R package psych); statsmodels.
    #[test]
    fn weighted_kappa_of_fleiss_cohen_and_everitt_1969_is_as_published() {
        let agreement = [[1.0, 0.0, 0.4444], [0.0, 1.0, 0.6667], [0.4444, 0.6667, 1.0]];
        let fit =
            Fit::of(&table(&[&[106, 10, 4], &[22, 28, 10], &[2, 12, 6]]), |i, j| agreement[i][j]).unwrap();
        assert!(close(fit.kappa, 0.507_070) && close(fit.error, 0.056_994), "{fit:?}");
        assert!(close(fit.error_by_chance, 0.065_336), "{fit:?}");
    }
}
